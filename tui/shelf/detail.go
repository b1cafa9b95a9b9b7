package shelf

import (
	"fmt"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/readings"
	"daub.example/daub/model/repeats"
	"daub.example/daub/tui/chart"
	"daub.example/daub/tui/ui"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
)

// detail holds the shelf's view of the chosen powder: its answer, the next steps,
// its trials and its curve.
type detail struct {
	headline string
	scales   []string // answers by reading and by pH, each in its own unit
	due      []string // next steps, the most helpful first
	trials   []trialText
	series   chart.Series
	aim      float64
	liquid   string
	beside   bool // the looks were made beside a reference dish
}

// studied carries the finished detail of one powder to Update.
type studied struct {
	number int // the reading of the shelf that it belongs to
	slug   string
	detail *detail
}

// study calculates the detail of the powder under the cursor, once a powder.
func (s *List) study() tea.Cmd {
	r := s.at()
	if r == nil {
		return nil
	}
	if _, known := s.about[r.entry.Slug]; known {
		return nil
	}
	s.about[r.entry.Slug] = nil // asked for, not there yet
	of, number, ownSpoons := *r, s.reading, s.deps.OwnSpoons
	return func() tea.Msg { return studied{number, of.entry.Slug, newDetail(of, ownSpoons)} }
}

func newDetail(r row, ownSpoons model.OwnSpoons) *detail {
	p := r.entry.Profile
	if r.ratio.Level != 0 { // again, with the sentences that explain it
		r.ratio = repeats.Ratios(p, r.ratio.Basis, []float64{r.ratio.Level}, ownSpoons)[0]
	}
	d := &detail{aim: p.Aim(), due: due(&r)}
	switch {
	case r.ratio.Level != 0:
		told := r.ratio
		told.TspG = 0 // its row shows it
		d.headline = fmt.Sprintf("Level %s (%s): %s", model.Number(d.aim), model.LevelWord(d.aim), told.Headline())
		if r.ratio.Powder == nil {
			d.headline = r.ratio.Headline()
		}
		c := repeats.CurveOf(p, r.ratio.Basis, ownSpoons)
		d.series = chart.Series{Points: ui.Points(c.Looks), Curve: ui.CurvePoints(c.Points)}
		d.liquid = r.ratio.Basis.Liquid
	case r.open >= 0:
		d.showTrial(p, r.open, ownSpoons)
		if d.headline != "" {
			d.headline = "so far: " + d.headline
		}
	case p.OnlySideBySide():
		d.showTrial(p, p.NewestWhere(model.Trial.Finished), ownSpoons)
	}
	d.scales = readings.OfPowder(p, ownSpoons)
	if r.measured != "" && len(d.scales) > 0 {
		d.headline = ""
	}
	if o, ok := readings.OfferOf(p, p.MainBasis().Liquid, 100, ownSpoons); ok {
		d.scales = append(d.scales, o.Test.Sentence())
	}
	for n, i := range p.NewestFirst() {
		if n == 6 {
			d.trials = append(d.trials, trialText{text: fmt.Sprintf("and %d more", len(p.Trials)-n), at: -1})
			break
		}
		d.trials = append(d.trials, trialText{trialLine(p.Trials[i].WithDefaults(p.Powder.Kind())), i})
	}
	return d
}

// showTrial shows one trial of a powder that has no ratio.
func (d *detail) showTrial(p model.Profile, trial int, ownSpoons model.OwnSpoons) {
	t := p.Trials[trial].WithDefaults(p.Powder.Kind())
	reading, err := bench.Read(p, t, ownSpoons)
	if err != nil {
		return
	}
	d.liquid = t.Liquid
	d.series.Points = ui.Points(reading.LookPoints(reading.FarOut()))
	if d.beside = t.Match != nil; d.beside {
		d.headline = reading.At(t.Match.Level).Headline(t.Liquid)
		return
	}
	answer := reading.At(d.aim)
	answer.TspG = 0 // its row shows it
	d.headline = answer.Headline(t.Liquid)
	var levels []bench.CurvePoint
	for _, a := range reading.Answers(model.CurveLevels()) {
		levels = append(levels, bench.CurvePointOf(a.Level, a.Dish, a.Reach))
	}
	d.series.Curve = ui.CurvePoints(levels)
}

