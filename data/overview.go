package data

import (
	"bytes"
	"slices"
	"sync"

	"daub.example/daub/model"
	"daub.example/daub/model/repeats"
)

// Ratio returns a powder's ratio for an overview, rounded as in the ratio table of
// its file. It comes from that table if it can be relied on; else it is calculated.
// It has no explanation, and no weight of a teaspoon.
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
	return repeats.Ratio{Basis: b, Level: level} // the trials say nothing of it
}

// InTable reports whether the file's ratio table has the level and can be relied
// on, so that nothing has to be calculated.
func InTable(e Entry, level float64) bool {
	k, _ := e.Read.(kept)
	return k.derived.trusted != nil && slices.Contains(model.TableLevels(e.Profile.Aim()), level)
}

// AtAim is Ratio on the main basis at the newest trial's target level; the zero
// Ratio if no trial counts.
func (v Visit) AtAim(e Entry) repeats.Ratio {
	bases := e.Profile.Bases()
	if len(bases) == 0 {
		return repeats.Ratio{}
	}
	return v.Ratio(e, bases[0], e.Profile.Aim())
}

// Seen is one powder in an overview, with its ratio at the target level.
type Seen struct {
	Entry
	Ratio repeats.Ratio
}

// Memory keeps the results of earlier readings of a shelf, so that nothing is
// calculated twice for an unchanged file. The zero Memory is ready for use, also by
// several readings at once.
type Memory struct {
	mu        sync.Mutex
	ownSpoons model.OwnSpoons
	seen      map[string]Seen // by slug
}

// begin forgets everything if the maker's own spoons have changed.
func (m *Memory) begin(own model.OwnSpoons) {
	m.mu.Lock()
	defer m.mu.Unlock()
	if m.seen == nil || !slices.EqualFunc(m.ownSpoons, own, sameSpoon) {
		m.ownSpoons, m.seen = own, map[string]Seen{}
	}
}

// of returns the result for the file of a slug, if it held src then too.
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

// Reading reads a shelf part by part, in the order of the files' names.
type Reading struct {
	visit  Visit
	memory *Memory
	slugs  []string // still to be read
	next   int      // size of the next part
}

// The first part of a reading is small, to be shown soon. Later ones grow, because
// showing each part costs time.
const (
	firstPart = 4
	mostPart  = 512
)

// Begin lists the files of the shelf. The error is that of listing the folder.
func (v Visit) Begin(m *Memory) (*Reading, error) {
	slugs, err := powders.slugs(v.shelf)
	m.begin(v.OwnSpoons)
	return &Reading{v, m, slugs, firstPart}, err
}

// Left returns how many files are still to be read.
func (r *Reading) Left() int { return len(r.slugs) }

// Next reads the next files: their readable entries, and an error for each other
// one.
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
