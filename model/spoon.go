package model

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"strings"
	"time"
	"unicode/utf8"
)

// Volumes of a teaspoon, mL.
const (
	// USTeaspoonML is exact: 231 in³ to the gallon, 768 teaspoons to the
	// gallon (NIST Handbook 44, Appendix C).
	USTeaspoonML = 4.92892159375
	// MetricTeaspoonML is the labelling teaspoon, 21 CFR 101.9(b)(5)(viii).
	MetricTeaspoonML = 5.0
)

// Spoon is a measuring spoon, used level: struck off flat.
type Spoon struct {
	Name     string
	VolumeML float64
	// UncertaintyML is the standard uncertainty of the volume, mL, for a
	// spoon that was calibrated; 0 when unknown.
	UncertaintyML float64
	// Own is true for a spoon from the maker's own list.
	Own bool
	// WaterG, TemperatureC and Measured tell how the volume was found, for a spoon checked
	// with water.
	WaterG       []float64 // g of water per level spoon
	TemperatureC *float64  // of the water; nil DefaultTemperatureC
	Measured     time.Time // when; zero for a spoon that was not
	// BeforeML is the volume taken for the spoon until then, mL, and BeforeUncertaintyML
	// its standard uncertainty. 0 where the volume holds for all time.
	BeforeML            float64
	BeforeUncertaintyML float64
	// Reserved holds what is kept for later work, read and written back untouched.
	Reserved map[string]any
}

// Clone makes a copy that shares nothing that is ever changed.
func (s Spoon) Clone() Spoon {
	s.WaterG, s.TemperatureC, s.Reserved = slices.Clone(s.WaterG), copied(s.TemperatureC), maps.Clone(s.Reserved)
	return s
}

// CheckedText gives the volume of a spoon checked with water: "1 tsp holds 4.71 mL, checked
// 2026-03-02"; "" for one that was not.
func (s Spoon) CheckedText() string {
	if s.Measured.IsZero() {
		return ""
	}
	return fmt.Sprintf("%s holds %s mL, checked %s", s.Name, Significant(s.VolumeML, 3), s.Measured.Format(Day))
}

// SpoonSet names the volumes that the standard spoon names stand for.
type SpoonSet string

// The spoon sets.
const (
	US     SpoonSet = "us"     // US customary, 1 tsp = 4.92892 mL
	Metric SpoonSet = "metric" // 1 tsp = 5 mL
	Own    SpoonSet = "own"    // the maker's own list first, US customary for the rest
)

// SpoonSets lists the sets in the order a maker picks from.
func SpoonSets() []SpoonSet { return []SpoonSet{US, Metric, Own} }

// TeaspoonML gives the volume of the set's teaspoon, mL.
func (s SpoonSet) TeaspoonML() float64 {
	if s == Metric {
		return MetricTeaspoonML
	}
	return USTeaspoonML
}

// standardSpoons lists the standard names and their sizes in teaspoons, largest first.
// Dash, pinch and smidgen are common practice with no standard behind them; sets differ.
var standardSpoons = []struct {
	name      string
	teaspoons float64
}{
	{"1 tbsp", 3},
	{"1/2 tbsp", 1.5},
	{"1 tsp", 1},
	{"3/4 tsp", 0.75},
	{"1/2 tsp", 0.5},
	{"1/4 tsp", 0.25},
	{"1/8 tsp", 0.125},
	{"1/16 tsp", 0.0625},
	{"1/32 tsp", 0.03125},
}

// StandardSpoonNames lists the standard spoon names, largest first.
func StandardSpoonNames() []string {
	names := make([]string, len(standardSpoons))
	for i, s := range standardSpoons {
		names[i] = s.name
	}
	return names
}

// IsStandardSpoon reports whether name is one of StandardSpoonNames.
func IsStandardSpoon(name string) bool {
	return slices.Contains(StandardSpoonNames(), name)
}

// DefaultSpoons lists the spoons taken to be at hand until the maker says.
func DefaultSpoons() []string {
	return []string{"1 tsp", "1/2 tsp", "1/4 tsp", "1/8 tsp"}
}

// OwnSpoons is the maker's own list of spoons. The zero OwnSpoons is empty.
type OwnSpoons []Spoon

// own finds a spoon of the maker's own by name.
func (o OwnSpoons) own(name string) (Spoon, bool) {
	for _, s := range o {
		if s.Name == name {
			s.Own = true
			return s, true
		}
	}
	return Spoon{}, false
}

// Spoon finds a spoon by name. A standard name has the volume of the set; the
// maker's own spoon of that name counts only in the set Own, so that a list
// never redefines a standard name silently.
func (o OwnSpoons) Spoon(set SpoonSet, name string) (Spoon, bool) {
	own, isOwn := o.own(name)
	if isOwn && (set == Own || !IsStandardSpoon(name)) {
		return own, true
	}
	for _, s := range standardSpoons {
		if s.name == name {
			return Spoon{Name: name, VolumeML: s.teaspoons * set.TeaspoonML()}, true
		}
	}
	return Spoon{}, false
}

// At gives the list for a trial started then. A spoon that was checked with water later has
// the size it was taken to hold before.
func (o OwnSpoons) At(started time.Time) OwnSpoons {
	before := func(s Spoon) bool { return s.BeforeML > 0 && started.Before(s.Measured) }
	if started.IsZero() || !slices.ContainsFunc(o, before) {
		return o
	}
	out := slices.Clone(o)
	for i, s := range out {
		if before(s) {
			out[i] = Spoon{Name: s.Name, VolumeML: s.BeforeML, UncertaintyML: s.BeforeUncertaintyML, Own: s.Own}
		}
	}
	return out
}

