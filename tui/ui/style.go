package ui

import (
	"strings"

	"daub.example/daub/model/printable"
	"daub.example/daub/tui/chart"
	"github.com/charmbracelet/lipgloss"
	"github.com/muesli/termenv"
)

// Colour roles use the 16 ANSI colours, so that the maker's own palette decides.
// Yellow and cyan are left out: on many palettes they cannot be read. Colour never
// carries meaning alone; every role differs in text too.
var (
	DoStyle = lipgloss.NewStyle().Foreground(lipgloss.Color("12")).Bold(true) // what to do now, where the cursor is
	// WaitStyle is for a rest that runs, and for doubts about a number.
	WaitStyle  = lipgloss.NewStyle().Foreground(lipgloss.Color("5"))
	GoodStyle  = lipgloss.NewStyle().Foreground(lipgloss.Color("2"))            // done, saved, over
	RiskStyle  = lipgloss.NewStyle().Foreground(lipgloss.Color("1")).Bold(true) // refused, failed, would overshoot
	NoteStyle  = lipgloss.NewStyle().Faint(true)                                // less important
	TitleStyle = lipgloss.NewStyle().Bold(true)
	KeyStyle   = lipgloss.NewStyle().Bold(true)
	PlainStyle = lipgloss.NewStyle()

	chosenStyle = lipgloss.NewStyle().Reverse(true) // a text that typing replaces
)

// WithoutColours keeps bold, faint and reversed text only, as NO_COLOR asks. The
// cursor and selected text stay visible.
func WithoutColours() {
	for _, style := range []*lipgloss.Style{&DoStyle, &WaitStyle, &GoodStyle, &RiskStyle} {
		*style = style.UnsetForeground()
	}
	for i := range seriesStyles {
		seriesStyles[i] = seriesStyles[i].UnsetForeground()
	}
	lipgloss.SetColorProfile(termenv.ANSI)
}

// Badge draws a word for the screen's state as a block that stands out on any
// palette.
func Badge(role lipgloss.Style, word string) string {
	return role.Bold(true).Reverse(true).Render(" " + word + " ")
}

// Rule draws a thin line between bands of the screen, with text in it unless that
// is empty.
func Rule(text string, w int) string {
	if text == "" {
		return NoteStyle.Render(strings.Repeat("─", max(w, 0)))
	}
	text = Cut(text, w-4)
	return NoteStyle.Render("── ") + text + NoteStyle.Render(" "+strings.Repeat("─", max(w-4-Cells(text), 0)))
}

// Paint colours the roles of a chart.
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

// Painted wraps text and styles each of its lines, so that no style runs on into
// the text beside it. It makes text from files safe to show.
func Painted(style lipgloss.Style, text string, w int) []string {
	text = printable.Line(strings.ReplaceAll(text, "\n", " "))
	lines := Wrap(strings.ReplaceAll(text, "-", unbroken), w)
	for i := range lines {
		lines[i] = style.Render(strings.ReplaceAll(lines[i], unbroken, "-"))
	}
	return lines
}

// unbroken is a hyphen at which no line breaks: a minus must stay with its number.
const unbroken = "\u2011"

// Loud draws a refusal or a failure; its sign tells it, not its colour alone.
func Loud(text string, w int) []string { return hung("! ", RiskStyle, text, w) }

// Warned draws a warning beside a number.
func Warned(text string, w int) []string { return hung("! ", WaitStyle, text, w) }

// Bullet draws one of several remarks.
func Bullet(text string, w int) []string { return hung("· ", PlainStyle, text, w) }

// hung wraps text behind a sign that stands alone in its column.
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

// Indented wraps and styles text and indents it by the usual margin.
func Indented(style lipgloss.Style, text string, w int) []string {
	return Inset(w, func(w int) []string { return Painted(style, text, w) })
}

// Inset draws lines in w cells less the margins, and indents them.
func Inset(w int, lines func(w int) []string) []string {
	out := lines(w - inset - 1)
	for i := range out {
		out[i] = "  " + out[i]
	}
	return out
}
