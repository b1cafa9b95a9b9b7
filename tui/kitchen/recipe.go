package kitchen

import (
	"strings"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/paper"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/typed"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// recipe shows one recipe: its card, and the keys to change, copy or delete it.
type recipe struct {
	deps    ui.Deps
	shelf   []model.Entry
	back    *cookbook
	entry   model.RecipeEntry
	stands  model.Recipe      // as it is on disk
	written model.RecipeEntry // the recipe being written
	renames bool              // only the name is written; other changes stay unsaved
	changed []string          // names of the changes that are not saved
	warned  bool              // leaving with unsaved changes was asked for once
	asked   question          // the question that waits for Enter
	card    paper.Card
	ui.Scroll
	ui.Prompt
}

// question is the action that Enter confirms.
type question int

const (
	nothing question = iota
	saveOver
	deleteIt
)

func newRecipe(deps ui.Deps, shelf []model.Entry, back *cookbook, entry model.RecipeEntry) *recipe {
	r := &recipe{deps: deps, shelf: shelf, back: back, entry: entry, stands: entry.Recipe}
	r.refresh()
	return r
}

// profiles returns the recipe's profiles that are on the shelf.
func (r *recipe) profiles() []model.Profile { return kitchen.ProfilesOf(r.entry.Recipe, r.shelf) }

// refresh draws the card anew.
func (r *recipe) refresh() {
	r.card = paper.CardOf(r.entry.Recipe, r.profiles(), r.deps.OwnSpoons, paper.Options{})
	r.ToTop()
}

// change takes over a changed recipe and notes what is not saved yet.
func (r *recipe) change(to model.Recipe, what string) {
	r.entry.Recipe, r.changed = to, append(r.changed, what)
	r.refresh()
}

func (r *recipe) Session() *ui.Session { return nil }
func (r *recipe) Typing() bool         { return r.Asking() }
func (r *recipe) Title() string        { return "Kitchen › recipe  " + printable.Line(r.entry.Recipe.Name) }

// Help says what the screen is for.
func (r *recipe) Help() []string {
	return []string{
		"A recipe as it is given out: the card, with every amount in the step that uses it.",
		"e changes amounts, extras, order and notes; t makes another total or other portions; s puts another " +
			"powder in. " +
			"Nothing of that is on the shelf until Ctrl+S, which shows what saved recipe it replaces, and asks first.",
		"n gives it another name, c keeps a copy beside it. D moves it to the folder \"deleted\"; u among the " +
			"recipes brings it back. " +
			"w writes the card to a file: .html has the picture and prints on A5, .md is plain text.",
	}
}

func (r *recipe) Keys() []key.Binding {
	k := recipeKeys
	switch {
	case r.Asking():
		return r.PromptKeys()
	case r.asked == saveOver:
		return []key.Binding{saveOverKeys[0], k.copy, saveOverKeys[1]}
	case r.asked == deleteIt:
		return deleteKeys[:]
	}
	return []key.Binding{
		k.edit, k.total, k.swap, k.save, k.export, k.rename, k.copy, k.delete, k.clip, k.renew, k.scroll, k.leave,
		k.quit,
	}
}

func (r *recipe) Update(msg tea.Msg) (ui.Next, tea.Cmd) {
	switch m := msg.(type) {
	case tea.KeyMsg:
		switch {
		case r.Asking():
			return r, r.Press(m)
		case r.asked != nothing:
			return r, r.answer(m)
		}
		return r.key(m)
	case ui.RecipeSaved:
		if m.Err == nil {
			unsaved := r.entry.Recipe
			r.entry = r.written
			r.entry.Slug, r.entry.Path, r.entry.Read = m.Entry.Slug, m.Entry.Path, m.Entry.Read
			r.stands = r.entry.Recipe
			if r.renames {
				unsaved.Name, unsaved.Saved = r.stands.Name, r.stands.Saved
				r.entry.Recipe = unsaved
			} else {
				r.changed = nil
			}
			r.refresh()
		}
	case recipeDeleted:
		r.Done()
		if m.err == nil {
			return r.back.after(r.entry.Recipe.Name, m.restore), readRecipes(r.deps)
		}
		r.Fail("NOT DELETED: " + m.err.Error())
	}
	r.Receive(msg)
	return r, nil
}

func (r *recipe) key(msg tea.KeyMsg) (ui.Next, tea.Cmd) {
	k := recipeKeys
	r.Hush()
	leaves := key.Matches(msg, k.leave, k.quit)
	if leaves && len(r.changed) > 0 && !r.warned {
		r.warned = true
		r.Refuse("not saved: " + r.changes() + ". " + k.save.Help().Key +
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
	case key.Matches(msg, k.edit):
		return newEdit(r.deps, r.shelf, r), nil
	case key.Matches(msg, k.total):
		r.askTotal()
	case key.Matches(msg, k.swap):
		return r.swap(model.Entry{}, model.Entry{}), nil
	case key.Matches(msg, k.renew):
		r.renew()
	case key.Matches(msg, k.save):
		return r, r.save()
	case key.Matches(msg, k.rename):
		r.askName("Its new name", r.entry.Recipe.Name, func(e *model.RecipeEntry) {})
	case key.Matches(msg, k.copy):
		r.askCopy()
	case key.Matches(msg, k.delete):
		r.asked = deleteIt
	case key.Matches(msg, k.clip):
		c := paper.CardOf(r.shown(), r.profiles(), r.deps.OwnSpoons, paper.Options{})
		return r, ui.CopyText(r.deps, "the card", c.Markdown())
	case key.Matches(msg, k.export):
		r.AskCard(r.deps, r.shown(), r.profiles())
	}
	return r, nil
}

// shown returns the recipe for its card; with unsaved changes its name says so.
func (r *recipe) shown() model.Recipe {
	out := r.entry.Recipe
	if len(r.changed) == 0 {
		return out
	}
	out.Saved = time.Time{}
	if name := out.Name + ", not saved: " + r.changes(); len(name) <= model.MaxNameLength {
		out.Name = name
	} else if name = out.Name + ", not saved"; len(name) <= model.MaxNameLength {
		out.Name = name
	}
	return out
}

// changes names the unsaved changes.
func (r *recipe) changes() string { return strings.Join(r.changed, ", ") }

// answer ends a question: Enter confirms, any other key cancels. When saving over,
// a key makes a copy instead.
func (r *recipe) answer(msg tea.KeyMsg) tea.Cmd {
	asked := r.asked
	r.asked = nothing
	switch {
	case asked == saveOver && key.Matches(msg, recipeKeys.copy):
		r.askCopy()
		return nil
	case !key.Matches(msg, saveOverKeys[0]):
		return nil
	case asked == saveOver:
		return r.write(r.entry, false)
	}
	r.Wait("deleting…")
	entry := r.entry
	return func() tea.Msg {
		restore, err := r.deps.DeleteRecipe(entry)
		return recipeDeleted{restore, err}
	}
}

// askTotal asks for another size: a total, or portions.
func (r *recipe) askTotal() {
	r.Ask(ui.Question{
		Title: "Another total or portions, as 200 g, 20 x 75 g, or 20 x for 20 as large as now",
		Answer: func(text string) (tea.Cmd, error) {
			to, what, err := resized(r.entry.Recipe, text)
			if err == nil {
				to, err = kitchen.Edited(to, r.profiles(), r.deps.OwnSpoons)
			}
			if err != nil {
				return nil, err
			}
			r.change(to, what)
			return nil, nil
		},
	}, "")
}

// resized returns the recipe for another total, or for so many portions.
func resized(r model.Recipe, text string) (model.Recipe, string, error) {
	if strings.ContainsAny(text, "x×*") {
		n, each, err := typed.Portions(strings.TrimRight(text, "x×* "))
		if err == nil && each == 0 && r.Portions == 0 {
			each = r.TotalG / float64(n)
		}
		if err != nil {
			return r, "", err
		}
		r, err = kitchen.InPortions(r, n, each)
		return r, portionsText(r), err
	}
	grams, err := typed.Mass(text, "200 g")
	if err != nil {
		return r, "", err
	}
	r, err = kitchen.Scale(r, grams)
	return r, "total now " + model.Grams(grams) + " g", err
}

// renew makes the recipe again from the profiles as they are today.
func (r *recipe) renew() {
	to, err := kitchen.Renewed(r.entry.Recipe, r.profiles(), r.deps.OwnSpoons)
	if err != nil {
		r.Refuse(err.Error())
		return
	}
	was := r.entry.Recipe
	if kitchen.SameAmounts(kitchen.Differences(was, to)) && len(kitchen.Reworded(was, to)) == 0 &&
		len(kitchen.Changes(was, r.profiles(), r.deps.OwnSpoons)) == 0 {
		r.Say("Its powders say the same as when it was saved: nothing changes.")
		return
	}
	r.change(to, "worked out anew from the powders as they are now")
}

// freeName suggests a name for a copy that no recipe has.
func (r *recipe) freeName() string {
	taken := []string{r.entry.Recipe.Name, r.stands.Name}
	for _, e := range r.back.book.Items {
		taken = append(taken, e.Recipe.Name)
	}
	return kitchen.FreeName(r.entry.Recipe.Name, taken)
}

// askCopy asks for a name and saves the recipe, with its changes, as a copy.
func (r *recipe) askCopy() {
	r.askName("A copy under the name", r.freeName(), func(e *model.RecipeEntry) {
		*e = model.RecipeEntry{Recipe: e.Recipe}
	})
}

// askName asks for a name, suggesting one, and saves under it; as prepares the
// entry.
func (r *recipe) askName(title, name string, as func(*model.RecipeEntry)) {
	r.Ask(ui.Question{
		Title: title, Yes: "save it",
		Answer: func(name string) (tea.Cmd, error) {
			entry := r.entry
			as(&entry)
			if entry.Slug != "" { // only the name: other changes are still to be saved
				entry.Recipe = r.stands
			}
			entry.Recipe.Name = name
			if problems := entry.Recipe.Validate(); len(problems) > 0 {
				return nil, problems[0]
			}
			return r.write(entry, entry.Slug != ""), nil
		},
	}, name)
}

// save asks whether to save over the recipe on disk.
func (r *recipe) save() tea.Cmd {
	if len(r.changed) == 0 {
		r.Say("Nothing has changed since it was saved.")
		return nil
	}
	r.asked = saveOver
	r.ToTop()
	return nil
}

// write saves a recipe with the time of now, or only its new name.
func (r *recipe) write(entry model.RecipeEntry, renames bool) tea.Cmd {
	entry.Recipe.Saved = r.deps.Now()
	r.written, r.renames = entry, renames
	cmd, err := r.SaveRecipe(r.deps, entry)
	if err != nil {
		r.Refuse(err.Error())
	}
	return cmd
}

// swap opens a swap in this recipe. It replaces from if the recipe has it, else the
// first of its powders on the shelf; to comes in, unless it is the one to be replaced.
// Both may be empty.
func (r *recipe) swap(from, to model.Entry) ui.Next {
	at := -1
	for _, p := range r.entry.Recipe.Powders {
		found := kitchen.ShelfIndex(p, r.shelf)
		if found >= 0 && (at < 0 || from.Slug != "" && r.shelf[found].Slug == from.Slug) {
			at = found
		}
	}
	if at < 0 {
		r.Refuse(r.entry.Recipe.Powders[0].Powder().Title() + " is not on the shelf: a swap needs its trials")
		return r
	}
	if to.Slug == r.shelf[at].Slug {
		to = model.Entry{}
	}
	return newRecipeSwap(r.deps, r.shelf, r, r.shelf[at], to)
}
