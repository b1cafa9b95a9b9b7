package tui

import (
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/care"
	"daub.example/daub/model/printable"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
)

// helpLines says what the screen is for and lists its keys and the scale with its
// tests. The keys come from the same bindings that are matched.
func helpLines(s ui.Screen, w int) []string {
	keys := append(s.Keys(), appKeys.suspend, appKeys.quit)
	columns := min(max(w/38, 1), 3)
	rows := (len(keys) + columns - 1) / columns
	var lines []string
	if explained, ok := s.(ui.Explained); ok {
		for _, paragraph := range explained.Help() {
			lines = append(append(lines, ui.Wrap(paragraph, w)...), "")
		}
	}
	lines = append(lines, ui.TitleStyle.Render("Keys"))
	for r := range rows {
		line := ""
		for i := r; i < len(keys); i += rows {
			line += ui.Pad(helpItem(keys[i]), w/columns)
		}
		lines = append(lines, line)
	}
	if session := s.Session(); session != nil {
		lines = append(lines, "", ui.TitleStyle.Render("What to mind with "+printable.Line(session.Powder().Name)))
		for _, text := range care.Of(session.Powder()) {
			lines = append(lines, ui.Bullet(text, w)...)
		}
	}
	lines = append(lines, "")
	for _, line := range ui.Wrap("The levels: stir ten turns, rest, do not stir again, test, scrape everything "+
		"back into the dish", w) {
		lines = append(lines, ui.TitleStyle.Render(line))
	}
	for _, c := range model.Scale() {
		for i, line := range ui.Wrap(c.Test, w-scaleIndent) {
			head := ui.KeyStyle.Render(model.Number(c.Level)) + " " + ui.Pad(c.Word, scaleIndent-2)
			if i > 0 {
				head = strings.Repeat(" ", scaleIndent)
			}
			lines = append(lines, head+line)
		}
	}
	return append(append(lines, ""), ui.Wrap(care.Deferral, w)...)
}

func helpItem(k key.Binding) string {
	return "  " + ui.KeyStyle.Render(ui.Pad(k.Help().Key, 7)) + k.Help().Desc
}

// scaleIndent is the room for a level and its word, in cells.
const scaleIndent = 11
