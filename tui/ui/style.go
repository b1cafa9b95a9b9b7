package ui

import (
	"strings"

	"daub.example/daub/model/printable"
	"daub.example/daub/tui/chart"
	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"
)

// Colour roles on the 16 ANSI colours, so that the maker's own palette
// decides. Only those are used that most palettes make readable on light and
// on dark alike: yellow and cyan are not. Colour never carries meaning alone:
// every role differs in text too.
var (
	DoStyle = lipgloss.NewStyle().Foreground(lipgloss.Color("12")).Bold(true) // what to do now, where the cursor is
	// a rest that runs; what has to be known beside a number
	WaitStyle  = lipgloss.NewStyle().Foreground(lipgloss.Color("5"))
	GoodStyle  = lipgloss.NewStyle().Foreground(lipgloss.Color("2"))            // done, saved, over
	RiskStyle  = lipgloss.NewStyle().Foreground(lipgloss.Color("1")).Bold(true) // refused, failed, would overshoot
	NoteStyle  = lipgloss.NewStyle().Faint(true)                                // what may be passed over
	TitleStyle = lipgloss.NewStyle().Bold(true)
	KeyStyle   = lipgloss.NewStyle().Bold(true)
	PlainStyle = lipgloss.NewStyle()

	chosenStyle = lipgloss.NewStyle().Reverse(true) // a text that typing replaces
)

// WithoutColours leaves bold, faint and reversed text alone: a cursor and what is
// chosen are seen without any colour. NO_COLOR asks for that.
func WithoutColours() {
	for _, style := range []*lipgloss.Style{&DoStyle, &WaitStyle, &GoodStyle, &RiskStyle} {
		*style = style.UnsetForeground()
	}
	for i := range seriesStyles {
		seriesStyles[i] = seriesStyles[i].UnsetForeground()
	}
	lipgloss.SetColorProfile(termenv.ANSI)
}

// Badge is the word that says what a screen is about now, as a block that
// stands out on any palette.
func Badge(role lipgloss.Style, word string) string {
	return role.Bold(true).Reverse(true).Render(" " + word + " ")
}

// Rule is a thin line across the screen that sets bands apart, with a text in
// it where one is given.
func Rule(text string, w int) string {
	if text == "" {
		return NoteStyle.Render(strings.Repeat("─", max(w, 0)))
	}
	text = Cut(text, w-4)
	return NoteStyle.Render("── ") + text + NoteStyle.Render(" "+strings.Repeat("─", max(w-4-Cells(text), 0)))
}

// Paint colours the roles of the chart.
func Paint(role chart.Role, _ int, s string) string {
	switch role {
	case chart.Band, chart.Axis:
		return NoteStyle.Render(s)
	case chart.Aim:
		return WaitStyle.Render(s)
	case chart.Curve:
		return DoStyle.Render(s)
	case chart.Dot:
		return TitleStyle.Render(s)
	default:
		return s
	}
}

// Painted wraps a text and styles each of its lines, so that a style never
// runs on into what stands beside it. Text from outside does no harm in it.
func Painted(style lipgloss.Style, text string, w int) []string {
	text = printable.Line(strings.ReplaceAll(text, "\n", " "))
	lines := Wrap(strings.ReplaceAll(text, "-", unbroken), w)
	for i := range lines {
		lines[i] = style.Render(strings.ReplaceAll(lines[i], unbroken, "-"))
	}
	return lines
}

// unbroken is a hyphen at which no line ends: after a minus none must.
const unbroken = "\u2011"

// Loud is a refusal or a failure: told by its sign, not by colour alone.
func Loud(text string, w int) []string { return hung("! ", RiskStyle, text, w) }

// Warned paints a warning beside a number.
func Warned(text string, w int) []string { return hung("! ", WaitStyle, text, w) }

// Bullet is one of several remarks.
func Bullet(text string, w int) []string { return hung("· ", PlainStyle, text, w) }

// hung is a text behind a sign, which stands alone in its column.
func hung(sign string, style lipgloss.Style, text string, w int) []string {
	lines := Painted(style, text, w-inset-1)
	for i := range lines {
		lines[i] = style.Render(sign) + lines[i]
		sign = "  "
	}
	return lines
}

// inset is the column in which text begins; signs stand before it.
const inset = 2

// Indented is a text set in as all text is.
func Indented(style lipgloss.Style, text string, w int) []string {
	return Inset(w, func(w int) []string { return Painted(style, text, w) })
}

// Inset lays lines out in what the margins leave of w cells, and sets them in as all
// text is.
func Inset(w int, lines func(w int) []string) []string {
	out := lines(w - inset - 1)
	for i := range out {
		out[i] = "  " + out[i]
	}
	return out
}
