package kitchen

import (
	"errors"
	"fmt"
	"math"
	"strconv"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// Cannot is the error of a swap, mix or batch that these data do not allow. What was asked
// is sound; another powder, extra or trial would do.
type Cannot struct{ Why error }

// Error gives the reason.
func (c Cannot) Error() string { return c.Why.Error() }

// Unwrap gives the reason.
func (c Cannot) Unwrap() error { return c.Why }

// cannot makes a Cannot from a message.
func cannot(format string, args ...any) error { return Cannot{fmt.Errorf(format, args...)} }

// IsCannot reports whether an error says that these data do not allow it.
func IsCannot(err error) bool {
	var c Cannot
	return errors.As(err, &c)
}

// Amounts are the grams of a batch, powder and liquid with the interval of the next dish.
// The two belong together crosswise: the low end of the liquid goes with the high end of
// the powder.
type Amounts struct {
	TotalG   float64   // the finished paste
	MadeG    float64   // the same, with what sticks to the bowl
	ExtrasG  []float64 // in the order of the extras
	CountedG float64   // the part of the extras that counts as liquid
	Powder   fit.Interval
	Liquid   fit.Interval // to add beside the extras
	// StartG is the liquid, g, that the thinnest likely dish takes, with the median of the
	// powder in the bowl. HoldBackG is the rest of the median liquid; SpareG what the
	// thickest likely dish takes beyond the median, g.
	StartG, HoldBackG, SpareG float64
	// SparePowderG is the further powder, g, that the thinnest likely dish needs to reach
	// its level with the median of the liquid in. For P of powder it is P·(R/R_low - 1).
	SparePowderG float64
}

// amountsOf divides the paste into powder, liquid and extras by R (METHOD, using a ratio).
// The liquid is below 0 where the liquid extras are more than the powder takes up.
func amountsOf(totalG, allowanceShare, allowanceG float64, extras []model.Extra, r fit.Interval) Amounts {
	a := Amounts{TotalG: totalG, MadeG: totalG*(1+allowanceShare) + allowanceG}
	for _, e := range extras {
		a.ExtrasG = append(a.ExtrasG, a.MadeG*e.Share)
	}
	at := func(r float64) (powder, liquid float64) {
		p, l, counted := model.Split(extras, r)
		a.CountedG = a.MadeG * counted
		if math.IsInf(r, 1) { // no upper limit: all of it may be liquid
			p, l = 0, 1-counted
		}
		return a.MadeG * p, a.MadeG * l
	}
	a.Powder.High, a.Liquid.Low = at(r.Low)
	a.Powder.Low, a.Liquid.High = at(r.High)
	a.Powder.Median, a.Liquid.Median = at(r.Median)
	a.Liquid.Low = math.Max(a.Liquid.Low, 0)
	a.StartG = math.Max(a.Powder.Median*r.Low-a.CountedG, 0)
	a.HoldBackG = math.Max(a.Liquid.Median-a.StartG, 0)
	a.SpareG = a.Powder.Median * (r.High - r.Median)
	a.SparePowderG = a.Powder.Median * (r.Median/r.Low - 1)
	return a
}

// check refuses amounts that cannot be weighed out.
func (a Amounts) check(liquid string, extras []model.Extra) error {
	if a.Liquid.Median >= 0 {
		return nil
	}
	var names []string
	for _, e := range extras {
		if e.Counts == model.CountsLiquid {
			names = append(names, e.Name)
		}
	}
	return cannot("%s alone: %s g of liquid, but %s g of powder take up only %s g, so no %s is left to add: take "+
		"less of it, or a powder that takes up more",
		listed(names), model.Grams(a.CountedG), model.Grams(a.Powder.Median),
		model.Grams(a.CountedG+a.Liquid.Median), liquid)
}

// KeptBack says how much liquid to keep back, to the digit shown; with the start it adds up
// to the liquid.
func (a Amounts) KeptBack() string {
	return model.Grams(max(shown(a.Liquid.Median)-shown(a.StartG), 0))
}

// Together adds two masses, g, as they are shown, so that the sum agrees with them.
func Together(a, b float64) string { return model.Grams(shown(a) + shown(b)) }

// shown rounds a mass as it is shown, g.
func shown(g float64) float64 {
	v, err := strconv.ParseFloat(model.Grams(g), 64)
	if err != nil {
		return g
	}
	return v
}

// HoldBack says how much liquid to start with, to keep back and to have at hand, so that
// the dish comes to its level from the thick side.
func (a Amounts) HoldBack(liquid string) string {
	return fmt.Sprintf("Weigh %s g of the %s into the bowl; keep %s g back: stir it in little by little, rest, "+
		"look. You may need all of that, and up to %s g more.",
		model.Grams(a.StartG), liquid, a.KeptBack(), model.Grams(a.SpareG))
}

// moreThan is the share of extras in the liquid above which a small batch is advised first
// (METHOD, using a ratio).
const moreThan = 0.05

// essentialLimit is the share of essential oil above which it is asked about (chosen: what
// is usually left on skin stays at or below it).
const essentialLimit = 0.01

// extraWarnings lists the warnings about the extras.
func extraWarnings(a Amounts, liquid string, extras []model.Extra) []string {
	var out []string
	for _, name := range model.Unsorted(extras) {
		meant := ""
		if word := (model.Extra{Name: name}).Meant(); word != "" {
			meant = fmt.Sprintf(" Did you mean %s?", word)
		}
		out = append(out, fmt.Sprintf("%s is not a name that daub knows, so it counts as liquid.%s If it is oil or "+
			"dry, write :oil or :dry after its share; :liquid if it is one. Look up its allergens, and whether it is "+
			"sour.", name, meant))
	}
	kinded := make([]model.Extra, len(extras))
	var names []string
	essential := 0.0
	for i, e := range extras {
		kinded[i] = e.WithKind()
		if kinded[i].Counts == model.CountsLiquid {
			names = append(names, e.Name)
		}
		if e.IsEssentialOil() {
			essential += e.Share
		}
	}
	if essential > essentialLimit*(1+1e-9) {
		out = append(out, fmt.Sprintf("%s %% essential oil or fragrance: is that meant? Above 1 %% it irritates skin.",
			model.Number(model.RoundSignificant(100*essential, 3))))
	}
	if a.CountedG > moreThan*(a.Liquid.Median+a.CountedG) {
		out = append(out, fmt.Sprintf("Try a small batch first: the ratio was found with %s alone, and %s g of the "+
			"liquid here is %s.", liquid, model.Grams(a.CountedG), listed(names)))
	}
	return out
}
