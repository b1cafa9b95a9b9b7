package trial

import (
	"fmt"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/printable"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/lipgloss"
)

// drawNow draws what to do now into the band at the top. Only a question too long
// for the band goes beyond it.
func (b *benchScreen) drawNow(d *drawn, l layout) {
	switch {
	case b.Asking():
		d.put(l.now, b.promptLines(l)...)
		return
	case b.mode == marking:
		b.drawMarks(d, l)
	case b.mode == mending:
		d.put(l.now, b.mendLines(l)...)
	case b.mode == changing:
		d.put(l.now, b.factLines(l)...)
	case b.mode == looking:
		b.drawLook(d, l)
	default:
		b.drawAdd(d, l)
	}
	if b.sure != nil {
		lines := b.doubtLines(l)
		d.put(l.now, lines...)
		d.area(0, l.now, l.w, len(lines), nil)
	}
}

// doubtLines draws the question that Enter answers. A question about a level stays
// on one line if it can, so that the levels stay in sight.
func (b *benchScreen) doubtLines(l layout) []string {
	short := model.Ended(printable.Line(b.sure.text)) + " Enter"
	text := fmt.Sprintf("%s: %s, Esc: %s", short, b.sure.yes, b.sure.no)
	badge := " " + ui.Badge(ui.RiskStyle, "SURE?") + " "
	for _, line := range []string{
		badge + ui.TitleStyle.Render(text), badge + ui.TitleStyle.Render(short),
		ui.RiskStyle.Render(short),
	} {
		if ui.Cells(line) <= l.w && (b.mode == looking || strings.Contains(line, text)) {
			return []string{line}
		}
	}
	return b.longDoubt(l)
}

// longDoubt draws the question on as many lines as it needs, with its answers
// below.
func (b *benchScreen) longDoubt(l layout) []string {
	badge := " " + ui.Badge(ui.RiskStyle, "SURE?") + " "
	indent := ui.Cells(badge)
	yes, no := "Enter: "+b.sure.yes, "Esc: "+b.sure.no
	lines := ui.Painted(ui.TitleStyle, b.sure.text, l.w-indent-1)
	if both := yes + " · " + no; ui.Cells(both) < l.w-indent {
		lines = append(lines, both)
	} else {
		lines = append(lines, yes, no)
	}
	for i := range lines {
		if i == 0 {
			lines[i] = badge + lines[i]
		} else {
			lines[i] = strings.Repeat(" ", indent) + lines[i]
		}
	}
	return lines
}

// head draws the first row of the band: a badge and the one thing to do, with the
// time of a running rest at the right.
func (b *benchScreen) head(l layout, role lipgloss.Style, badge, text string) string {
	left := " " + ui.Badge(role, badge) + " " + ui.TitleStyle.Render(text)
	right := ""
	if (b.mode != looking || b.Asking()) && b.awaitsLook() && b.restLeft() > 0 {
		rest := "rest " + clock(b.restLeft())
		if b.restLeft() >= longRest {
			rest += " h"
		}
		right = ui.WaitStyle.Render(rest) + " "
	}
	if right == "" || ui.Cells(left)+ui.Cells(right) > l.w {
		return ui.Cut(left, l.w)
	}
	return ui.Justify(left, right, l.w)
}

// promptLines draws the question to be typed for, whole in any window.
func (b *benchScreen) promptLines(l layout) []string {
	var lines []string
	if !l.narrow {
		lines = append(lines, b.head(l, ui.DoStyle, "TYPE", "Enter keeps it, Esc goes back"), "")
	}
	lines = append(lines, b.Line(l.w)...)
	for len(lines) < l.nowH {
		lines = append(lines, "")
	}
	return lines
}

// clock writes seconds as "1:48", a long rest in hours and minutes.
func clock(s int) string {
	if s >= longRest {
		s = (s + 59) / 60
	}
	return fmt.Sprintf("%d:%02d", s/60, s%60)
}

// longRest is the time left from which a rest is shown in hours and minutes, s.
const longRest = 100 * 60

// atLeast fills a block up to n lines, so that the lines below it do not move from
// key to key.
func atLeast(lines []string, n int) []string {
	for len(lines) < n {
		lines = append(lines, "")
	}
	return lines
}
