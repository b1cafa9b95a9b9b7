package tui

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// cookbook is the list of recipes on the shelf.
type cookbook struct {
	world  World
	stock  []row
	back   screen
	loaded bool
	book   Cookbook
	stale  []bool // of each: a profile has changed since it was saved
	at     int
	err    error
}

func newCookbook(w World, stock []row, back screen) *cookbook {
	return &cookbook{world: w, stock: stock, back: back}
}

// readRecipes reads the recipes.
func readRecipes(w World) tea.Cmd {
	return func() tea.Msg {
		book, err := w.Recipes()
		return recipesRead{book, err}
	}
}

func (c *cookbook) Session() *Session { return nil }
func (c *cookbook) Typing() bool      { return false }
func (c *cookbook) Title() string     { return "Kitchen › recipes" }

func (c *cookbook) Keys() []key.Binding {
	k := cookbookKeys
	if len(c.book.Items) == 0 {
		return []key.Binding{k.reload, k.leave, k.quit}
	}
	return []key.Binding{k.open, k.move, k.reload, k.leave, k.quit}
}

func (c *cookbook) Update(msg tea.Msg) (screen, tea.Cmd) {
	switch msg := msg.(type) {
	case recipesRead:
		c.take(msg)
	case tea.KeyMsg:
		return c.key(msg)
	}
	return c, nil
}

func (c *cookbook) take(m recipesRead) {
	c.loaded, c.book, c.err = true, m.book, m.err
	c.at = min(c.at, max(len(c.book.Items)-1, 0))
	c.stale = make([]bool, len(c.book.Items))
	for i, item := range c.book.Items {
		c.stale[i] = len(staleness(item.Recipe, c.stock, c.world.Drawer)) > 0
	}
}

// staleness says what has changed in the profiles of a recipe.
func staleness(r model.Recipe, stock []row, d model.Drawer) []string {
	return r.Changes(r.Profiles(shelved(stock)), d)
}

// shelved are the profiles in stock, with their names on the shelf.
func shelved(stock []row) []model.Shelved {
	out := make([]model.Shelved, len(stock))
	for i, s := range stock {
		out[i] = model.Shelved{Slug: s.item.ID, Profile: s.item.Profile}
	}
	return out
}

func (c *cookbook) key(msg tea.KeyMsg) (screen, tea.Cmd) {
	k := cookbookKeys
	switch n := len(c.book.Items); {
	case key.Matches(msg, k.leave):
		return c.back, nil
	case key.Matches(msg, k.quit):
		return c, func() tea.Msg { return quitWanted{} }
	case key.Matches(msg, k.reload):
		return c, readRecipes(c.world)
	case n == 0:
	case key.Matches(msg, k.move):
		by := map[string]int{"up": -1, "down": 1, "pgup": -10, "pgdown": 10}[msg.String()]
		c.at = min(max(c.at+by, 0), n-1)
	case key.Matches(msg, k.open):
		return newRecipe(c.world, c.stock, c, c.book.Items[c.at]), nil
	}
	return c, nil
}

func (c *cookbook) View(w, h int) string {
	var lines []string
	if c.err != nil {
		lines = append(lines, loud(c.err.Error(), w)...)
	}
	for _, b := range c.book.Broken[:min(len(c.book.Broken), 3)] {
		lines = append(lines, cut(warnStyle.Render("! "+sanitise(b)), w))
	}
	switch {
	case !c.loaded:
		lines = append(lines, "Reading the recipes…")
	case len(c.book.Items) == 0:
		lines = append(lines, painted(plainStyle, fmt.Sprintf("No recipe yet. In Batch, %s saves what you see there as one.", worktopKeys.save.Help().Key), w)...)
	default:
		lines = append(lines, dimStyle.Render(c.lay("  recipe", "level", "total g", "saved", "", w)))
		seen, first := window(c.book.Items, c.at, h-len(lines)-3)
		for i, item := range seen {
			lines = append(lines, c.line(item, first+i, w))
		}
		if c.stale[c.at] {
			lines = append(append(lines, ""), warned("changed: the profile of a powder of it is not what it was when this was saved.", w)...)
		}
	}
	return strings.Join(lines[:min(len(lines), max(h, 0))], "\n")
}

func (c *cookbook) line(item RecipeItem, i, w int) string {
	r := item.Recipe
	name, changed, saved := "  "+sanitise(r.Name), "", "-"
	if i == c.at {
		name = "▸ " + sanitise(r.Name)
	}
	if c.stale[i] {
		changed = "! changed"
	}
	if !r.Saved.IsZero() {
		saved = r.Saved.Local().Format("2006-01-02")
	}
	line := c.lay(name, model.LevelName(r.Level), model.Grams(r.TotalG), saved, changed, w)
	if i == c.at {
		return accentStyle.Render(line)
	}
	return line
}

// lay lays out one line; the name takes what the window leaves.
func (c *cookbook) lay(name, level, total, saved, changed string, w int) string {
	right := pad(level, 17) + padLeft(total, 9)
	if w >= 64 {
		right += "  " + pad(saved, 10)
	}
	if slices.Contains(c.stale, true) && w >= 76 {
		right += "  " + pad(changed, 9)
	}
	return strings.TrimRight(pad(name, min(w-cells(right)-1, 60))+" "+right, " ")
}
