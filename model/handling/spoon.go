package handling

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/measure"
)

// SpoonCheck holds a level spoon's volume, found by weighing its water.
type SpoonCheck struct {
	Spoon  model.Spoon // the spoon for the maker's own list, with the volume found
	Before model.Spoon // the spoon as listed so far; without a volume where it was not known
	Volume measure.Volume
	Off    float64 // deviation from the volume of its name, or of the list, as a share of that; 0 without
	Far    bool    // Off is large enough to be pointed out
	Doubt  string  // a question about a fill that looks like a slip; "" where none does
	named  string  // what Off compares with: "what its name says"
}

// leastWater counts the weighings of water that a check needs (METHOD, spoon check).
const leastWater = 3

// CheckSpoon finds the volume of a level spoon from weighings of its water, g, one spoon
// each. The scale reads to resolutionG; temperatureC is in °C, nil for the usual one. The
// spoon's former size, if any, comes from own spoons.
func CheckSpoon(own model.OwnSpoons, name string, grams []float64, temperatureC *float64, resolutionG float64,
	now time.Time,
) (c SpoonCheck, err error) {
	if len(grams) < leastWater {
		return c, fmt.Errorf("%d of %d weighings of %s: weigh its water three times or more, for one fill differs "+
			"from the next", len(grams), leastWater, name)
	}
	temperature := model.DefaultTemperatureC
	if temperatureC != nil {
		temperature = *temperatureC
	}
	if !(temperature >= 0 && temperature <= 40) {
		return c, fmt.Errorf("water of %s °C: give the temperature of the water, from 0 to 40 °C",
			model.Number(temperature))
	}
	density, _ := model.LiquidDensity("water", temperature)
	v, ok := measure.SpoonVolume(grams, resolutionG, density)
	if !ok {
		return c, errors.New("these weighings give no volume: each is the grams of one level spoon of water, above 0")
	}
	c.Volume, c.Doubt = v, doubtFills(grams, resolutionG)
	c.Before, _ = own.Spoon(model.Own, name)
	named := c.Before.VolumeML
	if c.Before.BeforeML > 0 { // checked before: its name says what it was taken for until then
		named = c.Before.BeforeML
	}
	c.named = fmt.Sprintf("the %s mL it was taken for", model.Number(model.RoundSignificant(named, 4)))
	if standard, known := (model.OwnSpoons{}).Spoon(model.US, name); known {
		named, c.named = standard.VolumeML, "what its name says"
	}
	if off, far, known := v.Deviation(named); known {
		c.Off, c.Far = off, far
	}
	c.Spoon = model.Spoon{
		Name: name, Own: true,
		VolumeML: model.RoundSignificant(v.ML, 5), UncertaintyML: model.RoundSignificant(v.UncertaintyML, 2),
		WaterG: slices.Clone(grams), TemperatureC: temperatureC, Measured: now.UTC().Truncate(time.Second),
		BeforeML: c.Before.VolumeML, BeforeUncertaintyML: c.Before.UncertaintyML, Reserved: c.Before.Reserved,
	}
	if c.Before.BeforeML > 0 { // checked before: the oldest trials keep the size they were made with
		c.Spoon.BeforeML, c.Spoon.BeforeUncertaintyML = c.Before.BeforeML, c.Before.BeforeUncertaintyML
	}
	return c, nil
}

// Both are chosen: level fills of water differ by a few percent.
const (
	wildFill = 1.2  // a fill outside this factor of the median of the others is asked about
	wideFill = 0.15 // an interval with a larger half, as a share of the volume, says too little
)

// doubtFills asks about the fill farthest from the others, where it is farther off than
// fills and the scale's rounding allow; "" without one. Fills that rise evenly are asked
// about too: the cup was likely not tared.
func doubtFills(grams []float64, resolutionG float64) string {
	first, last := grams[0], grams[len(grams)-1]
	together := last > first && apart(last, first, resolutionG)
	for i := 1; i < len(grams); i++ {
		together = together && !apart(grams[i]-grams[i-1], first, resolutionG)
	}
	if together {
		return "Each weighs one fill more than the last: was the cup tared before every fill?"
	}
	worst, by, rest := 0, 0.0, 0.0
	for i, g := range grams {
		others := slices.Delete(slices.Clone(grams), i, i+1)
		m := model.Median(others)
		if far := math.Abs(math.Log(g / m)); apart(g, m, resolutionG) && far > by {
			worst, by, rest = i, far, m
		}
	}
	if by == 0 {
		return ""
	}
	return fmt.Sprintf("%s g of water? The others say %s g", model.Significant(grams[worst], 3),
		model.Significant(rest, 3))
}

