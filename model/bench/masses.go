package bench

import (
	"math"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// Masses gives the half-widths in ln R that the dish's masses leave (law of propagation,
// JCGM 100:2008, 5), for the ratio in g/g. The spoon weights are those the dish was
// calculated with.
func (d Dish) Masses(s model.SpoonWeights) fit.Masses { return d.masses(s, false) }

// MassesPerSpoon is Masses for the ratio per level teaspoon. Where all powder came by the
// spoon that gives the teaspoon its weight, that weight cancels.
func (d Dish) MassesPerSpoon(s model.SpoonWeights) fit.Masses { return d.masses(s, true) }

// masses is Masses, or MassesPerSpoon.
func (d Dish) masses(s model.SpoonWeights, perSpoon bool) fit.Masses {
	if d.powder == nil {
		return fit.Masses{Liquid: fit.Normal95 * relative(d.liquidVar, d.LiquidG)}
	}
	u := d.powder.unsure(d.steps, d.PowderG)
	if tsp, err := s.Scoop(model.Teaspoon); perSpoon && err == nil {
		weight, size := u.weights.of(tsp.Source, tsp.WeightHalf()), u.sizes.of(model.Teaspoon, tsp.SizeHalf())
		weight.share, size.share = 1-weight.share, 1-size.share
	}
	return fit.Masses{
		SpoonWeight: u.weights.sum(),
		Scoops:      fit.Normal95 * relative(u.scoops, d.PowderG),
		PowderScale: fit.Normal95 * relative(u.scale, d.PowderG),
		Liquid:      fit.Normal95 * relative(d.liquidVar, d.LiquidG),
		SpoonSize:   u.sizes.sum(),
	}
}

// relative gives the relative standard deviation of grams with the variance, g²; 0 where
// nothing is unsure.
func relative(variance, grams float64) float64 {
	if variance == 0 {
		return 0
	}
	return math.Sqrt(variance) / grams
}

// part is the share of the powder that comes by one unsure quantity, and the relative 95 %
// half-width of that quantity.
type part struct {
	name        string
	share, half float64
}

// parts are independent, in the order they turned up, so that sums repeat to the bit.
type parts []*part

// of finds the part of that name, or adds one with no share.
func (ps *parts) of(name string, half float64) *part {
	for _, t := range *ps {
		if t.name == name {
			return t
		}
	}
	t := &part{name: name, half: half}
	*ps = append(*ps, t)
	return t
}

// sum gives the half-width in ln R of all parts together.
func (ps parts) sum() float64 {
	squares := 0.0
	for _, t := range ps {
		squares += square(t.share * t.half)
	}
	return math.Sqrt(squares)
}

// square gives v².
func square(v float64) float64 { return v * v }
