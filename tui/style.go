package tui

import (
	"strings"

	"daub.example/daub/tui/chart"
	"github.com/charmbracelet/lipgloss"
)

// Colour roles on the 16 ANSI colours, so that the maker's own palette
// decides. Colour never carries meaning alone: every role differs in text too.
var (
	titleStyle  = lipgloss.NewStyle().Bold(true)
	accentStyle = lipgloss.NewStyle().Foreground(lipgloss.Color("6"))
	goodStyle   = lipgloss.NewStyle().Foreground(lipgloss.Color("2"))
	warnStyle   = lipgloss.NewStyle().Foreground(lipgloss.Color("3"))
	badStyle    = lipgloss.NewStyle().Foreground(lipgloss.Color("1")).Bold(true)
	dimStyle    = lipgloss.NewStyle().Faint(true)
	keyStyle    = lipgloss.NewStyle().Bold(true)
	plainStyle  = lipgloss.NewStyle()
)

// plain turns line drawing and signs into ASCII.
var plain = strings.NewReplacer(
	"▸", ">", "›", ">", "“", "\"", "”", "\"", "·", "-", "±", "+/-", "…", "~", "─", "-", "│", "|", "×", "x",
	"↑", "^", "↓", "v", "←", "<", "→", ">", "°", " deg ", "▇", "#", "–", "-", "≥", ">=", "≤", "<=", "³", "3",
)

// paint colours the roles of the chart.
func paint(role chart.Role, _ int, s string) string {
	switch role {
	case chart.Band, chart.Axis:
		return dimStyle.Render(s)
	case chart.Aim:
		return warnStyle.Render(s)
	case chart.Curve:
		return accentStyle.Render(s)
	case chart.Dot:
		return titleStyle.Render(s)
	default:
		return s
	}
}

// painted wraps a text and styles each of its lines, so that a style never
// runs on into what stands beside it. Text from outside does no harm in it.
func painted(style lipgloss.Style, text string, w int) []string {
	text = sanitise(strings.ReplaceAll(text, "\n", " "))
	lines := wrap(strings.ReplaceAll(text, "-", unbroken), w)
	for i := range lines {
		lines[i] = style.Render(strings.ReplaceAll(lines[i], unbroken, "-"))
	}
	return lines
}

// unbroken is a hyphen at which no line ends: after a minus none must.
const unbroken = "\u2011"

// loud is a refusal or a failure: told by its sign, not by colour alone.
func loud(text string, w int) []string { return painted(badStyle, "! "+text, w) }

// warned is what has to be known beside a number.
func warned(text string, w int) []string { return painted(warnStyle, "! "+text, w) }

// bullet is one of several remarks.
func bullet(text string, w int) []string {
	lines := painted(plainStyle, text, w-2)
	for i := range lines {
		sign := "  "
		if i == 0 {
			sign = "· "
		}
		lines[i] = sign + lines[i]
	}
	return lines
}
