package ui_test

import (
	"strings"
	"testing"

	"daub.example/daub/tui/internal/drive"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"
	"github.com/stretchr/testify/assert"
)

// Text that a field begins with looks selected, and typing replaces it. An arrow
// key edits it instead, and then it no longer looks selected.
func TestWhatTypingWillDoIsSeen(t *testing.T) {
	lipgloss.SetColorProfile(termenv.ANSI)
	t.Cleanup(func() { lipgloss.SetColorProfile(termenv.Ascii) })
	for keys, want := range map[string]string{
		"5": "5", "left 5": "2 mi5n", "end 5": "2 min5", "bksp": "", "left bksp": "2 mn", "down up 5": "5",
		"left down up 5": "5", "5 down up 0": "50",
	} {
		f := ui.Form{Fields: []ui.Field{ui.TextField("rest", ""), ui.TextField("liquid", "")}}
		f.Apply = func(int) error { return nil }
		f.Fields[0].Set("2 min")
		f.Focus()
		chosen := "\x1b[7m2 min\x1b[0m"
		assert.Contains(t, f.Fields[0].Shown(true), chosen, keys)
		assert.NotContains(t, f.Fields[0].Shown(false), chosen, keys)
		for _, k := range strings.Fields(keys) {
			switch k {
			case "down":
				f.Move(1)
			case "up":
				f.Move(-1)
			default:
				f.Press(drive.Key(k))
				assert.NotContains(t, f.Fields[0].Shown(true), chosen, keys)
			}
		}
		assert.Equal(t, want, f.Fields[0].Value(), keys)
	}
}

// Without colours the cursor, titles and selected text still stand out.
func TestWithoutColoursSomeTextStandsOut(t *testing.T) {
	do, wait, good, risk := ui.DoStyle, ui.WaitStyle, ui.GoodStyle, ui.RiskStyle
	t.Cleanup(func() {
		ui.DoStyle, ui.WaitStyle, ui.GoodStyle, ui.RiskStyle = do, wait, good, risk
		lipgloss.SetColorProfile(termenv.Ascii)
	})
	ui.WithoutColours()
	shown := ui.Badge(ui.WaitStyle, "REST") + ui.PaintSeries(0, 1, "x")
	for _, style := range []lipgloss.Style{ui.RiskStyle, ui.DoStyle, ui.GoodStyle, ui.NoteStyle} {
		shown += style.Render("x")
	}
	assert.Contains(t, shown, "\x1b[1;7m REST ")
	assert.NotRegexp(t, `\x1b\[[0-9;]*[39][0-7]`, shown)
}
