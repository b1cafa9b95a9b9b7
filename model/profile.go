package model

import (
	"cmp"
	"fmt"
	"maps"
	"slices"
	"time"
)

// Powder names the subject of a profile: one powder, one lot.
type Powder struct {
	Name          string
	Lot           string
	Family        Family  // "" means Other
	SolidDensity  float64 // g/mL of the solid itself; 0 unknown
	KeepFromMetal bool
	Fizzes        *bool    // with a drop of vinegar; nil not tested
	Allergens     []string // to be named on what is made of it; nil as the family has it
	Archived      bool     // kept, but hidden from the shelf and from lists
	Notes         string
	Packings      []Packing // level spoons filled loose and tapped
}

// Title gives the name, with the lot where there is one.
func (p Powder) Title() string {
	if p.Lot == "" {
		return p.Name
	}
	return p.Name + " · lot " + p.Lot
}

// Kind gives the powder's family, Other where none was given.
func (p Powder) Kind() Family {
	if p.Family == "" {
		return Other
	}
	return p.Family
}

// Profile holds everything known of one powder and lot: one file on the shelf.
type Profile struct {
	Powder      Powder
	LevelSpoons []LevelSpoon
	Trials      []Trial
	// Reserved holds tables kept for later work, read and written back
	// untouched.
	Reserved map[string]any
}

// Clone makes a copy that shares nothing that is ever changed.
func (p Profile) Clone() Profile {
	c := p
	c.Powder.Fizzes, c.Powder.Allergens = copied(p.Powder.Fizzes), slices.Clone(p.Powder.Allergens)
	c.Powder.Packings = slices.Clone(p.Powder.Packings)
	for i := range c.Powder.Packings {
		c.Powder.Packings[i] = c.Powder.Packings[i].Clone()
	}
	c.LevelSpoons = slices.Clone(p.LevelSpoons)
	for i := range c.LevelSpoons {
		c.LevelSpoons[i].Grams = slices.Clone(c.LevelSpoons[i].Grams)
	}
	c.Trials = slices.Clone(p.Trials)
	for i := range c.Trials {
		c.Trials[i] = c.Trials[i].Clone()
	}
	c.Reserved = maps.Clone(p.Reserved)
	return c
}

// State says whether a trial is still being made.
type State string

// The states of a trial. A file without one holds an open trial.
const (
	Open State = "open"
	Done State = "done"
)

// By names the way an amount was measured.
type By string

// Ways of measuring the liquid at the start.
const (
	ByWeight By = "weight"
	BySpoon  By = "spoon"
)

// Trial is one thickening trial: powder into liquid, step by step.
type Trial struct {
	Started  time.Time
	State    State
	SetAside string // a reason: kept, shown, not used
	Liquid   string // "" means water
	LiquidG  float64
	LiquidBy By
	// LiquidSpoon and LiquidCount record how the liquid was measured when
	// LiquidBy is BySpoon; LiquidG holds the grams all the same.
	LiquidSpoon   string
	LiquidCount   int
	LiquidDensity float64  // g/mL; 0 means the usual one of the liquid by its name
	TemperatureC  *float64 // nil means not recorded
	ResolutionG   float64  // of the scale at the dish; 0 means DefaultResolutionG
	SpoonSet      SpoonSet // "" means US
	Spoons        []string // spoons at hand
	Aim           float64  // level; 0 means DefaultAim
	LevelStep     float64  // looks are to the nearest 1 or 0.5; 0 means 1
	Tolerance     float64  // half-width in ln R at which the trial may stop; 0 means DefaultTolerance
	RestS         *int     // wait before a look, s; nil means the family's
	PotG          float64  // what the scale shows for the open pot of powder before the first spoon, g; 0 not weighed
	Match         *Match   // the reference dish; nil where levels are named
	Steps         []Step
	Covered       bool        // the dish is kept covered for later looks
	Later         []LaterLook // of the dish as it stands after the last step, in order of time
	Measured      *Measured   // what is read beside or instead of looks; nil nothing
	Acid          *AcidTest   // acid added to the dish as it stands at the end; nil none
	// Reserved holds tables kept for later work, read and written back
	// untouched.
	Reserved map[string]any
}

