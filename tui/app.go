package tui

import (
	"fmt"

	"daub.example/daub/model"
	"daub.example/daub/tui/acid"
	"daub.example/daub/tui/compare"
	"daub.example/daub/tui/kitchen"
	"daub.example/daub/tui/later"
	"daub.example/daub/tui/shelf"
	"daub.example/daub/tui/trial"
	"daub.example/daub/tui/trial/setup"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// App is the root: it knows the window's size, hands messages to the screen, saves
// the session after every change and draws the frame.
type App struct {
	deps      ui.Deps
	w, h      int
	screen    ui.Screen
	list      *shelf.List // the shelf shown last; the next one keeps its marks and cursor
	draft     ui.Draft    // the set-up left last, nil for none
	help      bool
	ui.Scroll      // scrolls the help
	leaving   bool // quit as soon as everything is saved
	warned    bool // quit was pressed while something was not saved
	fault     *Fault
	rung      map[dueLook]bool // later looks that the bell has rung for
	watching  bool             // the clock runs for later looks
	ended     int              // number of writes that have ended
	timing    bool             // the clock runs for a write
	slow      bool             // a write takes too long
}

// New makes the program; it opens on the shelf.
func New(deps ui.Deps) *App {
	a := &App{w: 80, h: 24, rung: map[dueLook]bool{}}
	deps.Powders = func() []model.Entry { return a.list.Entries() }
	a.deps, a.list = deps, shelf.New(deps, nil, nil)
	a.screen = a.list
	return a
}

// Init reads the shelf.
func (a *App) Init() tea.Cmd { return guard(a.list.Read()) }

// Unsaved returns the profile if it is not known to be on disk. The program writes
// it once more after the terminal is given back.
func (a *App) Unsaved() (model.Entry, bool) {
	s := a.screen.Session()
	if s == nil || !s.Dirty() {
		return model.Entry{}, false
	}
	return s.Entry(), true
}

// Update handles one message and then saves what it changed. A panic ends the
// program; Fault then says so, and Unsaved what is to be saved.
func (a *App) Update(msg tea.Msg) (app tea.Model, cmd tea.Cmd) {
	defer a.catch(func() { app, cmd = a, tea.Quit })
	if f, ok := msg.(faulted); ok && a.fault == nil {
		a.fault = &f.fault
	}
	if a.fault != nil {
		return a, tea.Quit
	}
	if _, tick := msg.(dueTick); tick {
		a.watching = false
		return a, guard(a.watch(nil))
	}
	if tick, ok := msg.(slowTick); ok {
		a.timed(tick)
	} else {
		cmd = a.receive(msg)
	}
	return a, guard(a.watch(a.timeWrites(a.save(cmd))))
}

// save adds to a message's command what must follow: a write, or what waited for
// one.
func (a *App) save(cmd tea.Cmd) tea.Cmd {
	session := a.screen.Session()
	if session != nil && session.Dirty() {
		return tea.Batch(cmd, session.Save(a.deps))
	}
	if a.leaving && !a.writing() {
		return tea.Quit
	}
	if a.screen == ui.Screen(a.list) {
		return tea.Batch(cmd, a.list.LeftSaved())
	}
	return cmd
}

func (a *App) receive(msg tea.Msg) (cmd tea.Cmd) {
	switch msg.(type) {
	case ui.Saved, ui.Filed, ui.RecipeSaved, ui.SpoonsSaved:
		a.ended++
		a.slow = false
	}
	switch msg := msg.(type) {
	case tea.WindowSizeMsg:
		a.w, a.h = msg.Width, msg.Height
		return nil
	case ui.Saved:
		if s := a.screen.Session(); s != nil {
			s.Receive(msg)
			a.leaving = a.leaving && msg.Err == nil
		}
		return nil
	case ui.Filed:
		a.leaving = a.leaving && msg.Err == nil
	case ui.RecipeSaved:
		a.leaving = a.leaving && msg.Err == nil
	case ui.SpoonsSaved:
		a.leaving = a.leaving && msg.Err == nil
	case tea.KeyMsg:
		return a.keys(msg)
	case tea.MouseMsg:
		return a.mouse(msg)
	}
	return a.pass(msg)
}

// pass hands a message to the screen and follows its answer.
func (a *App) pass(msg tea.Msg) tea.Cmd { return a.follow(a.screen.Update(msg)) }

// follow shows the next screen.
func (a *App) follow(next ui.Next, cmd tea.Cmd) tea.Cmd {
	a.deps.OwnSpoons = a.list.OwnSpoons()
	if screen, ok := next.(ui.Screen); ok {
		a.screen = screen
		return cmd
	}
	return tea.Batch(cmd, a.open(next))
}

// open turns a place's request for another place into its screen.
func (a *App) open(request ui.Next) (cmd tea.Cmd) {
	switch r := request.(type) {
	case ui.OpenShelf:
		if r.Draft != nil {
			a.draft = r.Draft
		}
		a.list = shelf.New(a.deps, a.list, r.Left)
		a.screen, cmd = a.list, a.list.Start()
	case ui.OpenSetup:
		if r.Shelf == nil {
			r.Shelf = a.list.Entries()
		}
		a.screen = setup.New(a.deps, r, a.draft)
	case ui.OpenTrial:
		a.screen, cmd = trial.Open(a.deps, r.Powder, r.Trial)
	case ui.OpenLater:
		a.screen = later.New(a.deps, r.Session, r.Back)
	case ui.OpenAcid:
		a.screen = acid.New(a.deps, r.Session, r.Back)
	case ui.OpenCompare:
		a.screen = compare.New(a.deps, r.Powders, r.Shelf)
	case ui.OpenKitchen:
		a.screen = kitchen.New(a.deps, r.Shelf, r.Powders)
	case ui.OpenSwap:
		a.screen = kitchen.NewSwap(a.deps, r.Shelf, r.Back, r.From, r.To, r.Level)
	case ui.Quit:
		return a.quit(false)
	default:
		panic(fmt.Sprintf("no place answers %T", request))
	}
	return cmd
}

// keys hands on the keys of one message one by one. Letters typed faster than they
// are read, or a held key, arrive as one message.
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

// writing reports whether the screen waits for a file or a recipe to be written.
// Keys wait too, so that the screen keeps showing what is being written.
func (a *App) writing() bool {
	s, ok := a.screen.(interface{ Busy() bool })
	return ok && s.Busy()
}

// key handles the root's own keys first.
func (a *App) key(msg tea.KeyMsg) tea.Cmd {
	quit := key.Matches(msg, appKeys.quit)
	insists := quit && a.warned
	a.warned, a.leaving = quit, false
	switch {
	case quit:
		return a.quit(insists)
	case key.Matches(msg, appKeys.suspend):
		if a.deps.Suspend {
			return tea.Suspend
		}
		return nil
	case a.writing():
		return nil
	case a.help && key.Matches(msg, helpKeys):
		a.ScrollBy(msg.String())
		return nil
	case a.help:
		a.help = false
		return nil
	case a.stuck() && key.Matches(msg, appKeys.retry):
		return a.screen.Session().Retry(a.deps, a.deps.Save)
	case a.stuck() && key.Matches(msg, appKeys.beside):
		return a.screen.Session().Retry(a.deps, a.deps.SaveAsNew)
	case key.Matches(msg, appKeys.help) && (!a.screen.Typing() || msg.Type == tea.KeyF1):
		a.help, a.Scroll = true, ui.Scroll{}
		return nil
	}
	return a.pass(msg)
}

// quit leaves once everything is saved. What failed is tried once more. If the
// maker insists, it leaves at once, and the program makes a last try of its own.
func (a *App) quit(insists bool) tea.Cmd {
	if insists && (a.writing() || a.slow) {
		return tea.Quit
	}
	if a.stuck() {
		if insists {
			return tea.Quit
		}
		a.screen.Session().Err = nil
	}
	a.leaving = true
	return nil
}

// stuck reports whether the session could not be saved.
func (a *App) stuck() bool {
	s := a.screen.Session()
	return s != nil && s.Err != nil
}
