package tui_test

import (
	"bytes"
	"io"
	"maps"
	"slices"
	"testing"
	"time"

	"daub.example/daub/model/bench"
	"daub.example/daub/tui"
	"daub.example/daub/tui/internal/drive"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/require"
)

// Any key is pressed: each byte is one, every second with Alt, from the screen
// chosen by the first byte. The program stays up, fills its window and keeps
// profiles and recipes sound.
func FuzzKeys(f *testing.F) {
	for _, keys := range []string{"\x00\rf\r5\r", "\x03\x81\x04ad\x7f", "\x0e/oat\x1b\r", "\x18 \t\x1b[5~"} {
		f.Add([]byte(keys))
	}
	places := slices.Sorted(maps.Values(drive.Situations))
	named := slices.Sorted(maps.Keys(drive.NamedKeys))
	f.Fuzz(func(t *testing.T, keys []byte) {
		if len(keys) == 0 || len(keys) > 200 {
			return
		}
		shelf := drive.Pantry()
		d := drive.Start(t, shelf.Deps(), 80, 24).Press(places[int(keys[0])%len(places)])
		for _, b := range keys[1:] {
			switch letter, alt := b&0x7f, b >= 0x80; {
			case letter < ' ':
				d.Send(drive.NamedKeys[named[int(letter)%len(named)]])
			case letter == 0x7f:
				d.Send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune("5 g\n\x1b[31m½\u202e"), Paste: alt})
			default:
				d.Send(tea.KeyMsg{Type: tea.KeyRunes, Runes: []rune{rune(letter)}, Alt: alt})
			}
		}
		d.Frame()
		require.NoError(t, d.App.Fault())
		requireSound(t, shelf)
	})
}

// The real program reads any bytes from the terminal, also escape sequences cut
// short, and stays up.
func FuzzSequences(f *testing.F) {
	for _, typed := range []string{
		"\rf\r5\r", "\x1b[A\x1b[B\x1bOP\x1b[1;5C", "\x1b[<0;10;5M\x1b[<0;10;5m\x1b[M !!",
		"\x1b[200~two\nlines\x1b[201~", "\x1bd\x1b\x1b[3~\x1b[", "\x9b5~\xff\x00",
	} {
		f.Add([]byte(typed))
	}
	f.Fuzz(func(t *testing.T, typed []byte) {
		if len(typed) > 1000 {
			return
		}
		shelf := drive.Pantry()
		deps := shelf.Deps()
		deps.Wait = nil
		app := tui.New(deps)
		in := &lastWords{keys: bytes.NewReader(typed)}
		program := tea.NewProgram(app, tea.WithInput(in), tea.WithOutput(io.Discard), tea.WithoutSignals())
		in.quit = program.Quit
		done := make(chan error, 1)
		go func() {
			_, err := program.Run()
			done <- err
		}()
		select {
		case err := <-done:
			require.NoError(t, err)
		case <-time.After(20 * time.Second):
			require.Fail(t, "the program does not end")
		}
		require.NoError(t, app.Fault())
		shelf.Hold(func() { requireSound(t, shelf) })
	})
}

// lastWords gives keys; after the last of them the program is left.
type lastWords struct {
	keys io.Reader
	quit func()
}

func (l *lastWords) Read(p []byte) (int, error) {
	n, err := l.keys.Read(p)
	if err != nil {
		l.quit()
	}
	return n, err
}

// requireSound checks that everything on a shelf can be read again.
func requireSound(t require.TestingT, shelf *drive.Shelf) {
	for _, e := range shelf.Entries {
		require.Empty(t, bench.Check(e.Profile, nil))
	}
	for _, r := range shelf.Recipes {
		require.Empty(t, r.Recipe.Validate())
	}
}
