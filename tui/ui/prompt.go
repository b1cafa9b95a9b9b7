package ui

import (
	"errors"
	"fmt"
	"io/fs"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/printable"
	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"
)

// Prompt asks for one line of text and shows what came of it. With it a screen
// writes a file, saves a recipe or copies text. A message that something could not
// be written stays until another question is asked.
type Prompt struct {
	input    textinput.Model // focused while a line is typed
	question Question
	exists   string          // an existing file: if this name is given again, it is written over
	doubt    *bench.Question // the question about doubted; the answer is taken if given again
	doubted  string
	offered  bool // typing replaces the text offered; an arrow key keeps it
	busy     bool // a write is under way
	again    bool // this line started the write; it opens again if the name is taken
	said     string
	wrong    bool // said is a refusal or a failure
	lasting  bool // said tells that something is not written: no key removes it
	care     bool // said is a caution
}

// Question describes the line to be typed.
type Question struct {
	Title   string
	Why     string                              // why it is asked, shown before the title; may be empty
	Answer  func(typed string) (tea.Cmd, error) // takes the text; on an error the line stays
	Yes, No string                              // what Enter and Esc do, in a word; "" means keep and back
	Mends   bool                                // typing goes on at the end of the text offered
	Turn    func(by int)                        // what ↑, -1, and ↓, 1, do; nil means nothing
	Turns   string                              // what they do, in a word
}

// ErrAskedAgain is returned by an answer that asked the next question.
var ErrAskedAgain = errors.New("asked again")

// NameTaken is the error for a recipe whose name another has.
type NameTaken struct{ Name string }

func (n NameTaken) Error() string { return fmt.Sprintf("there is a recipe called %q already", n.Name) }

var promptKeys = struct{ done, cancel, turn key.Binding }{
	done:   Bind("Enter", "keep", "enter"),
	cancel: Bind("Esc", "back", "esc"),
	turn:   Bind("↑↓", "turn", "up", "down"),
}

// PromptKeys lists the keys while a line is typed or a question waits for a yes.
func (p *Prompt) PromptKeys() []key.Binding {
	done, cancel := promptKeys.done, promptKeys.cancel
	if p.question.Yes != "" {
		done.SetHelp(done.Help().Key, p.question.Yes)
	}
	if p.question.No != "" {
		cancel.SetHelp(cancel.Help().Key, p.question.No)
	}
	if p.question.Turn == nil {
		return []key.Binding{done, cancel}
	}
	turn := promptKeys.turn
	turn.SetHelp(turn.Help().Key, p.question.Turns)
	return []key.Binding{done, turn, cancel}
}

// Busy reports whether a write is under way; the program then waits for it.
func (p *Prompt) Busy() bool { return p.busy }

// Asking reports whether a line is being typed.
func (p *Prompt) Asking() bool { return p.input.Focused() }

// Silent reports whether no message is shown.
func (p *Prompt) Silent() bool { return p.said == "" }

// Ask asks a question and offers an answer to start from.
func (p *Prompt) Ask(q Question, suggestion string) {
	p.input = NewInput("")
	p.input.SetValue(suggestion)
	p.input.Focus()
	p.question, p.exists, p.doubt, p.offered, p.again = q, "", nil, suggestion != "" && !q.Mends, false
	p.Say("")
}

// Say shows what came of a key.
func (p *Prompt) Say(text string) { p.say(text, false, false, false) }

// Also adds to the message of the same key.
func (p *Prompt) Also(text string) {
	if p.said != "" {
		text = p.said + "; " + text
	}
	p.Say(text)
}

// Warn shows a caution, and names the ? key if there is room for it.
func (p *Prompt) Warn(text string) {
	if text != "" {
		p.say(text, false, false, true)
	}
}

func (p *Prompt) say(text string, wrong, lasting, care bool) {
	p.said, p.wrong, p.lasting, p.care = text, wrong, lasting, care
}

// Refuse says why a key did nothing.
func (p *Prompt) Refuse(why string) { p.say(why, true, false, false) }

// Fail says that something is not written.
func (p *Prompt) Fail(why string) { p.say(why, true, true, false) }

// Wait says that a write is under way; Done ends the wait.
func (p *Prompt) Wait(text string) {
	p.busy = true
	p.Say(text)
}

// Done ends the wait for a write whose end is told elsewhere.
func (p *Prompt) Done() { p.busy = false }

// Hush removes the message of the key before. A caution stays until another
// message.
func (p *Prompt) Hush() {
	if !p.lasting && !p.care {
		p.Say("")
	}
}

