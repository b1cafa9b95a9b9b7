package handling

import (
	"cmp"
	"slices"

	"daub.example/daub/model"
)

// ForAll is the list with what was measured of a spoon holding for all trials,
// older ones too; ok is false where it does already, or was never measured.
func ForAll(d model.OwnSpoons, name string) (out model.OwnSpoons, ok bool) {
	out = slices.Clone(d)
	at := slices.IndexFunc(out, func(s model.Spoon) bool { return s.Name == name })
	if at < 0 || out[at].Measured.IsZero() {
		return d, false
	}
	out[at].BeforeML, out[at].BeforeUncertaintyML = 0, 0
	return out, true
}

// ToOwn is a profile of which the trials that used a standard spoon of the US set
// go by the maker's own set, so that what was measured of the spoon holds for
// them; changed says whether there was one.
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
