package setup

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/care"
	"daub.example/daub/model/printable"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/lipgloss"
)

func (s *screen) View(w, h int) string {
	lines, cursor := s.Lines(w, s.line)
	if h >= roomyHeight {
		lines, cursor = append(s.head(w), lines...), cursor+len(s.head(w))
	} else {
		lines, cursor = append(s.head(w)[:1], lines...), cursor+1
	}
	lines = append(lines, s.below(w)...)
	foot := s.foot(w, h)
	if s.begins(h - len(foot)) {
		begin := lines[len(lines)-1]
		lines = lines[:len(lines)-1]
		if more := len(lines) - (h - len(foot) - 1); more > 0 {
			begin = ui.Justify(begin, ui.NoteStyle.Render("↑↓ more")+" ", w)
		}
		foot = append([]string{begin}, foot...)
	}
	view, _ := ui.Window(lines, min(cursor, len(lines)-1), h-len(foot))
	view = slices.Clone(view)
	for len(view) < h-len(foot) {
		view = append(view, "")
	}
	return strings.Join(append(view, foot...), "\n")
}

// begins reports whether the line that begins the trial is drawn below the
// settings, whichever field has the cursor.
func (s *screen) begins(rows int) bool { return s.stop == stopMass && s.more && rows > 3 }

// Least heights for full sentences and for an empty line under the title, and the
// least width for the explanations of the methods, in cells.
const lowHeight, roomyHeight, wideMethods = 13, 18, 66

// head says which stop this is.
func (s *screen) head(w int) []string {
	word, rest := "WHICH POWDER?", "1 of 2"
	if s.stop == stopMass {
		word, rest = "WHAT IS WEIGHED?", "2 of 2"
	}
	top := ui.Cut(" "+ui.Badge(ui.DoStyle, word)+" "+ui.NoteStyle.Render(rest), w)
	if s.like == nil {
		return []string{top, ""}
	}
	m := s.like.Match
	dish := fmt.Sprintf("Reference dish: %s, at %s. Keep it covered.", printable.Line(m.Dish()),
		model.LevelName(m.Level))
	said := ui.Inset(w, func(w int) []string { return ui.Painted(ui.TitleStyle, dish, w) })
	return append(append([]string{top}, said...), "")
}

// line draws the fields that show more than their text.
func (s *screen) line(i, w int) []string {
	f := &s.Fields[i]
	here := i == s.At
	label := f.Labelled(here)
	switch i {
	case fieldMethod:
		return s.methodLines(here, w)
	case fieldStart:
		if here {
			return []string{ui.DoStyle.Render("▸ [ Begin the trial ]")}
		}
		return []string{"  Begin the trial (Ctrl+G)"}
	case fieldHand:
		return s.handLines(label, here, w)
	case fieldWeighing:
		return s.weighingLines(label, here, w)
	case fieldAmount:
		return []string{ui.Cut(label+f.Shown(here)+ui.NoteStyle.Render("  of "+printable.Line(s.trial.Liquid)), w)}
	case fieldFamily:
		return []string{ui.Cut(label+f.Shown(here), w)}
	}
	return nil
}

// methodLines draws the three methods, the chosen one marked.
func (s *screen) methodLines(here bool, w int) []string {
	var lines []string
	for i, m := range methods {
		sign, style := "( )", ui.PlainStyle
		if bench.Method(i) == s.method {
			sign = "(x)"
			if here {
				style = ui.DoStyle
			}
		}
		cursor := "  "
		if here && bench.Method(i) == s.method {
			cursor = "▸ "
		}
		text := style.Render(fmt.Sprintf("%s%d %s %s", cursor, i+1, sign, ui.Pad(m.name, 23)))
		if w >= wideMethods {
			text += ui.NoteStyle.Render(" " + m.how)
		}
		lines = append(lines, ui.Cut(text, w))
	}
	return append(lines, "")
}

