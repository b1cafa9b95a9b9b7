package kitchen

import (
	"fmt"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/typed"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// recipe is one recipe: its card, another total, another powder.
type recipe struct {
	deps    ui.Deps
	shelf   []model.Entry
	back    *cookbook
	entry   model.RecipeEntry
	written model.RecipeEntry // what a write was given
	changed string            // what was changed and is not saved; "" nothing
	warned  bool              // leaving was asked for with a change not saved
	stale   []string
	card    string
	ui.Scroll
	ui.Prompt
}

func newRecipe(deps ui.Deps, shelf []model.Entry, back *cookbook, entry model.RecipeEntry) *recipe {
	r := &recipe{deps: deps, shelf: shelf, back: back, entry: entry}
	r.refresh()
	return r
}

// refresh writes the card anew.
func (r *recipe) refresh() {
	d := r.deps.Drawer
	profiles := kitchen.ProfilesOf(r.entry.Recipe, r.shelf)
	r.stale = kitchen.Changes(r.entry.Recipe, profiles, d)
	r.card = kitchen.Card(r.entry.Recipe, profiles, d)
	r.ToTop()
}

// change takes a changed recipe, to be saved or not.
func (r *recipe) change(to model.Recipe, what string) {
	r.entry.Recipe, r.changed = to, what
	r.refresh()
}

func (r *recipe) Session() *ui.Session { return nil }
func (r *recipe) Typing() bool         { return r.Asking() }
func (r *recipe) Title() string        { return "Kitchen › recipe  " + printable.Line(r.entry.Recipe.Name) }

func (r *recipe) Keys() []key.Binding {
	if r.Asking() {
		return ui.PromptKeys()
	}
	k := recipeKeys
	return []key.Binding{k.total, k.swap, k.save, k.rename, k.export, k.copy, k.scroll, k.leave, k.quit}
}

func (r *recipe) Update(msg tea.Msg) (ui.Next, tea.Cmd) {
	switch m := msg.(type) {
	case tea.KeyMsg:
		if r.Asking() {
			return r, r.Press(m)
		}
		return r.key(m)
	case ui.RecipeSaved:
		if m.Err == nil {
			r.entry = r.written
			r.entry.Slug, r.entry.Path, r.entry.Read = m.Entry.Slug, m.Entry.Path, m.Entry.Read
			r.changed = ""
			r.refresh()
		}
	}
	r.Receive(msg)
	return r, nil
}

func (r *recipe) key(msg tea.KeyMsg) (ui.Next, tea.Cmd) {
	k := recipeKeys
	r.Hush()
	leaves := key.Matches(msg, k.leave, k.quit)
	if leaves && r.changed != "" && !r.warned {
		r.warned = true
		r.Refuse("not saved: " + r.changed + ". " + k.save.Help().Key +
			" saves it; the same key again leaves it as it was")
		return r, nil
	}
	r.warned = false
	switch {
	case key.Matches(msg, k.quit):
		return ui.Quit{}, nil
	case leaves:
		return r.back, readRecipes(r.deps)
	case key.Matches(msg, k.scroll):
		r.ScrollBy(msg.String())
	case key.Matches(msg, k.total):
		r.askTotal()
	case key.Matches(msg, k.swap):
		return r.swap(), nil
	case key.Matches(msg, k.save):
		return r, r.save(r.entry)
	case key.Matches(msg, k.rename):
		r.askName()
	case key.Matches(msg, k.copy):
		return r, ui.CopyText(r.deps, "the card", r.card)
	case key.Matches(msg, k.export):
		r.AskCard(r.deps, r.entry.Recipe.Name, r.card)
	}
	return r, nil
}

func (r *recipe) askTotal() {
	r.Ask(ui.Question{
		Title: "Another total, in grams",
		Answer: func(text string) (tea.Cmd, error) {
			grams, err := typed.Mass(text, "200 g")
			if err != nil {
				return nil, err
			}
			scaled, err := kitchen.Scale(r.entry.Recipe, grams)
			if err != nil {
				return nil, err
			}
			r.change(scaled, "total now "+model.Grams(grams)+" g")
			return nil, nil
		},
	}, "")
}

func (r *recipe) askName() {
	r.Ask(ui.Question{
		Title: "Save under a new name",
		Answer: func(typed string) (tea.Cmd, error) {
			entry := model.RecipeEntry{Recipe: r.entry.Recipe}
			entry.Recipe.Name = typed
			return r.write(entry)
		},
	}, r.entry.Recipe.Name)
}

func (r *recipe) save(entry model.RecipeEntry) tea.Cmd {
	cmd, err := r.write(entry)
	if err != nil {
		r.Refuse(err.Error())
	}
	return cmd
}

// write saves a recipe as of now.
func (r *recipe) write(entry model.RecipeEntry) (tea.Cmd, error) {
	entry.Recipe.Saved = r.deps.Now()
	r.written = entry
	return r.SaveRecipe(r.deps, entry)
}

// swap goes to the swap of the recipe's powder.
func (r *recipe) swap() ui.Next {
	powders := r.entry.Recipe.Powders
	if len(powders) != 1 {
		r.Refuse("a mix is not swapped: mix anew, and make a trial of the mix")
		return r
	}
	if at := kitchen.PlaceOnShelf(powders[0], r.shelf); at >= 0 {
		return newRecipeSwap(r.deps, r.shelf, r, r.shelf[at])
	}
	r.Refuse(powders[0].Powder().Title() + " is not on the shelf: a swap needs its profile")
	return r
}

func (r *recipe) View(w, h int) string {
	var lines []string
	for _, s := range r.stale {
		lines = append(lines, ui.Warned(s, w)...)
	}
	switch {
	case r.changed != "":
		save, rename := recipeKeys.save.Help().Key, recipeKeys.rename.Help().Key
		text := fmt.Sprintf("Not saved: %s. %s saves it, %s under a new name.", r.changed, save, rename)
		lines = append(lines, ui.Warned(text, w)...)
	default:
		lines = append(lines, ui.Painted(ui.NoteStyle, "Saved as "+r.entry.Path, w)...)
	}
	said := r.Foot(w)
	lines = append(lines, r.Sight(cardLines(r.card, min(w, 90)), h-len(lines)-len(said))...)
	for len(lines) < h-len(said) {
		lines = append(lines, "")
	}
	return strings.Join(append(lines, said...), "\n")
}

// cardLines is a card's Markdown laid out for the screen: headings stand out,
// the table's columns line up.
func cardLines(card string, w int) []string {
	var lines, table []string
	for _, l := range strings.Split(strings.TrimRight(card, "\n"), "\n") {
		if strings.HasPrefix(l, "|") {
			table = append(table, l)
			continue
		}
		lines = append(lines, tableLines(table, w)...)
		table = nil
		heading := strings.TrimLeft(l, "#")
		strong := strings.TrimSuffix(strings.TrimPrefix(l, "**"), "**")
		switch {
		case heading != l:
			lines = append(lines, ui.TitleStyle.Render(ui.Cut(printable.Line(strings.TrimSpace(heading)), w)))
		case strong != l:
			lines = append(lines, ui.Warned(strong, w)...)
		default:
			lines = append(lines, ui.Painted(ui.PlainStyle, l, w)...)
		}
	}
	return append(lines, tableLines(table, w)...)
}

// tableLines lays out a table of what, grams, and spoons.
func tableLines(table []string, w int) []string {
	var rows [][3]string
	width := 0
	for i, l := range table {
		parts := strings.Split(strings.ReplaceAll(strings.Trim(l, "|"), `\|`, "/"), "|")
		if i == 1 || len(parts) < 3 {
			continue // the rule below the head
		}
		row := [3]string{}
		for n := range row {
			row[n] = printable.Line(strings.TrimSpace(parts[n]))
		}
		rows = append(rows, row)
		width = max(width, ui.Cells(row[0]))
	}
	width = min(width, max(w/2-4, 12))
	var lines []string
	for _, row := range rows {
		spoons := ui.Wrap(row[2], max(w-width-11, 12)) // ones that run on stay in their column
		for i, s := range spoons {
			left := strings.Repeat(" ", width+9)
			if i == 0 {
				left = ui.Pad(row[0], width) + ui.PadLeft(row[1], 9)
			}
			lines = append(lines, ui.Cut(left+"  "+s, w))
		}
	}
	return lines
}