// apart reports whether two fills differ by more than level fills usually do.
func apart(g, other, resolutionG float64) bool {
	return g > wildFill*other+resolutionG || g < other/wildFill-resolutionG
}

// With returns the list with the checked spoon in it.
func (c SpoonCheck) With(own model.OwnSpoons) model.OwnSpoons {
	out := slices.Clone(own)
	at := slices.IndexFunc(out, func(s model.Spoon) bool { return s.Name == c.Spoon.Name })
	if at < 0 {
		return append(out, c.Spoon)
	}
	out[at] = c.Spoon
	return out
}

// Sentence says what the spoon holds, and how far that is from its name.
func (c SpoonCheck) Sentence() string {
	v := c.Volume
	text := fmt.Sprintf("%s holds %s mL (%s to %s) from %d weighings of water.", c.Spoon.Name,
		model.Significant(v.ML, 4), model.Significant(v.Interval.Low, 4), model.Significant(v.Interval.High, 4),
		v.Weighings.N)
	switch {
	case c.Doubt != "":
		text += " " + model.Ended(c.Doubt)
	case c.Far && c.Off > 0:
		text += fmt.Sprintf(" That is %s %% more than %s: go by what it holds.", percent(c.Off), c.named)
	case c.Far:
		text += fmt.Sprintf(" That is %s %% less than %s: go by what it holds.", percent(c.Off), c.named)
	case v.Interval.High-v.ML > wideFill*v.ML:
		text += " But the fills differ too much to tell; weigh more of them."
	case c.Before.VolumeML == 0:
	case math.Abs(c.Off) > measure.FarSpoon:
		text += fmt.Sprintf(" It may still be %s; weigh more fills to tell.", c.named)
	default:
		text += fmt.Sprintf(" That is within %s %% of %s: near enough.", percent(c.Off), c.named)
	}
	return text
}

// Older says which trials keep the former size.
func (c SpoonCheck) Older() string {
	if c.Spoon.BeforeML == 0 {
		return ""
	}
	text := fmt.Sprintf("Trials started from now on go by it; older ones stay with %s mL until you ask for the "+
		"change.", model.Number(model.RoundSignificant(c.Spoon.BeforeML, 4)))
	if model.IsStandardSpoon(c.Spoon.Name) {
		text += fmt.Sprintf(" %s is a standard spoon: its own size is used only in trials whose spoon set is "+
			"\"own\".", c.Spoon.Name)
	}
	return text
}

// CheckedSpoons lists the spoons checked with water that a powder was measured or weighed
// with, each once, the largest first. Trials set aside do not count.
func CheckedSpoons(p model.Profile, own model.OwnSpoons) []model.Spoon {
	var found []model.Spoon
	take := func(own model.OwnSpoons, set model.SpoonSet, name string) {
		s, ok := own.Spoon(set, name)
		seen := slices.ContainsFunc(found, func(one model.Spoon) bool { return one.Name == name })
		if ok && !s.Measured.IsZero() && !seen {
			found = append(found, s)
		}
	}
	for _, l := range p.LevelSpoons {
		take(own, p.SpoonSet(), l.Spoon)
	}
	for _, t := range p.Trials {
		if t.SetAside != "" {
			continue
		}
		then := own.At(t.Started)
		for _, s := range t.Steps {
			if s.Spoon != "" && !s.Weighed() {
				take(then, cmp.Or(t.SpoonSet, model.US), s.Spoon)
			}
		}
	}
	slices.SortStableFunc(found, func(a, b model.Spoon) int { return cmp.Compare(b.VolumeML, a.VolumeML) })
	return found
}

// percent writes a share in percent without its sign.
func percent(share float64) string { return model.Significant(100*math.Abs(share), 2) }
