package trial

import (
	"fmt"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/care"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/handling"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/readings"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/lipgloss"
)

func (r *result) View(w, h int) string {
	foot := r.Foot(w)
	room := max(h-len(foot), 0)
	view := r.Sight(r.lines(w, room), room)
	for len(foot) > 0 && len(view) < room {
		view = append(view, "")
	}
	return strings.Join(append(view, foot...), "\n")
}

// lines draws the whole result: headline, levels with the chart, and everything
// else below.
func (r *result) lines(w, h int) []string {
	lines, which := r.top(w)
	if h < shortResult { // the curve in sight comes before how to use the numbers
		lines = append(lines, r.picture(w, h-len(lines)-1)...)
		lines = append(append(lines, ""), which...)
	} else {
		lines = append(append(lines, which...), "")
		lines = append(lines, r.picture(w, h-len(lines)-1)...)
	}
	t := r.session.Trial()
	section := func(title string, texts ...string) {
		if len(texts) == 0 {
			return
		}
		lines = append(lines, "", ui.Rule(ui.TitleStyle.Render(title), w))
		for _, text := range texts {
			lines = append(lines, ui.Indented(ui.PlainStyle, text, w)...)
		}
	}
	if budget := r.budget(t); len(budget) > 0 {
		lines = append(lines, "", ui.Rule(ui.TitleStyle.Render("where the doubt comes from"), w))
		for _, text := range budget {
			lines = append(lines, ui.Hang(text, w)...)
		}
	}
	section("measured", r.byReading()...)
	if m, ok := readings.Of(r.session.Outcome().Reading); ok && r.session.Outcome().Reading.Looks() > 0 {
		lines = append(append(lines, ""), r.readingChart(m, w, leastPicture)...)
	}
	section("pH and acid", r.acidTest()...)
	section("steps", r.steps(t)...)
	section("how it behaves", handling.WithResult(r.session.Outcome().Reading)...)
	section("plausible?", r.plausible(t)...)
	section("cautions", append(care.Of(r.session.Powder()), care.Deferral)...)
	section("about", r.standing(t))
	return lines
}

// labelled wraps text behind a label, so that labels have a column of their own.
func labelled(label, text string, w int) []string {
	const labelWidth = 13
	lines := ui.Painted(ui.PlainStyle, text, w-2-labelWidth-1)
	for i := range lines {
		lines[i] = "  " + ui.Pad(label, labelWidth) + lines[i]
		label = ""
	}
	return lines
}