// handLines draws every spoon, those at hand in brackets.
func (s *screen) handLines(label string, here bool, w int) []string {
	names := s.deps.OwnSpoons.Names()
	var lines []string
	line := label
	for i, n := range names {
		item := " " + n + " "
		if slices.Contains(s.trial.Spoons, n) {
			item = "[" + n + "]"
		}
		if here && i == s.Fields[fieldHand].Pick {
			item = "▸" + ui.DoStyle.Render(item)
		} else {
			item = " " + item
		}
		if ui.Cells(line)+ui.Cells(item) > w {
			lines = append(lines, line)
			line = strings.Repeat(" ", ui.LabelWidth)
		}
		line += item
	}
	return append(lines, line)
}

// below fills the rows under the fields: the powders that fit the name, or the
// settings with defaults.
func (s *screen) below(w int) []string {
	if s.stop == stopMass {
		if s.more {
			return nil
		}
		return append([]string{""}, ui.Inset(w, func(w int) []string {
			return ui.Painted(ui.NoteStyle, s.settings(), w)
		})...)
	}
	if s.At == fieldFamily {
		return s.families(w)
	}
	found := s.matches()
	if s.At != fieldName || len(found) == 0 {
		return nil
	}
	lines := []string{"", ui.Rule("on the shelf", w)}
	for i, e := range found[:min(len(found), 6)] {
		text := "    " + ui.Title(e)
		if i == 0 {
			text = ui.TitleStyle.Render("Tab " + ui.Title(e))
		}
		lines = append(lines, ui.Cut(text, w))
	}
	return lines
}

// families lists all families with what belongs to each.
func (s *screen) families(w int) []string {
	lines := []string{""}
	chosen := s.Fields[fieldFamily].Value()
	for _, name := range familyFact.Options {
		sign, style, means := "  ", ui.NoteStyle, "additions begin small"
		if f := model.Family(name); f.Known() {
			means = f.Describe()
		}
		if name == chosen {
			sign, style = "▸ ", ui.TitleStyle
		}
		lines = append(lines, style.Render(ui.Cut("  "+sign+ui.Pad(name, 15)+means, w)))
	}
	return lines
}

// settings names the settings with defaults in one sentence.
func (s *screen) settings() string {
	t := s.trial.WithDefaults(s.entry.Profile.Powder.Kind())
	var parts []string
	fixed := " Target, liquid and rest are those of the reference dish."
	if s.like == nil {
		fixed = ""
		parts = append(parts, "target "+model.LevelName(t.Aim),
			"rest "+model.Seconds(t.Rest(s.entry.Profile.Powder.Kind())))
	}
	if s.method != bench.ByEach && len(t.Spoons) > 0 {
		parts = append(parts, "spoons "+strings.Join(t.Spoons, ", "))
	}
	parts = append(parts, "scale reads to "+model.Number(t.ResolutionG)+" g",
		"precision "+s.Fields[fieldTolerance].Value())
	return "More settings (Tab): " + printable.Line(strings.Join(parts, " · ")) + "." + fixed
}

// foot says what the field asks for, what is wrong, and whether it is saved.
func (s *screen) foot(w, h int) []string {
	painted := func(style lipgloss.Style, text string) []string {
		return ui.Inset(w, func(w int) []string { return ui.Painted(style, text, w) })
	}
	lines := painted(ui.PlainStyle, s.hint(h))
	if s.Problem != "" {
		lines = ui.Loud(s.Problem, w)
	}
	if s.said != "" {
		lines = painted(ui.GoodStyle, s.said)
	}
	if s.At == fieldWeighing && len(s.fresh) == 0 {
		lines = append(lines, ui.Warned(care.Line(care.BeforeDust, s.entry.Profile.Powder), w)...)
	}
	where := []string{
		"Not saved yet: your first weighing or addition puts it on the shelf.", "Not saved yet.",
	}
	if s.Session() != nil || s.entry.Slug != "" {
		where = []string{"On the shelf: weighings are saved as you make them.", "On the shelf: saved as you go."}
	}
	if h < lowHeight {
		where = where[1:]
	}
	return append(append([]string{ui.Rule("", w)}, lines...), painted(ui.NoteStyle, where[0])...)
}

