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
	Spoon  model.Spoon // as it stands in the maker's own list from now on
	Before model.Spoon // as it was taken to be; without a volume where it was not known
	Volume measure.Volume
	Off    float64 // how far it is from what its name, or the list, says, as a share of that; 0 without
	Far    bool    // so far that it is pointed at
}

// leastWater is how many weighings of water a check needs (METHOD, spoon check).
const leastWater = 3

// CheckSpoon finds what a level spoon holds from weighings of its water, g, each
// of one spoon, on a scale of resolutionG at temperature °C, nil for the usual
// one. The spoon's own list has its former size, if any.
func CheckSpoon(d model.OwnSpoons, name string, grams []float64, temperatureC *float64, resolutionG float64,
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
	c.Volume = v
	c.Before, _ = d.Spoon(model.Own, name)
	named := c.Before.VolumeML
	if c.Before.BeforeML > 0 { // checked before: its name says what it was taken for until then
		named = c.Before.BeforeML
	}
	if standard, known := (model.OwnSpoons{}).Spoon(model.US, name); known {
		named = standard.VolumeML
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

// With is the list with the checked spoon in it.
func (c SpoonCheck) With(d model.OwnSpoons) model.OwnSpoons {
	out := slices.Clone(d)
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
	case c.Before.VolumeML == 0:
	case c.Far && c.Off > 0:
		text += fmt.Sprintf(" That is %s %% more than its name says: go by what it holds.", percent(c.Off))
	case c.Far:
		text += fmt.Sprintf(" That is %s %% less than its name says: go by what it holds.", percent(c.Off))
	default:
		text += fmt.Sprintf(" That is within %s %% of what its name says: near enough.", percent(c.Off))
	}
	return text
}

// Older says which trials the size does not change.
func (c SpoonCheck) Older() string {
	if c.Spoon.BeforeML == 0 {
		return ""
	}
	text := fmt.Sprintf("Trials started from now on go by it; older ones stay with %s mL until you ask for the "+
		"change.", model.Number(model.RoundSignificant(c.Spoon.BeforeML, 4)))
	if model.IsStandardSpoon(c.Spoon.Name) {
		text += fmt.Sprintf(" %s is a standard name: choose the spoon set own in a trial for your own one.",
			c.Spoon.Name)
	}
	return text
}

// CheckedSpoons are the spoons checked with water that a powder's trials were made
// with, or its level spoons weighed, each once, the largest first.
func CheckedSpoons(p model.Profile, d model.OwnSpoons) []model.Spoon {
	var found []model.Spoon
	take := func(d model.OwnSpoons, set model.SpoonSet, name string) {
		s, ok := d.Spoon(set, name)
		seen := slices.ContainsFunc(found, func(one model.Spoon) bool { return one.Name == name })
		if ok && !s.Measured.IsZero() && !seen {
			found = append(found, s)
		}
	}
	for _, l := range p.LevelSpoons {
		take(d, p.SpoonSet(), l.Spoon)
	}
	for _, t := range p.Trials {
		if t.SetAside != "" {
			continue
		}
		then := d.At(t.Started)
		for _, s := range t.Steps {
			if s.Spoon != "" && !s.Weighed() {
				take(then, cmp.Or(t.SpoonSet, model.US), s.Spoon)
			}
		}
	}
	slices.SortStableFunc(found, func(a, b model.Spoon) int { return cmp.Compare(b.VolumeML, a.VolumeML) })
	return found
}

// percent is the size of a share, whichever way it goes.
func percent(share float64) string { return model.Significant(100*math.Abs(share), 2) }
