package page

import (
	"fmt"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/readings"
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
	p.Say(fmt.Sprintf("Trial %d of %d, %s, %s: %s g %s, %s.", d.Trial+1, len(d.Profile.Trials),
		t.Started.Format(Day), State(t), model.Grams(t.LiquidG), t.Liquid, reads))
	p.Gap()
	said, title := readings.Sentences(d.Reading, d.OwnSpoons), "Measured, and acid (scales of their own):"
	if measured {
		p.Say(said[0])
		said, title = said[1:], "pH and acid:"
	} else {
		p.Say(d.Answer.Sentence(t.Liquid))
		if d.Answer.Ratio != nil {
			p.Say("The looks alone: " + bench.IntervalText(*d.Answer.Ratio) + ".")
		}
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
		p.List("Next:", Advice(a))
	}
	p.List("Far from where the other looks put it (kept; mend it at the bench if it was a slip):", d.farOut()...)
	p.List(EarlyOrLate, d.Reading.Timings()...)
	p.List("Left out of the answer:", d.leftOut()...)
}

// EarlyOrLate is the title over looks that waited too short or too long.
const EarlyOrLate = "Read early or late (they count; the bench or a plain trial can leave one out):"

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
