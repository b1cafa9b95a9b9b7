package paper

import (
	"fmt"
	"math"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/care"
	"daub.example/daub/model/handling"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/readings"
	"daub.example/daub/model/repeats"
)

// Powder is a powder's page: its ratios, how they were measured, and the usual cautions.
// Every text is one line without control characters.
type Powder struct {
	Title    string
	Headline string
	Facts    []Fact
	Ratios   []RatioTable // one a liquid and rest, the main one first
	Measured []string     // spoons, scale, trials
	Trials   []TrialLine
	Seen     []string // behaviour, and what else is known beside the ratio
	Notes    []string // the maker's own
	Doubts   []string // whether the answer can be true
	Cautions []Moment
	Deferral string
}

// Fact is one of the powder's own facts.
type Fact struct{ Name, Value string }

// RatioTable lists the powder's ratios in one liquid, read after one rest.
type RatioTable struct {
	Liquid, Rest string
	Rows         []RatioRow
}

// RatioRow is one level: g liquid per g powder and per level teaspoon.
type RatioRow struct {
	Level, Test           string
	Ratio, Next, Teaspoon string // "" where the trials do not say
	Tested                string
}

// TrialLine is one trial in the table of how it was measured.
type TrialLine struct {
	Number, Day, Liquid, Rest, Looks, Levels, State string
}

// Moment holds the cautions to read before one thing is done.
type Moment struct {
	Before string
	Texts  []string
}

// PowderOf lays out the page of a profile at whole levels and at its aim. It takes the
// liquid and rest that are chosen, else all, the main ones first. lots are other lots of
// the powder on the shelf.
func PowderOf(p model.Profile, on model.Choice, own model.OwnSpoons, lots ...model.Profile) Powder {
	page := Powder{
		Title: printable.Words(p.Powder.Title()), Facts: facts(p), Notes: notes(p.Powder.Notes),
		Seen: inHand(p, own), Deferral: care.Deferral,
	}
	for _, b := range on.Among(p.Bases()) {
		ratios := repeats.Ratios(p, b, model.TableLevels(p.Aim()), own)
		page.Ratios = append(page.Ratios, ratioTable(b, ratios))
	}
	main := repeats.Ratios(p, p.BasisFor(on), []float64{p.Aim()}, own)[0]
	page.Headline = printable.Words(main.Sentence())
	page.Doubts = doubts(p, main, own, lots)
	page.Measured = measured(p, own)
	for _, text := range readings.OfPowder(p, own) {
		page.Measured = append(page.Measured, printable.Words(text))
	}
	for i, t := range p.Trials {
		if r, err := bench.Read(p, t, own); err == nil && t.SetAside == "" {
			texts := readings.Sentences(r, own)
			if r.Trial.Match != nil {
				texts = append(texts, r.At(r.Trial.Match.Level).Sentence(r.Trial.Liquid))
			}
			for _, text := range texts {
				page.Measured = append(page.Measured, printable.Words(fmt.Sprintf("Trial %d: %s", i+1, text)))
			}
		}
		page.Trials = append(page.Trials, trialLine(i, t.WithDefaults(p.Powder.Kind())))
	}
	for _, m := range care.Moments() {
		if texts := care.Before(m, p.Powder); len(texts) > 0 {
			page.Cautions = append(page.Cautions, Moment{string(m), texts})
		}
	}
	return page
}

// doubts compare the powder's ratio with handbook values and other lots.
func doubts(p model.Profile, r repeats.Ratio, own model.OwnSpoons, lots []model.Profile) (texts []string) {
	doubt := care.Doubt{
		Liquid: r.Basis.Liquid, Level: r.Level, Ratio: r.Powder,
		Lots: care.Lots(p.Powder, lots, r.Basis, r.Level, own),
	}
	for _, text := range care.Plausibility(p.Powder, doubt) {
		texts = append(texts, printable.Words(text))
	}
	return texts
}

// facts lists the family, density, cautions and allergens of the powder.
func facts(p model.Profile) []Fact {
	w := p.Powder
	all := []Fact{{"Family", w.Kind().Words()}}
	add := func(name, value string) { all = append(all, Fact{name, printable.Words(value)}) }
	if w.SolidDensity > 0 {
		add("Density of the solid", model.Number(w.SolidDensity)+" g/mL")
	}
	if w.KeepFromMetal {
		add("Keep from metal", "yes")
	}
	switch {
	case w.Fizzes == nil:
		add("Fizzes with vinegar", "not tested")
	case *w.Fizzes:
		add("Fizzes with vinegar", "yes: it holds carbonate")
	default:
		add("Fizzes with vinegar", "no")
	}
	if list, _ := w.AllergensKnown(); len(list) > 0 {
		add("Allergens", strings.Join(list, ", "))
	}
	return all
}

