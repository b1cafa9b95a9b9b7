package kitchen

import (
	"fmt"
	"slices"

	"daub.example/daub/model"
)

// Fizz is an acid together with something that gives off gas with it.
type Fizz struct {
	Acid     string // by name
	With     string
	Untested bool // With was never tested for fizzing
}

// HasAcid reports whether the liquid or an extra is an acid by its name.
func HasAcid(liquid string, extras []model.Extra) bool {
	return model.IsAcid(liquid) || slices.ContainsFunc(extras, func(e model.Extra) bool { return model.IsAcid(e.Name) })
}

// FizzOf finds an acid with a carbonate among powders, liquid and extras; nil where there
// is none. What is known to fizz comes before what was never tested.
func FizzOf(powders []model.Powder, liquid string, extras []model.Extra) *Fizz {
	names := []string{liquid}
	for _, e := range extras {
		names = append(names, e.Name)
	}
	acids := make([]string, 0, len(names))
	with := make(map[model.Fizzing][]string)
	for _, name := range names {
		if model.IsAcid(name) {
			acids = append(acids, name)
		}
		if model.IsCarbonate(name) {
			with[model.Fizzes] = append(with[model.Fizzes], name)
		}
	}
	for _, p := range powders {
		if model.IsAcid(p.Name) {
			acids = append(acids, p.Title())
			continue // whether it was tested with vinegar does not matter
		}
		with[p.Fizzing()] = append(with[p.Fizzing()], p.Title())
	}
	for _, known := range []model.Fizzing{model.Fizzes, model.FizzUntested} {
		if len(acids) > 0 && len(with[known]) > 0 {
			return &Fizz{Acid: acids[0], With: with[known][0], Untested: known == model.FizzUntested}
		}
	}
	return nil
}

// Text warns of the gas, for a bowl that stays open.
func (f Fizz) Text() string {
	if f.Untested {
		return fmt.Sprintf("ACID: %s with %s, which was never tested: put a drop of vinegar on a pinch of it and "+
			"watch. If it fizzes, the paste gives off gas: let it foam out in an open bowl, and never close it in "+
			"a jar.", f.Acid, f.With)
	}
	return fmt.Sprintf("ACID: %s with %s gives off gas: let it foam out in an open bowl, and never close it in a "+
		"jar: it can burst.", f.Acid, f.With)
}

// InJar says why the paste must not go into a jar.
func (f Fizz) InJar() string {
	if f.Untested {
		return fmt.Sprintf("no jar for %s with %s, which was never tested with acid: if it fizzes, the closed jar "+
			"can burst; put a drop of vinegar on a pinch of it, record whether it fizzes, or leave the jar out",
			f.Acid, f.With)
	}
	return fmt.Sprintf("no jar for %s with %s: it gives off gas, and a closed jar can burst; leave the acid or "+
		"the jar out", f.Acid, f.With)
}