// top draws the headline, and below it the use of each of its numbers.
func (r *result) top(w int) (lines, which []string) {
	t := r.session.Trial()
	badge, style := "RESULT", ui.DoStyle
	switch {
	case t.SetAside != "":
		badge, style = "SET ASIDE", ui.WaitStyle
	case t.State != model.Done:
		badge, style = "UNFINISHED", ui.WaitStyle
	}
	head := " " + ui.Badge(style, badge)
	indent := ui.Cells(head) + 1
	for i, l := range ui.Painted(ui.TitleStyle, r.shortHeadline(), max(w-indent-1, 20)) {
		if i == 0 {
			l = head + " " + l
		} else {
			l = strings.Repeat(" ", indent) + l
		}
		lines = append(lines, ui.Cut(l, w))
	}
	say := func(style lipgloss.Style, text string) { which = append(which, ui.Indented(style, text, w)...) }
	if err := r.session.Outcome().Err; err != nil {
		say(ui.RiskStyle, "! "+err.Error())
	}
	if t.SetAside != "" {
		say(ui.WaitStyle, "Kept, not used, because: "+t.SetAside+". x uses it again.")
	}
	if text := care.Alarm(r.session.Powder(), r.doubt(t)); text != "" && t.SetAside == "" {
		say(ui.WaitStyle, "! "+text)
	}
	if text := r.offTime(); text != "" {
		say(ui.WaitStyle, "! "+text)
	}
	if t.Unfinished() {
		say(ui.WaitStyle, "b goes on with it; f there finishes it.")
	}
	if len(r.powder) > 0 && r.powder[0].Powder != nil {
		p := r.powder[0].Rounded()
		use := fmt.Sprintf("to write down and compare (%s)", model.Plural(p.Trials, "trial"))
		if p.Trials == 1 {
			use = "to write down; a second trial narrows it"
		}
		which = append(which, labelled("this powder", bench.IntervalText(*p.Powder)+": "+use, w)...)
	}
	if a := r.session.Outcome().Answer(t.Aim); a.Dish != nil {
		what := "of this one dish only"
		if a.Match != nil {
			what = "as thick as " + printable.Line(a.Match.Dish())
		}
		which = append(which, labelled("this dish", bench.IntervalText(*a.Dish)+": "+what, w)...)
	}
	if len(r.powder) > 0 && r.powder[0].Next != nil {
		which = append(which, labelled("next dish", bench.IntervalText(*r.powder[0].Rounded().Next)+
			": to plan with; wider, as days differ", w)...)
	}
	m, measured := readings.Of(r.session.Outcome().Reading)
	if measured && m.Headline() != "" && r.session.Outcome().Reading.Looks() > 0 {
		which = append(which, labelled("measured", m.Headline(), w)...)
	}
	if text := r.spoonWeights(); text != "" {
		say(ui.PlainStyle, text)
	}
	return lines, which
}

// offTime says that looks were early or late; the steps say which, where it is more
// than one.
func (r *result) offTime() string {
	switch texts := r.session.Outcome().Reading.Timings(); len(texts) {
	case 0:
		return ""
	case 1:
		return texts[0] + "."
	default:
		return fmt.Sprintf("%d looks were early or late: see the steps.", len(texts))
	}
}

// spoonWeights gives the weights of level spoons; "" if none was weighed.
func (r *result) spoonWeights() string {
	return strings.Join(r.session.Outcome().Reading.SpoonWeights.Texts(), ", ")
}

// Sizes of the picture, in cells. The levels take tableWidth, and the chart stands
// beside them in a window of besideWidth or more. Below shortResult lines the chart
// is lower and comes first.
const (
	tableWidth, besideWidth   = 42, 78
	leastPicture, lowestChart = 10, 5
	lowestBeside              = 7 // of a chart of looks beside a dish: one row each, and the axis
	shortResult               = 12
	widestReadings            = 78 // of a chart of readings
)

// picture draws the levels with the chart beside or above them.
func (r *result) picture(w, h int) []string {
	if m, ok := r.onlyMeasured(); ok {
		return r.readingChart(m, w, min(max(h, lowestChart), leastPicture+4))
	}
	table := r.tableLines(r.session.Trial(), min(w, tableWidth))
	if w >= besideWidth {
		height := max(min(h, 18), leastPicture)
		return ui.Columns(table, trialChart(r.session, w-tableWidth-2, height, r.deps.ASCII), tableWidth+2)
	}
	height, lowest := leastPicture, lowestChart
	if r.session.Trial().Match != nil {
		lowest = lowestBeside
	}
	if h < leastPicture {
		height = max(h, lowest)
	}
	return append(append(trialChart(r.session, w, height, r.deps.ASCII), ""), table...)
}

// reads says how many levels were read, and what was measured.
func (r *result) reads(t model.Trial) string {
	text := model.Plural(t.Looks(), "look")
	if m, ok := readings.Of(r.session.Outcome().Reading); ok {
		text += fmt.Sprintf(" and %s by %s", model.Plural(len(m.Points), "reading"), m.Kind)
	}
	return text
}

// readingChart draws the readings of the dish.
func (r *result) readingChart(m readings.Measured, w, h int) []string {
	return readingChart(m, r.session.Outcome().Dish(), min(w, widestReadings), h, r.deps.ASCII)
}

