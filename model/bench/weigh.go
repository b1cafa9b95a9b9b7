package bench

import (
	"fmt"
	"slices"

	"daub.example/daub/model"
)

// Weigh records weighings of level spoons, g, into the table of that size; a
// size that was not weighed yet gets a table like l. A weighing that looks like
// a slip is asked about: the error is a *Question then.
func (e *Editor) Weigh(l model.LevelSpoon, grams ...float64) error {
	tables, err := AddWeighings(e.profile.LevelSpoons, l, grams...)
	if err != nil {
		return err
	}
	var added []int
	for i := range grams {
		added = append(added, len(tables[tableOf(tables, l.Spoon)].Grams)-len(grams)+i)
	}
	return e.weighed("weighing of "+l.Spoon, tables, l.Spoon, added...)
}

// WeighHere records weighings of the spoon that is weighed at the bench.
func (e *Editor) WeighHere(grams ...float64) error { return e.Weigh(e.SpoonWeighedHere(), grams...) }

// MendWeighing puts the right grams in the place of weighing i of a level spoon,
// counted from 0. A slip is asked about as by Weigh.
func (e *Editor) MendWeighing(spoon string, i int, grams float64) error {
	tables, err := e.atWeighing(spoon, i, func(l *model.LevelSpoon) { l.Grams[i] = grams })
	if err != nil {
		return err
	}
	return e.weighed(fmt.Sprintf("mending of weighing %d of %s", i+1, spoon), tables, spoon, i)
}

// DeleteWeighing takes weighing i of a level spoon, counted from 0, out.
func (e *Editor) DeleteWeighing(spoon string, i int) error {
	tables, err := e.atWeighing(spoon, i, func(l *model.LevelSpoon) { l.Grams = slices.Delete(l.Grams, i, i+1) })
	if err != nil {
		return err
	}
	return e.weighed(fmt.Sprintf("removal of weighing %d of %s", i+1, spoon), tables, spoon)
}

// atWeighing is the tables with that of a weighing changed.
func (e *Editor) atWeighing(spoon string, i int, change func(l *model.LevelSpoon)) ([]model.LevelSpoon, error) {
	tables := slices.Clone(e.profile.LevelSpoons)
	at := tableOf(tables, spoon)
	if at < 0 || i < 0 || i >= len(tables[at].Grams) {
		return nil, fmt.Errorf("there is no weighing %d of a level %s", i+1, spoon)
	}
	tables[at].Grams = slices.Clone(tables[at].Grams)
	change(&tables[at])
	return tables, nil
}

// weighed takes the tables, unless one of the new weighings of a spoon looks
// like a slip.
func (e *Editor) weighed(what string, tables []model.LevelSpoon, spoon string, added ...int) error {
	change := func() error {
		return e.Edit(what, func(p *model.Profile, _ *model.Trial) { p.LevelSpoons = tables })
	}
	p := e.profile
	p.LevelSpoons = tables
	set := model.US
	if e.trial != NoTrial {
		set = e.Trial().SpoonSet
	}
	for _, i := range added {
		if text, wild := p.WildWeighing(spoon, i, set, e.ownSpoons); wild {
			return &Question{AskWeighing, text, change}
		}
	}
	return change()
}

// SpoonWeighedHere is the spoon that a weighing at the bench is of: the one
// that was weighed first, else the first at hand.
func (e *Editor) SpoonWeighedHere() model.LevelSpoon {
	for _, have := range e.profile.LevelSpoons {
		if have.How != model.ByPot {
			return have
		}
	}
	t := e.Trial()
	l := model.LevelSpoon{Spoon: model.Teaspoon, SpoonsEach: 1, ResolutionG: t.ResolutionG, How: model.Loose}
	if len(t.Spoons) > 0 {
		l.Spoon = t.Spoons[0]
	}
	return l
}

// AddWeighings is the tables with weighings, g, of the size and manner of l
// added. Weighings of another number of spoons than those so far are refused.
// The tables given stay as they are.
func AddWeighings(tables []model.LevelSpoon, l model.LevelSpoon, grams ...float64) ([]model.LevelSpoon, error) {
	out := slices.Clone(tables)
	i := tableOf(out, l.Spoon)
	if i < 0 {
		l.Grams = slices.Clone(grams)
		return append(out, l), nil
	}
	have := &out[i]
	if len(have.Grams) > 0 && have.Each() != l.Each() {
		return tables, fmt.Errorf("the weighings so far are of %d spoons each; weigh %d again, or delete those "+
			"first",
			have.Each(), have.Each())
	}
	have.SpoonsEach, have.ResolutionG = l.SpoonsEach, l.ResolutionG
	have.Grams = slices.Concat(have.Grams, grams)
	return out, nil
}

// tableOf is the place of a spoon's own weighings, -1 without any.
func tableOf(tables []model.LevelSpoon, spoon string) int {
	return slices.IndexFunc(tables, func(l model.LevelSpoon) bool { return l.Spoon == spoon && l.How != model.ByPot })
}
