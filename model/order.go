package model

import (
	"errors"
	"fmt"
	"math"
	"strings"
)

// maxJarML is the largest jar, mL; beyond it is a slip of the unit (chosen).
const maxJarML = 20000.0

// Order is what a maker wants of a batch.
type Order struct {
	TotalG float64 // what is to come out, g; 0: the portions, or as much as the jar holds
	JarML  float64 // the jar's volume, mL; 0: no jar. With portions it is each portion's
	Extras []Extra
	// Portions is how many single portions the total is; 0 for one bowl.
	Portions int
	PortionG float64 // each, g; 0: its part of the total
	// What sticks to the bowl is made on top: AllowanceShare of the total and
	// AllowanceG grams; 0 for none.
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
		return errors.New("a batch needs a size: give the total in grams, portions and grams each, or the jar in millilitres")
	}
	return nil
}

// MaxPortions is the largest number of portions; beyond it is a slip (chosen).
const MaxPortions = 10000

// order complains about the sizes and extras of a batch, under the paths of a
// recipe's file.
func (c *checker) order(o Order) {
	c.optional("recipe.total_g", "a total", "g", o.TotalG, MaxGrams)
	c.number("recipe.portions", "a number of portions", "", float64(o.Portions), 0, MaxPortions)
	c.optional("recipe.portion_g", "a portion", "g", o.PortionG, MaxGrams)
	if o.PortionG > 0 && o.Portions == 0 {
		c.add("recipe.portions", "give how many, as in portions = 20", "a portion has a weight, but there is no number of portions")
	}
	if sum := float64(o.Portions) * o.PortionG; sum > 0 && o.TotalG > 0 && math.Abs(sum/o.TotalG-1) > 0.01 {
		c.add("recipe.portion_g", "leave one of the three out", "%d portions of %s g are not the total of %s g", o.Portions, Number(o.PortionG), Number(o.TotalG))
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
		choice(c, path+".counts", "what an extra counts as", e.Counts, CountsAs()...)
		switch sum += e.Share; {
		case !(e.Share > 0 && e.Share < 1):
			c.add(path+".share", "give a share of the total above 0 and below 1, as in 0.03 for 3 %", "a share of %s for %q is not possible", Number(e.Share), e.Name)
		case sum >= 1:
			c.add(path+".share", "keep the shares of all extras together below 1", "the extras so far make up %s of the total, which leaves no room for powder and liquid", Number(RoundSignificant(sum, 4)))
		}
	}
}

// Split is how a gram of paste with extras is shared out at R, g/g: the powder
// takes R of liquid, of which liquid extras are part; oil, dry extras and those
// without a kind ride along. liquid is what has to be added, below 0 where the
// liquid extras alone are more than the powder takes.
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
