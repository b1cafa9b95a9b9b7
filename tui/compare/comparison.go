// Package compare shows two to six powders side by side. It changes no profile and
// knows no other place; it may import tui/ui, tui/chart and model/….
package compare

import (
	"fmt"
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/readings"
	"daub.example/daub/model/repeats"
	"daub.example/daub/tui/chart"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// comparison shows two to six powders at one level, each set against one of them.
type comparison struct {
	deps     ui.Deps
	powders  []model.Entry // the compared powders, in the order of marking
	shelf    []model.Entry // all powders
	level    float64
	on       model.Choice // the liquid and rest of the trials; empty: those of most trials
	ref      int          // index of the powder that the others are set against
	err      error
	sides    []kitchen.Side
	pairs    []kitchen.Pair    // of each powder against the reference; empty for the reference itself
	measured [][]readings.Pair // the same at an equal reading
	rests    string            // which groups waited how long; "" if all may be compared
	series   []chart.Series    // one a powder, in its own liquid
	ui.Scroll
	ui.Prompt
}

// New compares powders at the target level that most of them share.
func New(deps ui.Deps, powders, shelf []model.Entry) *comparison {
	c := &comparison{deps: deps, powders: powders, shelf: shelf, level: model.SharedAim(ui.Profiles(powders)...)}
	c.compare()
	c.draw()
	return c
}

// draw makes the curves; they are the same at every level.
func (c *comparison) draw() {
	c.series = nil
	if c.err == nil {
		c.series = comparedSeries(c.sides, c.powders, c.deps.OwnSpoons)
	}
}

// bases returns the different liquids and rests in which the powders were tried.
func (c *comparison) bases() []model.Basis {
	profiles := make([]model.Profile, len(c.powders))
	for i, e := range c.powders {
		profiles[i] = e.Profile
	}
	return model.DifferentBases(profiles...)
}

// another goes on to the next liquid and rest.
func (c *comparison) another() {
	bases, at := c.bases(), -1
	if c.err == nil {
		at = slices.Index(bases, c.sides[c.ref].Ratio.Basis)
	}
	b := bases[(at+1)%len(bases)]
	c.on = model.Choice{In: b.Liquid, Rest: &b.RestS}
	c.compare()
	c.draw()
}

// compare compares the powders at the chosen level.
func (c *comparison) compare() {
	compared, err := kitchen.Compare(c.powders, c.level, c.on, c.deps.OwnSpoons)
	c.err, c.sides, c.rests = err, compared.Sides, ""
	if err == nil {
		c.rests = compared.Rests()
	}
	c.pair()
}

// pair sets each powder against the reference.
func (c *comparison) pair() {
	c.pairs = make([]kitchen.Pair, len(c.sides))
	c.measured = make([][]readings.Pair, len(c.sides))
	for i, s := range c.sides {
		if i != c.ref {
			c.pairs[i] = kitchen.PairOf(c.sides[c.ref], s)
			c.measured[i] = readings.Against(c.powders[c.ref].Profile, c.powders[i].Profile, c.deps.OwnSpoons)
		}
	}
	c.ToTop()
}

func (c *comparison) Session() *ui.Session { return nil }
func (c *comparison) Typing() bool         { return c.Asking() }

func (c *comparison) Title() string {
	return fmt.Sprintf("Compare  %d powders at %s", len(c.powders), model.LevelName(c.level))
}

func (c *comparison) Keys() []key.Binding {
	if c.Asking() {
		return c.PromptKeys()
	}
	k := compareKeys
	keys := []key.Binding{k.level, k.reference}
	if len(c.bases()) > 1 {
		keys = append(keys, k.basis)
	}
	return append(keys, k.scroll, k.swap, k.export, k.copy, k.leave, k.quit)
}

func (c *comparison) Update(msg tea.Msg) (ui.Next, tea.Cmd) {
	m, ok := msg.(tea.KeyMsg)
	switch {
	case !ok:
		c.Receive(msg)
		return c, nil
	case c.Asking():
		return c, c.Press(m)
	}
	return c.key(m)
}

func (c *comparison) key(msg tea.KeyMsg) (ui.Next, tea.Cmd) {
	k := compareKeys
	c.Hush()
	switch {
	case key.Matches(msg, k.leave):
		return ui.OpenShelf{}, nil
	case key.Matches(msg, k.quit):
		return ui.Quit{}, nil
	case key.Matches(msg, k.level):
		by := 0.5
		if msg.String() == "left" {
			by = -0.5
		}
		c.level = min(max(c.level+by, model.MinAim), model.MaxAim)
		c.compare()
	case key.Matches(msg, k.reference):
		n := len(c.powders)
		by := 1
		if s := msg.String(); s == "up" || s == "shift+tab" {
			by = n - 1
		}
		c.ref = (c.ref + by) % n
		c.pair()
	case key.Matches(msg, k.basis) && len(c.bases()) > 1:
		c.another()
	case key.Matches(msg, k.scroll):
		c.ScrollBy(msg.String())
	case key.Matches(msg, k.swap):
		return c.swap(), nil
	case key.Matches(msg, k.export):
		c.AskExport(c.deps, c.powders, c.level)
	case key.Matches(msg, k.copy):
		return c, ui.CopyText(c.deps, "the comparison", c.plainText())
	}
	return c, nil
}

// swap opens the kitchen's swap. The reference is replaced, by the first powder
// that can be compared with it, else by the next one.
func (c *comparison) swap() ui.Next {
	other := (c.ref + 1) % len(c.powders)
	if i := slices.IndexFunc(c.pairs, func(p kitchen.Pair) bool { return p.ByWeight != nil }); i >= 0 {
		other = i
	}
	return ui.OpenSwap{From: c.powders[c.ref], To: c.powders[other], Level: c.level, Shelf: c.shelf, Back: c}
}

// comparedSeries returns one series a powder for the chart: its looks and its
// curve.
func comparedSeries(sides []kitchen.Side, powders []model.Entry, own model.OwnSpoons) []chart.Series {
	all := make([]chart.Series, len(powders))
	for i, e := range powders {
		p, basis := e.Profile, sides[i].Ratio.Basis
		s := chart.Series{Mark: letter(i), Name: printable.Line(p.Powder.Title())}
		curve := repeats.CurveOf(p, basis, own)
		s.Points, s.Curve = ui.Points(curve.Looks), ui.CurvePoints(curve.Points)
		if len(curve.Dropped) > 0 {
			s.Name += " (" + repeats.DroppedText(curve.Dropped) + ")"
		}
		all[i] = s
	}
	return all
}

// letter names a powder on the chart and in the table: A to F.
func letter(i int) rune { return 'A' + rune(i) }