// DefaultTolerance is the half-width of the fit in ln R at which a trial may stop (chosen).
const DefaultTolerance = 0.12

// Clone makes a copy that shares nothing that is ever changed.
func (t Trial) Clone() Trial {
	c := t
	c.Spoons = slices.Clone(t.Spoons)
	c.Steps = slices.Clone(t.Steps)
	for i := range c.Steps {
		c.Steps[i] = c.Steps[i].Clone()
	}
	c.Match = copied(t.Match)
	c.Later = slices.Clone(t.Later)
	for i := range c.Later {
		c.Later[i] = c.Later[i].Clone()
	}
	c.TemperatureC, c.RestS = copied(t.TemperatureC), copied(t.RestS)
	c.Measured = copied(t.Measured)
	if t.Acid != nil {
		a := t.Acid.Clone()
		c.Acid = &a
	}
	c.Reserved = maps.Clone(t.Reserved)
	return c
}

// WithDefaults fills in everything the trial leaves out, for a powder of family f.
func (t Trial) WithDefaults(f Family) Trial {
	t.State = cmp.Or(t.State, Open)
	t.Liquid = cmp.Or(t.Liquid, "water")
	t.LiquidBy = cmp.Or(t.LiquidBy, ByWeight)
	t.ResolutionG = cmp.Or(t.ResolutionG, DefaultResolutionG)
	t.SpoonSet = cmp.Or(t.SpoonSet, US)
	t.Aim = cmp.Or(t.Aim, DefaultAim)
	if t.Match != nil {
		m := *t.Match
		m.Level = cmp.Or(m.Level, t.Aim)
		t.Match, t.Aim = &m, m.Level
	}
	t.LevelStep = cmp.Or(t.LevelStep, 1)
	t.Tolerance = cmp.Or(t.Tolerance, DefaultTolerance)
	if t.RestS == nil {
		rest := f.DefaultRestS()
		t.RestS = &rest
	}
	return t
}

// Rest gives the trial's wait before a look, s, for a powder of family f.
func (t Trial) Rest(f Family) int { return *t.WithDefaults(f).RestS }

// Density gives the density of the trial's liquid, g/mL; ok is false where the maker has to
// give it.
func (t Trial) Density() (gPerML float64, ok bool) {
	if t.LiquidDensity > 0 {
		return t.LiquidDensity, true
	}
	temperature := DefaultTemperatureC
	if t.TemperatureC != nil {
		temperature = *t.TemperatureC
	}
	return LiquidDensity(cmp.Or(t.Liquid, "water"), temperature)
}

// Used reports whether the trial counts towards the powder's ratio by levels.
func (t Trial) Used() bool { return t.Finished() && t.Match == nil }

// Finished reports whether the trial is done and not set aside, by levels or side by side.
func (t Trial) Finished() bool { return t.State == Done && t.SetAside == "" }

// Looks counts the steps with a look.
func (t Trial) Looks() int {
	n := 0
	for _, s := range t.Steps {
		if s.Looked {
			n++
		}
	}
	return n
}

// Add says what a step does to the dish.
type Add string

// What a step may do.
const (
	AddPowder Add = "powder"
	AddLiquid Add = "liquid"
	Removed   Add = "removed" // paste taken out: powder and liquid shrink alike
	AddNone   Add = "none"    // the same dish looked at again
)

