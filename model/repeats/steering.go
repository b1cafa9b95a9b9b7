package repeats

import (
	"math"
	"slices"
	"strings"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
)

// Steering returns what a shelf knows of a powder, to advise a trial of it: the next dish
// at the trial's aim. The finished trials in the same liquid count, of this lot where it
// has any, else of the lot with the newest. Lots are of one powder when their names are the
// same but for case and spaces. The result remembers its answers, so it may be asked at
// every step.
func Steering(powder model.Powder, shelf []model.Profile, own model.OwnSpoons) bench.Steering {
	type question struct {
		started time.Time
		basis   model.Basis
		aim     float64
	}
	known := map[question]fit.Expected{}
	return func(t model.Trial) fit.Expected {
		t = t.WithDefaults(powder.Kind())
		q := question{t.Started, model.Basis{Liquid: t.Liquid, RestS: *t.RestS}, t.Aim}
		e, asked := known[q]
		if !asked {
			e = expected(powder, shelf, t, own)
			known[q] = e
		}
		return e
	}
}

// expected gives the next dish of the nearest lot: this one, else the newest.
func expected(powder model.Powder, shelf []model.Profile, t model.Trial, own model.OwnSpoons) (best fit.Expected) {
	var newest time.Time
	for _, p := range shelf {
		if !SameName(p.Powder.Name, powder.Name) {
			continue
		}
		sameLot := SameName(p.Powder.Lot, powder.Lot)
		itself := func(other model.Trial) bool { return sameLot && other.Started.Equal(t.Started) }
		p.Trials = slices.DeleteFunc(slices.Clone(p.Trials), itself)
		e, ok := nextDish(p, t, own)
		if ok && sameLot {
			return e
		}
		if ok && p.LastTrial().After(newest) {
			best, newest = e, p.LastTrial()
		}
	}
	return best
}

// nextDish gives the interval of the next dish at the trial's aim, on the most similar
// basis in its liquid.
func nextDish(p model.Profile, t model.Trial, own model.OwnSpoons) (fit.Expected, bool) {
	b, like := model.Basis{Liquid: t.Liquid, RestS: *t.RestS}.Nearest(p.Bases())
	if like == 0 {
		return fit.Expected{}, false
	}
	r := Ratios(p, b, []float64{t.Aim}, own)[0]
	if r.Next == nil || r.Next.Low <= 0 || math.IsInf(r.Next.High, 1) {
		return fit.Expected{}, false
	}
	return fit.Expected{Low: r.Next.Low, High: r.Next.High, Normal: true}, true
}

// SameName reports whether two names, or lots, are the same but for case and
// spaces.
func SameName(a, b string) bool {
	return strings.EqualFold(strings.Join(strings.Fields(a), " "), strings.Join(strings.Fields(b), " "))
}
