package tui_test

import (
	"errors"
	"io"
	"maps"
	"slices"
	"strings"
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/tui"
	"daub.example/daub/tui/internal/drive"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func TestEveryKeyHasHelpAndOneMeaning(t *testing.T) {
	for name, keys := range drive.Situations {
		t.Run(name, func(t *testing.T) {
			d := drive.Start(t, drive.Pantry().Deps(), 80, 24).Press(keys)
			meaning := map[string]string{}
			for _, b := range append(d.App.Shown().Keys(), tui.OwnKeys()...) {
				assert.NotEmpty(t, b.Help().Key)
				assert.NotEmpty(t, b.Help().Desc)
				require.NotEmpty(t, b.Keys())
				for _, k := range b.Keys() {
					assert.Empty(t, meaning[k], "%q means two things", k)
					meaning[k] = b.Help().Desc
				}
			}
		})
	}
}

// TestNoUnshownKeyActs presses every plain key in every situation. A key that the
// help does not list must leave the frame as it was, unless text is typed.
func TestNoUnshownKeyActs(t *testing.T) {
	for name, keys := range drive.Situations {
		d := drive.Start(t, drive.Pantry().Deps(), 80, 24).Press(keys)
		if d.App.Shown().Typing() || name == "help" {
			continue
		}
		before := d.Frame()
		for r := '!'; r <= '~'; r++ {
			if testing.Short() && r%3 > 0 {
				continue
			}
			msg := tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}}
			if key.Matches(msg, append(d.App.Shown().Keys(), tui.OwnKeys()...)...) {
				continue
			}
			d.Send(msg)
			if d.Frame() != before {
				// A key may say why it does nothing here.
				assert.Contains(t, d.Frame(), "\n! ", "%s: %q acts without being listed", name, r)
				d = drive.Start(t, drive.Pantry().Deps(), 80, 24).Press(keys)
				before = d.Frame()
			}
		}
	}
}

func TestAnyKeysAnySizes(t *testing.T) {
	var names []string
	for n := range drive.NamedKeys {
		if n != "ctrl+c" {
			names = append(names, n)
		}
	}
	for r := ' '; r <= '~'; r++ {
		names = append(names, string(r), "alt+"+string(r))
	}
	slices.Sort(names)
	places := slices.Sorted(maps.Values(drive.Situations))
	rapid.Check(t, func(rt *rapid.T) {
		f := drive.Pantry()
		if rapid.Bool().Draw(rt, "slip") {
			f.Fail = errors.New("the disk is full")
		}
		w := f.Deps()
		w.ASCII = rapid.Bool().Draw(rt, "ascii")
		d := drive.Start(t, w, 80, 24).Press(rapid.SampledFrom(places).Draw(rt, "start"))
		for range rapid.IntRange(1, 40).Draw(rt, "keys") {
			if rapid.IntRange(0, 7).Draw(rt, "resize") == 0 {
				d.Resize(rapid.IntRange(0, 160).Draw(rt, "w"), rapid.IntRange(0, 60).Draw(rt, "h"))
			}
			k := rapid.SampledFrom(names).Draw(rt, "key")
			if k == " " {
				k = "space"
			}
			d.Press(k)
			frame := d.Frame()
			if w.ASCII && strings.ContainsFunc(frame, func(r rune) bool { return r > 126 }) {
				rt.Fatalf("not ASCII: %q", frame)
			}
			if err := d.App.Fault(); err != nil {
				rt.Fatalf("%v", err)
			}
		}
		for _, i := range f.Entries {
			if problems := bench.Check(i.Profile, nil); len(problems) > 0 {
				rt.Fatalf("keys made a profile that is not sound: %v", problems)
			}
		}
		for _, r := range f.Recipes {
			if problems := r.Recipe.Validate(); len(problems) > 0 {
				rt.Fatalf("keys made a recipe that is not sound: %v", problems)
			}
		}
	})
}

// TestDeletingTheWordAhead deletes a word with the cursor on each letter of every
// text field. Esc and d that arrive together are the same key as Alt and d.
func TestDeletingTheWordAhead(t *testing.T) {
	for name, keys := range drive.Situations {
		d := drive.Start(t, drive.Pantry().Deps(), 80, 24).Press(keys)
		if !d.App.Shown().Typing() {
			continue
		}
		for _, del := range []tea.KeyMsg{drive.Key("alt+d"), drive.Key("alt+del")} {
			d.Press("a b1")
			for range 4 {
				d.Press("left")
				d.Send(del)
				d.Frame()
			}
		}
		require.NoError(t, d.App.Fault(), name)
	}
}

