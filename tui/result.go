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
	terms   []model.Term        // of this dish's interval
	scroll
	reason textinput.Model // focused while a reason is typed
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
		r.table = append(r.table, r.session.Outcome().Answer(l))
	}
	p := r.session.Profile()
	r.powder = nil
	if t.Used() {
		r.powder = p.Ratios(model.Basis{Liquid: t.Liquid, RestS: t.Rest(p.Powder.Kind())}, []float64{t.Aim}, r.world.Drawer)
	}
	r.terms = r.session.Outcome().Reading.Terms(r.session.Outcome().Answer(t.Aim))
	r.scroll = scroll{}
}

func (r *result) Session() *Session { return r.session }
func (r *result) Typing() bool      { return r.reason.Focused() || r.asking() }

func (r *result) Title() string {
	n := len(r.session.Profile().Trials)
	return fmt.Sprintf("Trial › result  %s (%d of %d)", sanitise(r.session.Powder().Title()), r.session.Index()+1, n)
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
		return toShelf(r.world, r.session)
	case key.Matches(m, k.quit):
		return r, func() tea.Msg { return quitWanted{} }
	case key.Matches(m, k.bench):
		return newBench(r.world, r.session)
	case key.Matches(m, k.repeat):
		t := r.session.Trial().Again()
		t.Started = r.world.Now()
		if err := r.session.Begin(t); err != nil {
			r.refuse(err.Error())
			return r, nil
		}
		return newBench(r.world, r.session)
	case key.Matches(m, k.aside):
		r.asideKey()
	case key.Matches(m, k.trial):
		r.other(m.String() == "right")
	case key.Matches(m, k.scroll):
		r.scrollBy(m.String())
	case key.Matches(m, k.export):
		r.exportItems(r.world, []Item{r.session.Item()}, 0)
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
	return name + r.session.Outcome().Answer(t.Aim).Sentence(t.Liquid)
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
	if err := r.session.SetAside(reason); err != nil {
		r.refuse(err.Error())
		return
	}
	r.work()
}

// other goes to the next or the previous trial of the powder.
func (r *result) other(next bool) {
	n := len(r.session.Profile().Trials)
	by := n - 1
	if next {
		by = 1
	}
	r.session.Take((r.session.Index() + by) % n)
	r.work()
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
	view := r.sight(lines, room)
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