// UsualSet gives the set that a new trial begins with: the maker's own once one of its
// standard spoons was checked with water.
func (o OwnSpoons) UsualSet() SpoonSet {
	if slices.ContainsFunc(o, func(s Spoon) bool { return IsStandardSpoon(s.Name) && !s.Measured.IsZero() }) {
		return Own
	}
	return US
}

// Names lists every known spoon, the maker's own among the standard ones, largest first,
// each once.
func (o OwnSpoons) Names() []string {
	names := StandardSpoonNames()
	for _, s := range o {
		if !slices.Contains(names, s.Name) {
			names = append(names, s.Name)
		}
	}
	volume := func(name string) float64 {
		s, _ := o.Spoon(US, name)
		return s.VolumeML
	}
	slices.SortStableFunc(names, func(a, b string) int { return cmp.Compare(volume(b), volume(a)) })
	return names
}

// Validate lists the problems of a list of own spoons.
func (o OwnSpoons) Validate() []Problem {
	c := &checker{}
	if n := len(o); n > maxSpoons {
		c.add("spoon", fmt.Sprintf("keep the list within %d: leave out those no longer used", maxSpoons),
			"%d spoons are not possible", n)
	}
	seen := map[string]bool{}
	for i, s := range o {
		at := func(key string) string { return fmt.Sprintf("spoon[%d].%s", i, key) }
		switch {
		case strings.TrimSpace(s.Name) == "":
			c.add(at("name"), `give it one, as in name = "blue scoop"`, "a spoon has no name")
		case seen[s.Name]:
			c.add(at("name"), "keep one of the two", "the spoon %q is listed twice", s.Name)
		case utf8.RuneCountInString(s.Name) > MaxNameLength:
			c.add(at("name"), fmt.Sprintf("keep it within %d characters", MaxNameLength), "a spoon's name is too long")
		}
		c.text(at("name"), "a spoon's name", s.Name, false)
		if strings.ContainsAny(s.Name, ",+") {
			c.add(at("name"), "name it without",
				"the spoon %q has a comma or a plus in its name, which part spoons from each other", s.Name)
		}
		seen[s.Name] = true
		if !(s.VolumeML >= least && s.VolumeML <= 1000) {
			c.add(at("volume_ml"), "give its level volume in millilitres, above 0 and up to 1000",
				"a spoon of %s mL is not possible", Number(s.VolumeML))
		}
		if !(s.UncertaintyML >= 0 && s.UncertaintyML <= s.VolumeML) || Tiny(s.UncertaintyML) {
			c.add(at("standard_uncertainty_ml"),
				"give it in millilitres, 0 or more and below the volume, or leave it out",
				"a standard uncertainty of %s mL is not possible here", Number(s.UncertaintyML))
		}
		for _, p := range s.checked() {
			p.Path = at(p.Path)
			c.problems = append(c.problems, p)
		}
	}
	return c.problems
}

// checked lists the problems with how the volume was found, each with its key.
func (s Spoon) checked() []Problem {
	c := &checker{}
	c.kept("", "water_g", s.Reserved, len(s.WaterG) > 0)
	c.kept("", "temperature_c", s.Reserved, s.TemperatureC != nil)
	c.kept("", "measured", s.Reserved, !s.Measured.IsZero())
	if len(s.WaterG) > maxSpoons {
		c.add("water_g", fmt.Sprintf("keep them within %d", maxSpoons), "%d weighings are not possible", len(s.WaterG))
	}
	for i, g := range s.WaterG {
		if !(g > 0 && g <= 1000) {
			c.add("water_g", "give the grams of one level spoon of water, above 0",
				"weighing %d of %s g is not possible", i+1, Number(g))
		}
	}
	if s.TemperatureC != nil {
		c.number("temperature_c", "a temperature of water", "°C", *s.TemperatureC, 0, 100)
	}
	if s.BeforeML != 0 && s.Measured.IsZero() {
		c.add("before_ml", "say when the volume was measured, as in measured = 2026-05-03T10:00:00Z",
			"the size of before is given, but not until when it holds")
	}
	c.optional("before_ml", "a spoon volume", "mL", s.BeforeML, 1000)
	if s.BeforeUncertaintyML != 0 {
		c.number("before_standard_uncertainty_ml", "a standard uncertainty", "mL", s.BeforeUncertaintyML, 0, s.BeforeML)
	}
	return c.problems
}

// Redefines lists the standard names to which the maker's own list gives another volume;
// they count only in trials whose spoon set is "own". A spoon checked with water is left
// out: its maker knows, and UsualSet has new trials use it.
func (o OwnSpoons) Redefines() []string {
	var names []string
	for _, s := range o {
		if IsStandardSpoon(s.Name) && s.Measured.IsZero() {
			names = append(names, s.Name)
		}
	}
	return names
}

// SpoonCount is a number of level spoons of one size.
type SpoonCount struct {
	Spoon string
	Count int     // 1 or more
	EachG float64 // g in one of them
	Size  Spoon   // the spoon by its set; the zero value where it is not known
}

// LevelSpoons writes a number of level spoons of one size: "one level teaspoon", "3 level
// 1/4 tsp".
func LevelSpoons(n int, spoon string) string {
	switch {
	case n == 1 && spoon == "1 tsp":
		return "one level teaspoon"
	case n == 1:
		return "one level " + spoon
	default:
		return fmt.Sprintf("%d level %s", n, spoon)
	}
}
