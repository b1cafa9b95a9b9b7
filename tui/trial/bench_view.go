package trial

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/printable"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
)

// Room that the parts of the bench need.
const (
	stepsWidth  = 36 // the list of steps beside the chart
	chartWidth  = 34 // the least chart worth drawing beside it
	chartHeight = 8  // the least chart worth drawing below it
	listHeight  = 4  // the least list of steps
)

func (b *benchScreen) Keys() []key.Binding {
	k := benchKeys
	if b.Asking() {
		return ui.PromptKeys()
	}
	switch b.mode {
	case marking:
		return []key.Binding{markKeys.move, markKeys.toggle, markKeys.done}
	case mending:
		m := mendKeys
		keys := []key.Binding{
			m.move, m.level, m.spoon, m.count, m.grams, m.other,
			m.marks, m.note, m.none, m.remove, m.undo, m.redo, m.done,
		}
		return b.withHalf(keys, m.half)
	case looking:
		keys := []key.Binding{
			k.level, k.without, k.undo, k.mend, k.finish,
			k.marks, k.note, k.leave, k.weigh, k.removed, k.redo, k.aside, k.quit,
		}
		return b.withHalf(keys, k.half)
	default:
		add := ui.Bind("Enter", b.enterDoes(), "enter")
		return []key.Binding{
			add, k.spoon, k.count, k.grams, k.scale, k.liquid, k.again, k.undo, k.mend, k.finish,
			k.marks, k.note, k.leave, k.weigh, k.removed, k.redo, k.aside, k.quit,
		}
	}
}

// enterDoes says what Enter does while adding.
func (b *benchScreen) enterDoes() string {
	if a := b.advised(); a != nil {
		switch a.Action {
		case bench.ActStop:
			return "finish"
		case bench.ActWeigh:
			return "weigh a spoon"
		default:
			return "take the advice"
		}
	}
	if s, ok := b.chosen(); ok {
		return "add " + addition(s)
	}
	return "add"
}

// withHalf puts the key for half levels second where the trial reads halves.
func (b *benchScreen) withHalf(keys []key.Binding, half key.Binding) []key.Binding {
	if b.trial().LevelStep != 0.5 {
		return keys
	}
	return append([]key.Binding{keys[0], half}, keys[1:]...)
}

func (b *benchScreen) View(w, h int) string {
	top := []string{b.dishLine(w)}
	bottom := append(atLeast(b.answer(w), 2), b.budgetLine(w))
	bottom = append(bottom, atLeast(b.Said(w), 1)...)
	bottom = append(bottom, atLeast(b.question(w), 3)...)
	room := h - len(top) - len(bottom)
	if b.mode == looking && !b.Asking() && room >= chartHeight+2*listHeight+len(model.Scale()) {
		bottom = append(bottom, scaleLines(w)...)
		room = h - len(top) - len(bottom)
	}
	middle := b.middle(w, max(room, 0))
	for len(middle) < room {
		middle = append(middle, "")
	}
	return strings.Join(append(append(top, middle...), bottom...), "\n")
}

// atLeast fills a block up to n lines, so that what stands above it does not
// jump from key to key.
func atLeast(lines []string, n int) []string {
	for len(lines) < n {
		lines = append(lines, "")
	}
	return lines
}

// middle is the steps with the chart beside or below them, or alone.
func (b *benchScreen) middle(w, h int) []string {
	switch {
	case w >= stepsWidth+chartWidth && h >= chartHeight:
		left := b.steps(stepsWidth, h)
		return ui.Beside(left, trialChart(b.session, w-stepsWidth, h, b.deps.ASCII), stepsWidth)
	case h >= listHeight+chartHeight:
		top := b.steps(w, h-chartHeight)
		return append(top, trialChart(b.session, w, h-len(top), b.deps.ASCII)...)
	default:
		return b.steps(w, h)
	}
}

// dishLine is what is in the dish now.
func (b *benchScreen) dishLine(w int) string {
	t, d := b.trial(), b.session.Outcome().Reading.Dish()
	line := fmt.Sprintf("%s g %s", model.Grams(d.LiquidG), t.Liquid)
	if d.PowderG > 0 {
		line += fmt.Sprintf(" + %s g powder", model.Grams(d.PowderG))
	}
	if d.Mixed() {
		line += fmt.Sprintf(" · ratio %s", model.RatioText(d.Ratio()))
	}
	aim := fmt.Sprintf("aim %s · rest %s", model.LevelName(t.Aim), model.Seconds(t.Rest(b.session.Powder().Kind())))
	if t.SetAside != "" {
		aim = "SET ASIDE: " + printable.Line(t.SetAside)
	}
	return ui.Justify(line, aim, w)
}

