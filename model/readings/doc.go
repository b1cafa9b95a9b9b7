// Package readings works out what a trial says beside its looks: the ratio at a wanted
// reading of a ruler, cone or watch, each in its own scale and never mixed with
// levels, and the acid for a wanted pH. It has no screen, no file and no clock.
package readings

import (
	"daub.example/daub/model"
	"daub.example/daub/model/bench"
)

// Said words what a trial's readings say beside its looks, a sentence each.
func Said(r bench.Reading, d model.OwnSpoons) (texts []string) {
	if m, ok := Of(r); ok {
		texts = append(texts, m.Sentence())
	}
	if a, ok := AcidOf(r, d); ok {
		texts = append(append(texts, a.Sentence()), a.Notes(r.Profile.Powder)...)
	}
	return texts
}
