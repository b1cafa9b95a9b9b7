package tui

import (
	"errors"
	"fmt"
	"io"
	"maps"
	"slices"
	"strings"
	"testing"
	"time"

	"daub.example/daub/model"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// situations are the key sequences that lead to every screen and mode.
var situations = map[string]string{
	"shelf":         "",
	"filter":        "/",
	"set-up":        "n",
	"set-up weigh":  "t",
	"bench add":     "enter",
	"bench look":    "enter enter",
	"bench liquid":  "enter l",
	"bench grams":   "enter g",
	"bench marks":   "enter m",
	"bench mend":    "enter e",
	"bench reason":  "enter x",
	"result":        "enter f",
	"result reason": "enter f x",
	"help":          "enter ?",
	"shelf marked":  "space",
	"shelf export":  "e",
	"result export": "enter f e",
	"compare":       toCompare,
	"compare text":  toCompare + " pgdown",
	"compare file":  toCompare + " e",
	"compare swap":  toCompare + " s",
	"kitchen":       "k",
	"batch":         toBatch,
	"batch done":    toBatch + " down down 120",
	"batch name":    toBatch + " down down 120 ctrl+s",
	"swap":          "k down enter",
	"mix":           "k down down enter",
	"mix done":      "down space down space k down down enter",
	"spoons":        "k down down down enter",
	"recipes":       "k up enter",
	"recipe":        toRecipe,
	"recipe total":  toRecipe + " t",
	"recipe name":   toRecipe + " n",
	"recipe swap":   toRecipe + " s up up",
}

// Ways to the places that are reached over the shelf of pantry.
const (
	toCompare = "down space down space c"
	toBatch   = "down k enter"
	toRecipe  = "k up enter enter"
)

func TestEveryKeyHasHelpAndOneMeaning(t *testing.T) {
	for name, keys := range situations {
		t.Run(name, func(t *testing.T) {
			d := drive(t, pantry().world(), 80, 24).press(keys)
			meaning := map[string]string{}
			for _, b := range append(d.app.screen.Keys(), appKeys.help, appKeys.quit) {
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

// TestNoUnshownKeyActs presses every plain key in every situation: one that
// the help does not list must leave the frame as it was, unless text is typed.
func TestNoUnshownKeyActs(t *testing.T) {
	for name, keys := range situations {
		d := drive(t, pantry().world(), 80, 24).press(keys)
		if d.app.screen.Typing() || d.app.help {
			continue
		}
		for r := '!'; r <= '~'; r++ {
			msg := tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{r}}
			if key.Matches(msg, append(d.app.screen.Keys(), appKeys.help)...) {
				continue
			}
			before := d.frame()
			d.send(msg)
			if d.frame() != before {
				// A key may explain why it does nothing here.
				assert.Contains(t, d.frame(), "\n! ", "%s: %q acts without being listed", name, r)
				d = drive(t, pantry().world(), 80, 24).press(keys)
			}
		}
	}
}

func TestAnyKeysAnySizes(t *testing.T) {
	var names []string
	for n := range namedKeys {
		if n != "ctrl+c" {
			names = append(names, n)
		}
	}
	for r := ' '; r <= '~'; r++ {
		names = append(names, string(r))
	}
	slices.Sort(names)
	places := slices.Sorted(maps.Values(situations))
	rapid.Check(t, func(rt *rapid.T) {
		f := pantry()
		if rapid.Bool().Draw(rt, "slip") {
			f.fail = errors.New("the disk is full")
		}
		w := f.world()
		w.ASCII = rapid.Bool().Draw(rt, "ascii")
		d := drive(t, w, 80, 24).press(rapid.SampledFrom(places).Draw(rt, "start"))
		for range rapid.IntRange(1, 40).Draw(rt, "keys") {
			if rapid.IntRange(0, 7).Draw(rt, "resize") == 0 {
				d.send(tea.WindowSizeMsg{Width: rapid.IntRange(0, 160).Draw(rt, "w"), Height: rapid.IntRange(0, 60).Draw(rt, "h")})
			}
			k := rapid.SampledFrom(names).Draw(rt, "key")
			if k == " " {
				k = "space"
			}
			d.press(k)
			checkFrame(rt, d.app)
		}
		for _, i := range f.items {
			if problems := i.Profile.Validate(nil); len(problems) > 0 {
				rt.Fatalf("keys made a profile that is not sound: %v", problems)
			}
		}
		for _, r := range f.recipes {
			if problems := r.Recipe.Validate(); len(problems) > 0 {
				rt.Fatalf("keys made a recipe that is not sound: %v", problems)
			}
		}
	})
}

func checkFrame(t interface{ Fatalf(string, ...any) }, a *App) {
	lines := strings.Split(a.View(), "\n")
	if len(lines) != max(a.h, 1) {
		t.Fatalf("%d lines in a window of %d", len(lines), a.h)
	}
	for _, l := range lines {
		if cells(l) > a.w {
			t.Fatalf("a line of %d cells in a window of %d: %q", cells(l), a.w, l)
		}
		if a.world.ASCII && strings.ContainsFunc(l, func(r rune) bool { return r > 126 }) {
			t.Fatalf("not ASCII: %q", l)
		}
	}
}

func TestPasteNeverPressesEnter(t *testing.T) {
	f := newFake(barley(0, 1))
	d := drive(t, f.world(), 80, 24)
	paste := func(text string) { d.send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune(text), Paste: true}) }
	d.press("enter")
	paste("f\n5\n")
	assert.Contains(t, d.frame(), "Trial › bench", "a paste is no key at the bench")
	d.press("n")
	paste("first line\nsecond line")
	d.press("enter")
	assert.Equal(t, "first line", f.steps(t, "Barley")[1].Note)
}

func TestHostileTextIsShownHarmless(t *testing.T) {
	p := barley(0, 1)
	p.Powder.Name = "Red\x1b[31m \x07clay\nzwei"
	d := drive(t, newFake(p).world(), 80, 24)
	assert.NotContains(t, d.app.View(), "\x07")
	d.press("enter")
	d.frame()
}

// TestProgramUnderABurst runs a real program: keys come in as bytes, faster
// than anything can be saved, and the last state is on the shelf at the end.
func TestProgramUnderABurst(t *testing.T) {
	f := newFake(barley(0, 1))
	w := f.world()
	save := w.Save
	w.Save = func(i Item) (Item, error) {
		time.Sleep(time.Millisecond)
		return save(i)
	}
	keys := "\r" + strings.Repeat("\r3", 20) + "\x03"
	app := New(w)
	_, err := tea.NewProgram(app, tea.WithInput(&afterListing{app: app, keys: strings.NewReader(keys)}), tea.WithOutput(io.Discard), tea.WithoutSignals()).Run()
	require.NoError(t, err)
	steps := f.steps(t, "Barley")
	require.Len(t, steps, 22)
	for _, s := range steps[2:] {
		assert.True(t, s.Looked)
	}
}

// afterListing gives keys once the shelf has had time to be read.
type afterListing struct {
	app    *App
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

// thirtyLooks is a session with thirty looks at the bench.
func thirtyLooks() *Session {
	levels := make([]float64, 30)
	for i := range levels {
		levels[i] = float64(min(i/6, 4)) // below the aim, so that the advice has every addition to weigh up
	}
	f := newFake(barley(levels...))
	return newSession(f.items[0], 0, nil)
}

func BenchmarkLookRefitFrame(b *testing.B) {
	f := newFake()
	f.items = []Item{thirtyLooks().Item()}
	d := drive(b, f.world(), 200, 60).press("enter right enter")
	require.Equal(b, looking, d.app.screen.(*bench).mode)
	look := tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{'4'}}
	undo := tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{'u'}}
	b.ReportAllocs()
	for b.Loop() {
		d.app.screen.Update(look)
		_ = d.app.View()
		b.StopTimer()
		d.app.screen.Update(undo)
		b.StartTimer()
	}
	require.Equal(b, looking, d.app.screen.(*bench).mode, "every look was taken, and taken back")
	require.Equal(b, model.ActPowder, d.app.screen.Session().Outcome().Advice.Action)
}

func BenchmarkRefit(b *testing.B) {
	s := thirtyLooks()
	b.ReportAllocs()
	for b.Loop() {
		s.Take(0)
	}
}

func BenchmarkFrame(b *testing.B) {
	f := newFake()
	f.items = []Item{thirtyLooks().Item()}
	d := drive(b, f.world(), 200, 60).press("enter")
	b.ReportAllocs()
	for b.Loop() {
		_ = d.app.View()
	}
}

// BenchmarkFilter types one letter into the filter of a shelf of 5,000 and
// draws the frame.
func BenchmarkFilter(b *testing.B) {
	f := newFake()
	d := drive(b, f.world(), 120, 40)
	s := d.app.screen.(*shelf)
	rows := make([]row, 5000)
	for i := range rows {
		p := model.Profile{Powder: model.Powder{Name: fmt.Sprintf("Powder %04d", i), Family: model.Families()[i%7]}}
		rows[i] = newRow(Item{ID: fmt.Sprint(i), Profile: p}, nil)
	}
	s.take(listed{rows: rows})
	d.press("/ powder")
	b.ReportAllocs()
	for b.Loop() {
		s.Update(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{'1'}})
		_ = d.app.View()
		s.Update(tea.KeyMsg{Type: tea.KeyBackspace})
	}
}
