package page

import (
	"fmt"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/readings"
	"daub.example/daub/model/repeats"
)

// Dish is one trial, read at one level.
type Dish struct {
	Profile   model.Profile
	Trial     int // from 0
	Reading   bench.Reading
	Answer    bench.Answer
	OwnSpoons model.OwnSpoons
}

// Next advises the next step for the level asked for. A trial set aside or finished
// gets advice too: it may be opened again, or repeated.
func (d Dish) Next() (bench.Advice, bool) {
	r := d.Reading
	if r.Trial.Match == nil {
		r.Trial.Aim = d.Answer.Level
	}
	return r.Advice()
}

// Dish writes the answer of one dish.
func (p *Page) Dish(d Dish) {
	t := d.Reading.Trial
	p.Say(d.Profile.Powder.Title())
	reads := fmt.Sprintf("%s, rest %s", d.reads(), model.Seconds(*t.RestS))
	alone, measured := readings.Alone(d.Reading)
	if t.Match == nil && !measured {
		reads += ", levels read to the nearest " + StepWord(t.LevelStep)
	}
	p.Say(fmt.Sprintf("Trial %d of %d, %s, %s: begun with %s g %s, %s.", d.Trial+1, len(d.Profile.Trials),
		t.Started.Format(Day), State(t), model.Grams(t.LiquidG), t.Liquid, reads))
	p.Gap()
	said, title := readings.Sentences(d.Reading, d.OwnSpoons), "Measured, and acid (scales of their own):"
	if measured {
		p.Say(said[0])
		said, title = said[1:], "pH and acid:"
	} else {
		p.Say(d.Answer.Sentence(t.Liquid))
		p.besideDish(d)
		p.Gap()
		p.dishTable(d)
	}
	p.List(title, said...)
	p.masses(d.Reading)
	if d.Answer.Budget != nil {
		p.Budget(d.Answer.Level, *d.Answer.Dish, d.Reading.Terms(d.Answer))
	}
	if a, ok := d.Next(); measured && alone.Next(t.Tolerance) != alone.Sentence() {
		p.List("Next:", alone.Next(t.Tolerance))
	} else if ok {
		p.List("Next:", d.next(a)...)
	}
	p.List("Far from where the other looks put it (kept; mend it at the bench if it was a slip):", d.farOut()...)
	p.List(EarlyOrLate, d.Reading.Timings()...)
	p.List("Left out of the answer:", d.leftOut()...)
}

// EarlyOrLate is the title over looks that waited too short or too long.
const EarlyOrLate = "Read early or late (they count; the bench or a plain trial can leave one out):"

// besideDish gives the answer as it would be by the looks alone, and that of the powder
// by all its trials like this one. Either is left out where it reads the same as the dish's.
func (p *Page) besideDish(d Dish) {
	if d.Answer.Dish == nil {
		return
	}
	dish := bench.IntervalText(*d.Answer.Dish)
	if looks := bench.IntervalText(*d.Answer.Ratio); looks != dish {
		p.Say("If spoons and scale were exact: " + looks + ".")
	}
	powder := d.powder()
	if powder == nil || powder.Powder == nil {
		return
	}
	all := bench.IntervalText(*powder.Rounded().Powder)
	switch {
	case powder.Trials > 1:
		p.Say(fmt.Sprintf("The powder, by its %d trials together: %s.", powder.Trials, all))
	case all != dish:
		p.Say("The powder, allowing for dishes that differ: " + all + ".")
	}
}

// powder pools the powder's trials like this one at the level asked for; nil where this
// trial does not count.
func (d Dish) powder() *repeats.Ratio {
	t := d.Reading.Trial
	if !t.Used() {
		return nil
	}
	for _, b := range d.Profile.Bases() {
		if b.Matches(t, d.Profile.Powder.Kind()) {
			return &repeats.Ratios(d.Profile, b, []float64{d.Answer.Level}, d.OwnSpoons)[0]
		}
	}
	return nil
}

// next words an advice: for a finished dish, that it is done, and whether another is worth
// while.
func (d Dish) next(a bench.Advice) []string {
	if t := d.Reading.Trial; t.State != model.Done || t.Match != nil {
		return []string{Advice(a)}
	}
	if a.Action != bench.ActStop {
		return []string{"This dish is finished. To know more, make another trial, or open this one again at the bench."}
	}
	texts := []string{"This dish is done: " + a.Text()}
	if powder := d.powder(); powder != nil && powder.Trials == 1 {
		texts = append(texts, "Dishes differ: for recipes make a second trial of the powder")
	}
	return texts
}

// reads says how many looks were made, and what was measured.
func (d Dish) reads() string {
	m, measured := readings.Of(d.Reading)
	switch looks := model.Plural(d.Reading.Looks(), "look"); {
	case measured && d.Reading.Looks() == 0:
		return m.Count()
	case measured:
		return looks + ", " + m.Count()
	default:
		return looks
	}
}

// masses says how well the spoons and the pot are known.
func (p *Page) masses(r bench.Reading) {
	var texts []string
	for _, text := range r.SpoonWeights.Texts() {
		texts = append(texts, model.Capital(text)+".")
	}
	lost, readings := 0.0, 0
	for _, span := range r.Trial.PotSpans() {
		lost += span.LossG
		readings++
	}
	if readings > 0 {
		texts = append(texts, fmt.Sprintf("The pot was weighed %s and lost %s g.", times(readings+1),
			model.Grams(lost)))
	}
	if len(texts) > 0 {
		p.Gap()
	}
	for _, t := range texts {
		p.Say(t)
	}
}

// times gives a number of times, as "twice" or "3 times".
func times(n int) string {
	if n == 2 {
		return "twice"
	}
	return fmt.Sprintf("%d times", n)
}

func (p *Page) dishTable(d Dish) {
	var rows [][]string
	if d.Reading.Trial.Match != nil {
		return // one thickness: no table of levels
	}
	for _, r := range d.Reading.Answers(model.TableLevels(d.Answer.Level)) {
		rows = append(rows, []string{
			Marked(r.Level, d.Answer.Level), Ratio(r.Dish, r.Bound), Ratio(r.PerTsp, nil), r.Reach.Tested(),
		})
	}
	p.Table([]Column{
		{Title: "  level"},
		{Title: "g liquid per g powder"},
		{Title: "g liquid per level tsp"},
		{Title: "tested from"},
	}, rows)
	p.Line("%s", BothSides)
}

// farOut says which looks are unlikely given the others.
func (d Dish) farOut() []string {
	var texts []string
	for _, i := range d.Reading.FarOut() {
		texts = append(texts, fmt.Sprintf("step %d: %s at %s", i+1, d.Reading.Trial.Steps[i].ShortLook(),
			model.PerPowder(model.RatioText(d.Reading.Dishes[i].Ratio()), d.Reading.Trial.Liquid)))
	}
	return texts
}

// leftOut says which looks do not count.
func (d Dish) leftOut() []string {
	var texts []string
	for i, s := range d.Reading.Trial.Steps {
		if s.Looked && s.LeftOut {
			texts = append(texts, fmt.Sprintf("step %d: %s", i+1, s.LookText()))
		}
	}
	return texts
}
