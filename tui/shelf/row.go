package shelf

import (
	"cmp"
	"slices"
	"strings"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/readings"
	"daub.example/daub/model/repeats"
	"daub.example/daub/tui/ui"
)

// row is one profile of the shelf with everything its line shows.
type row struct {
	entry    model.Entry
	open     int  // index of the newest unfinished trial, -1 without one
	used     int  // trials that count
	keeps    bool // one of its dishes is kept covered for later looks
	tspG     float64
	ratio    repeats.Ratio
	measured string // the answer by readings if no trial has a look; else ""
	last     time.Time
	search   string
	sortKey  string
}

// merged adds rows and sorts them all.
func merged(rows, more []row) []row {
	all := slices.Concat(rows, more)
	slices.SortStableFunc(all, row.compare)
	return all
}

// compare orders rows: those with an unfinished trial first, then by sortKey.
func (r row) compare(other row) int {
	rank := func(r row) int {
		if r.open >= 0 {
			return 0
		}
		return 1
	}
	return cmp.Or(rank(r)-rank(other), cmp.Compare(r.sortKey, other.sortKey))
}

func newRow(one ui.Listed, own model.OwnSpoons) row {
	p := one.Profile
	r := row{entry: one.Entry, sortKey: one.SortKey, ratio: one.Ratio, open: p.NewestUnfinished(), last: p.LastTrial()}
	r.keeps = Keeps(p)
	r.search = strings.ToLower(p.Powder.Name + " " + p.Powder.Lot + " " + string(p.Powder.Kind()))
	for _, t := range p.Trials {
		if t.Used() {
			r.used++
		}
	}
	if p.OnlySideBySide() {
		r.used, r.last = p.FinishedTrials()
	}
	if readings.Only(p) {
		r.measured = "measured: no ratio yet"
		if all := readings.Pools(p, own); len(all) > 0 {
			r.measured = all[0].Brief()[1]
		}
	}
	r.tspG, _ = p.SpoonWeights(p.SpoonSet(), own).Teaspoon()
	return r
}
