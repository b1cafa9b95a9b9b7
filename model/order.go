package model

import (
	"errors"
	"fmt"
	"strings"
)

// maxJarML is the largest jar, mL; beyond it is a slip of the unit (chosen).
const maxJarML = 20000.0

// Extra is something else in a batch, as its share of the total.
type Extra struct {
	Name  string
	Share float64 // of the total, above 0; all extras together below 1
	Notes string
}

// Order is what a maker wants of a batch.
type Order struct {
	TotalG float64 // what is to come out, g; 0: as much as the jar holds
	JarML  float64 // the jar's volume, mL; 0: no jar
	Extras []Extra
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
	if o.TotalG == 0 && o.JarML == 0 {
		return errors.New("a batch needs a size: give the total in grams, or the jar in millilitres")
	}
	return nil
}

// order complains about the sizes and extras of a batch, under the paths of a
// recipe's file.
func (c *checker) order(o Order) {
	c.optional("recipe.total_g", "a total", "g", o.TotalG, MaxGrams)
	c.optional("recipe.jar_ml", "a jar", "mL", o.JarML, maxJarML)
	c.number("recipe.allowance_share", "an allowance for the bowl", "of the total", o.AllowanceShare, 0, 1)
	c.number("recipe.allowance_g", "an allowance for the bowl", "g", o.AllowanceG, 0, MaxGrams)
	sum := 0.0
	for i, e := range o.Extras {
		path := fmt.Sprintf("extra[%d]", i)
		if strings.TrimSpace(e.Name) == "" {
			c.add(path+".name", `give it one, as in name = "honey"`, "an extra has no name")
		}
		switch sum += e.Share; {
		case !(e.Share > 0 && e.Share < 1):
			c.add(path+".share", "give a share of the total above 0 and below 1, as in 0.03 for 3 %", "a share of %s for %q is not possible", Number(e.Share), e.Name)
		case sum >= 1:
			c.add(path+".share", "keep the shares of all extras together below 1", "the extras so far make up %s of the total, which leaves no room for powder and liquid", Number(RoundSignificant(sum, 4)))
		}
	}
}
