package tui

import (
	"fmt"
	"strings"

	"daub.example/daub/model"
	"github.com/charmbracelet/bubbles/key"
	"github.com/charmbracelet/bubbles/textinput"
	tea "github.com/charmbracelet/bubbletea"
)

// result is the third part of a trial: what it says at each level, what the
// interval is made of, and what to mind.
type result struct {
	world   World
	session *Session
	table   []model.Answer
	powder  []model.PowderRatio // at the aim; empty before a trial counts
	scroll  int
	reason  textinput.Model // focused while a reason is typed
	outlet
}

func newResult(w World, s *Session) *result {
	r := &result{world: w, session: s, reason: newInput("Set aside, the reason: ")}
	r.work()
	return r
}

// work reads the trial and the powder anew.
func (r *result) work() {
	t := r.session.Trial()
	r.table = r.table[:0]
	for _, l := range model.TableLevels(t.Aim) {
		r.table = append(r.table, r.session.out.answer(l))
	}
	p := r.session.item.Profile
	r.powder = nil
	if t.Used() {
		r.powder = p.Ratios(model.Basis{Liquid: t.Liquid, RestS: t.Rest(p.Powder.Kind())}, []float64{t.Aim}, r.world.Drawer)
	}
	r.scroll = 0
}

func (r *result) Session() *Session { return r.session }
func (r *result) Typing() bool      { return r.reason.Focused() || r.asking() }

func (r *result) Title() string {
	n := len(r.session.item.Profile.Trials)
	return fmt.Sprintf("Trial › result  %s (%d of %d)", sanitise(r.session.Powder().Title()), r.session.trial+1, n)
}

func (r *result) Keys() []key.Binding {
	k := resultKeys
	switch {
	case r.asking():
		return outletFooter()
	case r.Typing():
		return []key.Binding{entryKeys.done, entryKeys.cancel}
	}
	return []key.Binding{k.repeat, k.bench, k.trial, k.scroll, k.export, k.copy, k.aside, k.leave, k.quit}
}

func (r *result) Update(msg tea.Msg) (screen, tea.Cmd) {
	m, ok := msg.(tea.KeyMsg)
	switch {
	case !ok:
		r.take(msg)
		return r, nil
	case r.asking():
		return r, r.typed(m)
	case r.Typing():
		r.typeReason(m)
		return r, nil
	}
	r.hush()
	k := resultKeys
	switch {
	case key.Matches(m, k.leave):
		return newShelf(r.world, r.session), readShelf(r.world)
	case key.Matches(m, k.quit):
		return r, func() tea.Msg { return quitWanted{} }
	case key.Matches(m, k.bench):
		r.session.reopen()
		return newBench(r.world, r.session)
	case key.Matches(m, k.repeat):
		t := r.session.Trial().Again()
		t.Started = r.world.Now()
		r.session.begin(t)
		return newBench(r.world, r.session)
	case key.Matches(m, k.aside):
		r.asideKey()
	case key.Matches(m, k.trial):
		r.other(m.String() == "right")
	case key.Matches(m, k.scroll):
		r.scrollBy(m.String())
	case key.Matches(m, k.export):
		r.exportItems(r.world, []Item{r.session.item}, 0)
	case key.Matches(m, k.copy):
		return r, copyText(r.world, "the answer", r.sentence())
	}
	return r, nil
}

// sentence is the answer at the aim: of the powder, else of this dish.
func (r *result) sentence() string {
	name := r.session.Powder().Title() + ": "
	if len(r.powder) > 0 {
		return name + r.powder[0].Sentence()
	}
	t := r.session.Trial()
	return name + r.session.out.answer(t.Aim).Sentence(t.Liquid)
}

func (r *result) typeReason(m tea.KeyMsg) {
	switch {
	case !m.Paste && key.Matches(m, entryKeys.cancel):
		r.reason.Blur()
	case !m.Paste && key.Matches(m, entryKeys.done):
		reason := strings.TrimSpace(sanitise(r.reason.Value()))
		if reason == "" {
			return
		}
		r.reason.Blur()
		r.setAside(reason)
	default:
		typeInto(&r.reason, m)
	}
}

