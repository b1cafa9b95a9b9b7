package readings

import (
	"fmt"
	"math"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/measure"
)

// Offer is the acid that brings an amount of paste to its target pH, for batch, swap and
// cards.
type Offer struct {
	Test   Acid
	Trial  int          // the trial of the acid test, its index in the profile
	Fizzes bool         // the powder gives off gas
	TotalG float64      // of the paste, the acid in it
	Grams  fit.Interval // of the acid solution; High may be +Inf
	Share  float64      // the median as a share of the paste
}

// OfferOf makes the offer from the newest used acid test in the liquid that reached its
// target; ok is false without one.
func OfferOf(p model.Profile, liquid string, totalG float64, own model.OwnSpoons) (o Offer, ok bool) {
	var newest model.Trial
	for i, t := range p.Trials {
		t = t.WithDefaults(p.Powder.Kind())
		if !t.Used() || t.Acid == nil || !model.SameLiquid(t.Liquid, liquid) || ok && t.Started.Before(newest.Started) {
			continue
		}
		r, err := bench.Read(p, t, own)
		if err != nil {
			continue
		}
		if a, some := AcidOf(r, own); some && a.Reach == measure.Crossed {
			o, ok, newest = Offer{Test: a, Trial: i}, true, t
		}
	}
	if !ok {
		return o, false
	}
	in := func(grams float64) float64 { return totalG * grams / (o.Test.PasteG + grams) }
	tested := o.Test.Grams
	o.Fizzes, o.TotalG = p.Powder.Fizzing() == model.Fizzes, totalG
	o.Grams = fit.Interval{Median: in(tested.Median), Low: in(tested.Low), High: math.Inf(1)}
	if !math.IsInf(tested.High, 1) {
		o.Grams.High = in(tested.High)
	}
	o.Share = o.Grams.Median / totalG
	return o, true
}

// Sentence puts the offer into words.
func (o Offer) Sentence() string {
	limits := fmt.Sprintf("%s to %s", model.Significant(o.Grams.Low, 2), model.Significant(o.Grams.High, 2))
	if math.IsInf(o.Grams.High, 1) {
		limits = model.Significant(o.Grams.Low, 2) + " or more"
	}
	text := fmt.Sprintf("For pH %s: about %s g (%s) of %s in these %s g, by the acid test of trial %d. It counts as "+
		"liquid: as an extra of %s %% it takes the place of as much of it. Add it little by little and read the pH.",
		model.Number(o.Test.Target()), model.Significant(o.Grams.Median, 2), limits, o.Test.Acid, model.Grams(o.TotalG),
		o.Trial+1, model.Significant(100*o.Share, 2))
	if o.Fizzes {
		text += " It fizzes: an open bowl, until the bubbles stop; never a closed jar."
	}
	return text
}
