package tui

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// recipe is one recipe: its card, another total, another powder.
type recipe struct {
	world   World
	stock   []row
	back    *cookbook
	item    RecipeItem
	written RecipeItem // what a write was given
	changed string     // what was changed and is not saved; "" nothing
	warned  bool       // leaving was asked for with a change not saved
	stale   []string
	card    string
	scroll
	outlet
}

func newRecipe(w World, stock []row, back *cookbook, item RecipeItem) *recipe {
	r := &recipe{world: w, stock: stock, back: back, item: item}
	r.work()
	return r
}

// work writes the card anew.
func (r *recipe) work() {
	d := r.world.Drawer
	r.stale = staleness(r.item.Recipe, r.stock, d)
	r.card = r.item.Recipe.Card(r.item.Recipe.Profiles(shelved(r.stock)), d)
	r.top = 0
}

// change takes a changed recipe, to be saved or not.
func (r *recipe) change(to model.Recipe, what string) {
	r.item.Recipe, r.changed = to, what
	r.work()
}

func (r *recipe) Session() *Session { return nil }
func (r *recipe) Typing() bool      { return r.asking() }
func (r *recipe) Title() string     { return "Kitchen › recipe  " + sanitise(r.item.Recipe.Name) }

func (r *recipe) Keys() []key.Binding {
	if r.asking() {
		return outletFooter()
	}
	k := recipeKeys
	return []key.Binding{k.total, k.swap, k.save, k.rename, k.export, k.copy, k.scroll, k.leave, k.quit}
}

func (r *recipe) Update(msg tea.Msg) (screen, tea.Cmd) {
	switch m := msg.(type) {
	case tea.KeyMsg:
		if r.asking() {
			return r, r.typed(m)
		}
		return r.key(m)
	case recipeSaved:
		if m.err == nil {
			r.item = r.written
			r.item.ID, r.item.Path, r.item.Token = m.item.ID, m.item.Path, m.item.Token
			r.changed = ""
			r.work()
		}
	}
	r.take(msg)
	return r, nil
}

func (r *recipe) key(msg tea.KeyMsg) (screen, tea.Cmd) {
	k := recipeKeys
	r.hush()
	leaves := key.Matches(msg, k.leave, k.quit)
	if leaves && r.changed != "" && !r.warned {
		r.warned = true
		r.refuse(fmt.Sprintf("not saved: %s. %s saves it; the same key again leaves it as it was", r.changed, k.save.Help().Key))
		return r, nil
	}
	r.warned = false
	switch {
	case key.Matches(msg, k.quit):
		return r, func() tea.Msg { return quitWanted{} }
	case leaves:
		return r.back, readRecipes(r.world)
	case key.Matches(msg, k.scroll):
		r.scrollBy(msg.String())
	case key.Matches(msg, k.total):
		r.askTotal()
	case key.Matches(msg, k.swap):
		return r.swap(), nil
	case key.Matches(msg, k.save):
		return r, r.save(r.item)
	case key.Matches(msg, k.rename):
		r.askName()
	case key.Matches(msg, k.copy):
		return r, copyText(r.world, "the card", r.card)
	case key.Matches(msg, k.export):
		r.writeCard(r.world, r.item.Recipe.Name, r.card)
	}
	return r, nil
}

func (r *recipe) askTotal() {
	r.ask(question{
		title: "Another total, in grams",
		take: func(typed string) (tea.Cmd, error) {
			grams, err := number(typed, "g")
			if err != nil {
				return nil, err
			}
			scaled, err := r.item.Recipe.Scale(grams)
			if err != nil {
				return nil, err
			}
			r.change(scaled, "total now "+model.Grams(grams)+" g")
			return nil, nil
		},
	}, "")
}

func (r *recipe) askName() {
	r.ask(question{
		title: "Save under a new name",
		take: func(typed string) (tea.Cmd, error) {
			item := RecipeItem{Recipe: r.item.Recipe}
			item.Recipe.Name = typed
			return r.write(item)
		},
	}, r.item.Recipe.Name)
}

func (r *recipe) save(item RecipeItem) tea.Cmd {
	cmd, err := r.write(item)
	if err != nil {
		r.refuse(err.Error())
	}
	return cmd
}

// write saves a recipe as of now.
func (r *recipe) write(item RecipeItem) (tea.Cmd, error) {
	item.Recipe.Saved = r.world.Now()
	r.written = item
	return r.saveRecipe(r.world, item)
}

// swap goes to the swap of the recipe's powder.
func (r *recipe) swap() screen {
	powders := r.item.Recipe.Powders
	if len(powders) != 1 {
		r.refuse("a mix is not swapped: mix anew, and make a trial of the mix")
		return r
	}
	if at := stockOf(powders[0], r.stock); at >= 0 {
		return newRecipeSwap(r.world, r.stock, r, r.stock[at])
	}
	r.refuse(powders[0].Powder().Title() + " is not on the shelf: a swap needs its profile")
	return r
}

func (r *recipe) View(w, h int) string {
	var lines []string
	for _, s := range r.stale {
		lines = append(lines, warned(s, w)...)
	}
	switch {
	case r.changed != "":
		lines = append(lines, warned(fmt.Sprintf("Not saved: %s. %s saves it, %s under a new name.", r.changed, recipeKeys.save.Help().Key, recipeKeys.rename.Help().Key), w)...)
	default:
		lines = append(lines, painted(dimStyle, "Saved as "+r.item.Path, w)...)
	}
	said := r.saidLines(w)
	lines = append(lines, r.sight(cardLines(r.card, min(w, 90)), h-len(lines)-len(said))...)
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
			lines = append(lines, titleStyle.Render(cut(sanitise(strings.TrimSpace(heading)), w)))
		case strong != l:
			lines = append(lines, warned(strong, w)...)
		default:
			lines = append(lines, painted(plainStyle, l, w)...)
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
			row[n] = sanitise(strings.TrimSpace(parts[n]))
		}
		rows = append(rows, row)
		width = max(width, cells(row[0]))
	}
	width = min(width, max(w/2-4, 12))
	var lines []string
	for _, row := range rows {
		spoons := wrap(row[2], max(w-width-11, 12)) // ones that run on stay in their column
		for i, s := range spoons {
			left := strings.Repeat(" ", width+9)
			if i == 0 {
				left = pad(row[0], width) + padLeft(row[1], 9)
			}
			lines = append(lines, cut(left+"  "+s, w))
		}
	}
	return lines
}

// stockOf is the place in stock of a recipe's powder: by its name on the shelf,
// else by name and lot; -1 where it is not there.
func stockOf(p model.RecipePowder, stock []row) int {
	same := func(r row) bool { return r.item.Profile.Powder.Name == p.Name && r.item.Profile.Powder.Lot == p.Lot }
	if at := slices.IndexFunc(stock, func(r row) bool { return r.item.ID == p.Slug && same(r) }); at >= 0 {
		return at
	}
	return slices.IndexFunc(stock, same)
}