func (r *result) asideKey() {
	if r.session.Trial().SetAside != "" {
		r.setAside("")
		return
	}
	r.reason.SetValue("")
	r.reason.Focus()
}

func (r *result) setAside(reason string) {
	if err := r.session.edit(func(_ *model.Profile, t *model.Trial) { t.SetAside = reason }); err == nil {
		r.work()
	}
}

// other goes to the next or the previous trial of the powder.
func (r *result) other(next bool) {
	n := len(r.session.item.Profile.Trials)
	by := n - 1
	if next {
		by = 1
	}
	r.session.take((r.session.trial + by) % n)
	r.work()
}

func (r *result) scrollBy(key string) {
	by := map[string]int{"up": -1, "down": 1, "pgup": -10, "pgdown": 10}[key]
	r.scroll = max(r.scroll+by, 0)
}

func (r *result) View(w, h int) string {
	textWidth, chartW := w, 0
	if w >= tableWidth+1+chartWidth {
		textWidth = max(tableWidth, w/2)
		chartW = w - textWidth - 1
	}
	lines := r.lines(textWidth)
	if chartW == 0 { // no room beside the text: the curve stands below it
		lines = append(append(lines, ""), trialChart(r.session, w, max(h-len(lines)-1, chartHeight+2), r.world.ASCII)...)
	}
	foot := r.saidLines(w)
	if r.reason.Focused() {
		foot = []string{r.reason.View()}
	}
	room := max(h-len(foot), 0)
	r.scroll = min(r.scroll, max(len(lines)-room, 0))
	view := lines[r.scroll:min(r.scroll+room, len(lines))]
	if below := len(lines) - r.scroll - room; below > 0 && room > 0 {
		view = append(append([]string{}, view[:len(view)-1]...), dimStyle.Render(fmt.Sprintf("↓ %d more lines", below+1)))
	}
	if chartW > 0 {
		view = besides(view, trialChart(r.session, chartW, min(h, 24), r.world.ASCII), textWidth+1)
	}
	if len(foot) > 0 {
		for len(view) < room {
			view = append(view, "")
		}
		view = append(view, foot...)
	}
	return strings.Join(view, "\n")
}

// lines is all the result has to say.
func (r *result) lines(w int) []string {
	t := r.session.Trial()
	var lines []string
	say := func(title string, texts ...string) {
		if len(texts) == 0 {
			return
		}
		lines = append(lines, "")
		for i, text := range texts {
			if i == 0 && title != "" {
				text = titleStyle.Render(title) + " " + text
			}
			lines = append(lines, hang(text, w)...)
		}
	}
	lines = append(lines, wrap(r.standing(t), w)...)
	if err := r.session.out.err; err != nil {
		say("", badStyle.Render("! "+err.Error()))
	}
	say("This dish.", r.session.out.answer(t.Aim).Sentence(t.Liquid))
	if len(r.powder) > 0 {
		say("This powder.", r.powder[0].Sentence())
	}
	lines = append(lines, "")
	lines = append(lines, r.tableLines(t, w)...)
	say("What it is made of.", r.budget(t)...)
	if marks := t.MarksSeen(); len(marks) > 0 {
		say("Marks.", strings.Join(marks, ", ")+".")
	}
	say("Plausible?", r.plausible(t)...)
	say("Cautions.", append(r.session.Powder().Cautions(), model.Deferral)...)
	return lines
}

func (r *result) standing(t model.Trial) string {
	text := fmt.Sprintf("Made %s in %s, %d looks, rest %s.", t.Started.Local().Format("2006-01-02"), t.Liquid, t.Looks(), model.Seconds(t.Rest(r.session.Powder().Kind())))
	switch {
	case t.SetAside != "":
		text = "SET ASIDE (" + sanitise(t.SetAside) + "): kept, not used. " + text
	case t.State != model.Done:
		text = "UNFINISHED: b goes on with it. " + text
	}
	if path := r.session.item.Path; path != "" {
		text += " File: " + path
	}
	return text
}

