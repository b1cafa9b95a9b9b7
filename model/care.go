package model

import "fmt"

// Deferral is the line that goes with every list of cautions.
const Deferral = "Local rules, the supplier's safety data sheet and licensed practice come first; this is no " +
	"medical or regulatory advice."

// CautionWord is the one caution a line on the shelf has room for.
func (p Powder) CautionWord() string {
	if p.KeepFromMetal {
		return "no metal"
	}
	switch p.Kind() {
	case SwellingClay:
		return "dust, alkaline"
	case PlainClay, Mineral:
		return "dust, silica?"
	case Starch, Flour, Botanical, Gum:
		return "dust, allergy"
	default:
		return "dust"
	}
}

// A paste for spreading is softer than a soil at its liquid limit, so it takes
// one to about two and a half times as much water (from memory).
const softest = 2.5

// handbookLimits are liquid limits, g water per g clay: Mitchell & Soga,
// Fundamentals of Soil Behavior (from memory): kaolinite 0.30 to 1.10,
// illite 0.60 to 1.20, halloysite 0.35 to 0.70, montmorillonite 1 to 9.
var handbookLimits = map[Family]struct {
	low, high float64
	of        string
}{
	PlainClay:    {0.30, 1.20, "kaolinite, illite and halloysite"},
	SwellingClay: {1.00, 9.00, "montmorillonite"},
}

// PlausibleRange is the range of the ratio in water at about level 5 that
// handbook liquid limits lead to expect, g/g; ok is false for families without
// one.
func (f Family) PlausibleRange() (low, high float64, ok bool) {
	l, ok := handbookLimits[f]
	return l.low, l.high * softest, ok
}

// Plausibility says whether the ratio at a level near 5 and the level-spoon
// density look sane, one sentence each; empty where nothing can be said.
func (p Powder) Plausibility(liquid string, level, ratio, gramsPerML float64) []string {
	var said []string
	low, high, ok := p.Kind().PlausibleRange()
	if ok && ratio > 0 && SameLiquid(liquid, "water") && level >= 4 && level <= 6 {
		verdict := "lies within"
		if ratio < low || ratio > high {
			verdict = "lies outside"
		}
		said = append(said, fmt.Sprintf("%s %s %s to %s g/g, where handbook liquid limits put pastes of %s.",
			RatioText(ratio), verdict, Number(low), Number(high), handbookLimits[p.Kind()].of))
	}
	solid := p.SolidDensity
	if solid == 0 {
		solid, _ = p.Kind().TypicalSolidDensity()
	}
	if solid > 0 && gramsPerML >= solid {
		said = append(said, fmt.Sprintf("A level spoon of %s g/mL is as dense as the solid itself (%s): check the "+
			"weighing, the spoon or the tare.",
			Significant(gramsPerML, 3), Number(solid)))
	}
	return said
}
