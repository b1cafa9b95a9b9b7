// Package later is the screen of later looks: a finished dish is kept covered and
// looked at again after minutes, hours and the next day. It changes one trial of
// its session and knows no place; it may import tui/ui and model/….
package later

import (
	"fmt"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/handling"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/typed"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

var keys = struct{ level, look, mend, remove, covered, move, undo, redo, leave key.Binding }{
	level:   ui.Bind("0-7", "level as it stands", "0", "1", "2", "3", "4", "5", "6", "7"),
	look:    ui.Bind("Enter", "a look in words", "enter"),
	mend:    ui.Bind("e", "mend it", "e"),
	remove:  ui.Bind("Del", "delete it", "delete", "backspace"),
	covered: ui.Bind("c", "kept covered, or not", "c"),
	move:    ui.Bind("↑↓", "choose", "up", "down"),
	undo:    ui.Bind("u", "undo", "u"),
	redo:    ui.Bind("U", "redo", "U"),
	leave:   ui.Bind("Esc", "back", "esc"),
}

// Looks shows the later looks of one trial.
type Looks struct {
	deps    ui.Deps
	session *ui.Session
	back    ui.Screen // where Esc leads; nil for the shelf
	cursor  int
	changes ui.Changes
	ui.Scroll
	ui.Prompt
}

// New makes the screen for the session's trial; Esc leads back.
func New(deps ui.Deps, s *ui.Session, back ui.Screen) *Looks {
	return &Looks{deps: deps, session: s, back: back, cursor: len(s.Trial().Later) - 1, changes: ui.NewChanges(s)}
}

func (l *Looks) Session() *ui.Session { return l.session }
func (l *Looks) Typing() bool         { return l.Asking() }

func (l *Looks) Title() string {
	return "Trial › later looks  " + printable.Line(l.session.Powder().Title())
}

func (l *Looks) Keys() []key.Binding {
	if l.Asking() {
		return l.PromptKeys()
	}
	k := []key.Binding{keys.level, keys.look, keys.covered}
	if len(l.session.Trial().Later) > 0 {
		k = append(k, keys.mend, keys.remove, keys.move)
	}
	return append(k, keys.undo, ui.ScrollKey, keys.redo, keys.leave)
}

func (l *Looks) Update(msg tea.Msg) (ui.Next, tea.Cmd) {
	m, ok := msg.(tea.KeyMsg)
	switch {
	case !ok:
		l.Receive(msg)
		return l, nil
	case key.Matches(m, ui.ScrollKey):
		l.ScrollBy(m.String())
		return l, nil
	case l.Asking():
		return l, l.Press(m)
	}
	l.Hush()
	t := l.session.Trial()
	switch {
	case key.Matches(m, keys.leave) && l.back != nil:
		return l.back, nil
	case key.Matches(m, keys.leave):
		return ui.OpenShelf{Left: l.session}, nil
	case key.Matches(m, keys.level):
		level := float64(m.Runes[0] - '0')
		l.say("level "+model.LevelName(level)+" as it stands recorded", l.add(model.LaterLook{Level: &level}))
	case key.Matches(m, keys.look):
		l.ask("A look now: as it stands, after ten turns, behaviour, a note", "", l.add)
	case key.Matches(m, keys.covered):
		said := "kept covered: daub says when it is due for a look"
		if t.Covered {
			said = "no longer kept"
		}
		l.say(said, l.changes.Made(l.session.Cover(!t.Covered)))
	case key.Matches(m, keys.undo):
		l.changes.Undo(&l.Prompt)
	case key.Matches(m, keys.redo):
		l.changes.Redo(&l.Prompt)
	case len(t.Later) == 0:
	case key.Matches(m, keys.move):
		l.cursor = ui.MoveCursor(l.cursor, len(t.Later), m.String())
	case key.Matches(m, keys.mend):
		n := l.cursor
		l.ask(fmt.Sprintf("Later look %d", n+1), typed.ShowLater(t.Later[n]), func(is model.LaterLook) error {
			return l.changes.Made(l.session.MendLater(n, func(was *model.LaterLook) {
				is.At = was.At
				*was = is
			}))
		})
	case key.Matches(m, keys.remove):
		l.say("deleted; u brings it back", l.changes.Made(l.session.DeleteLater(l.cursor)))
	}
	l.cursor = min(max(l.cursor, 0), max(len(l.session.Trial().Later)-1, 0))
	l.Follow()
	return l, nil
}

// ask asks for a later look in words and hands it to record.
func (l *Looks) ask(title, suggestion string, record func(model.LaterLook) error) {
	l.Ask(ui.Question{
		Title: title,
		Why: "For example: 5, stirred 4, gels, note a skin on top. Behaviour: " +
			strings.Join(model.Marks(), ", ") + ".",
		Answer: func(text string) (tea.Cmd, error) {
			look, err := typed.Later(text)
			if err != nil {
				return nil, err
			}
			return nil, record(look)
		},
	}, suggestion)
}

// add records a look made now.
func (l *Looks) add(look model.LaterLook) error {
	look.At = l.deps.Now()
	err := l.changes.Made(l.session.AddLater(look))
	l.cursor = len(l.session.Trial().Later) - 1
	return err
}

func (l *Looks) say(done string, err error) {
	if err != nil {
		l.Refuse(err.Error())
		return
	}
	l.Say(done)
}

func (l *Looks) View(w, h int) string {
	foot := l.Foot(w)
	t := l.session.Trial()
	lines := append(l.covering(t, w), "")
	cursor := 0
	for i, look := range t.Later {
		mark, style := "  ", ui.PlainStyle
		if i == l.cursor {
			mark, style, cursor = "▸ ", ui.TitleStyle, len(lines)
		}
		for _, line := range ui.Wrap(look.At.Local().Format("2006-01-02 15:04")+"  "+seen(look), w-2) {
			lines = append(lines, style.Render(mark+line))
			mark = "  "
		}
	}
	if len(t.Later) == 0 {
		lines = append(lines, ui.Inset(w, func(w int) []string {
			return ui.Painted(ui.PlainStyle, "No later look yet. Do not stir the dish: type the level as it stands. "+
				"If ten turns then change it: Enter, and both levels, as 5, stirred 4.", w)
		})...)
	}
	lines = append(lines, "")
	for _, text := range handling.OfTrial(l.reading()) {
		lines = append(lines, ui.Bullet(text, w)...)
	}
	sight := l.SightAt(lines, cursor, h-len(foot))
	for len(foot) > 0 && len(sight)+len(foot) < h {
		sight = append(sight, "")
	}
	return strings.Join(append(sight, foot...), "\n")
}

// covering says whether the dish is covered, and which look is due or comes next.
func (l *Looks) covering(t model.Trial, w int) []string {
	if !t.Covered && handling.IsPastLooks(t, l.deps.Now()) {
		text := "Made on " + t.Started.Local().Format(model.Day) + ": too old to be kept for later looks."
		return ui.Indented(ui.PlainStyle, text, w)
	}
	badge := ui.Badge(ui.WaitStyle, "NOT COVERED")
	if t.Covered {
		badge = ui.Badge(ui.DoStyle, "COVERED")
	}
	lines := []string{" " + badge}
	indent := ui.Cells(lines[0]) + 1
	for i, text := range ui.Painted(ui.PlainStyle, l.when(t), w-indent-1) {
		if i == 0 {
			lines[0] += " " + text
			continue
		}
		lines = append(lines, strings.Repeat(" ", indent)+text)
	}
	return lines
}

// seen describes one later look in words.
func seen(l model.LaterLook) string {
	parts := append([]string{l.Readings()}, l.Marks...)
	if l.Note != "" {
		parts = append(parts, printable.Line(l.Note))
	}
	return strings.Join(parts, ", ")
}

func (l *Looks) reading() bench.Reading { return l.session.Outcome().Reading }

// when says which look is due or comes next.
func (l *Looks) when(t model.Trial) string {
	now := l.deps.Now()
	v, ok := handling.NextVisit(t, now)
	switch {
	case !t.Covered:
		return "Cover the dish, then press c: daub says when to look, after 5 min, 30 min, 4 hours and on the next day."
	case !ok:
		return "Looked at for the last time: the dish may go."
	case v.Due(now):
		return "A look is due now: " + v.Since() + "."
	default:
		return "Next look: " + v.At.Local().Format("15:04") + ", " + v.Since() + "."
	}
}

// Help says what the screen is for.
func (l *Looks) Help() []string {
	return []string{
		"Some pastes go on thickening while they stand, some settle or thin. Keep the finished dish covered and look " +
			"at it again; what you see stands with the result, on the shelf and on cards.",
		"A digit is the level as it stands, without stirring. Enter takes a look in words: the level, " +
			"\"stirred\" and the level after ten turns, behaviour, a note. " +
			"It becomes advice when one look shows it clearly, or when two looks some time apart agree.",
		"The result stays finished, and the ratio stays as it is: a later look is never mixed into it.",
	}
}
