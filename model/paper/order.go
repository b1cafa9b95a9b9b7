package paper

import (
	"slices"
	"strings"

	"daub.example/daub/model"
)

// role is how an ingredient comes into a paste.
type role int

// The roles, in their usual order of addition.
const (
	powder role = iota // sprinkled in dry, with what is dry beside it
	water              // the liquid and what counts as liquid
	oil                // its own phase, with the solubiliser that carries it
	preservative
)

// item is an ingredient on its way into the bowl.
type item struct {
	name       string
	role       role
	grams      float64
	note       string
	number     int  // of the recipe's powder; -1 for what is none
	liquid     bool // the recipe's own liquid, of which some is kept back
	solubilise bool // carries an oil into the water
}

// items are the recipe's ingredients in their order of addition: as the recipe
// gives it, else powders, water phase, oil with its solubiliser, preservative.
func (l layout) items() []item {
	var all []item
	for i, p := range l.recipe.Powders {
		all = append(all, item{name: p.Powder().Title(), role: powder, grams: l.grams(i), number: i})
	}
	all = append(all, item{name: l.recipe.Liquid, role: water, grams: l.amounts.Liquid.Median, number: -1, liquid: true})
	oils := slices.ContainsFunc(l.recipe.Extras, func(e model.Extra) bool { return roleOf(e) == oil })
	for i, e := range l.recipe.Extras {
		it := item{name: e.Name, role: roleOf(e), grams: l.amounts.ExtrasG[i], note: e.Notes, number: -1}
		if solubiliser(e.Name) && oils {
			it.role, it.solubilise = oil, true
		}
		all = append(all, it)
	}
	order := order(l.recipe)
	rank := func(it item) int {
		at := slices.IndexFunc(order, func(name string) bool { return strings.EqualFold(strings.TrimSpace(name), it.plain(l.recipe)) })
		if at < 0 {
			return len(order) + int(it.role)
		}
		return at
	}
	slices.SortStableFunc(all, func(a, b item) int { return rank(a) - rank(b) })
	return all
}

// plain is the item's name as an order of addition has it: a powder's without
// its lot.
func (it item) plain(r model.Recipe) string {
	if it.number >= 0 {
		return r.Powders[it.number].Name
	}
	return it.name
}

// phases are items that go in together, in their order.
func phases(items []item) [][]item {
	var all [][]item
	for i, it := range items {
		if i > 0 && items[i-1].role == it.role {
			all[len(all)-1] = append(all[len(all)-1], it)
			continue
		}
		all = append(all, []item{it})
	}
	return all
}
