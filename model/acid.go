package model

import (
	"fmt"
	"slices"
	"time"
)

// Fizzing says whether a powder fizzes under a drop of vinegar, as far as is known.
type Fizzing int

// What may be known.
const (
	DoesNotFizz Fizzing = iota
	FizzUntested
	Fizzes
)

// Fizzing returns what the maker saw. Where nothing was tried, a name that says carbonate
// fizzes, and a mineral, a clay or a powder of no known family is untested. Flours,
// starches and plants hold no carbonate to speak of.
func (p Powder) Fizzing() Fizzing {
	switch {
	case p.Fizzes != nil && *p.Fizzes:
		return Fizzes
	case p.Fizzes != nil:
		return DoesNotFizz
	case IsCarbonate(p.Name):
		return Fizzes
	}
	switch p.Kind() {
	case PlainClay, SwellingClay, Mineral, Other:
		return FizzUntested
	default:
		return DoesNotFizz
	}
}

// IsCarbonate reports whether a name belongs to something that gives off gas with an acid.
func IsCarbonate(name string) bool {
	return hasWord(name, "carbonate", "bicarbonate", "baking soda", "washing soda", "soda", "chalk", "whiting",
		"limestone", "marble", "dolomite", "calcite", "eggshell", "oyster shell", "coral") &&
		!hasWord(name, "caustic soda", "soda water")
}

// acidKinds lists names of what is sour enough to make a carbonate foam, about pH 4.5 and
// below (chosen). Names with one of the words are acids, unless they have one of the others
// too.
var acidKinds = []struct{ words, unless []string }{
	{
		[]string{"acid", "aha", "bha"},
		[]string{
			"hyaluronic", "stearic", "palmitic", "myristic", "lauric", "oleic", "linoleic", "linolenic", "fatty",
			"amino", "nucleic", "folic", "boric", "silicic", "alginic",
		},
	},
	{[]string{
		"vinegar", "citric", "ascorbic", "lactic", "malic", "tartaric", "acetic", "glycolic", "salicylic",
		"cream of tartar", "vitamin c", "yoghurt", "yogurt", "buttermilk", "kefir", "kombucha", "cider", "verjuice",
		"sour",
	}, nil},
	{
		[]string{"hibiscus", "amla", "acerola", "baobab", "tamarind"},
		[]string{"oil", "butter", "hydrosol", "hydrolate", "leaf"},
	},
	{
		[]string{
			"lemon", "lime", "citrus", "orange", "grapefruit", "pineapple", "apple", "grape", "wine", "cranberry",
			"currant", "gooseberry", "raspberry", "strawberry", "kiwi", "pomegranate", "passion fruit", "rhubarb",
			"sea buckthorn", "rosehip", "rose hip",
		},
		[]string{
			"oil", "hydrosol", "hydrolate", "flower", "blossom", "balm", "grass", "verbena", "clay", "water", "ochre",
			"seed", "leaf", "leaves", "wax", "mint", "fragrance", "chalk", "pigment", "oxide", "mica", "kaolin",
			"slaked", "hydrated", "burnt",
		},
	},
}

// IsAcid reports whether a name belongs to something sour enough to make a carbonate fizz.
func IsAcid(name string) bool {
	for _, k := range acidKinds {
		if hasWord(name, k.words...) && !hasWord(name, k.unless...) {
			return true
		}
	}
	return false
}

// PHBy names the way a pH is read.
type PHBy string

// The ways.
const (
	ByStrip PHBy = "strip"
	ByMeter PHBy = "meter"
)

// AcidTest records acid added to the finished dish of a trial, with the pH after each
// addition.
type AcidTest struct {
	Acid       string  // "citric acid 10 %"
	GramsPerML float64 // of the solution; 0 means 1
	DropG      float64 // of one drop, weighed by twenty; 0 unknown
	By         PHBy
	Note       string  // of a meter: its calibration
	PHStep     float64 // pH is read to the nearest step; 0 means 0.5 for a strip, 0.1 for a meter
	PasteG     float64 // of paste that the acid goes into
	TargetPH   float64 // the pH wanted; 0 means DefaultPH
	Steps      []AcidStep
}

// AcidStep is one addition of acid, or none, and the reading after it.
type AcidStep struct {
	At      time.Time
	Grams   float64 // weighed; wins over drops and spoon
	Drops   int
	Spoon   string
	Count   int // spoons; 0 means 1
	PH      float64
	WaitedS *int     // before the reading, s
	Level   *float64 // the paste as it looks then, 0 to 7; nil not looked at
	Marks   []string
	Note    string
}

// DefaultPH is the target pH of a paste for the skin unless its maker says otherwise
// (chosen). It is a little above the skin's own, 4.7 (Lambers et al. 2006, Int. J. Cosmet.
// Sci. 28, 359-370).
const DefaultPH = 5.5

