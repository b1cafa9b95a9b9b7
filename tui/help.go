package tui

import (
	"fmt"
	"strings"

	"daub.example/daub/model"
	"github.com/charmbracelet/bubbles/key"
)

// helpView lists the keys that do something now, from the same bindings that
// are matched, and the consistency scale with its tests.
func helpView(s screen, w, h int) string {
	keys := append(s.Keys(), appKeys.quit)
	columns := min(max(w/26, 1), 3)
	rows := (len(keys) + columns - 1) / columns
	lines := []string{titleStyle.Render("Keys")}
	for r := range rows {
		line := ""
		for i := r; i < len(keys); i += rows {
			line += pad(helpItem(keys[i]), w/columns)
		}
		lines = append(lines, line)
	}
	lines = append(lines, "", titleStyle.Render("The consistency scale: stir ten turns, rest, do not stir again, test, scrape back"))
	for _, c := range model.Scale() {
		lines = append(lines, fmt.Sprintf("%s %s %s", keyStyle.Render(model.Number(c.Level)), pad(c.Word, 8), c.Test))
	}
	lines = append(lines, "", dimStyle.Render(model.Deferral))
	return strings.Join(lines[:min(len(lines), max(h, 0))], "\n")
}

func helpItem(k key.Binding) string {
	return "  " + keyStyle.Render(pad(k.Help().Key, 7)) + k.Help().Desc
}
