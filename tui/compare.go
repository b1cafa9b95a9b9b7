package tui

import (
	"fmt"
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/tui/chart"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// compare is the place where two to six powders stand side by side at one
// level, each against one of them.
type compare struct {
	world  World
	rows   []row // those compared, in the order of marking
	stock  []row // the whole shelf
	level  float64
	ref    int // the powder that the others are set against
	err    error
	sides  []model.Side
	pairs  []model.Pair   // of each against the reference; the reference's own is empty
	series []chart.Series // of each, in its own liquid
	scroll
	outlet
}

// newCompare sets rows side by side at the aim that most of them share.
func newCompare(w World, rows, stock []row) *compare {
	c := &compare{world: w, rows: rows, stock: stock, level: sharedAim(rows)}
	c.work()
	if c.err == nil {
		c.series = comparedSeries(c.sides, rows, w.Drawer)
	}
	return c
}

// sharedAim is the aim of most powders; of equals, the one of the first.
func sharedAim(rows []row) float64 {
	count := map[float64]int{}
	for _, r := range rows {
		count[r.item.Profile.Aim()]++
	}
	best := rows[0].item.Profile.Aim()
	for _, r := range rows {
		if aim := r.item.Profile.Aim(); count[aim] > count[best] {
			best = aim
		}
	}
	return best
}

// work compares anew, after the level has changed.
func (c *compare) work() {
	profiles := make([]model.Profile, len(c.rows))
	for i, r := range c.rows {
		profiles[i] = r.item.Profile
	}
	comparison, err := model.Compare(profiles, c.level, c.world.Drawer)
	c.err, c.sides = err, comparison.Sides
	c.pair()
}

// pair sets each powder against the reference.
func (c *compare) pair() {
	c.pairs = make([]model.Pair, len(c.sides))
	for i, s := range c.sides {
		if i != c.ref {
			c.pairs[i] = model.PairOf(c.sides[c.ref], s)
		}
	}
	c.top = 0
}

func (c *compare) Session() *Session { return nil }
func (c *compare) Typing() bool      { return c.asking() }

func (c *compare) Title() string {
	return fmt.Sprintf("Compare  %d powders at %s", len(c.rows), model.LevelName(c.level))
}

func (c *compare) Keys() []key.Binding {
	if c.asking() {
		return outletFooter()
	}
	k := compareKeys
	return []key.Binding{k.level, k.reference, k.scroll, k.swap, k.export, k.copy, k.leave, k.quit}
}

func (c *compare) Update(msg tea.Msg) (screen, tea.Cmd) {
	m, ok := msg.(tea.KeyMsg)
	switch {
	case !ok:
		c.take(msg)
		return c, nil
	case c.asking():
		return c, c.typed(m)
	}
	return c.key(m)
}

func (c *compare) key(msg tea.KeyMsg) (screen, tea.Cmd) {
	k := compareKeys
	c.hush()
	switch {
	case key.Matches(msg, k.leave):
		return toShelf(c.world, nil)
	case key.Matches(msg, k.quit):
		return c, func() tea.Msg { return quitWanted{} }
	case key.Matches(msg, k.level):
		by := 0.5
		if msg.String() == "left" {
			by = -0.5
		}
		c.level = min(max(c.level+by, model.MinAim), model.MaxAim)
		c.work()
	case key.Matches(msg, k.reference):
		n := len(c.rows)
		by := 1
		if s := msg.String(); s == "up" || s == "shift+tab" {
			by = n - 1
		}
		c.ref = (c.ref + by) % n
		c.pair()
	case key.Matches(msg, k.scroll):
		c.scrollBy(msg.String())
	case key.Matches(msg, k.swap):
		return c.swap(), nil
	case key.Matches(msg, k.export):
		c.exportItems(c.world, itemsOf(c.rows), c.level)
	case key.Matches(msg, k.copy):
		return c, copyText(c.world, "the comparison", c.plainText())
	}
	return c, nil
}

// swap goes to the kitchen with the reference as what is replaced, and the
// first other powder that can be compared with it, or the next one.
func (c *compare) swap() screen {
	other := (c.ref + 1) % len(c.rows)
	if i := slices.IndexFunc(c.pairs, func(p model.Pair) bool { return p.ByWeight != nil }); i >= 0 {
		other = i
	}
	return newSwap(c.world, c.stock, c, c.rows[c.ref], c.rows[other], c.level)
}

// comparedSeries is each powder on the chart: its looks, and its ratio at
// every level.
func comparedSeries(sides []model.Side, rows []row, d model.Drawer) []chart.Series {
	all := make([]chart.Series, len(rows))
	for i, r := range rows {
		p, basis := r.item.Profile, sides[i].Ratio.Basis
		s := chart.Series{Mark: letter(i), Name: sanitise(p.Powder.Name)}
		curve := p.Curve(basis, d)
		s.Points = points(curve.Looks)
		for _, k := range curve.Knots {
			s.Curve = append(s.Curve, knot(k))
		}
		if len(curve.Dropped) > 0 {
			s.Name += " (" + model.DroppedText(curve.Dropped) + ")"
		}
		all[i] = s
	}
	return all
}

// letter is how a powder is named on chart and table.
func letter(i int) rune { return 'A' + rune(i) }