// steps lists every step, the newest in view.
func (b *benchScreen) steps(w, h int) []string {
	t := b.trial()
	head := ui.NoteStyle.Render(ui.Pad(stepLine("", "step", "ratio", "level", w), w))
	all := make([]string, 0, len(t.Steps))
	for i, s := range t.Steps {
		all = append(all, b.stepText(i, s, w))
	}
	if len(all) == 0 {
		return []string{head, "  nothing added yet"}[:min(2, h)]
	}
	cursor := len(all) - 1
	if b.mode == mending {
		cursor = b.mend
	}
	view, _ := ui.Window(all, cursor, h-1)
	return append([]string{head}, view...)[:min(len(view)+1, h)]
}

func stepLine(sign, what, ratio, level string, w int) string {
	const levelWidth = 11
	return ui.Pad(sign, 2) + ui.Pad(what, max(w-2-7-2-levelWidth, 6)) + ui.PadLeft(ratio, 6) + "  " + ui.Pad(level, levelWidth)
}

func (b *benchScreen) stepText(i int, s model.Step, w int) string {
	ratio, level := "", "no look"
	if i < len(b.session.Outcome().Reading.Dishes) {
		if d := b.session.Outcome().Reading.Dishes[i]; d.Mixed() {
			ratio = model.RatioText(d.Ratio())
		}
	}
	if s.Looked {
		level = model.LevelName(s.Level)
	}
	if slices.Contains(b.session.Outcome().FarOut, i) {
		level += " !"
	}
	what := fmt.Sprintf("%2d %s", i+1, addition(s))
	if len(s.Marks) > 0 {
		what += " " + s.Marks[0]
	}
	if s.Note != "" {
		what += " “" + printable.Line(s.Note) + "”"
	}
	sign := ""
	if b.mode == mending && i == b.mend {
		sign = "▸"
	}
	line := stepLine(sign, what, ratio, level, w)
	if sign != "" {
		return ui.DoStyle.Render(line)
	}
	return line
}

// addition says what a step did, in a few words.
func addition(s model.Step) string {
	switch s.Add {
	case model.AddLiquid:
		return s.Amount() + " liquid"
	case model.Removed:
		return s.Amount() + " taken out"
	case model.AddNone:
		return "looked again"
	default:
		return s.Amount()
	}
}

// answer is the trial's answer so far, as a sentence: that, not the chart, is
// what a hurried eye reads.
func (b *benchScreen) answer(w int) []string {
	if b.session.Outcome().Err != nil {
		return []string{ui.RiskStyle.Render(ui.Cut("! "+b.session.Outcome().Err.Error(), w))}
	}
	t := b.trial()
	text := b.session.Outcome().Answer(t.Aim).Sentence(t.Liquid)
	if far := b.session.Outcome().FarOut; len(far) > 0 {
		text += fmt.Sprintf(" Step %d (!) sits far from where the others put it: e mends it, k looks again.", far[0]+1)
	}
	return ui.Wrap(text, w)
}

// budgetLine says how narrow the answer is and what that is made of.
func (b *benchScreen) budgetLine(w int) string {
	a := b.session.Outcome().Answer(b.trial().Aim)
	if a.Budget == nil {
		return ""
	}
	line := bench.PlusMinus(a.Dish.HalfWidth()) + " is made of:"
	for i, term := range bench.Terms(*a.Budget) {
		if i > 0 {
			line += ","
		}
		line += fmt.Sprintf(" %s %.0f %%", term.Name, 100*term.Share)
	}
	return ui.NoteStyle.Render(ui.Cut(line, w))
}

// question is what the bench asks now.
func (b *benchScreen) question(w int) []string {
	if b.Asking() {
		return b.Line(w)
	}
	switch b.mode {
	case looking:
		return b.lookLines(w)
	case marking:
		return b.markLines(w)
	case mending:
		title := fmt.Sprintf("▸ Mending step %d: every change is kept at once, u takes it back", b.mend+1)
		if b.half {
			title += " half above…"
		}
		return []string{ui.TitleStyle.Render(ui.Cut(title, w))}
	default:
		return b.addLines(w)
	}
}

