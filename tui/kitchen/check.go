package kitchen

import (
	"errors"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/handling"
	"daub.example/daub/model/kitchen"
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

var checkKeys = struct{ keep, older key.Binding }{
	keep:  ui.Bind("Ctrl+S", "keep it in spoons.toml", "ctrl+s"),
	older: ui.Bind("Ctrl+O", "older trials too", "ctrl+o"),
}

// check measures with water what a level spoon really holds.
type check struct {
	found handling.SpoonCheck
	err   error
	kept  bool // it is in the maker's list of spoons
	older bool // older trials use it too
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
			"Fill the spoon level with water, pour it into a cup on the scale; tare before each. Three fills or more."),
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
	switch {
	case c.err != nil:
		return nil
	case c.kept && !c.older && c.found.Older() != "":
		return []key.Binding{checkKeys.keep, checkKeys.older}
	default:
		return []key.Binding{checkKeys.keep}
	}
}

func (c *check) update(t *calculator) {
	c.kept, c.older = false, false
	c.err = c.calculate(t)
}

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

func (c *check) key(t *calculator, msg tea.KeyMsg) (ui.Next, tea.Cmd) {
	if key.Matches(msg, checkKeys.older) {
		c.askOlder(t)
		return t, nil
	}
	if c.found.Doubt == "" {
		return t, c.keep(t)
	}
	t.Ask(ui.Question{
		Title: "Keep it all the same?", Yes: "keep it", No: "weigh again",
		Answer: func(string) (tea.Cmd, error) { return c.keep(t), nil },
	}, "")
	return t, nil
}

// keep adds the spoon to the maker's list.
func (c *check) keep(t *calculator) tea.Cmd {
	was, now := t.deps.OwnSpoons, c.found.With(t.deps.OwnSpoons)
	save := t.deps.SaveSpoons
	t.Wait("keeping it…")
	return func() tea.Msg {
		path, err := save(was, now)
		return ui.SpoonsSaved{Path: path, Own: now, Err: err}
	}
}

// askOlder shows what the older trials say before and after, and asks whether to
// change them.
func (c *check) askOlder(t *calculator) {
	profiles := make([]model.Profile, len(t.shelf))
	for i, e := range t.shelf {
		profiles[i] = e.Profile
	}
	was := t.deps.OwnSpoons
	now, moved, ok := kitchen.OlderTrials(profiles, was, c.found.Spoon.Name)
	if !ok || len(moved) == 0 {
		t.Say("no older trial moves by it")
		return
	}
	var texts []string
	entries := make([]model.Entry, len(moved))
	for i, m := range moved {
		texts = append(texts, m.Text())
		entries[i] = t.shelf[m.At]
		entries[i].Profile = m.Profile
	}
	saveSpoons, save := t.deps.SaveSpoons, t.deps.Save
	t.Ask(ui.Question{
		Title: "Let the older trials go by it too?", Yes: "yes", No: "leave them",
		Why: strings.Join(texts, " "),
		Answer: func(string) (tea.Cmd, error) {
			t.Wait("changing them…")
			return func() tea.Msg {
				path, err := saveSpoons(was, now)
				stands := ui.SpoonsSaved{Path: path, Own: now, Err: err}
				for _, e := range entries {
					if stands.Err != nil {
						break
					}
					e, stands.Err = save(e)
					stands.Moved = append(stands.Moved, e)
				}
				return stands
			}, nil
		},
	}, "")
}

// tookSpoons acts on the news that the maker's own spoons were written.
func (t *calculator) tookSpoons(msg tea.Msg) {
	saved, ok := msg.(ui.SpoonsSaved)
	c, asked := t.task.(*check)
	if !ok || !asked || saved.Err != nil {
		return
	}
	t.deps.OwnSpoons = saved.Own
	c.kept, c.older = true, len(saved.Moved) > 0
	for _, e := range saved.Moved {
		if i := slices.IndexFunc(t.shelf, func(have model.Entry) bool { return have.Slug == e.Slug }); i >= 0 {
			t.shelf[i] = e
		}
	}
}

func (c *check) lines(_ *calculator, w int) []string {
	if c.err != nil {
		return incomplete(c.err, w)
	}
	lines := ui.Painted(ui.TitleStyle, c.found.Sentence(), w)
	older := c.found.Older()
	if older == "" || c.older {
		return lines
	}
	lines = append(lines, ui.Painted(ui.PlainStyle, older, w)...)
	if c.kept {
		lines = append(lines,
			ui.Painted(ui.NoteStyle, "Ctrl+O shows the older trials before and after, and asks.", w)...)
	}
	return lines
}
