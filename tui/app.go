package tui

import (
	"errors"
	"fmt"
	"strings"

	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// screen is one of the places. A screen handles messages and draws itself
// into the rectangle it is given; it stores no size.
type screen interface {
	Update(tea.Msg) (screen, tea.Cmd)
	// View draws at most h lines of at most w cells.
	View(w, h int) string
	// Keys are the keys that do something now, the most useful first.
	Keys() []key.Binding
	// Typing reports whether keys are text now, so that no shortcut fires.
	Typing() bool
	// Title says where we are.
	Title() string
	// Session is the profile that is being worked on here, nil for none.
	Session() *Session
}

// The smallest window in which the screens can be used.
const minWidth, minHeight = 40, 12

// App is the root: it knows the size, sends messages to the screen that is
// shown, saves the session after every change, and draws the frame.
type App struct {
	world   World
	w, h    int
	screen  screen
	shelf   *shelf // the one shown last: the next takes over what was chosen there
	help    bool
	scroll       // of the help
	leaving bool // quit as soon as everything is saved
	warned  bool // quit was asked for, and not everything is saved
}

// New is the program at the shelf.
func New(w World) *App {
	first := newShelf(w, nil)
	return &App{world: w, w: 80, h: 24, screen: first, shelf: first}
}

// Init reads the shelf.
func (a *App) Init() tea.Cmd { return a.screen.(*shelf).reads() }

// Owed is the profile that is not known to be on disk, if there is one; the
// program writes it once more after the terminal is given back.
func (a *App) Owed() (Item, bool) {
	s := a.screen.Session()
	if s == nil || !s.owed() {
		return Item{}, false
	}
	return s.Item(), true
}

// Update takes in one message, then saves what it changed.
func (a *App) Update(msg tea.Msg) (tea.Model, tea.Cmd) {
	cmd := a.take(msg)
	session := a.screen.Session()
	if session != nil && session.owed() {
		return a, tea.Batch(cmd, session.save(a.world))
	}
	if a.leaving && !a.writing() {
		return a, tea.Quit
	}
	if shelf, ok := a.screen.(*shelf); ok && shelf.pending != nil {
		// What was just recorded is on disk: now the shelf can show it.
		shelf.resume, shelf.pending = shelf.pending.item.ID, nil
		return a, tea.Batch(cmd, shelf.reads())
	}
	return a, cmd
}

func (a *App) take(msg tea.Msg) (cmd tea.Cmd) {
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		a.w, a.h = msg.Width, msg.Height
		return nil
	case saved:
		if s := a.screen.Session(); s != nil {
			s.onSaved(msg)
			a.leaving = a.leaving && msg.err == nil
		}
		return nil
	case quitWanted:
		return a.quit(false)
	case filed:
		a.leaving = a.leaving && msg.err == nil
	case recipeSaved:
		a.leaving = a.leaving && msg.err == nil
	case tea.KeyMsg:
		return a.keys(msg)
	}
	return a.pass(msg)
}

// keys gives one message's keys on, one by one. Letters that were typed faster
// than they were read arrive as one message, as a held key does.
func (a *App) keys(msg tea.KeyMsg) tea.Cmd {
	if msg.Type != tea.KeyRunes || msg.Paste || len(msg.Runes) < 2 {
		return a.key(msg)
	}
	var cmds []tea.Cmd
	for _, r := range msg.Runes {
		cmds = append(cmds, a.key(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}, Alt: msg.Alt}))
	}
	return tea.Batch(cmds...)
}

func (a *App) pass(msg tea.Msg) (cmd tea.Cmd) {
	a.screen, cmd = a.screen.Update(msg)
	if s, ok := a.screen.(*shelf); ok && s != a.shelf {
		s.follow(a.shelf)
		a.shelf = s
	}
	return cmd
}

// writing reports whether the screen waits for a file or a recipe to be
// written. Keys wait with it: what is being written stays what is shown.
func (a *App) writing() bool {
	s, ok := a.screen.(interface{ Busy() bool })
	return ok && s.Busy()
}

// key gives the root's own keys the first turn.
func (a *App) key(msg tea.KeyMsg) tea.Cmd {
	quit := key.Matches(msg, appKeys.quit)
	insists := quit && a.warned
	a.warned, a.leaving = quit, false
	switch {
	case quit:
		return a.quit(insists)
	case a.writing():
		return nil
	case a.help && key.Matches(msg, helpKeys):
		a.scrollBy(msg.String())
		return nil
	case a.help:
		a.help = false
		return nil
	case a.stuck() && key.Matches(msg, appKeys.retry):
		return a.screen.Session().retry(a.world, a.world.Save)
	case a.stuck() && key.Matches(msg, appKeys.beside):
		return a.screen.Session().retry(a.world, a.world.SaveBeside)
	case key.Matches(msg, appKeys.help) && (!a.screen.Typing() || msg.Type == tea.KeyF1):
		a.help, a.scroll = true, scroll{}
		return nil
	}
	return a.pass(msg)
}

