package kitchen

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/printable"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// cookbook lists the recipes of the shelf.
type cookbook struct {
	deps   ui.Deps
	shelf  []model.Entry
	back   ui.Screen
	loaded bool
	book   ui.Cookbook
	stale  []bool // one a recipe: a profile has changed since it was saved
	at     int
	err    error
	gone   string // name of the recipe deleted last
	undo   func() (model.RecipeEntry, error)
	choose func(model.RecipeEntry) ui.Next // where Enter leads; nil: to the recipe
	ui.Prompt
}

// recipeDeleted says that deleting a recipe has ended, recipeRestored that bringing
// it back has.
type (
	recipeDeleted struct {
		restore func() (model.RecipeEntry, error)
		err     error
	}
	recipeRestored struct{ err error }
)

// after says which recipe was deleted and that u brings it back.
func (c *cookbook) after(name string, restore func() (model.RecipeEntry, error)) *cookbook {
	c.gone, c.undo = name, restore
	c.Say(fmt.Sprintf("Deleted %q; its file lies in the folder \"deleted\". %s brings it back.", printable.Line(name),
		cookbookKeys.undo.Help().Key))
	return c
}

func newCookbook(deps ui.Deps, shelf []model.Entry, back ui.Screen) *cookbook {
	return &cookbook{deps: deps, shelf: shelf, back: back}
}

// recipesRead carries the recipes to Update.
type recipesRead struct {
	book ui.Cookbook
	err  error
}

// readRecipes reads all recipes of the shelf.
func readRecipes(deps ui.Deps) tea.Cmd {
	return func() tea.Msg {
		book, err := deps.Recipes()
		return recipesRead{book, err}
	}
}

func (c *cookbook) Session() *ui.Session { return nil }
func (c *cookbook) Typing() bool         { return false }
func (c *cookbook) Title() string {
	if c.choose != nil {
		return "Kitchen › swap  in which recipe?"
	}
	return "Kitchen › recipes"
}

func (c *cookbook) Keys() []key.Binding {
	k := cookbookKeys
	open, leave := k.open, k.leave
	if c.choose != nil {
		open, leave = k.take, k.back
	}
	var keys []key.Binding
	if len(c.book.Items) > 0 {
		keys = append(keys, open, k.move)
	}
	if c.undo != nil {
		keys = append(keys, k.undo)
	}
	return append(keys, k.reload, leave, k.quit)
}

func (c *cookbook) Update(msg tea.Msg) (ui.Next, tea.Cmd) {
	switch msg := msg.(type) {
	case recipesRead:
		c.receive(msg)
	case recipeRestored:
		c.Done()
		if msg.err != nil {
			c.Fail("NOT BROUGHT BACK: " + msg.err.Error())
			return c, nil
		}
		c.undo = nil
		c.Say("The recipe is back.")
		return c, readRecipes(c.deps)
	case tea.KeyMsg:
		return c.key(msg)
	}
	return c, nil
}

func (c *cookbook) receive(m recipesRead) {
	c.loaded, c.book, c.err = true, m.book, m.err
	c.at = min(c.at, max(len(c.book.Items)-1, 0))
	c.stale = make([]bool, len(c.book.Items))
	for i, e := range c.book.Items {
		c.stale[i] = len(kitchen.Changes(e.Recipe, kitchen.ProfilesOf(e.Recipe, c.shelf), c.deps.OwnSpoons)) > 0
	}
}

func (c *cookbook) key(msg tea.KeyMsg) (ui.Next, tea.Cmd) {
	k := cookbookKeys
	c.Hush()
	switch n := len(c.book.Items); {
	case key.Matches(msg, k.leave):
		return c.back, nil
	case key.Matches(msg, k.quit):
		return ui.Quit{}, nil
	case key.Matches(msg, k.reload):
		return c, readRecipes(c.deps)
	case key.Matches(msg, k.undo) && c.undo != nil:
		restore := c.undo
		c.Wait("bringing it back…")
		return c, func() tea.Msg {
			_, err := restore()
			return recipeRestored{err}
		}
	case n == 0:
	case key.Matches(msg, k.move):
		c.at = ui.MoveCursor(c.at, n, msg.String())
	case key.Matches(msg, k.open):
		if c.choose != nil {
			return c.choose(c.book.Items[c.at]), nil
		}
		return newRecipe(c.deps, c.shelf, c, c.book.Items[c.at]), nil
	}
	return c, nil
}

func (c *cookbook) View(w, h int) string {
	lines := c.Said(w)
	if c.err != nil {
		lines = append(lines, ui.Loud(c.err.Error(), w)...)
	}
	for _, b := range c.book.Broken[:min(len(c.book.Broken), 3)] {
		lines = append(lines, ui.Cut(ui.WaitStyle.Render("! "+printable.Line(b)), w))
	}
	switch {
	case !c.loaded:
		lines = append(lines, "Reading the recipes…")
	case len(c.book.Items) == 0:
		text := "No recipe yet. In Batch, " + calculatorKeys.save.Help().Key + " saves what you see there as one."
		lines = append(lines, ui.Painted(ui.PlainStyle, text, w)...)
	default:
		lines = append(lines, ui.NoteStyle.Render(c.lay("  recipe", "level", "total g", "saved", "", w)))
		seen, first := ui.Window(c.book.Items, c.at, h-len(lines)-3)
		for i, item := range seen {
			lines = append(lines, c.line(item, first+i, w))
		}
		if c.stale[c.at] {
			text := "changed: a powder of it is not what it was when this was saved."
			lines = append(append(lines, ""), ui.Warned(text, w)...)
		}
	}
	return strings.Join(lines[:min(len(lines), max(h, 0))], "\n")
}

func (c *cookbook) line(item model.RecipeEntry, i, w int) string {
	r := item.Recipe
	name, changed, saved := "  "+printable.Line(r.Name), "", "-"
	if i == c.at {
		name = "▸ " + printable.Line(r.Name)
	}
	if c.stale[i] {
		changed = "! changed"
	}
	if !r.Saved.IsZero() {
		saved = r.Saved.Local().Format("2006-01-02")
	}
	line := c.lay(name, model.LevelName(r.Level), model.Grams(r.TotalG), saved, changed, w)
	if i == c.at {
		return ui.DoStyle.Render(line)
	}
	return line
}

// lay draws one line; the name gets the width that is left.
func (c *cookbook) lay(name, level, total, saved, changed string, w int) string {
	right := ui.Pad(level, 17) + ui.PadLeft(total, 9)
	if w >= 64 {
		right += "  " + ui.Pad(saved, 10)
	}
	if slices.Contains(c.stale, true) && w >= 76 {
		right += "  " + ui.Pad(changed, 9)
	}
	return strings.TrimRight(ui.Pad(name, min(w-ui.Cells(right)-1, 60))+" "+right, " ")
}
