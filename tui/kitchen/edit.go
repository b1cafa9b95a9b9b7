package kitchen

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/typed"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// The fields of a recipe that can be changed.
const (
	editTotal = iota
	editPortions
	editJar
	editExtras
	editOrder
	editBowl
	editNotes
)

// edit changes the amounts, extras, order and notes of a recipe.
type edit struct {
	recipe *recipe
	now    model.Recipe
	err    error
}

func newEdit(deps ui.Deps, shelf []model.Entry, r *recipe) ui.Screen {
	is := r.entry.Recipe
	e := &edit{recipe: r}
	fields := []ui.Field{
		editTotal:    ui.TextField("total, g", "What is to come out, in grams."),
		editPortions: ui.TextField("portions", "As 20 x 75 g. Empty: one bowl."),
		editJar:      ui.TextField("jar, mL", "The volume of each portion's jar. Empty: no jar."),
		editExtras:   extrasField(),
		editOrder:    ui.TextField("order", "The order of the steps, commas between. Empty: as usual."),
		editBowl:     ui.TextField("lost in bowl", "Extra for what sticks to bowl and spoon: 5 % or 2 g."),
		editNotes:    ui.TextField("notes", "Whatever the card should say besides."),
	}
	fields[editTotal].Set(totalText(is))
	if is.Portions > 0 {
		fields[editPortions].Set(portionsText(is))
	}
	if is.JarML > 0 {
		fields[editJar].Set(model.Number(is.JarML))
	}
	fields[editExtras].Set(extrasText(is.Extras))
	fields[editOrder].Set(strings.Join(kitchen.AdditionOrder(is), ", "))
	fields[editBowl].Set(kitchen.AllowanceText(is))
	fields[editNotes].Set(printable.Words(is.Notes))
	return newCalculator(deps, shelf, r, e).ready(fields)
}

// totalText writes a recipe's total as it is typed.
func totalText(r model.Recipe) string { return model.Number(model.RoundSignificant(r.TotalG, 6)) }

// portionsText writes a recipe's portions as they are typed.
func portionsText(r model.Recipe) string {
	each := r.PortionG
	if each == 0 {
		each = r.TotalG / float64(max(r.Portions, 1))
	}
	return fmt.Sprintf("%d x %s g", r.Portions, model.Number(model.RoundSignificant(each, 6)))
}

func (e *edit) help() []string {
	return append([]string{
		"Changes to a recipe. Nothing of it is taken in before Ctrl+G, and nothing is on the shelf before Ctrl+S " +
			"after that. Of total and portions the one that you do not type follows the other.",
	}, append(orderHelp(),
		"Order: the names as they are listed, with commas between, in the order of weighing; the beginning of a name "+
			"is enough, and what is left out follows as usual. Empty brings the usual order back: powders, the water "+
			"phase, a solubiliser with its oil, a preservative last.")...)
}

func (e *edit) title() string {
	return "recipe › edit  " + printable.Line(e.recipe.entry.Recipe.Name)
}

func (e *edit) update(t *calculator) {
	if e.now, e.err = e.changed(t); e.err != nil {
		return
	}
	total, portions := &t.Fields[editTotal], &t.Fields[editPortions]
	switch { // the field that was not typed follows the other
	case portions.Touched && !total.Touched:
		total.Set(totalText(e.now))
	case !portions.Touched && e.now.Portions > 0:
		portions.Set(portionsText(e.now))
	}
}

// changed returns the recipe with the fields' changes; fields not touched keep its
// values to the last bit.
func (e *edit) changed(t *calculator) (model.Recipe, error) {
	r, err := e.sized(t)
	if err != nil {
		return r, err
	}
	if t.Fields[editExtras].Touched {
		if r, err = e.withExtras(r, t.Fields[editExtras].Value()); err != nil {
			return r, fmt.Errorf("extras: %w", err)
		}
	}
	if f := t.Fields[editOrder]; f.Touched {
		names := strings.FieldsFunc(f.Value(), func(c rune) bool { return c == ',' || c == ';' })
		if r, err = kitchen.WithOrder(r, names); err != nil {
			return r, err
		}
	}
	if f := t.Fields[editBowl]; f.Touched {
		if r.AllowanceShare, r.AllowanceG, err = typed.Allowance(f.Value()); err != nil {
			return r, fmt.Errorf("lost in bowl: %w", err)
		}
	}
	if f := t.Fields[editNotes]; f.Touched {
		r.Notes = f.Value()
	}
	return kitchen.Edited(r, kitchen.ProfilesOf(r, t.shelf), t.deps.OwnSpoons)
}

