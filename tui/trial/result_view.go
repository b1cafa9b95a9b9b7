package trial

import (
	"fmt"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/printable"
	"daub.example/daub/tui/ui"
)

// lines is all the result has to say.
func (r *result) lines(w int) []string {
	t := r.session.Trial()
	var lines []string
	say := func(title string, texts ...string) {
		if len(texts) == 0 {
			return
		}
		lines = append(lines, "")
		for i, text := range texts {
			if i == 0 && title != "" {
				text = ui.TitleStyle.Render(title) + " " + text
			}
			lines = append(lines, ui.Hang(text, w)...)
		}
	}
	lines = append(lines, ui.Wrap(r.standing(t), w)...)
	if err := r.session.Outcome().Err; err != nil {
		say("", ui.RiskStyle.Render("! "+err.Error()))
	}
	say("This dish.", r.session.Outcome().Answer(t.Aim).Sentence(t.Liquid))
	if len(r.powder) > 0 {
		say("This powder.", r.powder[0].Sentence())
	}
	lines = append(lines, "")
	lines = append(lines, r.tableLines(t, w)...)
	say("What it is made of.", r.budget(t)...)
	if marks := t.MarksSeen(); len(marks) > 0 {
		say("Marks.", strings.Join(marks, ", ")+".")
	}
	say("Plausible?", r.plausible(t)...)
	say("Cautions.", append(r.session.Powder().Cautions(), model.Deferral)...)
	return lines
}

func (r *result) standing(t model.Trial) string {
	rest := model.Seconds(t.Rest(r.session.Powder().Kind()))
	text := fmt.Sprintf("Made %s in %s, %d looks, rest %s.",
		t.Started.Local().Format("2006-01-02"), t.Liquid, t.Looks(), rest)
	switch {
	case t.SetAside != "":
		text = "SET ASIDE (" + printable.Line(t.SetAside) + "): kept, not used. " + text
	case t.State != model.Done:
		text = "UNFINISHED: b goes on with it. " + text
	}
	if path := r.session.Entry().Path; path != "" {
		text += " File: " + path
	}
	return text
}

func (r *result) tableLines(t model.Trial, w int) []string {
	head := resultLine("level", "g "+t.Liquid+" per g", "95 %", "g per level tsp", "reach", w)
	lines := []string{ui.NoteStyle.Render(head)}
	for _, a := range r.table {
		name := "  " + model.LevelName(a.Level)
		if a.Level == t.Aim {
			name = "▸ " + model.LevelName(a.Level)
		}
		ratio, iv, tsp := "-", "", "-"
		switch {
		case a.Dish != nil:
			ratio = model.RatioText(a.Dish.Median)
			iv = fmt.Sprintf("%s to %s", model.RatioText(a.Dish.Low), model.RatioText(a.Dish.High))
		case a.Bound != nil:
			iv = bench.BoundText(*a.Bound)
		}
		if a.PerTsp != nil {
			tsp = bench.IntervalText(*a.PerTsp)
		}
		line := resultLine(name, ratio, iv, tsp, a.Reach.String(), w)
		if a.Level == t.Aim {
			line = ui.TitleStyle.Render(line)
		}
		lines = append(lines, line)
	}
	return lines
}

// tableWidth is the room that the table takes with every column.
const tableWidth = 78

// resultLine lays out one line of the table; a narrow window has no room for
// the spoon.
func resultLine(level, ratio, iv, tsp, reach string, w int) string {
	line := ui.Pad(level, 12) + ui.PadLeft(ratio, 14) + "  " + ui.Pad(iv, 18)
	if w >= tableWidth {
		line += ui.Pad(tsp, 22)
	}
	return ui.Cut(line+reach, w)
}

// budget says what the interval is made of and what would shrink it.
func (r *result) budget(t model.Trial) []string {
	a := r.session.Outcome().Answer(t.Aim)
	if a.Budget == nil {
		return nil
	}
	half := bench.PlusMinus(a.Dish.HalfWidth())
	texts := []string{fmt.Sprintf("The interval at %s is %s:", model.LevelName(t.Aim), half)}
	for _, term := range r.terms {
		bar := strings.Repeat("▇", max(int(term.Share*10+0.5), 1))
		text := fmt.Sprintf("%3.0f %% %s %s; %s", 100*term.Share, ui.Pad(bar, 8), term.Name, term.Shrink)
		if effect := term.Effect(); effect != "" {
			text += " (" + effect + ")"
		}
		texts = append(texts, text)
	}
	return append(texts, r.betweenTrials()...)
}

// betweenTrials says what the powder's trials have in common.
func (r *result) betweenTrials() []string {
	if len(r.powder) == 0 || r.powder[0].Powder == nil {
		return nil
	}
	ratio := r.powder[0]
	trials := "1 trial"
	if ratio.Trials > 1 {
		trials = fmt.Sprintf("%d trials", ratio.Trials)
	}
	text := fmt.Sprintf("This powder, from %s, is %s; one dish differs from the next by about %.0f %%.",
		trials, bench.PlusMinus(ratio.Powder.HalfWidth()), 100*ratio.BetweenTrials)
	for _, term := range ratio.Terms() {
		if term.Key == "repeats" && term.After > 0 {
			text += " One more that agrees " + term.Effect() + "."
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
	var ratio float64
	if iv := r.session.Outcome().Answer(t.Aim).Dish; iv != nil {
		ratio = iv.Median
	}
	var density float64
	if tsp, ok := r.session.Outcome().Reading.Scales.Teaspoon(); ok {
		density = tsp / t.SpoonSet.TeaspoonML()
	}
	return r.session.Powder().Plausibility(t.Liquid, t.Aim, ratio, density)
}
