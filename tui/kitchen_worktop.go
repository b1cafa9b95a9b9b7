package tui

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// worktop is a form of the kitchen with its answer, which is worked out anew
// whenever a field changes. What the fields mean is up to the task.
type worktop struct {
	world World
	stock []row    // the powders to choose from
	names []string // of the stock, each once
	back  screen   // where Esc leads
	task  task
	form
	scroll
	outlet
}

// task is what a form of the kitchen is for.
type task interface {
	title() string
	// work works the answer out from the fields; nothing is drawn yet.
	work(t *worktop)
	// lines draws the answer.
	lines(t *worktop, w int) []string
	// keys are those that do something now beside those of every form.
	keys() []key.Binding
	// key handles one of them.
	key(t *worktop, msg tea.KeyMsg) (screen, tea.Cmd)
}

// newWorktop lays out a form. Its fields are set, and then worked out with
// ready.
func newWorktop(w World, stock []row, back screen, job task) *worktop {
	return &worktop{world: w, stock: stock, names: stockNames(stock), back: back, task: job}
}

// ready takes the form's fields and works out the first answer.
func (t *worktop) ready(fields []field) *worktop {
	if fields != nil {
		t.fields = fields
	}
	t.apply = func(int) error { return nil } // a slip is said with the answer, and traps nobody
	t.focus()
	t.task.work(t)
	return t
}

// stockNames are the titles of the powders, with the name of the file where
// two have the same.
func stockNames(stock []row) []string {
	count := map[string]int{}
	for _, r := range stock {
		count[r.title()]++
	}
	names := make([]string, len(stock))
	for i, r := range stock {
		names[i] = r.title()
		if count[names[i]] > 1 {
			names[i] += " (" + r.item.ID + ")"
		}
	}
	return names
}

// title is the row's powder with its lot, for showing.
func (r *row) title() string { return sanitise(r.item.Profile.Powder.Title()) }

// powderField is a field for one of the stock, with r chosen.
func (t *worktop) powderField(label string, r row) field {
	f := narrowField(label, "Type a part of its name, or choose with ←→.", t.names...)
	if i := slices.IndexFunc(t.stock, func(s row) bool { return s.item.ID == r.item.ID }); i >= 0 {
		f.set(t.names[i])
	}
	return f
}

// levelField is a field for the level of a ratio.
func levelField(level float64) field {
	var names []string
	for _, l := range model.CurveLevels() {
		names = append(names, model.LevelName(l))
	}
	f := choiceField("level", "How thick the paste is to be.", names...)
	f.set(model.LevelName(level))
	return f
}

// level is the level chosen in a field.
func (f *field) level() float64 { return model.CurveLevels()[f.pick] }

var errNoPowder = errors.New("choose a powder")

// powder is the one of the stock that a field names.
func (t *worktop) powder(i int) (row, error) {
	v := t.fields[i].value()
	if v == "" {
		return row{}, errNoPowder
	}
	if n := slices.Index(t.names, v); n >= 0 {
		return t.stock[n], nil
	}
	switch fit := narrowed(t.names, v); len(fit) {
	case 0:
		return row{}, fmt.Errorf("no powder on the shelf is called %q", v)
	case 1:
		return t.stock[slices.Index(t.names, fit[0])], nil
	default:
		return row{}, fmt.Errorf("%d powders fit %q: choose one with ←→, or type more", len(fit), v)
	}
}

func (t *worktop) Session() *Session { return nil }
func (t *worktop) Typing() bool      { return true }
func (t *worktop) Title() string     { return "Kitchen › " + t.task.title() }

func (t *worktop) Keys() []key.Binding {
	if t.asking() {
		return outletFooter()
	}
	k := worktopKeys
	keys := []key.Binding{k.next, k.prev}
	if len(t.fields[t.at].options) > 0 {
		keys = append(keys, k.change)
	}
	keys = append(keys, t.task.keys()...)
	return append(keys, k.copy, k.scroll, k.leave)
}

func (t *worktop) Update(msg tea.Msg) (screen, tea.Cmd) {
	m, ok := msg.(tea.KeyMsg)
	switch {
	case !ok:
		t.take(msg)
		return t, nil
	case t.asking():
		return t, t.outlet.typed(m)
	}
	return t.key(m)
}

