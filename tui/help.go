package tui

import (
	"strings"

	"daub.example/daub/model"
	"github.com/charmbracelet/bubbles/key"
)

// helpLines list the keys that do something now, from the same bindings that
// are matched, and the consistency scale with its tests.
func helpLines(s Screen, w int) []string {
	keys := append(s.Keys(), appKeys.quit)
	columns := min(max(w/26, 1), 3)
	rows := (len(keys) + columns - 1) / columns
	lines := []string{TitleStyle.Render("Keys")}
	for r := range rows {
		line := ""
		for i := r; i < len(keys); i += rows {
			line += Pad(helpItem(keys[i]), w/columns)
		}
		lines = append(lines, line)
	}
	lines = append(lines, "")
	for _, line := range Wrap("The consistency scale: stir ten turns, rest, do not stir again, test, scrape back", w) {
		lines = append(lines, TitleStyle.Render(line))
	}
	for _, c := range model.Scale() {
		for i, line := range Wrap(c.Test, w-scaleIndent) {
			head := KeyStyle.Render(model.Number(c.Level)) + " " + Pad(c.Word, scaleIndent-2)
			if i > 0 {
				head = strings.Repeat(" ", scaleIndent)
			}
			lines = append(lines, head+line)
		}
	}
	return append(append(lines, ""), Wrap(model.Deferral, w)...)
}

func helpItem(k key.Binding) string {
	return "  " + KeyStyle.Render(Pad(k.Help().Key, 7)) + k.Help().Desc
}

// scaleIndent is the room for a level and its word.
const scaleIndent = 11
