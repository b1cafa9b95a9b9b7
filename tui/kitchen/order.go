package kitchen

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/typed"
	"daub.example/daub/tui/ui"
)

// The fields of an order, counted from its first.
const (
	orderTotal = iota
	orderJar
	orderPortions
	orderExtras
	orderBowl
	orderSpoons
)

// orderFields asks how much is wanted, and what else goes in.
func orderFields(spoons []string) []ui.Field {
	hand := ui.TextField("spoons at hand", "The spoons you have, with commas between them.")
	hand.Set(strings.Join(spoons, ", "))
	return []ui.Field{
		orderTotal:    ui.TextField("total, g", "What is to come out, in grams. Empty: what portions or jar take."),
		orderJar:      ui.TextField("jar, mL", "How much one jar holds; with portions, each gets such a jar."),
		orderPortions: ui.TextField("portions", "How many, and how large: 20 x 75 g."),
		orderExtras:   extrasField(),
		orderBowl:     ui.TextField("lost in bowl", "Extra for what sticks to bowl and spoon: 5 % or 2 g."),
		orderSpoons:   hand,
	}
}

func extrasField() ui.Field {
	return ui.TextField("extras", "Shares of the total: oil 3 %, glycerine 2 %. "+
		calculatorKeys.kind.Help().Key+": what it counts as.")
}

// orderHelp explains the fields of an order.
func orderHelp() []string {
	return []string{
		"How much: a total in grams, portions as 20 x 75 g, or a jar in millilitres; one is enough. A jar is filled " +
			"to 95 %, by the volumes of all that goes in; with portions it is the jar of each. What sticks to the " +
			"bowl is made on top of the total.",
		"Extras are shares of the total, with commas between them: honey 4 %, walnut oil 5 %. Each counts as liquid, " +
			"oil or dry. Liquid, such as honey or glycerine: " + kindDoes[model.CountsLiquid] + ". Oil or dry: " +
			kindDoes[model.CountsOil] + ". daub knows the usual names; a name that it does not know counts as liquid " +
			"until you say. " + calculatorKeys.kind.Help().Key + " gives the extra at the cursor the next kind, and " +
			"writes it behind it: rose gel 1 %:oil.",
	}
}

// amount reads the quantity in a field, 0 if it is empty.
func (t *calculator) amount(i int, read func(text, example string) (float64, error), example string) (float64, error) {
	v, err := ui.Optional(t.Fields[i].Value(), func(text string) (float64, error) { return read(text, example) })
	if err != nil {
		return 0, fmt.Errorf("%s: %w", t.Fields[i].Label, err)
	}
	return v, nil
}

var errNoSize = errors.New("give a total in grams, portions, or a jar in millilitres")

// order reads an order from the fields, beginning with field from.
func (t *calculator) order(from int) (o model.Order, err error) {
	if o.TotalG, err = t.amount(from+orderTotal, typed.Mass, "120 g"); err != nil {
		return o, err
	}
	if o.Portions, o.PortionG, err = typed.Portions(t.Fields[from+orderPortions].Value()); err != nil {
		return o, fmt.Errorf("portions: %w", err)
	}
	if o.JarML, err = t.amount(from+orderJar, typed.Volume, "60 mL"); err != nil {
		return o, err
	}
	if o.Extras, err = typed.Extras(t.Fields[from+orderExtras].Value(), "oil 3 %"); err != nil {
		return o, fmt.Errorf("extras: %w", err)
	}
	if o.AllowanceShare, o.AllowanceG, err = typed.Allowance(t.Fields[from+orderBowl].Value()); err != nil {
		return o, fmt.Errorf("lost in bowl: %w", err)
	}
	if o.Spoons, err = typed.SpoonsOf(t.deps.OwnSpoons).List(t.Fields[from+orderSpoons].Value()); err != nil {
		return o, err
	}
	if o.TotalG == 0 && o.JarML == 0 && o.PortionG == 0 {
		return o, errNoSize
	}
	return o, nil
}

// turnKind counts the extra at the text cursor as the next kind: liquid, oil, dry.
func (t *calculator) turnKind(i int) error {
	f := &t.Fields[i]
	text, at := f.Input.Value(), f.Input.Position()
	extras, err := typed.Extras(text, "oil 3 %")
	if err != nil {
		return err
	}
	if len(extras) == 0 {
		return errors.New("no extra is named yet: oil 3 %, glycerine 2 %")
	}
	ahead := string([]rune(text)[:at])
	pick := min(strings.Count(ahead, ", ")+strings.Count(ahead, ";"), len(extras)-1)
	kinds := model.CountsAs()
	next := slices.Index(kinds, extras[pick].Kind()) + 1
	extras[pick].Counts = kinds[next%len(kinds)]
	end := pick == len(extras)-1
	f.Input.SetValue(extrasText(extras))
	if end {
		f.Input.CursorEnd()
	} else {
		f.Input.SetCursor(at)
	}
	f.Touched = true
	t.task.update(t)
	t.Say(fmt.Sprintf("%s counts as %s now: %s. %s again: %s.", extras[pick].Name, extras[pick].Counts,
		kindDoes[extras[pick].Counts], calculatorKeys.kind.Help().Key, kinds[(next+1)%len(kinds)]))
	return nil
}

// kindDoes says what a kind of extra does to the amounts.
var kindDoes = map[model.Counts]string{
	model.CountsLiquid: "part of what the powder takes up, so less of the other liquid",
	model.CountsOil:    "no part of what the powder takes up, so powder and liquid keep their ratio",
	model.CountsDry:    "no part of what the powder takes up, so powder and liquid keep their ratio",
}

// kindKey calls turnKind for its key. From another field it first goes to the
// extras and changes nothing yet.
func (t *calculator) kindKey(i int) {
	if t.At != i {
		t.At = i
		t.Focus()
		t.Say(fmt.Sprintf("The extras: %s gives the one at the cursor its next kind, liquid, oil or dry.",
			calculatorKeys.kind.Help().Key))
		return
	}
	if err := t.turnKind(i); err != nil {
		t.Refuse(err.Error())
	}
}

// extrasText writes extras as they are typed.
func extrasText(extras []model.Extra) string {
	texts := make([]string, len(extras))
	for i, e := range extras {
		texts[i] = fmt.Sprintf("%s %s %%", e.Name, model.Number(model.RoundSignificant(100*e.Share, 6)))
		if e.Counts != "" {
			texts[i] += ":" + string(e.Counts)
		}
	}
	return strings.Join(texts, ", ")
}
