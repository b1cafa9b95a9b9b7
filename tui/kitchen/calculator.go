package kitchen

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/care"
	"daub.example/daub/model/printable"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// calculator is a form with its answer below or beside it. The answer is worked out
// again whenever a field changes; the task knows what the fields mean.
type calculator struct {
	deps  ui.Deps
	shelf []model.Entry // all powders, to choose from
	names []string      // names of the shelf, each once
	back  ui.Screen     // where Esc leads
	task  task
	ui.Form
	ui.Scroll
	ui.Prompt
}

// task gives a form its purpose: batch, swap, mix and others.
type task interface {
	title() string
	// update works out the answer from the fields; it draws nothing.
	update(t *calculator)
	// problem says why there is no answer; "" if there is one.
	problem() string
	// lines draws the answer.
	lines(t *calculator, w int) []string
	// keys lists the keys that work now beyond those of every form.
	keys() []key.Binding
	// key handles one of them.
	key(t *calculator, msg tea.KeyMsg) (ui.Next, tea.Cmd)
}

// newCalculator makes a form without fields; ready adds them and works out the
// first answer.
func newCalculator(deps ui.Deps, shelf []model.Entry, back ui.Screen, job task) *calculator {
	return &calculator{deps: deps, shelf: shelf, names: names(shelf), back: back, task: job}
}

// ready sets the form's fields and works out the first answer.
func (t *calculator) ready(fields []ui.Field) *calculator {
	if fields != nil {
		t.Fields = fields
	}
	t.Apply = func(int) error { return nil } // a wrong value is told with the answer and may be left
	t.Focus()
	t.task.update(t)
	return t
}

// names returns the titles of powders, with the file's name if two have the same.
func names(shelf []model.Entry) []string {
	count := map[string]int{}
	for _, e := range shelf {
		count[ui.Title(e)]++
	}
	names := make([]string, len(shelf))
	for i, e := range shelf {
		names[i] = ui.Title(e)
		if count[names[i]] > 1 {
			names[i] += " (" + e.Slug + ")"
		}
	}
	return names
}

// powderField asks for a powder of the shelf; r is chosen at first.
func (t *calculator) powderField(label string, r model.Entry) ui.Field {
	f := ui.NarrowField(label, "Type a part of its name, or choose with ←→.", t.names...)
	if i := slices.IndexFunc(t.shelf, func(s model.Entry) bool { return s.Slug == r.Slug }); i >= 0 {
		f.Set(t.names[i])
	}
	return f
}

// levelField asks for the level of a ratio.
func levelField(level float64) ui.Field {
	var names []string
	for _, l := range model.CurveLevels() {
		names = append(names, model.LevelName(l))
	}
	f := ui.ChoiceField("level", "How thick the paste is to be.", names...)
	f.Set(model.LevelName(level))
	return f
}

// basisField asks for the liquid and rest of the ratios; choice fills in its
// options once the powders are chosen.
func basisField() ui.Field {
	f := ui.ChoiceField("in", "The liquid and rest of the trials that the ratio is taken from.", asUsual)
	f.Set(asUsual)
	return f
}

// asUsual is the option for the liquid and rest of most trials.
const asUsual = "as most trials are"

// choice offers the powders' liquids and rests in field i and returns the chosen
// one.
func (t *calculator) choice(i int, powders ...model.Entry) model.Choice {
	f := &t.Fields[i]
	profiles := make([]model.Profile, len(powders))
	for i, e := range powders {
		profiles[i] = e.Profile
	}
	bases := model.DifferentBases(profiles...)
	f.Options = []string{asUsual}
	if len(bases) > 1 {
		for _, b := range bases {
			f.Options = append(f.Options, basisName(b))
		}
	}
	f.Pick = max(slices.Index(f.Options, f.Value()), 0)
	f.Input.SetValue(f.Options[f.Pick])
	if f.Pick == 0 {
		return model.Choice{}
	}
	b := bases[f.Pick-1]
	return model.Choice{In: b.Liquid, Rest: &b.RestS}
}

// basisName names a liquid and rest for the field.
func basisName(b model.Basis) string {
	return printable.Line(b.Liquid) + ", rest " + model.Seconds(b.RestS)
}

// level returns the level chosen in field i.
func (t *calculator) level(i int) float64 { return model.CurveLevels()[t.Fields[i].Pick] }

var errNoPowder = errors.New("choose a powder")

// powder finds the powder named in field i by its title, or by a part of it that
// fits one powder only.
func (t *calculator) powder(i int) (model.Entry, error) {
	v := t.Fields[i].Value()
	if v == "" {
		return model.Entry{}, errNoPowder
	}
	if n := slices.Index(t.names, v); n >= 0 {
		return t.shelf[n], nil
	}
	switch fit := ui.Narrowed(t.names, v); len(fit) {
	case 0:
		return model.Entry{}, fmt.Errorf("no powder on the shelf is called %q", v)
	case 1:
		return t.shelf[slices.Index(t.names, fit[0])], nil
	default:
		return model.Entry{}, fmt.Errorf("%d powders fit %q: choose one with ←→, or type more", len(fit), v)
	}
}

func (t *calculator) Session() *ui.Session { return nil }
func (t *calculator) Typing() bool         { return true }
func (t *calculator) Title() string        { return "Kitchen › " + t.task.title() }

// Help explains the form, if its hints do not say enough.
func (t *calculator) Help() []string {
	if explained, ok := t.task.(interface{ help() []string }); ok {
		return explained.help()
	}
	return nil
}