func (t *worktop) key(msg tea.KeyMsg) (screen, tea.Cmd) {
	k := worktopKeys
	switch {
	case msg.Paste:
		t.edit(msg)
	case key.Matches(msg, k.leave):
		return t.back, nil
	case key.Matches(msg, k.next):
		t.complete()
		t.move(1)
	case key.Matches(msg, k.prev):
		t.complete()
		t.move(-1)
	case key.Matches(msg, k.scroll):
		t.scrollBy(msg.String())
	case key.Matches(msg, k.copy):
		return t, copyText(t.world, "the answer", plainText(t.task.lines(t, 90)))
	case key.Matches(msg, t.task.keys()...):
		return t.task.key(t, msg)
	default:
		t.edit(msg)
	}
	return t, nil
}

// complete writes out the only powder that what was typed fits.
func (t *worktop) complete() {
	f := &t.fields[t.at]
	if fit := narrowed(f.all, f.value()); f.value() != "" && len(fit) == 1 {
		f.set(fit[0])
	}
}

// edit gives a key to the field and works the answer out anew.
func (t *worktop) edit(msg tea.KeyMsg) {
	before := t.fields[t.at].value()
	t.form.typed(msg)
	if t.fields[t.at].value() != before {
		t.top = 0
		t.hush()
		t.task.work(t)
	}
}

// Room that the parts of a worktop need.
const (
	worktopBeside = 100 // the least width with the answer beside the fields
	fieldsWidth   = 50  // of the fields then
	leastFields   = 3   // lines of fields in a low window
	lowWindow     = 12  // lines; in fewer, one line of hint has to do
)

func (t *worktop) View(w, h int) string {
	foot := t.saidLines(w)
	if !t.asking() {
		foot = append(foot, t.hint(w, h)...)
	}
	h = max(h-len(foot), 0)
	beside := w >= worktopBeside
	fieldsW := w
	if beside {
		fieldsW = fieldsWidth
	}
	fields, cursor := t.form.lines(fieldsW, func(int, int) []string { return nil })
	var lines []string
	if beside {
		seen, _ := window(fields, cursor, h)
		lines = besides(seen, t.sight(t.task.lines(t, min(w-fieldsWidth-2, 90)), h), fieldsWidth+2)
	} else {
		seen, _ := window(fields, cursor, min(len(fields), max(h/2, leastFields), h))
		lines = append(append(lines, seen...), "")
		lines = append(lines, t.sight(t.task.lines(t, w), h-len(lines))...)
	}
	for len(lines) < h {
		lines = append(lines, "")
	}
	return strings.Join(append(lines[:h], foot...), "\n")
}

// hint is what the field under the cursor wants, and whether what is shown is
// saved.
func (t *worktop) hint(w, h int) []string {
	lines := painted(dimStyle, t.fields[t.at].hint, w)
	if h <= lowWindow {
		return lines[:1]
	}
	saves := slices.ContainsFunc(t.task.keys(), func(k key.Binding) bool { return k.Help() == worktopKeys.save.Help() })
	if saves && t.said == "" {
		lines = append(lines, dimStyle.Render("Not saved as a recipe so far."))
	}
	return lines
}

// incomplete says what the form still wants: loudly only where something that
// was given is wrong.
func incomplete(err error, w int) []string {
	for _, missing := range []error{errNoPowder, errNoSize, errNoAmount, errNoPart, errNoSpoons, errSamePowder} {
		if !errors.Is(err, missing) {
			continue
		}
		return painted(plainStyle, "▸ "+err.Error(), w)
	}
	return loud(err.Error(), w)
}

// careLines are the cautions of powders, each once, and who comes first.
func careLines(w int, powders ...model.Powder) []string {
	var lines, said []string
	for _, p := range powders {
		for _, c := range p.Cautions() {
			if !slices.Contains(said, c) {
				said = append(said, c)
				lines = append(lines, bullet(c, w)...)
			}
		}
	}
	lines = append([]string{"", titleStyle.Render("Care")}, lines...)
	return append(lines, painted(dimStyle, model.Deferral, w)...)
}
