package main

import (
	"fmt"
	"strings"

	"daub.example/daub/model"
)

// page is the powder for a person.
func (s showAnswer) page(p *page) {
	powder := s.entry.Profile.Powder
	p.say("", "", powder.Title())
	p.say("", "", fmt.Sprintf("%s, %s", powder.Kind(), s.spoonText()))
	p.line("%s", s.entry.Path)
	if powder.Notes != "" {
		p.say("", "", "Notes: "+powder.Notes)
	}
	p.gap()
	p.say("", "", s.ratio.Sentence())
	if s.ratio.PerTsp != nil {
		p.say("", "", fmt.Sprintf("To a level teaspoon: %s g %s.", model.IntervalText(*s.ratio.PerTsp), s.ratio.Basis.Liquid))
	}
	s.tables(p)
	if s.ratio.Budget != nil {
		p.budget(fmt.Sprintf("The interval at %s is made of:", model.LevelName(s.level)), s.ratio.Terms())
	}
	for _, n := range s.ratio.Far {
		p.say("", "", fmt.Sprintf("Trial %d sits far from the others: look at its steps, repeat it, or set it aside with a reason.", n+1))
	}
	var others []string
	for _, r := range s.others {
		others = append(others, fmt.Sprintf("In %s, rest %s: %s", r.Basis.Liquid, model.Seconds(r.Basis.RestS), r.Sentence()))
	}
	p.list("Kept apart from these, for another liquid or another rest:", others...)
	if marks := s.marks(); len(marks) > 0 {
		p.list("Marks seen:", strings.Join(marks, ", "))
	}
	p.list("Plausible?", s.plausibility()...)
	p.list("Cautions:", append(powder.Cautions(), model.Deferral)...)
}

// spoonText says what a level spoon weighs, each size that was weighed.
func (s showAnswer) spoonText() string {
	var texts []string
	for _, l := range s.entry.Profile.LevelSpoons {
		if w, ok := l.Weight(); ok {
			texts = append(texts, fmt.Sprintf("a level %s weighs %s ± %s g (%s)",
				l.Spoon, model.Significant(w.Mean, 3), model.Significant(w.HalfWidth(), 2), plural(w.N, "weighing")))
		}
	}
	if len(texts) == 0 {
		return "no level spoon weighed"
	}
	return strings.Join(texts, ", ")
}

// tables are the levels of the powder, and its trials.
func (s showAnswer) tables(p *page) {
	if len(s.table) > 0 {
		var rows [][]string
		for _, r := range s.table {
			next := "-"
			if r.Next != nil {
				next = model.RatioText(r.Next.Low) + " to " + model.RatioText(r.Next.High)
			}
			rows = append(rows, []string{marked(r.Level, s.level), ratioCell(r.Powder, r.Bound), next, r.Reach.String(), fmt.Sprint(r.Trials)})
		}
		p.gap()
		p.table([]column{{title: "  level"}, {title: "g liquid per g"}, {title: "next dish"}, {title: "reach"}, {title: "trials", right: true}}, rows)
	}
	if len(s.dishes) == 0 {
		return
	}
	var rows [][]string
	for _, d := range s.dishes {
		t := d.reading.Trial
		rows = append(rows, []string{
			fmt.Sprint(d.trial + 1), t.Started.Format(day), model.Grams(t.LiquidG) + " g " + t.Liquid, model.Seconds(*t.RestS),
			fmt.Sprint(d.reading.Looks()), ratioCell(d.answer.Dish, d.answer.Bound), state(t),
		})
	}
	p.gap()
	p.table([]column{
		{title: "trial", right: true},
		{title: "begun"},
		{title: "in", gives: true},
		{title: "rest"},
		{title: "looks", right: true},
		{title: "this dish"},
		{title: "state", gives: true},
	}, rows)
}
