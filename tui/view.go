package tui

import (
	"errors"
	"fmt"
	"strings"

	"daub.example/daub/model/printable"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
)

// The smallest usable window, in cells.
const minWidth, minHeight = 40, 12

// View draws exactly h lines of at most w cells. After a panic it says so; the next
// message ends the program.
func (a *App) View() string {
	if a.fault == nil {
		if frame := a.frame(); a.fault == nil {
			return frame
		}
	}
	return a.finish(ui.Wrap("! "+printable.Line(a.fault.Error())+". Any key leaves.", max(a.w, 1)))
}

// frame draws the whole screen.
func (a *App) frame() string {
	defer a.catch(func() {})
	if a.w < minWidth || a.h < minHeight {
		line := fmt.Sprintf("daub needs %d×%d; this window is %d×%d.", minWidth, minHeight, a.w, a.h)
		return a.finish([]string{line})
	}
	lines, foot := a.head(), a.footer()
	h := a.h - len(lines) - len(foot)
	body := a.body(h)
	for len(body) < h {
		body = append(body, "")
	}
	lines = append(lines, body[:h]...)
	return a.finish(append(lines, foot...))
}

// head draws the header, and what is wrong with saving.
func (a *App) head() []string {
	lines := []string{a.header()}
	if a.stuck() {
		lines = append(lines, a.trouble()...)
	}
	return append(append(lines, a.slowLines()...), a.dueLines()...)
}

// rectangle returns the first row and the height of the screen's own rectangle.
func (a *App) rectangle() (top, h int) {
	top = len(a.head())
	return top, a.h - top - len(a.footer())
}

func (a *App) body(h int) []string {
	text := ""
	if a.help {
		text = strings.Join(ui.Inset(a.w, func(w int) []string { return a.Sight(helpLines(a.screen, w), h) }), "\n")
	} else {
		text = a.screen.View(a.w, h)
	}
	return strings.Split(text, "\n")
}

// finish cuts the frame to the window.
func (a *App) finish(lines []string) string {
	for len(lines) < a.h {
		lines = append(lines, "")
	}
	for i, l := range lines {
		l = printable.Styled(l) // in case a screen let something through
		if a.deps.ASCII {
			lines[i] = printable.ASCII(ui.Cut(printable.ASCII(l), a.w)) // cutting adds a sign that is not ASCII
			continue
		}
		lines[i] = ui.Cut(l, a.w)
	}
	return strings.Join(lines[:max(a.h, 0)], "\n")
}

func (a *App) header() string {
	where := ui.TitleStyle.Render("daub") + "  " + printable.Line(a.screen.Title())
	status := ""
	switch {
	case a.slow:
		status = ui.RiskStyle.Render("! NOT SAVED YET")
	case a.stuck():
		status = ui.RiskStyle.Render("! " + a.screen.Session().Status())
	case a.screen.Session() != nil:
		status = ui.GoodStyle.Render(a.screen.Session().Status())
	case a.deps.Demo:
		status = ui.WaitStyle.Render("demo shelf")
	}
	if ui.Cells(where)+1+ui.Cells(status) > a.w && !a.stuck() && !a.slow && a.screen.Session() != nil {
		saved, _, _ := strings.Cut(a.screen.Session().Status(), " ") // the title matters more than the time
		status = ui.GoodStyle.Render(saved)
	}
	return ui.Justify(where, status, a.w)
}

func (a *App) trouble() []string {
	first, then := appKeys.retry, appKeys.beside
	if changed := new(ui.ChangedElsewhere); errors.As(a.screen.Session().Err, changed) {
		first, then = then, first // only a new file can save the changes
	}
	keys := fmt.Sprintf("! NOT SAVED. %s %s · %s %s · %s twice to leave. ", first.Help().Key, first.Help().Desc,
		then.Help().Key, then.Help().Desc, appKeys.quit.Help().Key)
	// Every line but the last may lose some cells where a word wraps.
	const lost = 20
	rows := min(max(a.h/4, 3), 5)
	room := max(rows*a.w-(rows-1)*lost-ui.Cells(keys), 40)
	lines := ui.Wrap(keys+shortened(printable.Line(a.screen.Session().Err.Error()), room), a.w)
	for i := range lines {
		lines[i] = ui.RiskStyle.Render(lines[i])
	}
	return lines[:min(len(lines), rows)]
}

// shortened cuts an error's text to most cells. First the advice behind the cause
// goes, then the middle: the end names the cause, and a path ends with the file.
func shortened(text string, most int) string {
	if ui.Cells(text) <= most {
		return text
	}
	text, _, _ = strings.Cut(text, "; ")
	if ui.Cells(text) <= most {
		return text
	}
	runes := []rune(text)
	head := most / 4
	return string(runes[:head]) + "…" + string(runes[len(runes)-(most-head-1):])
}

// footer lists the keys that work now, in at most two lines.
func (a *App) footer() []string {
	keys := a.screen.Keys()
	if a.help {
		keys = []key.Binding{helpKeys, ui.Bind("any other key", "back")}
	} else if a.screen.Typing() {
		keys = append(keys, ui.Bind("F1", "help", "f1"))
	} else {
		keys = append(keys, appKeys.help)
	}
	lines := keyLines(keys, a.w, footLines)
	for len(lines) < footLines {
		lines = append(lines, "") // so that the rows above keep their places
	}
	return lines
}

// footLines is the number of lines with keys.
const footLines = 2

// keyLines puts keys into at most n lines. Keys without room are left to the help;
// its key is last and always shown.
func keyLines(keys []key.Binding, w, n int) []string {
	var lines []string
	line := ""
	last := len(keys) - 1
	room := w
	for i, k := range keys {
		item := ui.KeyStyle.Render(k.Help().Key) + " " + k.Help().Desc
		if line != "" {
			item = " · " + item
		}
		if len(lines) == n-1 && i < last {
			room = w - ui.Cells(" · ") - ui.Cells(keys[last].Help().Key+" "+keys[last].Help().Desc)
		} else {
			room = w
		}
		if ui.Cells(line)+ui.Cells(item) <= room {
			line += item
			continue
		}
		if len(lines) == n-1 {
			continue
		}
		lines = append(lines, line)
		line = ui.KeyStyle.Render(k.Help().Key) + " " + k.Help().Desc
	}
	return append(lines, line)
}
