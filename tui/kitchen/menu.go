// Package kitchen puts ratios to use: batch, swap, mix, spoons, spoon check and
// recipes, each a form with its answer. In a profile it changes one thing only, and
// only when asked: older trials may use a spoon measured later. It knows no other
// place; it may import tui/ui and model/….
package kitchen

import (
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/repeats"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
)

// menu is the first screen of the kitchen, with its tasks. A form that is opened
// again still has what was typed in it.
type menu struct {
	deps   ui.Deps
	shelf  []model.Entry // all powders
	chosen []model.Entry // marked, or under the cursor: the forms start with them
	at     int
	opened map[int]ui.Screen // forms opened so far, by index of the task

	hasRatio bool // at least one powder has a ratio
}

// tasks lists what can be done in the kitchen.
var tasks = [...]struct {
	name, does string
	open       func(*menu) (ui.Next, tea.Cmd)
}{
	{"Batch", "some grams of paste, portions or jars full: what to weigh", (*menu).batch},
	{"Swap", "one powder in the place of another, in a saved recipe too", (*menu).swap},
	{"Mix", "two to five powders stirred together dry: a first estimate", (*menu).mix},
	{"Spoons and grams", "level spoons of a powder into grams, and back", (*menu).spoons},
	{"Spoon check", "what a level spoon really holds, by the water in it", (*menu).check},
	{"Recipes", "batches that were saved: open, scale, swap, write a card", (*menu).recipes},
}

// New makes the kitchen's menu; the forms start with the chosen powders.
func New(deps ui.Deps, shelf, chosen []model.Entry) *menu {
	has := func(e model.Entry) bool { return hasRatio(e.Profile, deps.OwnSpoons) }
	return &menu{
		deps: deps, shelf: shelf, chosen: shareLiquid(chosen), opened: map[int]ui.Screen{},
		hasRatio: slices.ContainsFunc(shelf, has),
	}
}

// shareLiquid keeps the powders that were tried in the first one's liquid: only
// those can be compared in a form.
func shareLiquid(powders []model.Entry) []model.Entry {
	if len(powders) == 0 {
		return nil
	}
	liquid := powders[0].Profile.MainBasis().Liquid
	return slices.DeleteFunc(slices.Clone(powders), func(e model.Entry) bool {
		return !slices.ContainsFunc(append(e.Profile.Bases(), e.Profile.MainBasis()), func(b model.Basis) bool {
			return model.SameLiquid(b.Liquid, liquid)
		})
	})
}

// hasRatio reports whether a powder has a ratio at its target level.
func hasRatio(p model.Profile, own model.OwnSpoons) bool {
	bases := p.Bases()
	return len(bases) > 0 && repeats.Ratios(p, bases[0], []float64{p.Aim()}, own)[0].Powder != nil
}

func (k *menu) Session() *ui.Session { return nil }
func (k *menu) Typing() bool         { return false }
func (k *menu) Title() string        { return "Kitchen" }

func (k *menu) Keys() []key.Binding {
	return []key.Binding{kitchenKeys.open, kitchenKeys.move, kitchenKeys.leave, kitchenKeys.quit}
}

func (k *menu) Update(msg tea.Msg) (ui.Next, tea.Cmd) {
	m, ok := msg.(tea.KeyMsg)
	if !ok {
		return k, nil
	}
	switch keys := kitchenKeys; {
	case key.Matches(m, keys.leave):
		return ui.OpenShelf{}, nil
	case key.Matches(m, keys.quit):
		return ui.Quit{}, nil
	case key.Matches(m, keys.move):
		by := 1
		if m.String() == "up" {
			by = len(tasks) - 1
		}
		k.at = (k.at + by) % len(tasks)
	case key.Matches(m, keys.open):
		return tasks[k.at].open(k)
	}
	return k, nil
}

// keep opens a form again as it was left, or makes it.
func (k *menu) keep(fresh func() ui.Screen) (ui.Next, tea.Cmd) {
	if k.opened[k.at] == nil {
		k.opened[k.at] = fresh()
	}
	return k.opened[k.at], nil
}

func (k *menu) batch() (ui.Next, tea.Cmd) {
	return k.keep(func() ui.Screen { return newBatch(k.deps, k.shelf, k, k.pick(0)) })
}

func (k *menu) swap() (ui.Next, tea.Cmd) {
	return k.keep(func() ui.Screen {
		return NewSwap(k.deps, k.shelf, k, k.pick(0), k.pick(1), k.pick(0).Profile.Aim())
	})
}

func (k *menu) mix() (ui.Next, tea.Cmd) {
	return k.keep(func() ui.Screen { return newMix(k.deps, k.shelf, k, k.chosen) })
}

func (k *menu) spoons() (ui.Next, tea.Cmd) {
	return k.keep(func() ui.Screen { return newSpoons(k.deps, k.shelf, k, k.pick(0)) })
}

func (k *menu) check() (ui.Next, tea.Cmd) {
	return k.keep(func() ui.Screen { return newCheck(k.deps, k.shelf, k) })
}

func (k *menu) recipes() (ui.Next, tea.Cmd) {
	return newCookbook(k.deps, k.shelf, k), readRecipes(k.deps)
}

// pick returns the i-th powder chosen on the shelf, an empty entry beyond the last.
func (k *menu) pick(i int) model.Entry {
	if i < len(k.chosen) {
		return k.chosen[i]
	}
	return model.Entry{}
}

func (k *menu) View(w, h int) string {
	painted := func(style lipgloss.Style, text string) []string {
		return ui.Inset(w, func(w int) []string { return ui.Painted(style, text, w) })
	}
	about := painted(ui.PlainStyle, "What a trial says, put to use. Nothing here changes a powder on the shelf.")
	if len(about)+len(tasks)+1 > h {
		about = about[:1] // so that every task stays in sight
	}
	lines := append(about, "")
	beside := true // there is room for what each task does
	for _, d := range tasks {
		beside = beside && ui.Cells(d.does) < w-ui.LabelWidth-2
	}
	for i, d := range tasks {
		line := "  " + d.name
		if beside {
			line = "  " + ui.Pad(d.name, ui.LabelWidth) + d.does
		}
		if i == k.at {
			line = ui.DoStyle.Render("▸ " + strings.TrimPrefix(line, "  "))
		}
		lines = append(lines, line)
	}
	if !beside {
		if h > lowWindow {
			lines = append(lines, "")
		}
		does := painted(ui.NoteStyle, tasks[k.at].does)
		if room := h - len(lines); room > 0 && room < len(does) {
			does = append(does[:room-1], does[room-1]+ui.NoteStyle.Render("…"))
		}
		lines = append(lines, does...)
	}
	if text := k.needs(); text != "" {
		lines = append(append(lines, ""), ui.Warned(text, w)...)
	}
	return strings.Join(lines[:min(len(lines), max(h, 0))], "\n")
}

// needs says why nothing can be calculated yet; "" if something can.
func (k *menu) needs() string {
	if k.hasRatio {
		return ""
	}
	return "No powder on the shelf has a ratio yet: finish a trial first. " +
		"Until then only spoons and grams can be converted."
}