func (r *result) standing(t model.Trial) string {
	rest := model.Seconds(t.Rest(r.session.Powder().Kind()))
	text := fmt.Sprintf("Begun %s with %s g %s in the dish, %s, rest %s.",
		t.Started.Local().Format("2006-01-02"), model.Grams(t.LiquidG), t.Liquid, r.reads(t), rest)
	if path := r.session.Entry().Path; path != "" {
		text += " File: " + path
	}
	return text
}

// tableLines lists the levels of this dish: per gram and per level teaspoon.
func (r *result) tableLines(t model.Trial, w int) []string {
	line := func(level, ratio, tsp string) string {
		return ui.Cut(ui.Pad(level, 13)+ui.Pad(ratio, 22)+ui.PadLeft(tsp, 7), w)
	}
	lines := []string{ui.NoteStyle.Render(line("  this dish", "g "+printable.Line(t.Liquid)+" per g", "per tsp"))}
	sides := map[fit.Missing]bool{} // on which a level marked ? has no look
	for _, a := range r.table {
		if t.Match != nil && a.Level != t.Aim {
			continue // only one thickness: that of the reference dish
		}
		name := "  " + model.LevelName(a.Level)
		if a.Level == t.Aim {
			name = "▸ " + model.LevelName(a.Level)
		}
		ratio, tsp := "-", "-"
		switch {
		case a.Dish != nil && a.Reach == fit.OneSided:
			name, ratio = name+" ?", bench.IntervalText(*a.Dish)
			sides[a.Missing] = true
		case a.Dish != nil:
			ratio = bench.IntervalText(*a.Dish)
		case a.Bound != nil && a.Level == t.Aim:
			ratio = bench.BoundText(*a.Bound)
		case a.Bound != nil: // its bound would seem to contradict the next level's ratio
			ratio = "not reached"
		}
		if a.PerTsp != nil {
			tsp = model.Significant(a.PerTsp.Median, 3)
		}
		text := line(name, ratio, tsp)
		if a.Level == t.Aim {
			text = ui.TitleStyle.Render(text)
		}
		lines = append(lines, text)
	}
	if len(sides) > 0 {
		side := "one side"
		switch {
		case len(sides) > 1:
		case sides[fit.MissingThicker]:
			side = "the thin side"
		case sides[fit.MissingThinner]:
			side = "the thick side"
		}
		lines = append(lines, ui.NoteStyle.Render(ui.Cut("  ? tested from "+side+" only", w)))
	}
	return lines
}

// steps lists the steps, one line each, with what was seen.
func (r *result) steps(t model.Trial) []string {
	out := r.session.Outcome()
	var lines []string
	if t.PotG > 0 {
		lines = append(lines, fmt.Sprintf("The pot before the first spoon: %s g", model.Number(t.PotG)))
	}
	for i, s := range t.Steps {
		text := fmt.Sprintf("%d  %s", i+1, s.Text())
		if i < len(out.Reading.Dishes) && out.Reading.Dishes[i].HasRatio() {
			text += ", " + model.PerPowder(model.RatioText(out.Reading.Dishes[i].Ratio()), printable.Line(t.Liquid))
		}
		if s.Looked {
			text += ", " + s.LookText()
			if s.LevelStirred != nil {
				text += " (" + model.Number(*s.LevelStirred) + " just stirred)"
			}
		}
		if s.Reading > 0 && t.Measured != nil {
			text += ", " + t.Measured.Text(s.Reading)
			if pa, ok := t.Measured.Stress(s.Reading); ok {
				text += " (" + model.Significant(pa, 2) + " Pa)"
			}
		}
		if timing := s.Timing(*t.RestS); timing != model.InTime {
			text += fmt.Sprintf(" (read %s: after %s of %s)", timing, model.Seconds(*s.RestedS),
				model.Seconds(*t.RestS))
		}
		if s.LeftOut {
			text += " (not used)"
		}
		if s.PotG > 0 {
			text += fmt.Sprintf(", then the pot %s g", model.Number(s.PotG))
		}
		for _, m := range s.Marks {
			text += ", " + m
		}
		if s.Note != "" {
			text += ". " + s.Note
		}
		lines = append(lines, text)
	}
	return lines
}

