package measure

import "math"

// gravity is the acceleration of free fall, m/s².
const gravity = 9.81

// SpreadStress gives the yield stress, Pa, of a paste that spread into a flat round of
// diameterMM. Its density is gPerML, its volume ml. From Roussel & Coussot 2005, J. Rheol.
// 49(3) 705-718, made for a spread much wider than it is high. ok is false unless all three
// are finite and above 0.
func SpreadStress(gPerML, ml, diameterMM float64) (pa float64, ok bool) {
	if !positive(gPerML, ml, diameterMM) {
		return 0, false
	}
	density, volume, radius := gPerML*1e3, ml*1e-6, diameterMM/2*1e-3 // kg/m³, m³, m
	pa = 225 * density * gravity * volume * volume / (128 * math.Pi * math.Pi * math.Pow(radius, 5))
	return pa, positive(pa)
}

// SlumpStress gives the yield stress, Pa, of a paste that sank by slumpMM when its cylinder
// was lifted. Its density is gPerML, the cylinder heightMM high. From Pashias et al. 1996,
// J. Rheol. 40(6) 1179-1189, exact form. ok is false unless density and height are above 0
// and the slump lies between 0 and the height, both ends left out: a paste that does not
// sink only has more than half of density × gravity × height.
func SlumpStress(gPerML, heightMM, slumpMM float64) (pa float64, ok bool) {
	if !positive(gPerML, heightMM, slumpMM) {
		return 0, false
	}
	stress, ok := StressOfSlump(slumpMM / heightMM)
	pa = stress * gPerML * 1e3 * gravity * heightMM * 1e-3
	return pa, ok && positive(pa)
}

// SlumpOfStress gives the slump as a share of the cylinder's height. stress is the yield
// stress in units of density × gravity × height; the slump is 1 at 0, and 0 from a half on.
func SlumpOfStress(stress float64) float64 {
	switch {
	case !(stress > 0):
		return 1
	case stress >= 0.5:
		return 0
	}
	return 1 - 2*stress*(1-math.Log(2*stress))
}

// StressOfSlump inverts SlumpOfStress for a slump above 0 and below 1; ok is false outside.
func StressOfSlump(slump float64) (stress float64, ok bool) {
	if !(slump > 0 && slump < 1) {
		return 0, false
	}
	low, high := 0.0, 0.5
	for { // halved until no number lies between
		middle := (low + high) / 2
		if middle == low || middle == high {
			return middle, middle > 0
		}
		if SlumpOfStress(middle) > slump {
			low = middle
		} else {
			high = middle
		}
	}
}