// trialLine describes a trial in few words.
func trialLine(t model.Trial) string {
	day, looks := t.Started.Local().Format("2006-01-02"), t.ReadBy()
	if t.Acid != nil {
		looks += ", acid"
	}
	switch {
	case t.SetAside != "":
		return day + "  set aside, " + looks
	case t.Unfinished():
		return day + "  unfinished, " + looks
	case t.Match != nil: // its looks come first: they set it apart from the others
		return fmt.Sprintf("%s  %s, in %s", day, looks, printable.Line(t.Liquid))
	default:
		return fmt.Sprintf("%s  in %s, %s, %s", day, printable.Line(t.Liquid), model.Seconds(*t.RestS), looks)
	}
}

// due says which next steps would help this powder most, in sentences.
func due(r *row) []string {
	p := r.entry.Profile
	var out []string
	if r.open >= 0 {
		t := p.Trials[r.open]
		out = append(out, fmt.Sprintf("Unfinished since %s. Enter goes on where it stopped.",
			t.Started.Local().Format("2006-01-02 15:04")))
	}
	if r.ratio.Level == 0 {
		switch {
		case p.OnlySideBySide():
			out = append(out, "Side by side only: a trial by levels (t) gives the ratio too.")
		case r.open < 0:
			out = append(out, "No finished trial yet. t starts one.")
		}
		return out
	}
	switch {
	case r.measured != "":
		out = append(out, "Only measured so far: a look beside each reading gives the ratio by levels too.")
	case r.ratio.Powder == nil:
		out = append(out, "Not thick or thin enough yet for a ratio at this level: b on the result goes back to "+
			"the bench.")
	case r.ratio.Reach == fit.OneSided:
		out = append(out, "Tested from one side only: one look beyond the target level would settle it.")
	case r.used == 1:
		out = append(out, "One finished trial so far. A second (t) shows how much two dishes differ.")
	}
	if len(r.ratio.Far) > 0 {
		out = append(out, fmt.Sprintf("! Trial %d sits far from the others: look at its steps.", r.ratio.Far[0]+1))
	}
	if r.tspG == 0 {
		out = append(out, "No level spoon weighed: there is no answer by the spoon. p, then w weighs one.")
	}
	return out
}

// lines draws the detail in exactly h lines, each at most w cells wide.
func (d *detail) lines(title string, w, h int, ascii bool) []string {
	lines := []string{ui.Rule(ui.TitleStyle.Render(title), w)}
	say := func(style lipgloss.Style, text string) {
		for _, l := range ui.Painted(style, text, w-3) {
			lines = append(lines, "  "+l)
		}
	}
	if d.headline != "" {
		say(ui.TitleStyle, d.headline)
	}
	for _, text := range d.scales {
		say(ui.PlainStyle, text)
	}
	for _, text := range d.due {
		say(ui.WaitStyle, text)
	}
	trials := d.trialLines(ascii)
	room := h - len(lines)
	drawn := len(d.series.Points) > 0
	switch {
	case drawn && w >= chartBeside && room >= leastChart:
		for i, text := range trials {
			trials[i] = ui.Cut(text, trialsWidth-1)
		}
		lines = append(lines, ui.Columns(trials, d.chart(w-trialsWidth, min(room, mostChart), ascii), trialsWidth)...)
	case drawn && room-len(trials) >= leastChart:
		lines = append(append(lines, trials...), d.chart(w, min(room-len(trials), mostChart), ascii)...)
	default:
		lines = append(lines, trials...)
	}
	return lines[:max(min(len(lines), h), 0)]
}

// trialText is one line about a trial; at is the trial's index in the profile, -1
// for none.
type trialText struct {
	text string
	at   int
}

// trialLines lists the trials, each behind its sign where the chart has one.
func (d *detail) trialLines(ascii bool) []string {
	signs := d.series.TrialSigns(ascii)
	lines := make([]string, len(d.trials))
	for i, t := range d.trials {
		lines[i] = ui.Pad(signs[t.at], 2) + t.text
	}
	return lines
}

// The chart stands beside the trials in a window of at least chartBeside cells.
// Widths are in cells, heights in lines.
const trialsWidth, chartBeside, leastChart, mostChart = 45, 78, 7, 19

func (d *detail) chart(w, h int, ascii bool) []string {
	c := ui.BesideChart(d.liquid, ascii)
	if !d.beside {
		c = ui.Chart(d.liquid, ascii)
		c.Aim, c.HasAim = d.aim, true
	}
	c.Series = []chart.Series{d.series}
	return c.Render(w, h)
}
