package model

import (
	"cmp"
	"fmt"
	"slices"
)

// Limits outside which a weighing is asked about (chosen).
const (
	wildFactor         = 1.5      // from the median of the others
	lightestG, densest = 0.1, 2.0 // g/mL, for a first weighing
)

// WildWeighing asks about weighing i of a level spoon, counted from 0, that looks like a
// slip. wild is false where it does not, and for one that is missing or not above 0.
func (p Profile) WildWeighing(spoon string, i int, set SpoonSet, own OwnSpoons) (question string, wild bool) {
	at := slices.IndexFunc(p.LevelSpoons, func(l LevelSpoon) bool { return l.Spoon == spoon && l.How != ByPot })
	if at < 0 || i < 0 || i >= len(p.LevelSpoons[at].Grams) {
		return "", false
	}
	l := p.LevelSpoons[at]
	if !(l.Grams[i] > 0) {
		return "", false // refused, not asked about
	}
	each := l.Grams[i] / float64(l.Each())
	l.Grams = slices.Delete(slices.Clone(l.Grams), i, i+1)
	p.LevelSpoons = slices.Clone(p.LevelSpoons)
	p.LevelSpoons[at] = l
	var others []float64
	for _, w := range p.SpoonWeights(set, own).weighs {
		if w.spoon == spoon {
			for _, one := range w.of {
				others = append(others, one.each)
			}
		}
	}
	if len(others) > 0 {
		say, m := "The others say", Median(others)
		if len(others) == 1 {
			say = "The other says"
		}
		question = fmt.Sprintf("%s g a level %s? %s %s g", Significant(each, 3), spoon, say, Significant(m, 3))
		return question, each > wildFactor*m || each*wildFactor < m
	}
	volume := l.VolumeML
	if size, known := own.Spoon(cmp.Or(set, US), spoon); known && volume == 0 {
		volume = size.VolumeML
	}
	if volume == 0 {
		return "", false
	}
	question, wild = WildDensity(each, volume)
	return fmt.Sprintf("%s g a level %s? %s", Significant(each, 3), spoon, question), wild
}

// WildDensity gives the density of a powder in words. wild is true where no powder is so
// light or heavy.
func WildDensity(grams, ml float64) (text string, wild bool) {
	density := grams / ml
	text = fmt.Sprintf("That is %s g/mL; powders weigh %s to %s", Significant(density, 2), Number(lightestG),
		Number(densest))
	return text, density < lightestG || density > densest
}

// Median gives the middle of some numbers, of which there is at least one.
func Median(of []float64) float64 {
	of = slices.Sorted(slices.Values(of))
	n := len(of)
	return (of[(n-1)/2] + of[n/2]) / 2
}