// addLines show what Enter would do and why, and the spoons to choose from.
func (b *benchScreen) addLines(w int) []string {
	if a := b.advised(); a != nil {
		return append(ui.Wrap(ui.TitleStyle.Render("▸ "+adviceTitle(*a, b.trial().Liquid))+a.Why, w), b.spoonLine(w))
	}
	s, ok := b.chosen()
	if !ok {
		return []string{ui.TitleStyle.Render("▸ Add " + b.what() + ": g, then the grams")}
	}
	what := b.what()
	title := fmt.Sprintf("▸ Add %d × %s %s", s.Spoons(), s.Spoon, what)
	if grams, err := b.chosenG(s); err == nil {
		title += fmt.Sprintf(" (%s g)", model.Grams(grams))
	} else {
		title += ": has no weight yet, so its grams will be asked for"
	}
	lines := []string{ui.TitleStyle.Render(ui.Cut(title, w)), b.spoonLine(w)}
	if a := b.session.Outcome().Advice; a != nil && b.choice.own {
		lines = append(lines, ui.NoteStyle.Render(ui.Cut("  The advice was: "+adviceTitle(*a, b.trial().Liquid)+a.Why, w)))
	}
	return lines
}

// what is powder or the liquid's name, whichever is chosen.
func (b *benchScreen) what() string {
	if b.choice.liquid {
		return b.trial().Liquid
	}
	return "powder"
}

// adviceTitle leads to an advice's reason, which begins with the amount.
func adviceTitle(a bench.Advice, liquid string) string {
	switch a.Action {
	case bench.ActStop:
		return "Stop: "
	case bench.ActWeigh:
		return "Weigh: "
	case bench.ActLiquid:
		return "Add " + liquid + ", "
	default:
		return "Add powder, "
	}
}

// spoonLine shows the spoons at hand with the one that Enter would add in
// brackets; an addition by weight has none.
func (b *benchScreen) spoonLine(w int) string {
	line := "  "
	a := b.advised()
	for i, name := range b.trial().Spoons {
		if i == b.choice.spoon && (a == nil || a.Spoon == name) {
			name = "[" + name + "]"
		} else {
			name = " " + name + " "
		}
		line += name + " "
	}
	return ui.NoteStyle.Render(ui.Cut(line, w))
}

// lookLines are the wait and the scale.
func (b *benchScreen) lookLines(w int) []string {
	title := "▸ Look: stir ten turns, rest"
	if left := b.restLeft(); left > 0 {
		title += " " + model.Seconds(left) + " more"
	} else {
		title += " is over"
	}
	title += ", test, scrape it back. Level?"
	if b.half {
		title += " half above…"
	}
	line := ""
	for _, c := range model.Scale() {
		line += fmt.Sprintf("%s %s  ", ui.KeyStyle.Render(model.Number(c.Level)), c.Word)
	}
	return append([]string{ui.TitleStyle.Render(ui.Cut(title, w))}, ui.Wrap(strings.TrimSpace(line), w)...)
}

// scaleLines are the bench tests of all levels.
func scaleLines(w int) []string {
	lines := []string{""}
	for _, c := range model.Scale() {
		lines = append(lines, ui.Cut("  "+ui.KeyStyle.Render(model.Number(c.Level))+" "+ui.Pad(c.Word, 8)+" "+c.Test, w))
	}
	return lines
}

func (b *benchScreen) markLines(w int) []string {
	const columnWidth = 26
	lines := []string{ui.TitleStyle.Render(fmt.Sprintf("▸ Marks of step %d", b.marks.step+1))}
	have := b.trial().Steps[b.marks.step].Marks
	all := model.Marks()
	columns := min(max(w/columnWidth, 1), 3)
	rows := (len(all) + columns - 1) / columns
	var list []string
	for r := range rows {
		line := ""
		for i := r; i < len(all); i += rows {
			sign, box := " ", "[ ] "
			if i == b.marks.at {
				sign = "▸"
			}
			if slices.Contains(have, all[i]) {
				box = "[x] "
			}
			line += ui.Pad(sign+box+all[i], columnWidth)
		}
		list = append(list, ui.Cut(line, w))
	}
	view, _ := ui.Window(list, b.marks.at%rows, 6) // a narrow window shows a part
	return append(lines, view...)
}