func (t *calculator) Keys() []key.Binding {
	if t.Asking() {
		return t.PromptKeys()
	}
	k := calculatorKeys
	keys := []key.Binding{k.next, k.prev}
	if len(t.Fields[t.At].Options) > 0 {
		keys = append(keys, k.change)
	}
	keys = append(keys, t.task.keys()...)
	return append(keys, k.copy, k.scroll, k.leave)
}

func (t *calculator) Update(msg tea.Msg) (ui.Next, tea.Cmd) {
	m, ok := msg.(tea.KeyMsg)
	switch {
	case !ok:
		t.Receive(msg)
		t.tookSpoons(msg)
		return t, nil
	case t.Asking():
		return t, t.Prompt.Press(m)
	}
	return t.key(m)
}

func (t *calculator) key(msg tea.KeyMsg) (ui.Next, tea.Cmd) {
	k := calculatorKeys
	switch {
	case msg.Paste:
		t.edit(msg)
	case key.Matches(msg, k.leave):
		return t.back, nil
	case key.Matches(msg, k.next):
		t.complete()
		t.Move(1)
	case key.Matches(msg, k.prev):
		t.complete()
		t.Move(-1)
	case key.Matches(msg, k.scroll):
		t.ScrollBy(msg.String())
	case key.Matches(msg, k.copy):
		return t, ui.CopyText(t.deps, "the answer", ui.Uncoloured(t.task.lines(t, 90)))
	case key.Matches(msg, t.task.keys()...):
		return t.task.key(t, msg)
	case key.Matches(msg, k.save, k.export):
		t.Refuse("not yet: " + t.task.problem())
	case key.Matches(msg, k.take, k.trial, k.recipe):
		// These belong to other tasks, or wait for the amounts.
	default:
		t.edit(msg)
	}
	return t, nil
}

// complete writes the name out in full if what was typed fits only one powder.
func (t *calculator) complete() {
	f := &t.Fields[t.At]
	if fit := ui.Narrowed(f.All, f.Value()); f.Value() != "" && len(fit) == 1 {
		f.Set(fit[0])
	}
}

// edit hands a key to the field and works out the answer again.
func (t *calculator) edit(msg tea.KeyMsg) {
	before := t.Fields[t.At].Value()
	t.Form.Press(msg)
	if t.Fields[t.At].Value() != before {
		t.ToTop()
		t.Hush()
		t.task.update(t)
	}
}

// Sizes of the parts of a calculator, in cells and lines.
const (
	wideWindow  = 100 // least width with the answer beside the fields
	fieldsWidth = 50  // width of the fields there
	leastFields = 3   // lines of fields in a low window
	lowWindow   = 12  // up to so many lines the hint has one line only
)

func (t *calculator) View(w, h int) string {
	foot := t.Foot(w)
	if !t.Asking() {
		foot = append(foot, t.hint(w, h)...)
	}
	h = max(h-len(foot), 0)
	beside := w >= wideWindow
	fieldsW := w
	if beside {
		fieldsW = fieldsWidth
	}
	fields, cursor := t.Form.Lines(fieldsW, func(int, int) []string { return nil })
	var lines []string
	if beside {
		seen, _ := ui.Window(fields, cursor, h)
		lines = ui.Columns(seen, t.Sight(t.task.lines(t, min(w-fieldsWidth-2, 90)), h), fieldsWidth+2)
	} else {
		seen, _ := ui.Window(fields, cursor, min(len(fields), max(h/2, leastFields), h))
		lines = append(append(lines, seen...), ui.Justify("", t.unsaved()+" ", w))
		lines = append(lines, ui.Inset(w, func(w int) []string { return t.Sight(t.task.lines(t, w), h-len(lines)) })...)
	}
	for len(lines) < h {
		lines = append(lines, "")
	}
	return strings.Join(append(lines[:h], foot...), "\n")
}

// hint says what the field under the cursor wants. With the answer beside the
// fields it also says if that is not saved.
func (t *calculator) hint(w, h int) []string {
	text := t.Fields[t.At].Hint
	if t.Fields[t.At].Filled() && t.Fields[t.At].All == nil {
		text += " Typing replaces what stands there."
	}
	lines := ui.Inset(w, func(w int) []string { return ui.Painted(ui.NoteStyle, text, w) })
	if h <= lowWindow {
		return ui.Inset(w, func(w int) []string { return []string{ui.NoteStyle.Render(ui.Cut(text, w))} })
	}
	if said := t.unsaved(); said != "" && w >= wideWindow {
		lines = append(lines, "  "+said)
	}
	return lines
}

// unsaved says that the answer is not saved as a recipe. It is "" if it cannot be
// saved, or if another message stands there.
func (t *calculator) unsaved() string {
	save := func(k key.Binding) bool { return k.Help() == calculatorKeys.save.Help() }
	if !slices.ContainsFunc(t.task.keys(), save) || !t.Silent() {
		return ""
	}
	return ui.NoteStyle.Render("Not saved as a recipe so far.")
}

// incomplete says what the form still needs. It is loud only if a value given is
// wrong.
func incomplete(err error, w int) []string {
	for _, missing := range []error{
		errNoPowder, errNoSize, errNoAmount, errNoPart, errNoSpoons, errSamePowder, errNoWater,
	} {
		if !errors.Is(err, missing) {
			continue
		}
		return ui.Painted(ui.WaitStyle, model.Capital(err.Error())+".", w)
	}
	return ui.Loud(err.Error(), w)
}

// careLines lists cautions, and at the end who has the last word on safety.
func careLines(w int, cautions []string) []string {
	lines := []string{"", ui.TitleStyle.Render("Care")}
	for _, c := range cautions {
		lines = append(lines, ui.Bullet(c, w)...)
	}
	return append(lines, ui.Painted(ui.NoteStyle, care.Deferral, w)...)
}
