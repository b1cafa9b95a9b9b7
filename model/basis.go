package model

import "slices"

// MainBasis is what most finished trials rest on, the newest on a tie; without
// one, water and the family's rest.
func (p Profile) MainBasis() Basis {
	t := Trial{}.WithDefaults(p.Powder.Kind())
	return append(p.Bases(), Basis{t.Liquid, *t.RestS})[0]
}

// mainFirst puts the bases that most finished trials rest on first. Equals keep
// their order.
func (p Profile) mainFirst(bases []Basis) []Basis {
	trials := func(b Basis) (n int) {
		for _, t := range p.Trials {
			if t.Used() && b.matches(t, p.Powder.Kind()) {
				n++
			}
		}
		return n
	}
	slices.SortStableFunc(bases, func(a, b Basis) int { return trials(b) - trials(a) })
	return bases
}
