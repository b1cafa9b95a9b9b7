package kitchen

import (
	"errors"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/handling"
	"daub.example/daub/model/typed"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// The fields of a spoon check.
const (
	checkSpoon = iota
	checkWater
	checkTemperature
	checkScale
)

var keepSpoon = ui.Bind("Ctrl+S", "keep it in spoons.toml", "ctrl+s")

// check finds what a level spoon really holds, with water.
type check struct {
	found handling.SpoonCheck
	err   error
}

func newCheck(deps ui.Deps, shelf []model.Entry, back ui.Screen) ui.Screen {
	t := newCalculator(deps, shelf, back, &check{})
	temperature := ui.TextField("water", "How warm the water is, °C.")
	scale := ui.TextField("the scale", "What it resolves.")
	temperature.Label = "temperature"
	temperature.Set(model.Number(model.DefaultTemperatureC) + " °C")
	scale.Label = "scale reads to"
	scale.Set(model.Number(model.DefaultResolutionG) + " g")
	return t.ready([]ui.Field{
		checkSpoon: ui.EitherField("spoon", "Which spoon, or a name for one of your own.", deps.OwnSpoons.Names()...),
		checkWater: ui.TextField("grams of water",
			"Tare a cup, fill the spoon level with water, pour it in, and again: three fills or more, with spaces."),
		checkTemperature: temperature,
		checkScale:       scale,
	})
}

func (c *check) title() string { return "spoon check" }

func (c *check) problem() string {
	if c.err != nil {
		return c.err.Error()
	}
	return ""
}

func (c *check) keys() []key.Binding {
	if c.err != nil {
		return nil
	}
	return []key.Binding{keepSpoon}
}

func (c *check) update(t *calculator) { c.err = c.calculate(t) }

var errNoWater = errors.New("choose a spoon, and weigh the water of three level fills or more")

func (c *check) calculate(t *calculator) error {
	name := t.Fields[checkSpoon].Value()
	water := t.Fields[checkWater].Value()
	if name == "" || water == "" {
		return errNoWater
	}
	if known, err := typed.SpoonsOf(t.deps.OwnSpoons).Name(name); err == nil {
		name = known
	}
	grams, err := typed.Masses(water, "4.9 4.9 5.0")
	if err != nil {
		return err
	}
	temperature, err := typed.Temperature(t.Fields[checkTemperature].Value())
	if err != nil {
		return err
	}
	resolution, err := typed.Resolution(t.Fields[checkScale].Value())
	if err != nil {
		return err
	}
	c.found, err = handling.CheckSpoon(t.deps.OwnSpoons, name, grams, &temperature, resolution, t.deps.Now())
	return err
}

func (c *check) key(t *calculator, _ tea.KeyMsg) (ui.Next, tea.Cmd) {
	was, now := t.deps.OwnSpoons, c.found.With(t.deps.OwnSpoons)
	save := t.deps.SaveSpoons
	t.deps.OwnSpoons = now
	t.Wait("keeping it…")
	return t, func() tea.Msg {
		path, err := save(was, now)
		return ui.SpoonsSaved{Path: path, Err: err}
	}
}

func (c *check) lines(_ *calculator, w int) []string {
	if c.err != nil {
		return incomplete(c.err, w)
	}
	lines := ui.Painted(ui.TitleStyle, c.found.Sentence(), w)
	if older := c.found.Older(); older != "" {
		lines = append(lines, ui.Painted(ui.PlainStyle, older, w)...)
	}
	how := "daub calibrate \"" + c.found.Spoon.Name + "\" --older changes the older trials " +
		"and shows them before and after."
	return append(lines, ui.Painted(ui.NoteStyle, strings.TrimSpace(how), w)...)
}
