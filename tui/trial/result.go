package trial

import (
	"errors"
	"fmt"
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/care"
	"daub.example/daub/model/handling"
	"daub.example/daub/model/measure"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/readings"
	"daub.example/daub/model/repeats"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// result is the third part of a trial: the answer at each level, where its interval
// comes from, and cautions.
type result struct {
	deps    ui.Deps
	session *ui.Session
	table   []bench.Answer
	powder  []repeats.Ratio // at the target level; empty before a trial counts
	terms   []bench.Term    // of this dish's interval
	lots    []care.Lot      // the ratios of other lots of the powder at the target level
	asked   bool            // asked whether the old dish is still there: the same key again says yes
	ui.Scroll
	ui.Prompt
}

// Open opens a trial of a powder: at the bench if it is unfinished, else at its
// result.
func Open(deps ui.Deps, powder model.Entry, trial int) (ui.Screen, tea.Cmd) {
	session := ui.NewSession(powder, trial, deps.OwnSpoons)
	if powder.Profile.Trials[trial].Unfinished() {
		return NewBench(deps, session)
	}
	return newResult(deps, session), nil
}

func newResult(deps ui.Deps, s *ui.Session) *result {
	r := &result{deps: deps, session: s}
	r.refresh()
	return r
}

// refresh reads the trial and the powder anew.
func (r *result) refresh() {
	t := r.session.Trial()
	r.table = r.table[:0]
	for _, l := range model.TableLevels(t.Aim) {
		r.table = append(r.table, r.session.Outcome().Answer(l))
	}
	p := r.session.Profile()
	basis := model.Basis{Liquid: t.Liquid, RestS: t.Rest(p.Powder.Kind())}
	r.lots = care.Lots(p.Powder, r.session.Profiles(r.deps), basis, t.Aim, r.deps.OwnSpoons)
	r.powder = nil
	if t.Used() {
		r.powder = repeats.Ratios(p, basis, []float64{t.Aim}, r.deps.OwnSpoons)
	}
	r.terms = r.session.Outcome().Reading.Terms(r.session.Outcome().Answer(t.Aim))
	r.ToTop()
}

func (r *result) Session() *ui.Session { return r.session }
func (r *result) Typing() bool         { return r.Asking() }

func (r *result) Title() string {
	n := len(r.session.Profile().Trials)
	return fmt.Sprintf("Trial › result  %s (%d of %d)", printable.Line(r.session.Powder().Title()),
		r.session.Index()+1, n)
}

func (r *result) Keys() []key.Binding {
	k := resultKeys
	if r.Asking() {
		return r.PromptKeys()
	}
	keys := []key.Binding{
		k.repeat, k.benchScreen, k.match, k.later, k.scroll, k.export, k.acid, k.copy, k.aside, k.leave, k.quit,
	}
	if len(r.session.Profile().Trials) > 1 {
		keys = slices.Insert(keys, 3, k.trial)
	}
	return keys
}

func (r *result) Update(msg tea.Msg) (ui.Next, tea.Cmd) {
	m, ok := msg.(tea.KeyMsg)
	switch {
	case !ok:
		r.Receive(msg)
		return r, nil
	case r.Asking():
		return r, r.Press(m)
	}
	r.Hush()
	k := resultKeys
	asked := r.asked
	r.asked = false
	switch {
	case key.Matches(m, k.leave):
		return ui.OpenShelf{Left: r.session}, nil
	case key.Matches(m, k.quit):
		return ui.Quit{}, nil
	case key.Matches(m, k.later):
		return ui.OpenLater{Session: r.session, Back: r}, nil
	case key.Matches(m, k.benchScreen):
		return NewBench(r.deps, r.session)
	case key.Matches(m, k.repeat):
		before := r.session.Trial()
		t := before.Again()
		t.Started, t.Match = r.deps.Now(), before.Clone().Match
		if err := r.session.Begin(t); err != nil {
			r.Refuse(err.Error())
			return r, nil
		}
		return NewBench(r.deps, r.session)
	case key.Matches(m, k.match):
		like, err := r.session.Outcome().Reading.MatchTrial(r.session.Entry().Slug, r.session.Index())
		if err != nil {
			r.Refuse(err.Error())
			return r, nil
		}
		question := handling.OldDish(r.session.Powder(), r.session.Trial(), r.deps.Now())
		if question != "" && !asked {
			r.asked = true
			r.Refuse(question + " " + k.match.Help().Key + " again: yes.")
			return r, nil
		}
		return ui.OpenSetup{Like: &like}, nil
	case key.Matches(m, k.acid):
		return ui.OpenAcid{Session: r.session, Back: r}, nil
	case key.Matches(m, k.aside):
		r.asideKey()
	case key.Matches(m, k.trial):
		r.Say("")
		r.other(m.String() == "right")
	case key.Matches(m, k.scroll):
		r.Say("")
		r.ScrollBy(m.String())
	case key.Matches(m, k.export):
		r.AskExport(r.deps, []model.Entry{r.session.Entry()}, 0)
	case key.Matches(m, k.copy):
		return r, ui.CopyText(r.deps, "the answer", r.copied())
	}
	return r, nil
}

// onlyMeasured returns the readings of a trial that has no look.
func (r *result) onlyMeasured() (readings.Measured, bool) {
	return readings.Alone(r.session.Outcome().Reading)
}

// headline gives the answer at the target level in few words: the powder's, else
// this dish's.
func (r *result) headline() string {
	if m, ok := r.onlyMeasured(); ok && m.Status == measure.Solved {
		return m.Brief()[0]
	} else if ok {
		return m.Sentence()
	}
	if len(r.powder) > 0 {
		return r.powder[0].Headline()
	}
	t := r.session.Trial()
	return r.session.Outcome().Answer(t.Aim).Headline(t.Liquid)
}

// shortHeadline is the headline without its range, for where the range stands below
// it.
func (r *result) shortHeadline() string {
	t := r.session.Trial()
	if _, measured := r.onlyMeasured(); measured || t.Match != nil {
		return r.headline()
	}
	if len(r.powder) > 0 && r.powder[0].Powder != nil {
		return r.powder[0].Takes()
	}
	if a := r.session.Outcome().Answer(t.Aim); len(r.powder) == 0 && a.Dish != nil {
		return a.Takes(t.Liquid)
	}
	return r.headline()
}

// copied gives the answer for the clipboard, with the level and rest it holds for.
func (r *result) copied() string {
	t := r.session.Trial()
	rest := model.Seconds(t.Rest(r.session.Powder().Kind()))
	if _, ok := r.onlyMeasured(); ok {
		return fmt.Sprintf("%s: %s (rest %s)", r.session.Powder().Title(), r.headline(), rest)
	}
	return fmt.Sprintf("%s: %s (%s, rest %s)", r.session.Powder().Title(), r.headline(), model.LevelName(t.Aim), rest)
}

func (r *result) asideKey() {
	if r.session.Trial().SetAside != "" {
		r.setAside("")
		return
	}
	r.Ask(ui.Question{
		Title: "Set aside, the reason",
		Answer: func(reason string) (tea.Cmd, error) {
			if reason == "" {
				return nil, errors.New("give a reason: the trial is kept and shown with it, not used")
			}
			r.setAside(reason)
			return nil, nil
		},
	}, "")
}

func (r *result) setAside(reason string) {
	if err := r.session.SetAside(reason); err != nil {
		r.Refuse(err.Error())
		return
	}
	r.refresh()
}

// other opens the next or the previous trial of the powder.
func (r *result) other(next bool) {
	n := len(r.session.Profile().Trials)
	by := n - 1
	if next {
		by = 1
	}
	r.session.GoTo((r.session.Index() + by) % n)
	r.refresh()
}
