package handling

import (
	"cmp"
	"slices"

	"daub.example/daub/model"
)

// ForAll returns the list with a spoon's measured volume holding for older trials too. ok
// is false where it already does, or where the spoon was never measured.
func ForAll(own model.OwnSpoons, name string) (out model.OwnSpoons, ok bool) {
	out = slices.Clone(own)
	at := slices.IndexFunc(out, func(s model.Spoon) bool { return s.Name == name })
	if at < 0 || out[at].Measured.IsZero() {
		return own, false
	}
	out[at].BeforeML, out[at].BeforeUncertaintyML = 0, 0
	return out, true
}

// ToOwn moves the trials that used a standard US spoon to the maker's own set, so that the
// spoon's measured volume holds for them. changed says whether there was one.
func ToOwn(p model.Profile, spoon string) (out model.Profile, changed bool) {
	out = p.Clone()
	if !model.IsStandardSpoon(spoon) {
		return out, false
	}
	for i := range out.Trials {
		t := &out.Trials[i]
		if cmp.Or(t.SpoonSet, model.US) == model.US && Uses(*t, spoon) {
			t.SpoonSet, changed = model.Own, true
		}
	}
	return out, changed
}

// Uses reports whether a trial added anything by a spoon.
func Uses(t model.Trial, spoon string) bool {
	return slices.ContainsFunc(t.Steps, func(s model.Step) bool { return s.Spoon == spoon && !s.Weighed() })
}