// Target gives the target pH, DefaultPH unless another was given.
func (a AcidTest) Target() float64 {
	if a.TargetPH == 0 {
		return DefaultPH
	}
	return a.TargetPH
}

// Words names the acid, the mass of paste, and how pH is read.
func (a AcidTest) Words() string {
	by := ByStrip
	if a.By != "" {
		by = a.By
	}
	text := fmt.Sprintf("%s into %s g of paste, pH by %s to the nearest %s", a.Acid, Number(a.PasteG), by,
		Number(a.Step()))
	if a.Note != "" {
		text += " (" + a.Note + ")"
	}
	if a.DropG > 0 {
		text += fmt.Sprintf(", a drop %s g", Number(a.DropG))
	}
	return text
}

// Clone makes a copy that shares nothing that is ever changed.
func (a AcidTest) Clone() AcidTest {
	a.Steps = slices.Clone(a.Steps)
	for i, s := range a.Steps {
		a.Steps[i].Marks = slices.Clone(s.Marks)
		a.Steps[i].WaitedS, a.Steps[i].Level = copied(s.WaitedS), copied(s.Level)
	}
	return a
}

// Plain gives the pH of the paste before any acid, the last reading where it was read
// again. ok is false where acid went in first.
func (a AcidTest) Plain() (ph float64, ok bool) {
	for _, s := range a.Steps {
		if s.Adds() {
			break
		}
		ph, ok = s.PH, true
	}
	return ph, ok
}

// Step gives the smallest difference of pH that is read, in units of pH.
func (a AcidTest) Step() float64 {
	switch {
	case a.PHStep > 0:
		return a.PHStep
	case a.By == ByMeter:
		return 0.1
	default:
		return 0.5
	}
}

// GramsOf returns the acid solution a step added, g. ok is false where a drop or a spoon
// has no weight.
func (a AcidTest) GramsOf(s AcidStep, set SpoonSet, own OwnSpoons) (grams float64, ok bool) {
	switch {
	case s.Grams > 0:
		return s.Grams, true
	case s.Drops > 0:
		return float64(s.Drops) * a.DropG, a.DropG > 0
	case s.Spoon != "":
		spoon, found := own.Spoon(set, s.Spoon)
		each := a.GramsPerML
		if each == 0 {
			each = 1
		}
		return float64(max(s.Count, 1)) * spoon.VolumeML * each, found
	default:
		return 0, true
	}
}

// Adds reports whether acid went in before the reading.
func (s AcidStep) Adds() bool { return s.Grams > 0 || s.Drops > 0 || s.Spoon != "" }

// Text says what a step added.
func (s AcidStep) Text() string {
	switch {
	case s.Grams > 0:
		return Number(s.Grams) + " g"
	case s.Drops > 0:
		return fmt.Sprintf("%d drops", s.Drops)
	case s.Spoon != "":
		return Step{Spoon: s.Spoon, Count: s.Count}.Amount()
	default:
		return "nothing"
	}
}

// Validate lists the problems of an acid test, by the keys of its table.
func (a AcidTest) Validate() []Problem {
	c := &checker{}
	c.text("acid", "the acid's name", a.Acid, false)
	c.text("note", "the note", a.Note, true)
	choice(c, "by", "the way of reading", a.By, ByStrip, ByMeter)
	c.optional("grams_per_ml", "a density", "g/mL", a.GramsPerML, maxDensity)
	c.optional("drop_g", "a drop", "g", a.DropG, 5)
	c.optional("target_ph", "a target pH", "", a.TargetPH, 14)
	c.optional("ph_step", "what pH is read to", "", a.PHStep, 2)
	if !(a.PasteG > 0 && a.PasteG <= MaxGrams) {
		c.add(
			"paste_g", "give the grams of paste, as in paste_g = 30.0", "%s g of paste is not possible",
			Number(a.PasteG),
		)
	}
	for i, s := range a.Steps {
		at := fmt.Sprintf("step[%d]", i)
		c.number(at+".ph", "a pH", "", s.PH, 0, 14)
		c.optional(at+".grams", "an addition", "g", s.Grams, MaxGrams)
		c.count(at+".drops", s.Drops)
		c.count(at+".count", s.Count)
		if s.Level != nil {
			c.number(at+".level", "a level", "", *s.Level, MinLevel, MaxLevel)
		}
		if s.WaitedS != nil {
			c.number(at+".waited_s", "a wait", "s", float64(*s.WaitedS), 0, MaxRestS)
		}
		for _, m := range s.Marks {
			choice(c, at+".marks", "the mark", m, Marks()...)
		}
	}
	return c.problems
}
