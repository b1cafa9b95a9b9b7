package readings

import (
	"fmt"
	"math"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/measure"
)

// Acid holds an acid test and the amount of acid for its target pH.
type Acid struct {
	model.AcidTest
	Readings []measure.PH // those that count, the acid so far in g
	Amounts  []float64    // the acid so far at every reading, g; none from one of unknown weight on
	measure.AcidAmount
	// ThinnedTo is the ratio of the tested paste with the acid counted as liquid, g/g, at
	// the amount for the target; 0 where it is not known.
	ThinnedTo float64
	Before    *float64 // the level last seen before the acid
	After     *float64 // the level last seen with it
}

// AcidOf works out a trial's acid test; ok is false without a reading. Where a fizzing
// powder has several readings at one amount, the last counts, for its pH climbs back;
// others are averaged.
func AcidOf(r bench.Reading, own model.OwnSpoons) (a Acid, ok bool) {
	t := r.Trial
	if t.Acid == nil || len(t.Acid.Steps) == 0 {
		return a, false
	}
	a = Acid{AcidTest: *t.Acid}
	climbs := r.Profile.Powder.Fizzing() == model.Fizzes
	sum, known := 0.0, true
	for _, s := range a.Steps {
		if s.Level != nil {
			a.After = s.Level
		}
		grams, ok := a.GramsOf(s, t.SpoonSet, own.At(t.Started))
		if known = known && ok; !known {
			continue // nothing from an addition of unknown weight on can be placed
		}
		sum += grams
		a.Amounts = append(a.Amounts, sum)
		if n := len(a.Readings); climbs && n > 0 && a.Readings[n-1].Grams == sum {
			a.Readings = a.Readings[:n-1]
		}
		a.Readings = append(a.Readings, measure.PH{Grams: sum, PH: s.PH})
	}
	for _, s := range t.Steps {
		if s.Looked && s.Beside == "" && !s.LeftOut {
			level := s.Level
			a.Before = &level
		}
	}
	a.AcidAmount = measure.AcidFor(a.Readings, a.Target(), a.Step(), a.PasteG)
	a.ThinnedTo = a.thinned(r.Dish())
	return a, true
}

// thinned gives the ratio of the paste with the acid for the target in it, g/g.
func (a Acid) thinned(dish bench.Dish) float64 {
	if a.Reach != measure.Crossed || !dish.Mixed() || dish.PasteG() <= 0 {
		return 0
	}
	share := a.PasteG / dish.PasteG() // the paste tested may be a part of the dish
	return (dish.LiquidG*share + a.Grams.Median) / (dish.PowderG * share)
}

// PHRange gives the first and the last reading.
func (a Acid) PHRange() (before, after float64) {
	return a.Steps[0].PH, a.Steps[len(a.Steps)-1].PH
}

// Lines put the readings into words, one a line.
func (a Acid) Lines() (lines []string) {
	for i, s := range a.Steps {
		text := fmt.Sprintf("%d  pH %s before any acid", i+1, model.Number(s.PH))
		switch {
		case s.Adds():
			text = fmt.Sprintf("%d  pH %s after %s more", i+1, model.Number(s.PH), s.Text())
		case i > 0:
			text = fmt.Sprintf("%d  pH %s read again", i+1, model.Number(s.PH))
		}
		if i < len(a.Amounts) && a.Amounts[i] > 0 {
			text += fmt.Sprintf(", %s g in all", model.Significant(a.Amounts[i], 3))
		}
		if s.WaitedS != nil {
			text += ", waited " + model.Seconds(*s.WaitedS)
		}
		if s.Level != nil {
			text += ", level " + model.LevelName(*s.Level)
		}
		if len(s.Marks) > 0 {
			text += ", " + strings.Join(s.Marks, ", ")
		}
		if s.Note != "" {
			text += ". " + s.Note
		}
		lines = append(lines, text)
	}
	return lines
}

// Sentence gives the amount for the target.
func (a Acid) Sentence() string {
	at := "pH " + model.Number(a.Target())
	switch {
	case a.Reach == measure.Crossed:
		text := fmt.Sprintf("For %s: %s g (%s) of %s per 100 g of paste", at, model.Significant(a.Per100G.Median, 3),
			a.limits(), a.Acid)
		if a.DropG > 0 {
			text += fmt.Sprintf(", about %.0f drops", a.Per100G.Median/a.DropG)
		}
		return text + "."
	case a.Reach == measure.NotYet:
		return fmt.Sprintf("For %s: more than was tried, %s g of %s per 100 g of paste; add a little and read again.",
			at, model.Significant(a.per100(len(a.Readings)-1), 3), a.Acid)
	case a.Reach == measure.Already && a.Readings[0].Grams > 0:
		return fmt.Sprintf("For %s: less than was tried first, %s g of %s per 100 g of paste; begin anew with less.",
			at, model.Significant(a.per100(0), 3), a.Acid)
	case a.Reach == measure.Already:
		return fmt.Sprintf("The paste reads %s or below without acid: none is wanted.", at)
	default:
		return "No amount yet: it takes the pH before the acid and after one addition at least."
	}
}

// per100 gives the acid at a reading, g per 100 g of paste.
func (a Acid) per100(reading int) float64 { return a.Readings[reading].Grams * 100 / a.PasteG }

// limits words the interval per 100 g of paste.
func (a Acid) limits() string {
	iv := a.Per100G
	switch {
	case iv.Low == 0 && math.IsInf(iv.High, 1):
		return "no limits yet: read further to both sides"
	case math.IsInf(iv.High, 1):
		return model.Significant(iv.Low, 3) + " or more: one more addition would close it"
	case iv.Low == 0:
		return "up to " + model.Significant(iv.High, 3)
	default:
		return model.Significant(iv.Low, 3) + " to " + model.Significant(iv.High, 3)
	}
}

// Notes lists what else to say with the amount.
func (a Acid) Notes(p model.Powder) (notes []string) {
	if a.OutOfOrder {
		notes = append(notes,
			"The pH rose where it should fall; such readings are averaged. Wait longer before reading.")
	}
	if len(a.Amounts) < len(a.Steps) {
		notes = append(notes, fmt.Sprintf("The acid before reading %d has no weight: it and all behind it do "+
			"not count. Weigh twenty drops, or mend it to grams.", len(a.Amounts)+1))
	}
	if a.ThinnedTo > 0 {
		notes = append(notes, fmt.Sprintf("The acid counts as liquid: with it the paste stands at %s g/g.",
			model.RatioText(a.ThinnedTo)))
	}
	if a.Before != nil && a.After != nil {
		notes = append(notes, a.change())
	}
	if a.Step() >= 1 {
		notes = append(notes, "A strip of whole units tells little: one of half units narrows this.")
	}
	if p.Fizzing() == model.Fizzes {
		notes = append(notes, "It fizzes: its pH climbs back; read again after ten minutes. Never a closed jar.")
	}
	return notes
}

// change says what the acid did to the level.
func (a Acid) change() string {
	from, to := model.LevelName(*a.Before), model.LevelName(*a.After)
	switch {
	case *a.After < *a.Before:
		return fmt.Sprintf("The acid thinned it, from level %s to %s.", from, to)
	case *a.After > *a.Before:
		return fmt.Sprintf("The acid thickened it, from level %s to %s.", from, to)
	default:
		return fmt.Sprintf("With the acid it stayed at level %s.", to)
	}
}