func (r *result) tableLines(t model.Trial, w int) []string {
	lines := []string{dimStyle.Render(resultLine("level", "g "+t.Liquid+" per g", "95 %", "g per level tsp", "reach", w))}
	for _, a := range r.table {
		name := "  " + model.LevelName(a.Level)
		if a.Level == t.Aim {
			name = "▸ " + model.LevelName(a.Level)
		}
		ratio, iv, tsp := "-", "", "-"
		switch {
		case a.Dish != nil:
			ratio = model.RatioText(a.Dish.Median)
			iv = fmt.Sprintf("%s to %s", model.RatioText(a.Dish.Low), model.RatioText(a.Dish.High))
		case a.Bound != nil:
			iv = model.BoundText(*a.Bound)
		}
		if a.PerTsp != nil {
			tsp = model.IntervalText(*a.PerTsp)
		}
		line := resultLine(name, ratio, iv, tsp, a.Reach.String(), w)
		if a.Level == t.Aim {
			line = titleStyle.Render(line)
		}
		lines = append(lines, line)
	}
	return lines
}

// tableWidth is the room that the table takes with every column.
const tableWidth = 78

// resultLine lays out one line of the table; a narrow window has no room for
// the spoon.
func resultLine(level, ratio, iv, tsp, reach string, w int) string {
	line := pad(level, 12) + padLeft(ratio, 14) + "  " + pad(iv, 18)
	if w >= tableWidth {
		line += pad(tsp, 22)
	}
	return cut(line+reach, w)
}

// budget says what the interval is made of and what would shrink it.
func (r *result) budget(t model.Trial) []string {
	a := r.session.out.answer(t.Aim)
	if a.Budget == nil {
		return nil
	}
	texts := []string{fmt.Sprintf("The interval at %s is %s:", model.LevelName(t.Aim), model.PlusMinus(model.HalfWidth(*a.Dish)))}
	for _, term := range r.session.out.reading.Terms(a) {
		bar := strings.Repeat("▇", max(int(term.Share*10+0.5), 1))
		text := fmt.Sprintf("%3.0f %% %s %s; %s", 100*term.Share, pad(bar, 8), term.Name, term.Shrink)
		if effect := term.Effect(); effect != "" {
			text += " (" + effect + ")"
		}
		texts = append(texts, text)
	}
	return append(texts, r.betweenTrials()...)
}

// betweenTrials says what the powder's trials have in common.
func (r *result) betweenTrials() []string {
	if len(r.powder) == 0 || r.powder[0].Powder == nil {
		return nil
	}
	ratio := r.powder[0]
	trials := "1 trial"
	if ratio.Trials > 1 {
		trials = fmt.Sprintf("%d trials", ratio.Trials)
	}
	text := fmt.Sprintf("This powder, from %s, is %s; one dish differs from the next by about %.0f %%.",
		trials, model.PlusMinus(model.HalfWidth(*ratio.Powder)), 100*ratio.BetweenTrials)
	for _, term := range ratio.Terms() {
		if term.Key == "repeats" && term.After > 0 {
			text += " One more that agrees " + term.Effect() + "."
		}
	}
	texts := []string{text}
	for _, n := range ratio.Far {
		texts = append(texts, fmt.Sprintf("! Trial %d sits far from the others: look at its steps, repeat it, or set it aside with a reason.", n+1))
	}
	return texts
}

func (r *result) plausible(t model.Trial) []string {
	var ratio float64
	if iv := r.session.out.answer(t.Aim).Dish; iv != nil {
		ratio = iv.Median
	}
	var density float64
	if tsp, ok := r.session.out.reading.Scales.Teaspoon(); ok {
		density = tsp / t.SpoonSet.TeaspoonML()
	}
	return r.session.Powder().Plausibility(t.Liquid, t.Aim, ratio, density)
}