// Step is one step of a trial: an addition, and the look after it.
type Step struct {
	At    time.Time // zero means not recorded
	Add   Add
	Spoon string
	Count int     // spoons; 0 with a spoon means 1
	Grams float64 // weighed; when above 0 it wins over the spoon
	// Looked says whether a look was made. Level is its level, 0 to 7; beside a reference
	// dish, Beside is its result instead, "" where levels are named.
	Looked bool
	Level  float64
	Beside Beside
	// Reading is the value measured after the step, in the unit of the trial's
	// Measured; 0 not measured.
	Reading float64
	// LevelStirred is the level read just after stirring, where Level was read
	// after the rest; nil means not read.
	LevelStirred *float64
	// RestedS is the wait taken before the look, s; nil means not recorded.
	RestedS *int
	// LeftOut keeps the look out of the answer; it is shown all the same.
	LeftOut bool
	PotG    float64 // the pot of powder after this step, g; 0 not weighed
	Marks   []string
	Note    string
	// Reserved holds what is kept for later work, read and written back untouched.
	Reserved map[string]any
}

// Clone makes a copy that shares nothing that is ever changed.
func (s Step) Clone() Step {
	s.Marks, s.Reserved = slices.Clone(s.Marks), maps.Clone(s.Reserved)
	s.RestedS, s.LevelStirred = copied(s.RestedS), copied(s.LevelStirred)
	return s
}

// Weighed reports whether the addition was weighed.
func (s Step) Weighed() bool { return s.Grams > 0 }

// Rested gives the wait in whole seconds from the step to now, as a file may hold it. It is
// nil where the step has no time, or lies so long ago that the wait was no rest.
func (s Step) Rested(now time.Time) *int {
	seconds := int(now.Sub(s.At).Seconds())
	if s.At.IsZero() || seconds < 0 || seconds > MaxRestS {
		return nil
	}
	return &seconds
}

// Amount says how much a step added or removed: "2 × 1/4 tsp" or "1.14 g"; "" for neither.
func (s Step) Amount() string {
	switch {
	case s.Weighed():
		return Number(s.Grams) + " g"
	case s.Spoon != "" && s.Spoons() > 1:
		return fmt.Sprintf("%d × %s", s.Spoons(), s.Spoon)
	default:
		return s.Spoon
	}
}

// Text says what the step did to the dish.
func (s Step) Text() string {
	switch s.Add {
	case AddLiquid:
		return s.Amount() + " of liquid"
	case Removed:
		return s.Amount() + " of paste taken out"
	case AddNone:
		return "the same dish again"
	default:
		return s.Amount() + " of powder"
	}
}

// In says in a few words what the step did to a dish of the named liquid: "2 × 1/4 tsp
// powder", "3 g water", "5 g taken out", "looked again".
func (s Step) In(liquid string) string {
	switch s.Add {
	case AddLiquid:
		return s.Amount() + " " + liquid
	case Removed:
		return s.Amount() + " taken out"
	case AddNone:
		return "looked again"
	default:
		return s.Amount() + " powder"
	}
}

// Spoons counts the spoons of a spoon addition, at least 1.
func (s Step) Spoons() int { return max(s.Count, 1) }

// copied makes a pointer to a copy, nil for nil.
func copied[T any](p *T) *T {
	if p == nil {
		return nil
	}
	v := *p
	return &v
}

// Again sets up a new trial like t: the same liquid, spoons, aim and rest. It has no steps,
// no reference dish and no start yet.
func (t Trial) Again() Trial {
	t = t.Clone()
	t.Started = Trial{}.Started
	t.State, t.SetAside = Open, ""
	t.PotG, t.Match, t.Steps, t.Reserved = 0, nil, nil, nil
	t.Covered, t.Later, t.Acid = false, nil, nil
	return t
}

// Entry is one powder and lot as the shelf holds it.
type Entry struct {
	Slug    string // its name on the shelf, the file's without .toml; "" before it is first saved
	Path    string // its file
	Profile Profile
	// Read is the shelf's own note of what the file held when it was read or last
	// saved; a save compares it with what is there then.
	Read any
}

// RecipeEntry is one recipe as the shelf holds it; its fields are those of Entry.
type RecipeEntry struct {
	Slug   string
	Path   string
	Recipe Recipe
	Read   any
}
