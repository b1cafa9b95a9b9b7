// Package readings works out what a trial says apart from its levels: the ratio at a wanted
// reading of a ruler, cone or watch, and the acid for a wanted pH. Each reading keeps its
// own scale and is never mixed with levels. The package has no screen, no file and no
// clock.
package readings

import (
	"daub.example/daub/model"
	"daub.example/daub/model/bench"
)

// Sentences describes what a trial's readings say, one sentence each.
func Sentences(r bench.Reading, own model.OwnSpoons) (texts []string) {
	if m, ok := Of(r); ok {
		texts = append(texts, m.Sentence())
	}
	if a, ok := AcidOf(r, own); ok {
		texts = append(append(texts, a.Sentence()), a.Notes(r.Profile.Powder)...)
	}
	return texts
}
