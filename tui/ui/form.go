package ui

import (
	"slices"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"
)

// Field is one line of a form: text, a choice, or a choice that can also be typed.
type Field struct {
	Label   string
	Hint    string
	typed   bool // text can be typed
	Touched bool // the maker typed or chose here
	filled  bool // the whole text is selected: typing replaces it, an arrow key edits it
	Options []string
	All     []string // all options, narrowed by typing; nil: typing does not narrow
	Pick    int
	Input   textinput.Model
}

// TextField makes a field for text.
func TextField(label, hint string) Field {
	return Field{Label: label, Hint: hint, typed: true, Input: NewInput("")}
}

// ChoiceField makes a field whose options are chosen with the arrows.
func ChoiceField(label, hint string, options ...string) Field {
	return Field{Label: label, Hint: hint, Options: options, Input: NewInput("")}
}

// EitherField makes a choice that can also be typed.
func EitherField(label, hint string, options ...string) Field {
	f := ChoiceField(label, hint, options...)
	f.typed = true
	return f
}

// NarrowField makes a choice among many: typing keeps the options that hold every
// word typed.
func NarrowField(label, hint string, all ...string) Field {
	f := EitherField(label, hint, all...)
	f.All = all
	return f
}

// Narrowed returns the options that hold every word of text, in either case.
func Narrowed(all []string, text string) []string {
	words := strings.Fields(strings.ToLower(text))
	return slices.DeleteFunc(slices.Clone(all), func(s string) bool {
		s = strings.ToLower(s)
		return slices.ContainsFunc(words, func(w string) bool { return !strings.Contains(s, w) })
	})
}

func (f *Field) turn(by int) {
	if f.Pick < 0 && by < 0 {
		f.Pick = 0 // nothing chosen: ← goes to the last
	}
	f.Pick = (f.Pick + by + len(f.Options)) % len(f.Options)
	f.Input.SetValue(f.Options[f.Pick])
	f.Touched, f.filled = true, true
}

// Set fills a field without marking it as touched by the maker.
func (f *Field) Set(v string) {
	f.Input.SetValue(v)
	f.filled = v != ""
	if i := slices.Index(f.Options, v); i >= 0 {
		f.Pick = i
	}
}

// Value returns the field's text without blanks at its ends.
func (f *Field) Value() string { return strings.TrimSpace(f.Input.Value()) }

// Filled reports whether typing will replace the field's text.
func (f *Field) Filled() bool { return f.typed && f.filled && f.Input.Value() != "" }

// view draws the text with the cursor, reversed if typing replaces it.
func (f *Field) view(width int) string {
	in := f.Input
	if width > 0 {
		in.Width = width
		in.SetCursor(in.Position()) // scrolls the cursor into view
	}
	if f.Filled() {
		in.TextStyle = chosenStyle
	}
	return in.View()
}

// LabelWidth is the width of a label, in cells.
const LabelWidth = 17

// Labelled draws the field's label, pointed at if the cursor is here.
func (f *Field) Labelled(here bool) string {
	if here {
		return DoStyle.Render("▸ " + Pad(f.Label, LabelWidth-2))
	}
	return "  " + Pad(f.Label, LabelWidth-2)
}

// ShownIn is Shown in w cells; a longer text scrolls with the cursor.
func (f *Field) ShownIn(here bool, w int) string {
	if !here || !f.typed || Cells(f.Input.Value()) < w {
		return f.Shown(here)
	}
	return f.view(max(w-1, 1))
}

// Shown draws the field's text; if the cursor is here, with it or with the arrows.
func (f *Field) Shown(here bool) string {
	switch {
	case here && f.typed:
		return f.view(0)
	case here && len(f.Options) > 1:
		return "← " + f.Input.Value() + " →"
	default:
		return f.Input.Value()
	}
}

// Form is a column of fields with a cursor. A field's value is applied when the
// cursor leaves it. A value that is refused keeps the cursor, and problem says why.
type Form struct {
	Fields  []Field
	At      int // index of the field with the cursor
	Problem string
	Hidden  func(i int) bool  // says which fields are not shown; nil: all are
	Apply   func(i int) error // applies a field's value
}

func (f *Form) hides(i int) bool { return f.Hidden != nil && f.Hidden(i) }

// LeaveField applies the field's value; if that is refused, it returns false and
// the cursor stays.
func (f *Form) LeaveField() bool {
	f.Problem = ""
	if err := f.Apply(f.At); err != nil {
		f.Problem = err.Error()
		return false
	}
	return true
}

// ApplyAll applies every field; the cursor goes to the first that is refused.
func (f *Form) ApplyAll() bool {
	for i := range f.Fields {
		if f.hides(i) {
			continue
		}
		if err := f.Apply(i); err != nil {
			f.Complain(i, err)
			return false
		}
	}
	f.Problem = ""
	return true
}

// Complain puts the cursor on a field and says what is wrong there.
func (f *Form) Complain(i int, err error) {
	f.At, f.Problem = i, err.Error()
	f.Focus()
}

// Move goes up or down to the next field that is not hidden.
func (f *Form) Move(by int) {
	for next := f.At + by; next >= 0 && next < len(f.Fields); next += by {
		if !f.hides(next) {
			f.At = next
			break
		}
	}
	f.Focus()
}

// Focus puts the text cursor into the field with the form's cursor.
func (f *Form) Focus() {
	for i := range f.Fields {
		f.Fields[i].Input.Blur()
	}
	f.Fields[f.At].Input.Focus()
	f.Fields[f.At].Input.CursorEnd()
	f.Fields[f.At].filled = f.Fields[f.At].filled || !f.Fields[f.At].Touched
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

// Press hands a key to the field: arrows choose, everything else is text.
func (f *Form) Press(msg tea.KeyMsg) {
	at := &f.Fields[f.At]
	f.Problem = ""
	switch by := Arrow(msg); {
	case by != 0 && len(at.Options) > 0:
		at.turn(by)
		if err := f.Apply(f.At); err != nil {
			f.Problem = err.Error()
		}
	case at.typed:
		before := at.Value()
		if (at.filled || slices.Contains(at.All, before)) && replaces(msg) {
			at.Input.SetValue("")
		}
		at.filled = false
		TypeInto(&at.Input, msg)
		at.Touched = at.Touched || at.Value() != before
		if at.All != nil && at.Value() != before {
			at.Options, at.Pick = Narrowed(at.All, at.Value()), -1 // → goes to the first
		}
	}
}

// replaces reports whether a key replaces a text that is selected as a whole.
func replaces(msg tea.KeyMsg) bool {
	switch msg.Type {
	case tea.KeyRunes, tea.KeySpace, tea.KeyBackspace, tea.KeyDelete:
		return !msg.Alt
	}
	return false
}

// Lines draws the fields and says on which line the cursor is. draw may draw a
// field in its own way; it returns nil for the usual one.
func (f *Form) Lines(w int, draw func(i, w int) []string) (lines []string, cursor int) {
	for i := range f.Fields {
		if f.hides(i) {
			continue
		}
		here := i == f.At
		if here {
			cursor = len(lines)
		}
		own := draw(i, w)
		if own == nil {
			own = []string{Cut(f.Fields[i].Labelled(here)+f.Fields[i].ShownIn(here, w-LabelWidth), w)}
		}
		lines = append(lines, own...)
	}
	return lines, cursor
}
