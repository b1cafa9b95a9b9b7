package data

import (
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/model/repeats"
)

// Ratio is a powder's ratio for an overview, rounded as in the ratio table of its
// file, from which it comes while that can be relied on; else it is worked out.
// Nothing explains it, and what a teaspoon takes is not in it.
func (v Visit) Ratio(e Entry, b model.Basis, level float64) repeats.Ratio {
	k, _ := e.Read.(kept)
	if k.derived.trusted == nil || !slices.Contains(model.TableLevels(e.Profile.Aim()), level) {
		return repeats.Overview(e.Profile, b, level, v.Drawer)
	}
	for _, row := range k.derived.trusted {
		if row.Liquid == b.Liquid && row.RestS == b.RestS && row.Level == level {
			return row.Ratio()
		}
	}
	return repeats.Ratio{Basis: b, Level: level} // of which the trials say nothing
}

// AtAim is Ratio on the main basis at the level that the newest trial aims at;
// the zero Ratio without a trial that counts.
func (v Visit) AtAim(e Entry) repeats.Ratio {
	bases := e.Profile.Bases()
	if len(bases) == 0 {
		return repeats.Ratio{}
	}
	return v.Ratio(e, bases[0], e.Profile.Aim())
}

// Seen is one powder in an overview, with its ratio at the aim.
type Seen struct {
	Entry
	Ratio repeats.Ratio
}

// Reading is a shelf that is read bit by bit, in the order of the files' names.
type Reading struct {
	visit Visit
	slugs []string // still to come
	next  int      // how many at once
}

// The first part of a reading fills a screen; later ones grow, for each costs
// those who show them.
const (
	firstPart = 16
	mostPart  = 512
)

// Begin lists the files of the shelf. The error is of the folder.
func (v Visit) Begin() (*Reading, error) {
	slugs, err := powders.slugs(v.shelf)
	return &Reading{v, slugs, firstPart}, err
}

// Left is how many files are still to come.
func (r *Reading) Left() int { return len(r.slugs) }

// Next reads on: the readable entries among the next files, with an error for
// each that is not.
func (r *Reading) Next() ([]Seen, []error) {
	part := r.slugs[:min(r.next, len(r.slugs))]
	r.slugs, r.next = r.slugs[len(part):], min(2*r.next, mostPart)
	return loadAll(part, func(slug string) (Seen, error) {
		one, err := powders.load(r.visit.shelf, slug, r.visit.Drawer)
		if err != nil {
			return Seen{}, err
		}
		e := entryOf(one)
		return Seen{e, r.visit.AtAim(e)}, nil
	})
}
