package ui

import (
	"daub.example/daub/tui/chart"
	"github.com/charmbracelet/lipgloss"
)

// seriesStyles colour the powders of one chart; the first six differ on light and
// on dark. Letters and dashes tell them apart too.
var seriesStyles = []lipgloss.Style{
	ansiColour("12"), ansiColour("5"), ansiColour("2"), ansiColour("1"), lipgloss.NewStyle().Bold(true),
	ansiColour("8"),
}

func ansiColour(number string) lipgloss.Style {
	return lipgloss.NewStyle().Foreground(lipgloss.Color(number))
}

// PaintSeries colours a chart of several powders.
func PaintSeries(role chart.Role, series int, s string) string {
	if series < 0 || role == chart.Band {
		return Paint(role, series, s)
	}
	return seriesStyles[series%len(seriesStyles)].Render(s)
}
