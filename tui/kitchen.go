package tui

import (
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// kitchen is the place where ratios are put to use: the choice of what to do.
// What was typed in one of its forms is still there when it is opened again.
type kitchen struct {
	world  World
	stock  []row // the whole shelf
	chosen []row // marked, or under the cursor: what the forms begin with
	at     int
	opened map[int]screen // forms, by their place among the dishes
}

// dishes are what the kitchen has to offer.
var dishes = [...]struct {
	name, does string
	open       func(*kitchen) (screen, tea.Cmd)
}{
	{"Batch", "so many grams of paste, or a jar full: what to weigh or spoon", (*kitchen).batch},
	{"Swap", "another powder in a recipe: can it stand in, and how much of it", (*kitchen).swap},
	{"Mix", "two to five powders stirred together dry: a first estimate", (*kitchen).mix},
	{"Spoons and grams", "level spoons of a powder into grams, and back", (*kitchen).spoons},
	{"Recipes", "batches that were saved: open, scale, swap, print a card", (*kitchen).recipes},
}

func newKitchen(w World, stock, chosen []row) *kitchen {
	return &kitchen{world: w, stock: stock, chosen: chosen, opened: map[int]screen{}}
}

func (k *kitchen) Session() *Session { return nil }
func (k *kitchen) Typing() bool      { return false }
func (k *kitchen) Title() string     { return "Kitchen" }

func (k *kitchen) Keys() []key.Binding {
	return []key.Binding{kitchenKeys.open, kitchenKeys.move, kitchenKeys.leave, kitchenKeys.quit}
}

func (k *kitchen) Update(msg tea.Msg) (screen, tea.Cmd) {
	m, ok := msg.(tea.KeyMsg)
	if !ok {
		return k, nil
	}
	switch keys := kitchenKeys; {
	case key.Matches(m, keys.leave):
		return toShelf(k.world, nil)
	case key.Matches(m, keys.quit):
		return k, func() tea.Msg { return quitWanted{} }
	case key.Matches(m, keys.move):
		by := 1
		if m.String() == "up" {
			by = len(dishes) - 1
		}
		k.at = (k.at + by) % len(dishes)
	case key.Matches(m, keys.open):
		return dishes[k.at].open(k)
	}
	return k, nil
}

// keep opens a form again, or makes it.
func (k *kitchen) keep(fresh func() screen) (screen, tea.Cmd) {
	if k.opened[k.at] == nil {
		k.opened[k.at] = fresh()
	}
	return k.opened[k.at], nil
}

func (k *kitchen) batch() (screen, tea.Cmd) {
	return k.keep(func() screen { return newBatch(k.world, k.stock, k, k.pick(0)) })
}

func (k *kitchen) swap() (screen, tea.Cmd) {
	return k.keep(func() screen {
		from := k.pick(0)
		return newSwap(k.world, k.stock, k, from, k.pick(1), from.item.Profile.Aim())
	})
}

func (k *kitchen) mix() (screen, tea.Cmd) {
	return k.keep(func() screen { return newMix(k.world, k.stock, k, k.chosen) })
}

func (k *kitchen) spoons() (screen, tea.Cmd) {
	return k.keep(func() screen { return newSpoons(k.world, k.stock, k, k.pick(0)) })
}

func (k *kitchen) recipes() (screen, tea.Cmd) {
	return newCookbook(k.world, k.stock, k), readRecipes(k.world)
}

// pick is the i-th of the powders chosen on the shelf; an empty row where
// there are not so many.
func (k *kitchen) pick(i int) row {
	if i < len(k.chosen) {
		return k.chosen[i]
	}
	return row{}
}

func (k *kitchen) View(w, h int) string {
	lines := []string{"What a trial says, put to use. Nothing here changes a profile.", ""}
	for i, d := range dishes {
		line := "  " + pad(d.name, labelWidth) + d.does
		if i == k.at {
			line = accentStyle.Render("▸ " + pad(d.name, labelWidth) + d.does)
		}
		lines = append(lines, line)
	}
	if text := k.needs(); text != "" {
		lines = append(append(lines, ""), warned(text, w)...)
	}
	return strings.Join(lines[:min(len(lines), max(h, 0))], "\n")
}

// needs says what the kitchen lacks.
func (k *kitchen) needs() string {
	for _, r := range k.stock {
		if r.ratio.Powder != nil {
			return ""
		}
	}
	return "No powder on the shelf has a ratio yet: finish a trial first. Only spoons and grams can be reckoned until then."
}
