package model

import "strings"

// Liquid is a liquid a trial may be made in.
type Liquid struct {
	Name string
	// DensityGML is g/mL at 20 °C.
	DensityGML float64
}

// Liquids lists the liquids with a known density, in the order a maker picks
// from. All but water are chosen round values at 20 °C, to be edited where the
// maker knows better.
func Liquids() []Liquid {
	return []Liquid{
		{"water", WaterDensity(20)},
		{"hydrosol", 1.00},
		{"infusion", 1.00},
		{"aloe juice", 1.00},
		{"vinegar", 1.01},
		{"milk", 1.03},
		{"glycerine", 1.26},
		{"vegetable oil", 0.92},
		{"honey", 1.42},
	}
}

// DefaultTemperatureC is the temperature taken where none is recorded.
const DefaultTemperatureC = 20.0

// WaterDensity gives the density of water at t °C, g/mL: Tanaka et al. 2001, Metrologia 38,
// 301-309; made for 0 to 40 °C, good to a few parts in a thousand up to 80.
func WaterDensity(t float64) float64 {
	const a1, a2, a3, a4, a5 = -3.983035, 301.797, 522528.9, 69.34881, 999.97495
	return a5 * (1 - (t+a1)*(t+a1)*(t+a2)/(a3*(t+a4))) / 1000
}

// SameLiquid reports whether two names mean the same liquid: case and outer
// spaces do not count. Ratios in different liquids are never compared.
func SameLiquid(a, b string) bool {
	return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b))
}

// LiquidDensity gives the density, g/mL, of a liquid by name at t °C; ok is false for a
// liquid whose density the maker has to give. Only water's depends on t.
func LiquidDensity(name string, t float64) (gPerML float64, ok bool) {
	if SameLiquid(name, "water") {
		return WaterDensity(t), true
	}
	for _, l := range Liquids() {
		if SameLiquid(l.Name, name) {
			return l.DensityGML, true
		}
	}
	return 0, false
}
