package bench

import (
	"fmt"
	"slices"

	"daub.example/daub/model"
)

// Weigh records weighings of level spoons, g, into the table of that size; a
// size that was not weighed yet gets a table like l.
func (e *Editor) Weigh(l model.LevelSpoon, grams ...float64) error {
	var refused error
	err := e.Edit("weighing of "+l.Spoon, func(p *model.Profile, _ *model.Trial) {
		p.LevelSpoons, refused = AddWeighings(p.LevelSpoons, l, grams...)
	})
	if refused != nil {
		return refused
	}
	return err
}

// unlike is the factor from the weighings so far from which on a weighing is
// taken for a slip, such as one spoon where ten go together (chosen).
const unlike = 3

// WeighHere records weighings of the spoon that is weighed at the bench. One
// that is far from those so far is refused as a slip.
func (e *Editor) WeighHere(grams ...float64) error {
	l := e.SpoonWeighedHere()
	if w, known := l.Weight(); known {
		for _, g := range grams {
			each := g / float64(l.Each())
			if each > unlike*w.Mean || unlike*each < w.Mean {
				return fmt.Errorf("a level %s of %s g is far from the %s g so far: a weighing here is of %d",
					l.Spoon, model.Grams(each), model.Grams(w.Mean), l.Each())
			}
		}
	}
	return e.Weigh(l, grams...)
}

// SpoonWeighedHere is the spoon that a weighing at the bench is of: the one
// that was weighed first, else the first at hand.
func (e *Editor) SpoonWeighedHere() model.LevelSpoon {
	if have := e.profile.LevelSpoons; len(have) > 0 {
		return have[0]
	}
	t := e.Trial()
	l := model.LevelSpoon{Spoon: model.Teaspoon, SpoonsEach: 1, ResolutionG: t.ResolutionG, How: "struck off level"}
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
	i := slices.IndexFunc(out, func(have model.LevelSpoon) bool { return have.Spoon == l.Spoon })
	if i < 0 {
		l.Grams = slices.Clone(grams)
		return append(out, l), nil
	}
	have := &out[i]
	if len(have.Grams) > 0 && have.Each() != l.Each() {
		return tables, fmt.Errorf("the weighings so far are of %d spoons each; weigh %d again, or take those back first",
			have.Each(), have.Each())
	}
	have.SpoonsEach, have.ResolutionG = l.SpoonsEach, l.ResolutionG
	have.Grams = slices.Concat(have.Grams, grams)
	return out, nil
}