// sized returns the recipe with its new total, portions and jar.
func (e *edit) sized(t *calculator) (model.Recipe, error) {
	r := e.recipe.entry.Recipe
	jar := r.JarML
	if t.Fields[editTotal].Touched {
		grams, err := typed.Mass(t.Fields[editTotal].Value(), "120 g")
		if err == nil {
			r, err = kitchen.Scale(r, grams)
		}
		if err != nil {
			return r, fmt.Errorf("total: %w", err)
		}
	}
	if t.Fields[editPortions].Touched {
		n, each, err := typed.Portions(t.Fields[editPortions].Value())
		if err == nil && each == 0 && n > 0 {
			each = r.TotalG / float64(n)
		}
		if err == nil {
			r, err = kitchen.InPortions(r, n, each)
		}
		if err != nil {
			return r, fmt.Errorf("portions: %w", err)
		}
	}
	r.JarML = jar
	if t.Fields[editJar].Touched {
		volume, err := t.amount(editJar, typed.Volume, "60 mL")
		if err != nil {
			return r, err
		}
		r.JarML = volume
	}
	return r, nil
}

// withExtras returns the recipe with new extras; an extra that stays keeps its
// note.
func (e *edit) withExtras(r model.Recipe, text string) (model.Recipe, error) {
	wanted, err := typed.Extras(text, "oil 3 %")
	if err != nil {
		return r, err
	}
	for _, old := range slices.Clone(r.Extras) {
		if !slices.ContainsFunc(wanted, func(x model.Extra) bool { return model.SameLiquid(x.Name, old.Name) }) {
			if r, err = kitchen.WithoutExtra(r, old.Name); err != nil {
				return r, err
			}
		}
	}
	for _, x := range wanted {
		if r, err = kitchen.WithExtra(r, x); err != nil {
			return r, err
		}
	}
	return r, nil
}

func (e *edit) problem() string { return said(e.err) }

func (e *edit) keys() []key.Binding {
	if e.err != nil {
		return []key.Binding{calculatorKeys.kind}
	}
	return []key.Binding{calculatorKeys.take, calculatorKeys.kind}
}

// key puts the changes into the recipe; they are not saved yet.
func (e *edit) key(t *calculator, msg tea.KeyMsg) (ui.Next, tea.Cmd) {
	if key.Matches(msg, calculatorKeys.kind) {
		t.kindKey(editExtras)
		return t, nil
	}
	var what []string
	for _, f := range t.Fields {
		if f.Touched {
			what = append(what, f.Label)
		}
	}
	if len(what) == 0 {
		t.Refuse("nothing has been changed yet")
		return t, nil
	}
	e.recipe.change(e.now, strings.Join(what, ", "))
	return e.recipe, nil
}

func (e *edit) lines(t *calculator, w int) []string {
	if e.err != nil {
		return incomplete(e.err, w)
	}
	var lines []string
	for _, warning := range kitchen.Warnings(e.now, kitchen.ProfilesOf(e.now, t.shelf), t.deps.OwnSpoons) {
		lines = append(lines, ui.Warned(warning, w)...)
	}
	if all := kitchen.Differences(e.recipe.stands, e.now); kitchen.SameAmounts(all) {
		lines = append(lines, amountLines(all, w)...)
	} else {
		lines = append(lines, changeLines(e.recipe.stands, e.now, w)...)
	}
	lines = append(lines, "")
	order := "In this order: " + strings.Join(kitchen.AdditionOrder(e.now), ", ") +
		". Powder is weighed in its turn, and sprinkled into the bowl once the liquid is there."
	return append(lines, ui.Painted(ui.PlainStyle, order, w)...)
}
