package tui

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"
	"testing"
	"time"

	"daub.example/daub/model"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/charmbracelet/lipgloss"
	"github.com/charmbracelet/x/ansi"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/require"
)

func TestMain(m *testing.M) {
	lipgloss.SetColorProfile(termenv.Ascii)
	time.Local = time.UTC
	os.Exit(m.Run())
}

// fakeShelf is a shelf in memory with a clock that moves only when told.
type fakeShelf struct {
	now   time.Time
	items []model.Entry
	saves int
	fail  error
	bells int

	recipes  []model.RecipeEntry
	exported [][]model.Entry   // what was given to Export, in order
	files    map[string]string // what was written
	clip     string
}

func newFake(profiles ...model.Profile) *fakeShelf {
	f := &fakeShelf{now: time.Date(2026, 6, 1, 9, 0, 0, 0, time.UTC), files: map[string]string{}}
	for i, p := range profiles {
		f.items = append(f.items, model.Entry{Slug: fmt.Sprintf("p%d", i), Path: fmt.Sprintf("powders/p%d.toml", i), Profile: p})
	}
	return f
}

func (f *fakeShelf) deps() Deps {
	return Deps{
		Now:  func() time.Time { return f.now },
		List: func() (Listing, error) { return Listing{Items: append([]model.Entry(nil), f.items...)}, nil },
		Save: f.save,
		SaveBeside: func(i model.Entry) (model.Entry, error) {
			i.Slug = ""
			return f.save(i)
		},
		AddSamples: func() error {
			f.items = append(f.items, model.Entry{Slug: "sample", Profile: model.Profile{Powder: model.Powder{Name: "Sample"}}})
			return nil
		},
		Recipes: func() (Cookbook, error) {
			return Cookbook{Items: append([]model.RecipeEntry(nil), f.recipes...)}, f.fail
		},
		SaveRecipe: f.saveRecipe,
		Export: func(items []model.Entry, level float64, file File) (string, error) {
			f.exported = append(f.exported, items)
			return f.write(fmt.Sprintf("%d at %g", len(items), level), file)
		},
		WriteFile: f.write,
		Copy: func(text string) error {
			f.clip = text
			return f.fail
		},
		Bell:     func() { f.bells++ },
		ShelfDir: "/shelf",
	}
}

func (f *fakeShelf) save(i model.Entry) (model.Entry, error) {
	f.saves++
	if f.fail != nil {
		return i, f.fail
	}
	if problems := i.Profile.Validate(nil); len(problems) > 0 {
		return i, problems[0] // as the real shelf: what could not be read again is not written
	}
	if i.Slug == "" {
		i.Slug = fmt.Sprintf("p%d", len(f.items))
		i.Path = "powders/" + i.Slug + ".toml"
		f.items = append(f.items, i)
		return i, nil
	}
	for n := range f.items {
		if f.items[n].Slug == i.Slug {
			f.items[n] = i
			return i, nil
		}
	}
	return i, errors.New("no such profile")
}

func (f *fakeShelf) saveRecipe(i model.RecipeEntry) (model.RecipeEntry, error) {
	f.saves++
	if f.fail != nil {
		return i, f.fail
	}
	for n := range f.recipes {
		if f.recipes[n].Slug == i.Slug {
			f.recipes[n] = i
			return i, nil
		}
	}
	i.Slug = fmt.Sprintf("r%d", len(f.recipes))
	i.Path = "recipes/" + i.Slug + ".toml"
	f.recipes = append(f.recipes, i)
	return i, nil
}

func (f *fakeShelf) write(text string, file File) (string, error) {
	if f.fail != nil {
		return "", f.fail
	}
	if _, there := f.files[file.Name]; there && !file.Over {
		return "", fmt.Errorf("write %s: %w", file.Name, fs.ErrExist)
	}
	f.files[file.Name] = text
	return "/written/" + file.Name, nil
}

// profile is what the shelf holds of a powder now.
func (f *fakeShelf) profile(name string) model.Profile {
	for _, i := range f.items {
		if i.Profile.Powder.Name == name {
			return i.Profile
		}
	}
	return model.Profile{}
}

// driver runs the program without a terminal: it gives messages to Update and
// runs the commands in order.
type driver struct {
	t    testing.TB
	app  *App
	quit bool
}

func drive(t testing.TB, w Deps, width, height int) *driver {
	d := &driver{t: t, app: New(w)}
	d.run(d.app.Init())
	d.send(tea.WindowSizeMsg{Width: width, Height: height})
	return d
}

func (d *driver) send(msg tea.Msg) {
	if d.quit {
		return // as nobody hears a key any more
	}
	m, cmd := d.app.Update(msg)
	d.app = m.(*App)
	d.run(cmd)
}

func (d *driver) run(cmd tea.Cmd) {
	if cmd == nil {
		return
	}
	switch msg := cmd().(type) {
	case nil:
	case tea.BatchMsg:
		for _, c := range msg {
			d.run(c)
		}
	case tea.QuitMsg:
		d.quit = true
	default:
		d.send(msg)
	}
}

var namedKeys = map[string]tea.KeyMsg{
	"enter": {Type: tea.KeyEnter}, "esc": {Type: tea.KeyEsc}, "up": {Type: tea.KeyUp}, "down": {Type: tea.KeyDown},
	"left": {Type: tea.KeyLeft}, "right": {Type: tea.KeyRight}, "tab": {Type: tea.KeyTab}, "del": {Type: tea.KeyDelete},
	"bksp": {Type: tea.KeyBackspace}, "space": {Type: tea.KeySpace, Runes: []rune{' '}},
	"ctrl+e": {Type: tea.KeyCtrlE}, "ctrl+t": {Type: tea.KeyCtrlT}, "ctrl+y": {Type: tea.KeyCtrlY},
	"ctrl+c": {Type: tea.KeyCtrlC}, "ctrl+s": {Type: tea.KeyCtrlS}, "ctrl+b": {Type: tea.KeyCtrlB}, "ctrl+g": {Type: tea.KeyCtrlG},
	"home": {Type: tea.KeyHome}, "alt+del": {Type: tea.KeyDelete, Alt: true}, "alt+bksp": {Type: tea.KeyBackspace, Alt: true},
	"alt+left": {Type: tea.KeyLeft, Alt: true}, "alt+right": {Type: tea.KeyRight, Alt: true},
	"pgdown": {Type: tea.KeyPgDown}, "pgup": {Type: tea.KeyPgUp}, "shift+tab": {Type: tea.KeyShiftTab},
}

// press presses keys by name, separated by spaces; a word in quotes is typed.
func (d *driver) press(keys string) *driver {
	for _, k := range strings.Fields(keys) {
		if m, ok := namedKeys[k]; ok {
			d.send(m)
			continue
		}
		letters, alt := strings.CutPrefix(k, "alt+")
		for _, r := range letters {
			d.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}, Alt: alt})
		}
	}
	return d
}

// frame is the screen now, and holds that it fills the window exactly.
func (d *driver) frame() string {
	view := ansi.Strip(d.app.View())
	lines := strings.Split(view, "\n")
	require.Len(d.t, lines, d.app.h, "lines of a frame")
	for _, l := range lines {
		require.LessOrEqual(d.t, ansi.StringWidth(l), d.app.w, "width of %q", l)
	}
	return view
}
