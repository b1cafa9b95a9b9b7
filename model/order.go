package model

import (
	"errors"
	"fmt"
	"math"
	"strings"
)

// maxJarML is the largest jar, mL; a larger one is a slip of the unit (chosen).
const maxJarML = 20000.0

// Order holds what a maker asks of a batch.
type Order struct {
	TotalG float64 // what is to come out, g; 0: the portions, or as much as the jar holds
	JarML  float64 // the jar's volume, mL; 0: no jar. With portions it is each portion's
	Extras []Extra
	// Portions counts the single portions that share the total; 0 for one bowl.
	Portions int
	PortionG float64 // each, g; 0: its part of the total
	// AllowanceShare, of the total, and AllowanceG, g, are made on top for what sticks to
	// the bowl; 0 for none.
	AllowanceShare float64
	AllowanceG     float64
	Spoons         []string // at hand; nil means DefaultSpoons
}

// Check complains about an order that cannot be made.
func (o Order) Check() error {
	c := &checker{}
	c.order(o)
	if len(c.problems) > 0 {
		first := c.problems[0]
		return fmt.Errorf("%s; %s", first.What, first.Fix)
	}
	if o.TotalG == 0 && o.JarML == 0 && (o.Portions == 0 || o.PortionG == 0) {
		return errors.New("a batch needs a size: give the total in grams, portions and grams each, or the jar in " +
			"millilitres")
	}
	return nil
}

// MaxPortions is the largest number of portions; a larger one is a slip (chosen).
const MaxPortions = 10000

// order complains about the sizes and extras of a batch, under the paths of a
// recipe's file.
func (c *checker) order(o Order) {
	c.optional("recipe.total_g", "a total", "g", o.TotalG, MaxGrams)
	c.number("recipe.portions", "a number of portions", "", float64(o.Portions), 0, MaxPortions)
	c.optional("recipe.portion_g", "a portion", "g", o.PortionG, MaxGrams)
	if o.PortionG > 0 && o.Portions == 0 {
		c.add("recipe.portions", "give how many, as in portions = 20",
			"a portion has a weight, but there is no number of portions")
	}
	if sum := float64(o.Portions) * o.PortionG; sum > 0 && o.TotalG > 0 && math.Abs(sum/o.TotalG-1) > 0.01 {
		c.add("recipe.portion_g", "leave one of the three out", "%d portions of %s g are not the total of %s g",
			o.Portions, Number(o.PortionG), Number(o.TotalG))
	}
	c.optional("recipe.jar_ml", "a jar", "mL", o.JarML, maxJarML)
	c.number("recipe.allowance_share", "an allowance for the bowl", "of the total", o.AllowanceShare, 0, 1)
	c.number("recipe.allowance_g", "an allowance for the bowl", "g", o.AllowanceG, 0, MaxGrams)
	sum := 0.0
	for i, e := range o.Extras {
		path := fmt.Sprintf("extra[%d]", i)
		if strings.TrimSpace(e.Name) == "" {
			c.add(path+".name", `give it one, as in name = "honey"`, "an extra has no name")
		}
		c.text(path+".name", "the name of an extra", e.Name, false)
		c.text(path+".notes", "the notes", e.Notes, true)
		choice(c, path+".counts", "what an extra counts as", e.Counts, CountsAs()...)
		switch sum += e.Share; {
		case !(e.Share > 0 && e.Share < 1):
			c.add(path+".share", "give a share of the total above 0 and below 1, as in 0.03 for 3 %",
				"a share of %s for %q is not possible", Number(e.Share), e.Name)
		case sum >= 1:
			c.add(path+".share", "keep the shares of all extras together below 1",
				"the extras so far make up %s of the total, which leaves no room for powder and liquid",
				Number(RoundSignificant(sum, 4)))
		}
	}
}

// Split divides a gram of paste with extras at R, g/g. The powder takes R of liquid, of
// which liquid extras are part; oil, dry extras and those without a kind count as neither.
// liquid is the amount to add, below 0 where the liquid extras alone are more than the
// powder takes.
func Split(extras []Extra, r float64) (powder, liquid, counted float64) {
	paste := 1.0
	for _, e := range extras {
		if e.Counts == CountsLiquid {
			counted += e.Share
		} else {
			paste -= e.Share
		}
	}
	powder = paste / (1 + r)
	return powder, powder*r - counted, counted
}

// Counts says how an extra counts in a paste: liquid is part of what the powder takes up,
// oil and dry count as neither powder nor liquid.
type Counts string

// What an extra may count as.
const (
	CountsLiquid Counts = "liquid" // water-like: thins the paste as the liquid does
	CountsOil    Counts = "oil"    // its own phase
	CountsDry    Counts = "dry"
)

// CountsAs lists what an extra may count as.
func CountsAs() []Counts { return []Counts{CountsLiquid, CountsOil, CountsDry} }

// Role is the moment an extra goes in (chosen: common practice at the bench).
type Role int

// The roles, in the order of addition.
const (
	WithPowders  Role = iota // dry extras
	WithLiquid               // the water phase
	Solubiliser              // stirred into its oil
	OilPhase                 // oils, waxes and butters
	Preservative             // last
)

// Extra is something else in a batch, as its share of the total.
type Extra struct {
	Name   string
	Share  float64 // of the total, above 0; all extras together below 1
	Counts Counts  // the maker's word; "" leaves it to the table of words
	Notes  string
}

// Usual looks the extra up in the table of words. known is false for a name that is not in
// it, which counts as liquid until the maker says.
func (e Extra) Usual() (c Counts, known bool) {
	if w, ok := extraWord(e.Name); ok {
		return w.counts, true
	}
	return CountsLiquid, false
}

// Kind gives the maker's word for how the extra counts, else the usual one.
func (e Extra) Kind() Counts {
	if e.Counts != "" {
		return e.Counts
	}
	c, _ := e.Usual()
	return c
}

// WithKind writes down in the extra how it counts.
func (e Extra) WithKind() Extra {
	e.Counts = e.Kind()
	return e
}

// Density gives the extra's density, g/mL: its liquid's, or the usual one for how it counts
// (dry 1.5, chosen).
func (e Extra) Density() float64 {
	kind := e.Kind()
	if w, ok := extraWord(e.Name); ok && w.counts == kind && w.like != "" {
		density, _ := LiquidDensity(w.like, DefaultTemperatureC)
		return density
	}
	switch kind {
	case CountsDry:
		return 1.5
	case CountsOil:
		density, _ := LiquidDensity("vegetable oil", DefaultTemperatureC)
		return density
	default:
		return 1
	}
}

// Role gives the moment the extra goes in.
func (e Extra) Role() Role {
	if w, ok := extraWord(e.Name); ok && w.role != 0 {
		return w.role
	}
	switch e.Kind() {
	case CountsDry:
		return WithPowders
	case CountsOil:
		return OilPhase
	default:
		return WithLiquid
	}
}

// Unsorted lists the extras whose names are not in the table of words, where the maker has
// not said how they count.
func Unsorted(extras []Extra) []string {
	var names []string
	for _, e := range extras {
		if _, known := e.Usual(); !known && e.Counts == "" {
			names = append(names, e.Name)
		}
	}
	return names
}

// Meant guesses a misspelt name: the nearest word among extras and acids. It is "" for a
// known name, or one near to none.
func (e Extra) Meant() string {
	if _, known := e.Usual(); known || IsAcid(e.Name) {
		return ""
	}
	var words []string
	for _, k := range extraKinds {
		words = append(words, k.words...)
	}
	for _, k := range acidKinds {
		words = append(words, k.words...)
	}
	return Misspelt(e.Name, words)
}