// hint says what the field asks for, in a low window in fewer words.
func (s *screen) hint(h int) string {
	switch s.At {
	case fieldName:
		if m := s.matches(); len(m) > 0 {
			return "On the shelf: " + ui.Title(m[0]) + ". Tab takes it; Enter makes a new one."
		}
	case fieldFamily:
		return familyHint(s.entry.Profile.Powder)
	case fieldMethod:
		if h < lowHeight { // the three methods stay in sight
			return methodHints[s.method]
		}
		return "Spoonfuls differ, so weighing gives a better answer. " + methodHints[s.method]
	case fieldAim:
		level := model.CurveLevels()[s.Fields[fieldAim].Pick]
		return "How thick the paste is wanted. " + model.LevelName(level) + ": " + model.Scale()[int(level)].Test + "."
	case fieldAmount, fieldStart:
		if text := s.Fields[fieldAmount].Value(); s.At == fieldStart || text != "" {
			return s.amountHint(text, h)
		}
	}
	return s.Fields[s.At].Hint
}

// amountHint says what to do about the liquid in the dish. An amount that nobody typed is a
// suggestion, and Enter would take it for what was weighed.
func (s *screen) amountHint(text string, h int) string {
	liquid := printable.Line(s.trial.Liquid)
	switch {
	case s.At == fieldStart && s.Fields[fieldAmount].Touched:
		return "Enter goes to the bench, where every step is saved as you make it."
	case s.At == fieldStart:
		return fmt.Sprintf("Enter takes it that just %s of %s is in the dish. If not, ↑ to \"in the dish\" and type "+
			"what the scale says.", text, liquid)
	case s.Fields[fieldAmount].Touched:
		return "Grams by the scale, or spoons, as 4 x 1 tsp; 0 while none is in. Enter goes to the bench."
	case h < lowHeight:
		return fmt.Sprintf("Put in about %s, then type what the scale says.", text)
	default:
		return fmt.Sprintf("%s is a suggestion: put in about that much %s and type what the scale says (or spoons, "+
			"as 4 x 1 tsp; 0 while none is in). Enter alone takes %s.", text, liquid, text)
	}
}

var methodHints = []string{
	bench.ByPot:    "Spoon from one open pot and weigh it before and after: what it lost is all your spoonfuls.",
	bench.BySpoons: "daub then knows what a level spoon of this powder weighs.",
	bench.ByEach:   "Best where the scale reads to 0.01 g.",
}

// familyHint says what the family changes.
func familyHint(p model.Powder) string {
	f := p.Kind()
	low, high := care.UsualRatio(f)
	round := func(v float64) string { return model.Number(model.RoundSignificant(v, 2)) }
	text := "Not sure is fine: additions begin small, and you look after " + model.Seconds(f.DefaultRestS()) +
		". Its page can change it later (p on the shelf)."
	if p.Family != "" {
		text = fmt.Sprintf("%s. You look after %s. It usually takes %s to %s g of water per g. Care: %s.",
			f.Describe(), model.Seconds(f.DefaultRestS()), round(low), round(high), care.Words(p))
	}
	return text
}

// Help says what the set-up is for.
func (s *screen) Help() []string {
	return []string{
		"Set-up, in two stops. First which powder: a new name, or one from the shelf (type its first letters, Tab " +
			"takes it). Then what is weighed, and how much liquid is in the dish. Enter goes on, ↑ goes back, Esc " +
			"goes back one stop; what you typed is still there when you come back.",
		"The pot is the jar or bag your powder stands in. On the scale: weigh it now, open, spoon level spoonfuls " +
			"from it into the dish, and weigh the pot again at the end. Level spoons weighed: fill, level and " +
			"weigh a spoon three times or more. Every addition weighed: no spoons.",
		"The family sets how long you wait before a look, how bold the first additions are, and which cautions are " +
			"shown. It never changes the answer. \"I don't know\" is a fine answer.",
		"Tab shows more settings, all with good defaults: target level, whole or half levels, the precision " +
			"wanted, how long to rest, liquid, temperature, spoons at hand, and what the scale reads to.",
	}
}
