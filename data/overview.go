package data

import (
	"bytes"
	"slices"
	"sync"

	"daub.example/daub/model"
	"daub.example/daub/model/repeats"
)

// Ratio is a powder's ratio for an overview, rounded as in the ratio table of its
// file, from which it comes while that can be relied on; else it is worked out.
// Nothing explains it, and what a teaspoon takes is not in it.
func (v Visit) Ratio(e Entry, b model.Basis, level float64) repeats.Ratio {
	if !InTable(e, level) {
		return repeats.Overview(e.Profile, b, level, v.OwnSpoons)
	}
	k, _ := e.Read.(kept)
	for _, row := range k.derived.trusted {
		if row.Liquid == b.Liquid && row.RestS == b.RestS && row.Level == level {
			return row.Ratio()
		}
	}
	return repeats.Ratio{Basis: b, Level: level} // of which the trials say nothing
}

// InTable reports whether a level stands in the ratio table of the file, and the
// table can be relied on, so that nothing has to be worked out.
func InTable(e Entry, level float64) bool {
	k, _ := e.Read.(kept)
	return k.derived.trusted != nil && slices.Contains(model.TableLevels(e.Profile.Aim()), level)
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

// Memory keeps what readings of a shelf have found, so that nothing is worked out
// twice where a file has not changed. The zero Memory is ready for use, also by
// readings at the same time.
type Memory struct {
	mu        sync.Mutex
	ownSpoons model.OwnSpoons
	seen      map[string]Seen // by slug
}

// begin forgets everything if the maker's own spoons have changed.
func (m *Memory) begin(d model.OwnSpoons) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.seen == nil || !slices.EqualFunc(m.ownSpoons, d, sameSpoon) {
		m.ownSpoons, m.seen = d, map[string]Seen{}
	}
}

// of returns what was seen in the file of that slug when it held src.
func (m *Memory) of(slug string, src []byte) (Seen, bool) {
	m.mu.Lock()
	defer m.mu.Unlock()
	one, ok := m.seen[slug]
	if !ok {
		return Seen{}, false
	}
	k, _ := one.Read.(kept)
	return one, k.read != nil && bytes.Equal(k.read.Text, src)
}

func (m *Memory) keep(one Seen) {
	m.mu.Lock()
	defer m.mu.Unlock()
	m.seen[one.Slug] = one
}

// Reading is a shelf that is read bit by bit, in the order of the files' names.
type Reading struct {
	visit  Visit
	memory *Memory
	slugs  []string // still to come
	next   int      // how many at once
}

// The first part of a reading is soon there; later ones grow, for each costs
// those who show them.
const (
	firstPart = 4
	mostPart  = 512
)

// Begin lists the files of the shelf. The error is of the folder.
func (v Visit) Begin(m *Memory) (*Reading, error) {
	slugs, err := powders.slugs(v.shelf)
	m.begin(v.OwnSpoons)
	return &Reading{v, m, slugs, firstPart}, err
}

// Left is how many files are still to come.
func (r *Reading) Left() int { return len(r.slugs) }

// Next reads on: the readable entries among the next files, with an error for
// each that is not.
func (r *Reading) Next() ([]Seen, []error) {
	part := r.slugs[:min(r.next, len(r.slugs))]
	r.slugs, r.next = r.slugs[len(part):], min(2*r.next, mostPart)
	return loadAll(part, r.see)
}

func (r *Reading) see(slug string) (Seen, error) {
	v := r.visit
	src, err := readFile(powders.path(v.shelf, slug))
	if err != nil {
		return Seen{}, err
	}
	if one, ok := r.memory.of(slug, src); ok {
		return one, nil
	}
	file, err := powders.parse(v.shelf, slug, src, v.OwnSpoons)
	if err != nil {
		return Seen{}, err
	}
	e := entryOf(file)
	one := Seen{e, v.AtAim(e)}
	r.memory.keep(one)
	return one, nil
}
