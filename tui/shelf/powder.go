package shelf

import (
	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/typed"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// powderPage shows one powder: its facts, the weighings of its level spoons, and
// its trials. Every change is saved at once and can be undone until the page is
// left.
type powderPage struct {
	deps    ui.Deps
	session *ui.Session
	shelf   []model.Entry
	rows    []pageRow
	cursor  int
	pick    int            // index of the picked weighing in the row
	answers []bench.Answer // one a trial, at the trial's own target level

	deleting bool
	restore  func() (model.Entry, error) // brings the deleted powder back; nil before it is deleted
	ui.Prompt
}

// pageRow is one line that can be changed: a fact, a spoon's weighings, or a trial.
type pageRow struct {
	fact  *typed.Fact
	spoon int // index of the level spoon, -1 for none
	trial int // index of the trial, -1 for none
}

// deleted says that deleting the powder has ended, restored that bringing it back
// has.
type (
	deleted struct {
		restore func() (model.Entry, error)
		err     error
	}
	restored struct {
		entry model.Entry
		err   error
	}
	// keptTrial says that the copy of a trial that was taken out is written.
	keptTrial struct {
		path string
		err  error
	}
)

func newPowderPage(deps ui.Deps, e model.Entry, shelf []model.Entry) *powderPage {
	p := &powderPage{deps: deps, session: ui.NewSession(e, bench.NoTrial, deps.OwnSpoons), shelf: shelf}
	p.refresh()
	return p
}

// refresh builds the rows anew from the profile.
func (p *powderPage) refresh() {
	p.rows = p.rows[:0]
	for _, f := range typed.Facts() {
		p.rows = append(p.rows, pageRow{fact: &f, spoon: -1, trial: -1})
	}
	profile := p.session.Profile()
	for i := range profile.LevelSpoons {
		p.rows = append(p.rows, pageRow{spoon: i, trial: -1})
	}
	p.answers = p.answers[:0]
	for i, t := range profile.Trials {
		p.rows = append(p.rows, pageRow{spoon: -1, trial: i})
		t = t.WithDefaults(profile.Powder.Kind())
		reading, _ := bench.Read(profile, t, p.deps.OwnSpoons) // after an error it holds the steps before the wrong one
		p.answers = append(p.answers, reading.At(t.Aim))
	}
	p.cursor = min(p.cursor, len(p.rows)-1)
	p.pick = max(min(p.pick, len(p.weighings())-1), 0)
}

// weighings returns those of the row under the cursor, nil if it has none.
func (p *powderPage) weighings() []float64 {
	if i := p.rows[p.cursor].spoon; i >= 0 {
		return p.session.Profile().LevelSpoons[i].Grams
	}
	return nil
}

// Session returns the powder's session, nil once the powder is deleted: then
// nothing may be saved.
func (p *powderPage) Session() *ui.Session {
	if p.deleting || p.restore != nil {
		return nil
	}
	return p.session
}

func (p *powderPage) Typing() bool { return p.Asking() }

func (p *powderPage) Title() string { return "Shelf › powder  " + ui.Title(p.session.Entry()) }

func (p *powderPage) Keys() []key.Binding {
	k := powderKeys
	if p.Asking() {
		return p.PromptKeys()
	}
	if p.restore != nil {
		return []key.Binding{ui.Bind("u", "bring it back", "u"), k.leave}
	}
	row := p.rows[p.cursor]
	var keys []key.Binding
	switch {
	case row.trial >= 0:
		keys = []key.Binding{ui.Bind("Enter", "open the trial", "enter"), k.remove, k.aside}
	case row.spoon >= 0:
		keys = []key.Binding{ui.Bind("Enter", "mend this weighing", "enter"), ui.Bind("←→", "which weighing", "left",
			"right"), k.remove, k.fill}
	case row.fact.Options != nil:
		keys = []key.Binding{ui.Bind("←→", "choose", "left", "right", "enter")}
	default:
		keys = []key.Binding{ui.Bind("Enter", "change it", "enter")}
	}
	if p.session.Powder().Archived {
		k.archive.SetHelp(k.archive.Help().Key, "take it out of the archive")
	}
	return append(keys, k.undo, k.move, k.weigh, k.trial, k.archive, k.delete, k.redo, k.leave)
}

// Help says what the page is for.
func (p *powderPage) Help() []string {
	return []string{
		"The powder's page: all that you know of it beside its looks. Whatever you change is saved at once, " +
			"and u undoes it until you leave the page.",
		"Choose a line with ↑↓. On a fact Enter lets you type it, or ←→ goes through its values. On a level " +
			"spoon ←→ picks a weighing, " +
			"Enter mends it, Del deletes it, w weighs once more. On a trial Enter opens it, x sets it aside with " +
			"a reason " +
			"(kept, not used) or uses it again, Del deletes it after a question.",
		"The family sets three things: how long a look waits, which cautions are shown, and how careful the first " +
			"spoons are. " +
			"\"I don't know\" is a fine answer: daub then begins with very little.",
		"a hides the powder without deleting it: v on the shelf, and daub list --all, show it, and a on its page " +
			"brings it back. " +
			"D deletes the powder: its file moves to the folder \"deleted\" beside the others.",
	}
}

func (p *powderPage) Update(msg tea.Msg) (ui.Next, tea.Cmd) {
	switch msg := msg.(type) {
	case deleted:
		p.deleting = false
		p.Done()
		if msg.err != nil {
			p.Fail("NOT DELETED: " + msg.err.Error())
			return p, nil
		}
		p.restore = msg.restore
	case restored:
		p.Done()
		if msg.err != nil {
			p.Fail("NOT BROUGHT BACK: " + msg.err.Error())
			return p, nil
		}
		back := newPowderPage(p.deps, msg.entry, p.shelf)
		back.Say("The powder is back.")
		return back, nil
	case keptTrial:
		p.Done()
		if msg.err != nil {
			p.Fail("no copy was kept: " + msg.err.Error() + "; u brings the trial back")
		} else {
			p.Say("Trial deleted; a copy lies in " + msg.path + ". u brings it back.")
		}
	case tea.KeyMsg:
		if p.Asking() {
			cmd := p.Press(msg)
			if !p.Asking() {
				p.refresh()
			}
			return p, cmd
		}
		return p.key(msg)
	default:
		p.Receive(msg)
	}
	return p, nil
}

func (p *powderPage) key(msg tea.KeyMsg) (ui.Next, tea.Cmd) {
	k := powderKeys
	p.Hush()
	if p.restore != nil {
		return p.deletedKey(msg)
	}
	switch {
	case key.Matches(msg, k.leave):
		return ui.OpenShelf{Left: p.session}, nil
	case key.Matches(msg, k.move):
		p.cursor, p.pick = ui.MoveCursor(p.cursor, len(p.rows), msg.String()), 0
	case key.Matches(msg, k.undo):
		p.back(p.session.Undo, "undone")
	case key.Matches(msg, k.redo):
		p.back(p.session.Redo, "redone")
	case key.Matches(msg, k.change):
		return p.change(msg)
	case key.Matches(msg, k.remove):
		p.remove()
	case key.Matches(msg, k.aside) && p.rows[p.cursor].trial >= 0:
		p.aside(p.rows[p.cursor].trial)
	case key.Matches(msg, k.weigh):
		p.weigh()
	case key.Matches(msg, k.fill) && p.rows[p.cursor].spoon >= 0:
		p.fill(p.rows[p.cursor].spoon)
	case key.Matches(msg, k.archive):
		p.archive()
	case key.Matches(msg, k.trial):
		if !p.unsaved() {
			e := p.session.Entry()
			return ui.OpenSetup{Powder: &e, Shelf: p.shelf}, nil
		}
	case key.Matches(msg, k.delete):
		p.deletePowder()
	}
	return p, nil
}

func (p *powderPage) deletedKey(msg tea.KeyMsg) (ui.Next, tea.Cmd) {
	switch {
	case key.Matches(msg, powderKeys.leave):
		return ui.OpenShelf{}, nil
	case key.Matches(msg, powderKeys.undo):
		restore := p.restore
		p.Wait("bringing it back…")
		return p, func() tea.Msg {
			e, err := restore()
			return restored{e, err}
		}
	}
	return p, nil
}

// unsaved reports whether something is still to be saved, and says so: the action
// has to wait.
func (p *powderPage) unsaved() bool {
	if p.session.Dirty() {
		p.Refuse("the last change is still being saved: once more, please")
		return true
	}
	return false
}

// back undoes or redoes one change and says which.
func (p *powderPage) back(step func() (bench.Change, bool), word string) {
	c, ok := step()
	if !ok {
		p.Refuse("nothing to be " + word)
		return
	}
	p.refresh()
	p.Say(word + ": " + c.What)
}

// edit changes the profile and says what was done.
func (p *powderPage) edit(what string, change func(*model.Profile) error) error {
	var refused error
	err := p.session.Edit(what, func(profile *model.Profile, _ *model.Trial) { refused = change(profile) })
	if refused != nil {
		return refused
	}
	p.refresh()
	return err
}

// change acts on the row under the cursor: Enter asks or opens, the arrows pick
// another value.
func (p *powderPage) change(msg tea.KeyMsg) (ui.Next, tea.Cmd) {
	row, by := p.rows[p.cursor], ui.Arrow(msg)
	switch {
	case row.trial >= 0:
		if by == 0 && !p.unsaved() {
			return ui.OpenTrial{Powder: p.session.Entry(), Trial: row.trial}, nil
		}
	case row.spoon >= 0:
		if n := len(p.weighings()); by != 0 && n > 0 {
			p.pick = (p.pick + by + n) % n
		} else if by == 0 {
			p.mendWeighing(row.spoon)
		}
	case row.fact.Options != nil:
		p.turn(*row.fact, by)
	case by == 0:
		p.askFact(*row.fact)
	}
	return p, nil
}

// turn sets a fact to its next option, or with by -1 to the one before; after the
// last comes the first.
func (p *powderPage) turn(f typed.Fact, by int) {
	if by == 0 {
		by = 1
	}
	at := 0
	for i, o := range f.Options {
		if o == f.Show(p.session.Powder()) {
			at = i
		}
	}
	n := len(f.Options)
	p.setFact(f, f.Options[(at+by+n)%n])
}

func (p *powderPage) setFact(f typed.Fact, text string) {
	err := p.edit(f.Label(), func(profile *model.Profile) error { return f.Set(&profile.Powder, text) })
	if err != nil {
		p.Refuse(err.Error())
	}
}

func (p *powderPage) askFact(f typed.Fact) {
	p.Ask(ui.Question{
		Title: model.Capital(f.Label()), Why: f.Hint, Mends: f.Mends,
		Answer: func(text string) (tea.Cmd, error) {
			return nil, p.edit(f.Label(), func(profile *model.Profile) error { return f.Set(&profile.Powder, text) })
		},
	}, f.Show(p.session.Powder()))
}

func (p *powderPage) archive() {
	archived := !p.session.Powder().Archived
	what, said := "archiving", "Archived: hidden from the shelf, v there shows it. u undoes it."
	if !archived {
		what, said = "taking it out of the archive", "Back on the shelf."
	}
	if err := p.edit(what, func(profile *model.Profile) error {
		profile.Powder.Archived = archived
		return nil
	}); err != nil {
		p.Refuse(err.Error())
		return
	}
	p.Say(said)
}

// deletePowder asks, then moves the powder's file to the deleted files.
func (p *powderPage) deletePowder() {
	if p.unsaved() {
		return
	}
	e := p.session.Entry()
	with := ""
	if n := len(e.Profile.Trials); n == 1 {
		with = " with its trial"
	} else if n > 1 {
		with = " with its " + model.Plural(n, "trial")
	}
	p.Ask(ui.Question{
		Title: "Delete " + ui.Title(e) + with + "?", Yes: "delete it", No: "leave it",
		Why: "Its file moves to the folder \"deleted\". To hide it only, archive it with a.",
		Answer: func(string) (tea.Cmd, error) {
			p.deleting = true
			return func() tea.Msg {
				restore, err := p.deps.Delete(e)
				return deleted{restore, err}
			}, nil
		},
	}, "")
}