func TestDeletingTheLastLetterAsAWord(t *testing.T) {
	d := drive.Start(t, drive.NewShelf(drive.Barley()).Deps(), 80, 24).Press("/ bar left alt+d")
	assert.Contains(t, d.Frame(), "filter: ba ")
	d.Press("alt+d home alt+d")
	assert.Contains(t, d.Frame(), "filter:  ")
}

func TestPasteNeverPressesEnter(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 80, 24)
	paste := func(text string) { d.Send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(text), Paste: true}) }
	d.Press("enter")
	paste("f\n5\n")
	assert.Contains(t, d.Frame(), "Trial › bench", "a paste is no key at the bench")
	d.Press("n")
	paste("first line\nsecond line")
	d.Press("enter")
	assert.Equal(t, "first line second line", f.Steps(t, "Barley")[1].Note, "lines are joined")
}

func TestHostileTextIsShownHarmless(t *testing.T) {
	p := drive.Barley(0, 1)
	p.Powder.Name = "Red\x1b[31m \x07clay\nzwei"
	d := drive.Start(t, drive.NewShelf(p).Deps(), 80, 24)
	assert.NotContains(t, d.App.View(), "\x07")
	d.Press("enter")
	d.Frame()
}

// TestProgramUnderABurst runs a real program. Keys come in as bytes, faster than
// anything can be saved; at the end the last state is on the shelf.
func TestProgramUnderABurst(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	w := f.Deps()
	save := w.Save
	w.Save = func(i model.Entry) (model.Entry, error) {
		time.Sleep(time.Millisecond)
		return save(i)
	}
	keys := "\r" + strings.Repeat("\r3\r", 20) + "\x03" // early, and so confirmed
	app := tui.New(w)
	_, err := tea.NewProgram(app, tea.WithInput(&afterListing{app: app, keys: strings.NewReader(keys)}),
		tea.WithOutput(io.Discard), tea.WithoutSignals()).Run()
	require.NoError(t, err)
	steps := f.Steps(t, "Barley")
	require.Len(t, steps, 22)
	for _, s := range steps[2:] {
		assert.True(t, s.Looked)
	}
}

// afterListing gives keys once the shelf has had time to be read.
type afterListing struct {
	app    *tui.App
	keys   io.Reader
	waited bool
}

func (a *afterListing) Read(p []byte) (int, error) {
	if !a.waited {
		time.Sleep(50 * time.Millisecond)
		a.waited = true
	}
	return a.keys.Read(p)
}

// TestFormsAndCtrl presses every key with Ctrl in every form. A key that is not
// listed leaves the frame as it was.
func TestFormsAndCtrl(t *testing.T) {
	for name, keys := range drive.Situations {
		d := drive.Start(t, drive.Pantry().Deps(), 80, 24).Press(keys)
		if !strings.HasPrefix(d.App.Shown().Title(), "Kitchen › ") || !d.App.Shown().Typing() {
			continue
		}
		for k, msg := range drive.NamedKeys {
			listed := false
			for _, b := range d.App.Shown().Keys() {
				listed = listed || strings.Contains(strings.Join(b.Keys(), " "), k)
			}
			edits := k == "ctrl+b" || k == "ctrl+e" // move within the text
			if listed || edits || !strings.HasPrefix(k, "ctrl+") || k == "ctrl+c" {
				continue
			}
			before := d.Frame()
			d.Send(msg)
			if strings.Contains(d.Frame(), "! not yet:") {
				continue // it says what it still needs
			}
			assert.Equal(t, before, d.Frame(), "%s: %s acts without being listed", name, k)
		}
	}
}

func TestHostileNamesInTheKitchen(t *testing.T) {
	f := drive.Pantry()
	f.Entries[1].Profile.Powder.Name = "Oat\x1b[31m \x07red\nzwei"
	f.Recipes = []model.RecipeEntry{{Slug: "r0", Recipe: f.Recipe("Mask\x07\nzwei", 1, 50)}}
	for name, keys := range drive.Situations {
		d := drive.Start(t, f.Deps(), 100, 30).Press(keys)
		d.Frame()
		assert.NotContains(t, d.App.View(), "\x07", name)
		assert.NotContains(t, d.App.View(), "\x1b[31m \x07", name)
	}
}