// quit leaves once everything is saved. What cannot be saved is tried once
// more; whoever insists then leaves all the same, and the program makes a last
// try of its own.
func (a *App) quit(insists bool) tea.Cmd {
	if insists && a.writing() {
		return tea.Quit
	}
	if a.stuck() {
		if insists {
			return tea.Quit
		}
		a.screen.Session().err = nil
	}
	a.leaving = true
	return nil
}

// stuck reports whether the session could not be saved.
func (a *App) stuck() bool {
	s := a.screen.Session()
	return s != nil && s.err != nil
}

// View draws exactly h lines of at most w cells.
func (a *App) View() string {
	if a.w < minWidth || a.h < minHeight {
		line := fmt.Sprintf("daub needs %d×%d; this window is %d×%d.", minWidth, minHeight, a.w, a.h)
		return a.finish([]string{line})
	}
	lines := []string{a.header()}
	if a.stuck() {
		lines = append(lines, a.trouble()...)
	}
	foot := a.footer()
	h := a.h - len(lines) - len(foot)
	body := a.body(h)
	for len(body) < h {
		body = append(body, "")
	}
	lines = append(lines, body[:h]...)
	return a.finish(append(lines, foot...))
}

func (a *App) body(h int) []string {
	text := ""
	if a.help {
		text = strings.Join(a.sight(helpLines(a.screen, a.w), h), "\n")
	} else {
		text = a.screen.View(a.w, h)
	}
	return strings.Split(text, "\n")
}

// finish cuts the frame to the window.
func (a *App) finish(lines []string) string {
	for len(lines) < a.h {
		lines = append(lines, "")
	}
	for i, l := range lines {
		if a.world.ASCII {
			lines[i] = plain.Replace(cut(plain.Replace(l), a.w)) // the cut leaves a sign of its own
			continue
		}
		lines[i] = cut(l, a.w)
	}
	return strings.Join(lines[:max(a.h, 0)], "\n")
}

func (a *App) header() string {
	where := titleStyle.Render("daub") + "  " + a.screen.Title()
	status := ""
	switch {
	case a.stuck():
		status = badStyle.Render("! " + a.screen.Session().status())
	case a.screen.Session() != nil:
		status = goodStyle.Render(a.screen.Session().status())
	case a.world.Demo:
		status = warnStyle.Render("demo shelf")
	}
	return spread(where, status, a.w)
}

func (a *App) trouble() []string {
	first, then := appKeys.retry, appKeys.beside
	if changed := new(ChangedElsewhere); errors.As(a.screen.Session().err, changed) {
		first, then = then, first // only a file beside it can take what is here
	}
	why := fmt.Sprintf("! NOT SAVED. %s %s · %s %s · %s twice to leave. %v", first.Help().Key, first.Help().Desc,
		then.Help().Key, then.Help().Desc, appKeys.quit.Help().Key, a.screen.Session().err)
	lines := wrap(sanitise(why), a.w)
	for i := range lines {
		lines[i] = badStyle.Render(lines[i])
	}
	return lines[:min(len(lines), 3)]
}

// footer is what the keys do now, in at most two lines.
func (a *App) footer() []string {
	keys := a.screen.Keys()
	if a.help {
		keys = []key.Binding{helpKeys, bind("any other key", "back")}
	} else if a.screen.Typing() {
		keys = append(keys, bind("F1", "help", "f1"))
	} else {
		keys = append(keys, appKeys.help)
	}
	return keyLines(keys, a.w, 2)
}

// keyLines lays keys out in at most n lines; keys without room are left to
// the help, whose own key is last and always shown.
func keyLines(keys []key.Binding, w, n int) []string {
	var lines []string
	line := ""
	last := len(keys) - 1
	room := w
	for i, k := range keys {
		item := keyStyle.Render(k.Help().Key) + " " + k.Help().Desc
		if line != "" {
			item = " · " + item
		}
		if len(lines) == n-1 && i < last {
			room = w - cells(" · ") - cells(keys[last].Help().Key+" "+keys[last].Help().Desc)
		} else {
			room = w
		}
		if cells(line)+cells(item) <= room {
			line += item
			continue
		}
		if len(lines) == n-1 {
			continue
		}
		lines = append(lines, line)
		line = keyStyle.Render(k.Help().Key) + " " + k.Help().Desc
	}
	return append(lines, line)
}
