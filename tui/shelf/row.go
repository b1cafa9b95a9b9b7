package shelf

import (
	"strings"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/repeats"
)

// row is one profile on the shelf with what its line shows.
type row struct {
	entry  model.Entry
	open   int // place of the newest unfinished trial, -1 without one
	used   int // trials that count
	tspG   float64
	ratio  repeats.Ratio
	last   time.Time
	search string
}

// unfinishedFirst puts rows with an unfinished trial before the others.
func unfinishedFirst(a, b row) int {
	rank := func(r row) int {
		if r.open >= 0 {
			return 0
		}
		return 1
	}
	return rank(a) - rank(b)
}

func newRow(entry model.Entry, d model.Drawer) row {
	p := entry.Profile
	r := row{entry: entry, open: p.NewestUnfinished(), last: p.LastTrial()}
	r.search = strings.ToLower(p.Powder.Name + " " + p.Powder.Lot + " " + string(p.Powder.Kind()))
	for _, t := range p.Trials {
		if t.Used() {
			r.used++
		}
	}
	r.tspG, _ = p.Scales(model.US, d).Teaspoon()
	if bases := p.Bases(); len(bases) > 0 {
		r.ratio = repeats.Ratios(p, bases[0], []float64{p.Aim()}, d)[0]
	}
	return r
}
