package paper

import (
	"daub.example/daub/model"
	"daub.example/daub/model/kitchen"
)

// item is an ingredient on its way into the bowl.
type item struct {
	name   string
	role   model.Role
	grams  float64
	note   string
	liquid bool // the recipe's own liquid, of which some is kept back
	of     int  // which of the recipe's powders it is; -1 none
}

// items lists the recipe's ingredients in their order of addition.
func (l layout) items() []item {
	var all []item
	for i, p := range l.recipe.Powders {
		all = append(all, item{name: p.Powder().Title(), role: model.WithPowders, grams: l.grams(i), of: i})
	}
	all = append(all, item{
		name: l.recipe.Liquid, role: model.WithLiquid, grams: l.amounts.Liquid.Median, liquid: true, of: -1,
	})
	for i, e := range l.recipe.Extras {
		all = append(all, item{name: e.Name, role: e.Role(), grams: l.amounts.ExtrasG[i], note: e.Notes, of: -1})
	}
	var ordered []item
	for _, name := range kitchen.AdditionOrder(l.recipe) {
		for i, it := range all {
			if it.name == name {
				ordered, all = append(ordered, it), append(all[:i:i], all[i+1:]...)
				break
			}
		}
	}
	return append(ordered, all...)
}

// phases groups neighbouring items that go in together: a solubiliser goes in with its oil.
func phases(items []item) [][]item {
	kind := func(it item) model.Role {
		if it.role == model.Solubiliser {
			return model.OilPhase
		}
		return it.role
	}
	var all [][]item
	for i, it := range items {
		if i > 0 && kind(items[i-1]) == kind(it) {
			all[len(all)-1] = append(all[len(all)-1], it)
			continue
		}
		all = append(all, []item{it})
	}
	return all
}
