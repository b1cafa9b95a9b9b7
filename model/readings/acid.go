package readings

import (
	"fmt"
	"math"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/measure"
)

// SkinPH is the target pH of a paste for the skin unless the maker says
// otherwise: within half a unit of the skin's own 4.7 the strip tells no more.
const SkinPH = 5.5

// Acid holds the amount of acid that an acid test gives for a target pH.
type Acid struct {
	model.AcidTest
	Target   float64
	Readings []measure.PH // one a reading, the acid so far in g
	measure.AcidAmount
	// ThinnedTo is the ratio of the tested paste with the acid counted as liquid,
	// g/g, at the amount for the target; 0 where it is not known.
	ThinnedTo float64
	Unweighed int // steps left out, for a drop or spoon has no weight
	Before    *float64
	After     *float64 // the level last seen before and after the acid
}

// AcidOf works out the acid for a target pH from a trial's acid test; ok is false without one.
// At one amount a fizzing powder's last reading counts, for its pH climbs back;
// others are averaged.
func AcidOf(r bench.Reading, target float64, d model.OwnSpoons) (a Acid, ok bool) {
	t := r.Trial
	if t.Acid == nil || len(t.Acid.Steps) == 0 {
		return a, false
	}
	a = Acid{AcidTest: *t.Acid, Target: target}
	sum, known := 0.0, true
	climbs := r.Profile.Powder.Fizzing() == model.Fizzes
	for _, s := range t.Acid.Steps {
		grams, ok := t.Acid.GramsOf(s, t.SpoonSet, d)
		known = known && ok
		if !known { // nothing behind a step of unknown weight can be placed
			a.Unweighed++
			continue
		}
		sum += grams
		if n := len(a.Readings); climbs && n > 0 && a.Readings[n-1].Grams == sum {
			a.Readings = a.Readings[:n-1]
		}
		a.Readings = append(a.Readings, measure.PH{Grams: sum, PH: s.PH})
		if s.Level != nil {
			a.After = s.Level
		}
	}
	for _, s := range t.Steps {
		if s.Looked && s.Beside == "" {
			level := s.Level
			a.Before = &level
		}
	}
	a.AcidAmount = measure.AcidFor(a.Readings, target, t.Acid.Step(), t.Acid.PasteG)
	a.ThinnedTo = a.thinned(r.Dish())
	return a, true
}

// thinned is the ratio of the paste when the acid for the target is in it.
func (a Acid) thinned(dish bench.Dish) float64 {
	if a.Reach != measure.Crossed || !dish.Mixed() || dish.PasteG() <= 0 {
		return 0
	}
	share := a.PasteG / dish.PasteG() // the paste tested may be a part of the dish
	return (dish.LiquidG*share + a.Grams.Median) / (dish.PowderG * share)
}

// PHRange is the first and the last reading.
func (a Acid) PHRange() (before, after float64) {
	return a.Steps[0].PH, a.Steps[len(a.Steps)-1].PH
}

// Sentence is the amount for the target in words.
func (a Acid) Sentence() string {
	at := fmt.Sprintf("pH %s", model.Number(a.Target))
	switch a.Reach {
	case measure.Crossed:
		return fmt.Sprintf("For %s: %s g of %s per 100 g of paste (%s).", at, model.Significant(a.Per100G.Median, 3),
			a.Acid, limits(a.Per100G))
	case measure.NotYet:
		return fmt.Sprintf("For %s: more than was tried, %s g of %s per 100 g of paste; add a little and read again.",
			at, model.Significant(a.tried(), 3), a.Acid)
	case measure.Already:
		return fmt.Sprintf("The paste reads %s or below without acid: none is wanted.", at)
	default:
		return "No amount yet: it takes the pH before the acid and after one addition at least."
	}
}

// tried is the most acid tried, g per 100 g of paste.
func (a Acid) tried() float64 {
	if len(a.Readings) == 0 {
		return 0
	}
	return a.Readings[len(a.Readings)-1].Grams * 100 / a.PasteG
}

func limits(iv fit.Interval) string {
	switch {
	case iv.Low == 0 && math.IsInf(iv.High, 1):
		return "no limits yet: read further to both sides"
	case math.IsInf(iv.High, 1):
		return model.Significant(iv.Low, 3) + " or more"
	case iv.Low == 0:
		return "up to " + model.Significant(iv.High, 3)
	default:
		return model.Significant(iv.Low, 3) + " to " + model.Significant(iv.High, 3)
	}
}

// Notes lists what has to be told beside the amount.
func (a Acid) Notes(p model.Powder) (notes []string) {
	if a.OutOfOrder {
		notes = append(
			notes,
			"The pH rose where it should fall; such readings are averaged. Wait longer before reading.",
		)
	}
	if a.Unweighed > 0 {
		notes = append(notes, "A drop or spoon of the acid has no weight: weigh twenty drops.")
	}
	if a.ThinnedTo > 0 {
		notes = append(notes, fmt.Sprintf("The acid counts as liquid: the paste then stands at %s g/g.",
			model.RatioText(a.ThinnedTo)))
	}
	if a.Before != nil && a.After != nil && *a.Before != *a.After {
		notes = append(notes, fmt.Sprintf("With the acid it went from level %s to %s.", model.Number(*a.Before),
			model.Number(*a.After)))
	}
	if a.Step() >= 1 {
		notes = append(notes, "A strip of whole units tells little: one of half units narrows this.")
	}
	if p.Fizzing() == model.Fizzes {
		notes = append(notes, "It fizzes: its pH climbs back; read again after ten minutes. Never a closed jar.")
	}
	return notes
}