// Press hands a key to the line.
func (p *Prompt) Press(msg tea.KeyMsg) tea.Cmd {
	switch {
	case !msg.Paste && key.Matches(msg, promptKeys.cancel):
		p.input.Blur()
		p.Say("")
	case !msg.Paste && key.Matches(msg, promptKeys.done):
		cmd, err := p.answer(strings.TrimSpace(printable.Line(p.input.Value())))
		if errors.Is(err, ErrAskedAgain) {
			return nil
		}
		if err != nil {
			p.Refuse(err.Error())
			return nil
		}
		p.input.Blur()
		p.busy, p.again = cmd != nil, cmd != nil
		return cmd
	case !msg.Paste && p.question.Turn != nil && key.Matches(msg, promptKeys.turn):
		p.question.Turn(map[string]int{"up": -1, "down": 1}[msg.String()])
	default:
		if p.offered && replaces(msg) {
			p.input.SetValue("")
		}
		p.offered = false
		TypeInto(&p.input, msg)
	}
	return nil
}

// answer hands the line to the question. An unlikely answer is asked about once and
// taken when given again.
func (p *Prompt) answer(text string) (tea.Cmd, error) {
	if p.doubt != nil && text == p.doubted {
		return nil, p.doubt.Insist()
	}
	cmd, err := p.question.Answer(text)
	p.doubt, p.doubted = nil, text
	if errors.As(err, &p.doubt) {
		err = EnterAgain(p.doubt.Text)
	}
	return cmd, err
}

// EnterAgain asks about an unlikely answer; Enter once more takes it.
func EnterAgain(question string) error {
	return fmt.Errorf("%s Enter again: yes, as typed; or type it anew", model.Ended(question))
}

// Receive shows what came of a write or a copy.
func (p *Prompt) Receive(msg tea.Msg) {
	switch msg := msg.(type) {
	case Filed:
		p.busy = false
		switch {
		case p.again && errors.Is(msg.Err, fs.ErrExist):
			p.exists, p.offered = msg.name, true
			p.input.SetValue(msg.name)
			p.input.Focus()
			p.Refuse(fmt.Sprintf("%s is there already and was left as it is: "+
				"Enter writes over it, or type another name", msg.name))
		case msg.Err != nil:
			p.Fail("NOT WRITTEN: " + msg.Err.Error())
		default:
			p.Say("written to " + msg.path)
		}
	case RecipeSaved:
		p.busy = false
		var taken NameTaken
		switch {
		case p.again && errors.As(msg.Err, &taken):
			p.offered = true
			p.input.Focus()
			p.Refuse("not saved: " + taken.Error() + "; type another name")
		case msg.Err != nil:
			p.Fail("NOT SAVED: " + msg.Err.Error())
		default:
			p.Say("saved as " + msg.Entry.Path)
		}
	case SpoonsSaved:
		p.busy = false
		if msg.Err != nil {
			p.Fail("NOT SAVED: " + msg.Err.Error())
		} else {
			p.Say("kept in " + msg.Path + "; the shelf reads it when you go there")
			if n := len(msg.Moved); n > 0 {
				p.Say(fmt.Sprintf("older trials go by it now: powders changed and saved: %d", n))
			}
		}
	case copied:
		if msg.err != nil {
			p.Refuse("not copied: " + msg.err.Error())
		} else {
			p.Say(msg.what + " copied to the clipboard, where this terminal lets programs do that")
		}
	}
}

// Foot draws the last message and the line being typed.
func (p *Prompt) Foot(w int) []string { return append(p.Said(w), p.Line(w)...) }

// Said draws the last message.
func (p *Prompt) Said(w int) []string {
	switch {
	case p.said == "":
		return nil
	case p.wrong:
		return Loud(p.said, w)
	case p.care:
		if more := "! " + p.said + " (? more)"; Cells(more) <= w {
			return Painted(WaitStyle, more, w)
		}
		return Warned(p.said, w)
	default:
		return Inset(w, func(w int) []string { return Painted(GoodStyle, p.said, w) })
	}
}

// Line draws the line being typed under its question.
func (p *Prompt) Line(w int) []string {
	if !p.Asking() {
		return nil
	}
	in := p.input
	in.Width = max(w-4, 1)
	in.SetCursor(in.Position()) // scrolls the cursor into view
	if p.offered {
		in.TextStyle = chosenStyle
	}
	var lines []string
	if p.question.Why != "" {
		lines = Inset(w, func(w int) []string { return Painted(PlainStyle, p.question.Why, w) })
	}
	lines = append(lines, hung("▸ ", TitleStyle, p.question.Title, w)...)
	return append(lines, "  "+in.View())
}
