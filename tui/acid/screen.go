// Package acid is the screen of the acid test: the pH of a finished dish before and
// after each addition of acid. It then tells the acid for a wanted pH. It changes
// one trial of its session and knows no place; it may import tui/ui and model/….
package acid

import (
	"fmt"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/care"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/readings"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

var keys = struct{ ph, begin, target, mend, remove, end, fizzes, move, undo, redo, leave key.Binding }{
	ph:     ui.Bind("Enter", "a pH", "enter"),
	begin:  ui.Bind("a", "which acid, how read", "a"),
	target: ui.Bind("t", "target pH", "t"),
	mend:   ui.Bind("e", "mend it", "e"),
	remove: ui.Bind("Del", "delete it", "delete", "backspace"),
	end:    ui.Bind("x", "delete the whole test", "x"),
	fizzes: ui.Bind("f", "it fizzes, or not", "f"),
	move:   ui.Bind("↑↓", "choose", "up", "down"),
	undo:   ui.Bind("u", "undo", "u"),
	redo:   ui.Bind("U", "redo", "U"),
	leave:  ui.Bind("Esc", "back", "esc"),
}

// test shows the acid test of one trial.
type test struct {
	deps    ui.Deps
	session *ui.Session
	back    ui.Screen // where Esc leads
	cursor  int
	changes ui.Changes
	ui.Scroll
	ui.Prompt
}

// New makes the screen for the session's trial; Esc leads back.
func New(deps ui.Deps, s *ui.Session, back ui.Screen) ui.Screen {
	t := &test{deps: deps, session: s, back: back, changes: ui.NewChanges(s)}
	t.cursor = len(t.steps()) - 1
	return t
}

func (t *test) Session() *ui.Session { return t.session }
func (t *test) Typing() bool         { return t.Asking() }

func (t *test) Title() string {
	return "Trial › pH and acid  " + printable.Line(t.session.Powder().Title())
}

// acid returns the acid test so far, nil before it is begun.
func (t *test) acid() *model.AcidTest { return t.session.Trial().Acid }

func (t *test) steps() []model.AcidStep {
	if a := t.acid(); a != nil {
		return a.Steps
	}
	return nil
}

func (t *test) Keys() []key.Binding {
	if t.Asking() {
		return t.PromptKeys()
	}
	k := []key.Binding{ui.Bind("Enter", "begin", "enter")}
	if t.acid() != nil {
		k = []key.Binding{keys.ph, keys.target, keys.begin}
	}
	k = append(k, keys.undo)
	if len(t.steps()) > 0 {
		k = append(k, keys.mend, keys.remove, keys.move)
	}
	if t.acid() != nil {
		k = append(k, keys.end)
	}
	return append(k, keys.fizzes, ui.ScrollKey, keys.redo, keys.leave)
}

func (t *test) Update(msg tea.Msg) (ui.Next, tea.Cmd) {
	m, ok := msg.(tea.KeyMsg)
	switch {
	case !ok:
		t.Receive(msg)
		return t, nil
	case key.Matches(m, ui.ScrollKey):
		t.ScrollBy(m.String())
		return t, nil
	case t.Asking():
		return t, t.Press(m)
	}
	t.Hush()
	if key.Matches(m, keys.leave) {
		return t.back, nil
	}
	t.ToTop()
	t.key(m)
	t.cursor = min(max(t.cursor, 0), max(len(t.steps())-1, 0))
	return t, nil
}

func (t *test) key(m tea.KeyMsg) {
	switch {
	case key.Matches(m, keys.undo):
		t.changes.Undo(&t.Prompt)
	case key.Matches(m, keys.redo):
		t.changes.Redo(&t.Prompt)
	case key.Matches(m, keys.fizzes):
		t.fizzes()
	case t.acid() == nil && key.Matches(m, keys.ph):
		t.askAcid()
	case t.acid() == nil:
	case key.Matches(m, keys.ph):
		t.askPH()
	case key.Matches(m, keys.begin):
		t.askAcid()
	case key.Matches(m, keys.target):
		t.askTarget()
	case key.Matches(m, keys.end):
		t.say("the acid test is deleted; u brings it back", t.changes.Made(t.session.EndAcid()))
	case len(t.steps()) == 0:
	case key.Matches(m, keys.move):
		t.cursor = ui.MoveCursor(t.cursor, len(t.steps()), m.String())
	case key.Matches(m, keys.mend):
		t.askMended(t.cursor)
	case key.Matches(m, keys.remove):
		t.say("deleted, with the acid before it; u brings it back", t.changes.Made(t.session.DeleteAcid(t.cursor)))
	}
}

func (t *test) say(done string, err error) {
	if err != nil {
		t.Refuse(err.Error())
		return
	}
	t.Say(done)
}

// fizzes records whether the powder fizzes with the acid; each press turns the
// answer round.
func (t *test) fizzes() {
	seen := t.session.Powder().Fizzes
	is := seen == nil || !*seen
	said := "recorded: it does not fizz with acid"
	if is {
		said = "recorded: it fizzes. " + care.Line(care.BeforeAcid, model.Powder{Fizzes: &is})
	}
	t.say(said, t.changes.Made(t.session.Fizzes(is)))
}

func (t *test) View(w, h int) string {
	foot := t.Foot(w)
	room := max(h-len(foot), 0)
	lines := t.Sight(t.lines(w, room), room)
	for len(lines) < room {
		lines = append(lines, "")
	}
	return strings.Join(append(lines, foot...), "\n")
}

func (t *test) lines(w, h int) []string {
	a := t.acid()
	if a == nil {
		lines := append([]string{" " + ui.Badge(ui.WaitStyle, "NOT BEGUN")}, t.caution(w)...)
		lines = append(lines, "")
		for _, text := range []string{
			"How much acid brings the paste to a pH? Weigh some paste, read its pH, add a little acid, stir, wait, " +
				"read again. For a coloured paste read the back of the strip, or the water that stands off.",
			"Enter begins: which acid, and into how much paste.",
		} {
			lines = append(lines, ui.Indented(ui.PlainStyle, text, w)...)
		}
		return lines
	}
	badge := " " + ui.Badge(ui.DoStyle, "ACID")
	lines := ui.Painted(ui.TitleStyle, a.Words(), w-ui.Cells(badge)-2)
	for i := range lines {
		if i == 0 {
			lines[i] = badge + " " + lines[i]
		} else {
			lines[i] = strings.Repeat(" ", ui.Cells(badge)+1) + lines[i]
		}
	}
	of, ok := readings.AcidOf(t.session.Outcome().Reading, t.deps.OwnSpoons)
	if !ok {
		text := fmt.Sprintf("Enter: the pH before any acid. The target is pH %s (t changes it).",
			model.Number(a.Target()))
		return append(append(append(lines, t.caution(w)...), ""), ui.Indented(ui.PlainStyle, text, w)...)
	}
	var below []string
	for i, text := range append([]string{of.Sentence()}, of.Notes(t.session.Powder())...) {
		if i == 0 {
			below = append(below, ui.Indented(ui.TitleStyle, text, w)...)
			continue
		}
		below = append(below, ui.Bullet(text, w)...)
	}
	rows, first := ui.Window(of.Lines(), t.cursor, max(h-len(lines)-len(below)-1, 1))
	for i, text := range rows {
		if first+i == t.cursor {
			for j, line := range ui.Painted(ui.TitleStyle, text, w-2) {
				lines = append(lines, []string{"▸ ", "  "}[min(j, 1)]+line)
			}
			continue
		}
		lines = append(lines, ui.Cut("  "+text, w))
	}
	return append(append(lines, ""), below...)
}

// caution warns before the first drop.
func (t *test) caution(w int) []string {
	if text := care.Line(care.BeforeAcid, t.session.Powder()); text != "" {
		return ui.Warned(text, w)
	}
	return nil
}

// Help says what the screen is for.
func (t *test) Help() []string {
	return []string{
		"How much acid brings this paste to a pH. Say once which acid goes into how much paste and how pH is read; " +
			"then, reading by reading, the pH and the acid before it. The first is the pH before any acid.",
		"Enter takes a pH in words: 7 after 5 drops, wait 10 min, level 4, lumps. The level and the behaviour are " +
			"how the paste looks with the acid in it. f records that it fizzes, or that it does not.",
		"The amount is read off a straight line between the readings and holds to half of what the strip or meter " +
			"shows; beyond what was tried daub says nothing. The result stays finished, the ratio as it was.",
	}
}