// inHand describes the powder beside its ratio, in the main liquid.
func inHand(p model.Profile, own model.OwnSpoons) []string {
	texts := handling.OfPowder(p, p.MainBasis().Liquid, own)
	for i := range texts {
		texts[i] = printable.Words(texts[i])
	}
	return texts
}

// ratioTable words the ratios of one liquid and rest, a row a level.
func ratioTable(b model.Basis, ratios []repeats.Ratio) RatioTable {
	table := RatioTable{Liquid: printable.Words(b.Liquid), Rest: model.Seconds(b.RestS)}
	for _, r := range ratios {
		r = r.Rounded()
		row := RatioRow{Level: model.LevelName(r.Level), Test: test(r.Level), Tested: r.Reach.Tested()}
		switch {
		case r.Powder != nil:
			row.Ratio = bench.IntervalText(*r.Powder)
			row.Next = bench.RangeText(*r.Next)
			if r.PerTsp != nil {
				row.Teaspoon = bench.IntervalText(*r.PerTsp)
			}
		case r.Bound != nil:
			row.Ratio = bench.BoundText(*r.Bound)
		}
		table.Rows = append(table.Rows, row)
	}
	return table
}

// test describes the bench test of a level; a half level lies between its neighbours.
func test(level float64) string {
	lower, upper := model.Scale()[int(math.Floor(level))], model.Scale()[int(math.Ceil(level))]
	if lower == upper {
		return lower.Test
	}
	return fmt.Sprintf("between %s and %s", lower.Word, upper.Word)
}

// measured says how spoons became grams.
func measured(p model.Profile, own model.OwnSpoons) []string {
	var all []string
	for _, l := range p.LevelSpoons {
		w, ok := l.Weight()
		if !ok {
			continue
		}
		text := fmt.Sprintf("A level %s holds %s ± %s g: %s", printable.Words(l.Spoon),
			model.Significant(w.Mean, 3), model.Significant(w.HalfWidth(), 2), model.Plural(w.N, "weighing"))
		if l.Each() > 1 {
			text += fmt.Sprintf(" of %d spoons each", l.Each())
		}
		text += fmt.Sprintf(", scale to %s g", model.Number(l.Resolution()))
		if l.How != "" {
			text += ", " + printable.Words(l.How)
		}
		all = append(all, text+".")
	}
	for _, s := range handling.CheckedSpoons(p, own) {
		all = append(all, printable.Words(s.CheckedText()+"."))
	}
	return append(all,
		"Powder goes into the liquid step by step. After each step the dish is stirred ten turns, rests, and is "+
			"read without stirring again.",
		"Each ratio is the middle value with its 95 % interval, over all trials that count; the next dish, made "+
			"the same way, falls into its range 19 times in 20.")
}

// trialLine words one trial for the table of trials; i is its index in the profile.
func trialLine(i int, t model.Trial) TrialLine {
	line := TrialLine{
		Number: fmt.Sprint(i + 1), Day: day(t.Started), Rest: model.Seconds(*t.RestS), Looks: fmt.Sprint(t.Looks()),
		Liquid: fmt.Sprintf("%s g %s", model.Grams(t.LiquidG), printable.Words(t.Liquid)), State: state(t),
	}
	low, high := math.Inf(1), math.Inf(-1)
	if t.Match != nil {
		line.Levels = "side by side with " + printable.Words(t.Match.Dish())
		return line
	}
	for _, s := range t.Steps {
		if s.Looked {
			low, high = min(low, s.Level), max(high, s.Level)
		}
	}
	if low <= high {
		line.Levels = fmt.Sprintf("%s to %s", model.Number(low), model.Number(high))
	}
	return line
}

// state says whether a trial is done and used.
func state(t model.Trial) string {
	switch {
	case t.SetAside != "":
		return "set aside, not used: " + printable.Words(t.SetAside)
	case t.State == model.Done:
		return "done"
	default:
		return "unfinished, not used"
	}
}