// budget says where the interval comes from and what would shrink it.
func (r *result) budget(t model.Trial) []string {
	a := r.session.Outcome().Answer(t.Aim)
	if a.Budget == nil {
		return r.betweenTrials()
	}
	texts := []string{fmt.Sprintf("  This dish is known to %s; of 100 parts of that doubt:",
		bench.PlusMinus(a.Dish.HalfWidth()))}
	for _, term := range r.terms {
		bar := strings.Repeat("▇", max(int(term.Share*8+0.5), 1))
		texts = append(texts, fmt.Sprintf("%3.0f %s %s", 100*term.Share, ui.Pad(bar, 8), term.Text()))
	}
	return append(texts, r.betweenTrials()...)
}

// betweenTrials says how well the powder is known, how much its dishes scatter, and
// which trials are far from the others.
func (r *result) betweenTrials() []string {
	if len(r.powder) == 0 || r.powder[0].Powder == nil {
		return nil
	}
	ratio := r.powder[0]
	scatter := "dishes of it scatter by %s."
	if ratio.Trials == 1 {
		scatter = "how much its dishes differ one trial cannot tell: %s is assumed."
	}
	text := fmt.Sprintf("  This powder, from %s, is known to %s; "+scatter, model.Plural(ratio.Trials, "trial"),
		bench.PlusMinus(ratio.Powder.HalfWidth()), bench.PlusMinus(1.96*ratio.BetweenTrials))
	for _, term := range ratio.Terms() {
		if term.Key == "repeats" && term.After > 0 {
			text += " One more trial that agrees would make it " + bench.PlusMinus(term.After) + "."
		}
	}
	texts := []string{text}
	for _, n := range ratio.Far {
		texts = append(texts, fmt.Sprintf("! Trial %d sits far from the others: "+
			"look at its steps, repeat it, or set it aside with a reason.", n+1))
	}
	return texts
}

func (r *result) plausible(t model.Trial) []string {
	return care.Plausibility(r.session.Powder(), r.doubt(t))
}

// doubt gathers the facts that the answer is checked against.
func (r *result) doubt(t model.Trial) care.Doubt {
	d := care.Doubt{Liquid: t.Liquid, Level: t.Aim, Ratio: r.session.Outcome().Answer(t.Aim).Dish, Lots: r.lots}
	if tsp, ok := r.session.Outcome().Reading.SpoonWeights.Teaspoon(); ok {
		d.GramsPerML = tsp / t.SpoonSet.TeaspoonML()
	}
	return d
}

// Help says what the result is for.
func (r *result) Help() []string {
	return []string{
		"The result of a trial. On top the answer in one line: y copies it, with the grams per level teaspoon.",
		"\"This powder\" is what all its trials say together: write it down and compare by it. \"The next dish\" " +
			"is how far a new bowl may lie from it: recipes hold a little liquid back for it. \"This dish\" is " +
			"what this one bowl took: judge the trial by it.",
		"m makes a second dish, of another powder, as thick as this one: keep this dish covered, and look at both " +
			"side by side. That compares two powders more finely than two separate trials.",
		"r makes the trial again with the same settings: a second trial tells more than anything else. b goes " +
			"back to the bench, ←→ shows the other trials, x sets this one aside with a reason (kept, not used), " +
			"e writes a file or a picture.",
		"The table is of this dish. ? after a level: tested from one side only. \"More than 1.2\": that level was " +
			"not reached, and takes more than 1.2 g.",
		ui.ChartSigns(r.deps.ASCII),
	}
}
