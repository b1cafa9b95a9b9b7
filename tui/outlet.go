package tui

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"
)

// outlet gets things out of a screen: into a file, onto the shelf of recipes,
// onto the clipboard. It asks for a name in one typed line and says what came
// of it. What could not be written is said until something else is asked for.
type outlet struct {
	input    textinput.Model // focused while a line is typed
	question question
	exists   string // the file that would be written over if it is given again
	busy     bool   // a write is under way
	said     string
	wrong    bool // said is a refusal or a failure
	lasting  bool // said tells that something is not written: no key hushes it
}

// question is what a line is typed for.
type question struct {
	title string
	take  func(typed string) (tea.Cmd, error) // an error is said, and the line stays
}

// Busy reports whether a write is under way: the program then waits for it.
func (o *outlet) Busy() bool { return o.busy }

func (o *outlet) asking() bool { return o.input.Focused() }

func (o *outlet) ask(q question, suggestion string) {
	o.input = newInput("")
	o.input.SetValue(suggestion)
	o.input.Focus()
	o.question, o.exists = q, ""
	o.say("")
}

func (o *outlet) say(text string) { o.said, o.wrong, o.lasting = text, false, false }

func (o *outlet) refuse(why string) { o.said, o.wrong, o.lasting = why, true, false }

func (o *outlet) fail(why string) { o.said, o.wrong, o.lasting = why, true, true }

// hush drops what was said about the key before.
func (o *outlet) hush() {
	if !o.lasting {
		o.say("")
	}
}

// typed gives a key to the line.
func (o *outlet) typed(msg tea.KeyMsg) tea.Cmd {
	switch {
	case !msg.Paste && key.Matches(msg, outletKeys.cancel):
		o.input.Blur()
		o.say("")
	case !msg.Paste && key.Matches(msg, outletKeys.done):
		cmd, err := o.question.take(strings.TrimSpace(sanitise(o.input.Value())))
		if err != nil {
			o.refuse(err.Error())
			return nil
		}
		o.input.Blur()
		o.busy = cmd != nil
		return cmd
	default:
		typeInto(&o.input, msg)
	}
	return nil
}

// askFile asks for the name of a file with one of the endings, and writes it.
func (o *outlet) askFile(suggestion string, endings []string, write func(File) (string, error)) {
	o.ask(question{
		title: "Write to a file, its name ending in " + strings.Join(endings, " "),
		take: func(name string) (tea.Cmd, error) {
			if !slices.ContainsFunc(endings, func(e string) bool { return strings.HasSuffix(strings.ToLower(name), e) && len(name) > len(e) }) {
				return nil, fmt.Errorf("%q does not say what to write: end the name in one of %s", name, strings.Join(endings, " "))
			}
			file := File{Name: name, Over: name == o.exists}
			o.say("writing…")
			return func() tea.Msg {
				path, err := write(file)
				return filed{name: name, path: path, err: err}
			}, nil
		},
	}, suggestion)
}

// take takes in what came of a write or a copy; false for other messages.
func (o *outlet) take(msg tea.Msg) bool {
	switch msg := msg.(type) {
	case filed:
		o.busy = false
		switch {
		case errors.Is(msg.err, fs.ErrExist):
			o.exists = msg.name
			o.input.Focus()
			o.refuse(fmt.Sprintf("%s is there already and was left as it is: Enter writes over it, or type another name", msg.name))
		case msg.err != nil:
			o.fail("NOT WRITTEN: " + msg.err.Error())
		default:
			o.say("written to " + msg.path)
		}
	case recipeSaved:
		o.busy = false
		if msg.err != nil {
			o.fail("NOT SAVED: " + msg.err.Error())
		} else {
			o.say("saved as " + msg.item.Path)
		}
	case copied:
		if msg.err != nil {
			o.refuse("not copied: " + msg.err.Error())
		} else {
			o.say(msg.what + " copied to the clipboard, where this terminal lets programs do that")
		}
	default:
		return false
	}
	return true
}

// saidLines are the line being typed and what was said last.
func (o *outlet) saidLines(w int) []string {
	var lines []string
	switch {
	case o.said == "":
	case o.wrong:
		lines = loud(o.said, w)
	default:
		lines = painted(goodStyle, o.said, w)
	}
	if o.asking() {
		in := o.input
		in.Width = max(w-4, 1)
		in.SetCursor(in.Position()) // brings the cursor into sight
		lines = append(lines, painted(titleStyle, "▸ "+o.question.title, w)...)
		lines = append(lines, "  "+in.View())
	}
	return lines
}

// outletFooter is the keys while a line is typed.
func outletFooter() []key.Binding { return []key.Binding{outletKeys.done, outletKeys.cancel} }

// copyText copies a text, named in a few words.
func copyText(w World, what, text string) tea.Cmd {
	return func() tea.Msg { return copied{what, w.Copy(text)} }
}

// exportEndings are the endings of files that profiles are exported to.
var exportEndings = []string{".csv", ".toml", ".json", ".md", ".svg", ".png", ".pdf"}

// exportItems asks for a file and exports profiles to it.
func (o *outlet) exportItems(w World, items []Item, level float64) {
	name := "powders."
	if len(items) == 1 {
		name = fileName(items[0].Profile.Powder.Name) + "."
	}
	own := make([]Item, len(items))
	for i, item := range items {
		own[i] = item
		own[i].Profile = item.Profile.Clone()
	}
	o.askFile(name, exportEndings, func(f File) (string, error) { return w.Export(own, level, f) })
}

// writeCard asks for a file and writes the card of a recipe to it.
func (o *outlet) writeCard(w World, name, card string) {
	o.askFile(fileName(name)+".md", []string{".md", ".txt"}, func(f File) (string, error) { return w.WriteFile(card, f) })
}

// fileName makes a plain file name of a title.
func fileName(title string) string {
	name := strings.Join(strings.FieldsFunc(strings.ToLower(title), func(r rune) bool {
		return (r < 'a' || r > 'z') && (r < '0' || r > '9')
	}), "-")
	if name == "" {
		return "daub"
	}
	return name
}
