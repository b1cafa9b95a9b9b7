package main

import (
	"fmt"
	"regexp"
	"testing"
	"time"

	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/require"
)

// TestEveryTerminal opens the bench in terminals of all kinds. It comes up, its key
// leaves it, and the terminal is given back.
func TestEveryTerminal(t *testing.T) {
	if testing.Short() {
		t.Skip("starts the program again and again")
	}
	for name, like := range map[string]terminal{
		"tiny":            {cols: 20, rows: 5},
		"small":           {cols: 40, rows: 12},
		"huge":            {cols: 300, rows: 100},
		"console":         {env: []string{"TERM=linux"}},
		"sixteen colours": {env: []string{"TERM=xterm-16color"}},
		"unknown":         {env: []string{"TERM=nobody-knows-it"}},
		"unnamed":         {env: []string{"TERM="}},
		"without colours": {env: []string{"NO_COLOR=1"}},
		"slow":            {slow: 40 * time.Millisecond},
	} {
		t.Run(name, func(t *testing.T) {
			if like.cols == 0 {
				like.cols, like.rows = 80, 24
			}
			m := onTerminal(t, like)
			m.shows(t, "daub")
			_, _ = m.keys.WriteString("q")
			require.Zero(t, m.ends(t))
			require.Contains(t, m.screen(), "\x1b[?1049l", "given back")
			if name == "without colours" {
				require.NotRegexp(t, regexp.MustCompile(`\x1b\[[0-9;]*[39][0-7]`), m.screen())
			}
		})
	}
}

// TestTerminalWithoutUTF8 gets ASCII by itself, unless told otherwise.
func TestTerminalWithoutUTF8(t *testing.T) {
	for _, c := range []struct {
		env   string
		args  []string
		ascii bool
	}{
		{"LC_ALL=C", []string{"demo"}, true},
		{"LC_ALL=C", []string{"demo", "--ascii=false"}, false},
		{"LC_ALL=de_DE.UTF-8", []string{"demo"}, false},
	} {
		m := onTerminal(t, terminal{cols: 80, rows: 24, env: []string{c.env}}, c.args...)
		m.shows(t, "Shelf (demo")
		_, _ = m.keys.WriteString("q")
		require.Zero(t, m.ends(t))
		ascii := !regexp.MustCompile(`[^\x00-\x7f]`).MatchString(m.screen())
		require.Equal(t, c.ascii, ascii, "%v", c)
	}
}

func TestPlainLocale(t *testing.T) {
	for said, plain := range map[[3]string]bool{
		{"", "", ""}:                   false,
		{"C", "", "de_DE.UTF-8"}:       true,
		{"", "C.utf8", "C"}:            false,
		{"", "", "POSIX"}:              true,
		{"", "", "pl_PL.ISO-8859-2"}:   true,
		{"en_GB.UTF-8", "POSIX", "C"}:  false,
		{"", "", "de_DE.UTF-8@euro"}:   false,
		{"", "ja_JP.eucJP", "C.UTF-8"}: true,
	} {
		environment := map[string]string{"LC_ALL": said[0], "LC_CTYPE": said[1], "LANG": said[2]}
		require.Equal(t, plain, plainLocale(func(name string) string { return environment[name] }), fmt.Sprint(said))
	}
}

// A dumb terminal would show the sequences of a screen as they are.
func TestDumbTerminal(t *testing.T) {
	m := onTerminal(t, terminal{cols: 80, rows: 24, env: []string{"TERM=dumb"}})
	require.Equal(t, exitMisused, m.ends(t))
	require.Contains(t, m.screen(), "daub trial asks line by line")
	require.NotContains(t, m.screen(), "\x1b")
}

// TestBenchOpensOnAHostileShelf opens the bench on everything that may lie on a
// shelf. The sound powders come up and can be opened, and so can the kitchen and
// the recipes.
func TestBenchOpensOnAHostileShelf(t *testing.T) {
	if testing.Short() {
		t.Skip("reads hundreds of hostile files")
	}
	h, _ := matrixShelf(t)
	m := onTerminal(t, terminal{cols: 120, rows: 40}, "--shelf", h.shelf)
	m.shows(t, "daub check says all")
	for _, keys := range []string{"/", "Light white", "\r", "\r"} { // whichever was read first
		_, _ = m.keys.WriteString(keys)
		time.Sleep(300 * time.Millisecond)
	}
	m.shows(t, "RESULT")
	for _, keys := range []string{"\x1b", "?", "q"} {
		_, _ = m.keys.WriteString(keys)
		time.Sleep(300 * time.Millisecond)
	}
	_, _ = m.keys.WriteString("kj")
	_, _ = m.keys.WriteString("\x03\x03")
	m.ends(t)
	require.Contains(t, m.screen(), "\x1b[?1049l", "given back")
	requireHarmless(t, "the bench", ansi.Strip(m.screen()))
}
