package tui

import (
	"slices"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"
)

// Field is one line of a form: text, a choice, or a choice that may also be
// typed.
type Field struct {
	label   string
	hint    string
	typed   bool // takes text
	touched bool // the maker typed or chose here
	options []string
	all     []string // what typing narrows the options from; nil: it does not
	pick    int
	input   textinput.Model
}

// TextField is a line of text to type.
func TextField(label, hint string) Field {
	return Field{label: label, hint: hint, typed: true, input: NewInput("")}
}

// ChoiceField is a choice among options with the arrows.
func ChoiceField(label, hint string, options ...string) Field {
	return Field{label: label, hint: hint, options: options, input: NewInput("")}
}

// EitherField is a choice that may also be typed.
func EitherField(label, hint string, options ...string) Field {
	f := ChoiceField(label, hint, options...)
	f.typed = true
	return f
}

// NarrowField is a choice among many: typing leaves those to choose from that
// hold every word typed.
func NarrowField(label, hint string, all ...string) Field {
	f := EitherField(label, hint, all...)
	f.all = all
	return f
}

// Narrowed are those that hold every word of the text, whatever the case.
func Narrowed(all []string, text string) []string {
	words := strings.Fields(strings.ToLower(text))
	return slices.DeleteFunc(slices.Clone(all), func(s string) bool {
		s = strings.ToLower(s)
		return slices.ContainsFunc(words, func(w string) bool { return !strings.Contains(s, w) })
	})
}

func (f *Field) turn(by int) {
	f.pick = (f.pick + by + len(f.options)) % len(f.options)
	f.input.SetValue(f.options[f.pick])
	f.touched = true
}

// set fills a field without counting as the maker's doing.
func (f *Field) set(v string) {
	f.input.SetValue(v)
	if i := slices.Index(f.options, v); i >= 0 {
		f.pick = i
	}
}

func (f *Field) value() string { return strings.TrimSpace(f.input.Value()) }

// LabelWidth is the room for a label, in cells.
const LabelWidth = 17

func (f *Field) labelled(here bool) string {
	if here {
		return AccentStyle.Render("▸ " + Pad(f.label, LabelWidth-2))
	}
	return "  " + Pad(f.label, LabelWidth-2)
}

// shown is the field's text, with the cursor or the arrows where it has them.
func (f *Field) shown(here bool) string {
	switch {
	case here && f.typed:
		return f.input.View()
	case here && len(f.options) > 1:
		return "← " + f.input.Value() + " →"
	default:
		return f.input.Value()
	}
}

// Form is a column of fields with a cursor. What is typed in a field is
// applied when it is left; on a slip the cursor stays and problem says why.
type Form struct {
	fields  []Field
	at      int // field with the cursor
	problem string
	hidden  func(i int) bool  // fields with nothing to ask; nil: none
	apply   func(i int) error // takes a field's value
}

func (f *Form) hides(i int) bool { return f.hidden != nil && f.hidden(i) }

// leaveField takes what the field holds; false keeps the cursor there.
func (f *Form) leaveField() bool {
	f.problem = ""
	if err := f.apply(f.at); err != nil {
		f.problem = err.Error()
		return false
	}
	return true
}

// applyAll takes every field; on a slip the cursor goes there.
func (f *Form) applyAll() bool {
	for i := range f.fields {
		if f.hides(i) {
			continue
		}
		if err := f.apply(i); err != nil {
			f.complain(i, err)
			return false
		}
	}
	f.problem = ""
	return true
}

// complain puts the cursor on a field and says what is wrong there.
func (f *Form) complain(i int, err error) {
	f.at, f.problem = i, err.Error()
	f.focus()
}

// move goes up or down to the next field that is not hidden.
func (f *Form) move(by int) {
	for next := f.at + by; next >= 0 && next < len(f.fields); next += by {
		if !f.hides(next) {
			f.at = next
			break
		}
	}
	f.focus()
}

func (f *Form) focus() {
	for i := range f.fields {
		f.fields[i].input.Blur()
	}
	f.fields[f.at].input.Focus()
	f.fields[f.at].input.CursorEnd()
}

// Arrow is -1 for left, 1 for right, 0 for any other key.
func Arrow(msg tea.KeyMsg) int {
	switch {
	case !key.Matches(msg, ChooseKey):
		return 0
	case msg.String() == "left":
		return -1
	default:
		return 1
	}
}

// Press gives a key to the field: arrows choose, the rest is text.
func (f *Form) Press(msg tea.KeyMsg) {
	at := &f.fields[f.at]
	f.problem = ""
	switch by := Arrow(msg); {
	case by != 0 && len(at.options) > 0:
		at.turn(by)
		if err := f.apply(f.at); err != nil {
			f.problem = err.Error()
		}
	case at.typed:
		before := at.value()
		if slices.Contains(at.all, before) && (msg.Type == tea.KeyRunes || msg.Type == tea.KeyBackspace) {
			at.input.SetValue("") // what was chosen goes as a whole
		}
		TypeInto(&at.input, msg)
		at.touched = true
		if at.all != nil && at.value() != before {
			at.options, at.pick = Narrowed(at.all, at.value()), -1 // → takes the first
		}
	}
}

// lines draws the fields, and says on which line the cursor is. draw may draw
// a field in its own way; nil leaves it to the form.
func (f *Form) lines(w int, draw func(i, w int) []string) (lines []string, cursor int) {
	for i := range f.fields {
		if f.hides(i) {
			continue
		}
		here := i == f.at
		if here {
			cursor = len(lines)
		}
		own := draw(i, w)
		if own == nil {
			own = []string{Cut(f.fields[i].labelled(here)+f.fields[i].shown(here), w)}
		}
		lines = append(lines, own...)
	}
	return lines, cursor
}
