package shelf

import (
	"cmp"
	"errors"
	"fmt"
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/model/typed"
	"daub.example/daub/tui/ui"
	tea "github.com/charmbracelet/bubbletea"
)

// remove deletes what the cursor is on: a weighing at once, a trial after a
// question.
func (p *powderPage) remove() {
	row := p.rows[p.cursor]
	switch {
	case row.trial >= 0:
		p.removeTrial(row.trial)
	case row.spoon >= 0:
		p.removeWeighing(row.spoon)
	default:
		p.Refuse("Enter changes a fact; to clear it, delete its text")
	}
}

// removeTrial asks, then deletes the trial; a copy is kept among the deleted files.
func (p *powderPage) removeTrial(n int) {
	t := p.session.Profile().Trials[n]
	p.Ask(ui.Question{
		Title: fmt.Sprintf("Delete trial %d of %s (%s)?", n+1, t.Started.Local().Format("2006-01-02"),
			model.Plural(t.Looks(), "look")),
		Yes: "delete it", No: "leave it",
		Why: "To keep it out of the answer only, set it aside with x.",
		Answer: func(string) (tea.Cmd, error) {
			before := p.session.Entry()
			err := p.edit(fmt.Sprintf("deleting of trial %d", n+1), func(profile *model.Profile) error {
				profile.Trials = slices.Delete(profile.Trials, n, n+1)
				return nil
			})
			if err != nil {
				return nil, err
			}
			return func() tea.Msg {
				path, err := p.deps.KeepTrial(before, n)
				return keptTrial{path, err}
			}, nil
		},
	}, "")
}

// aside sets a trial aside with a reason, or uses it again.
func (p *powderPage) aside(n int) {
	set := func(reason string) error {
		what := fmt.Sprintf("setting trial %d aside", n+1)
		if reason == "" {
			what = fmt.Sprintf("using trial %d again", n+1)
		}
		return p.edit(what, func(profile *model.Profile) error {
			profile.Trials[n].SetAside = reason
			return nil
		})
	}
	if p.session.Profile().Trials[n].SetAside != "" {
		if err := set(""); err != nil {
			p.Refuse(err.Error())
		}
		return
	}
	p.Ask(ui.Question{
		Title: fmt.Sprintf("Set trial %d aside, the reason", n+1),
		Answer: func(reason string) (tea.Cmd, error) {
			if reason == "" {
				return nil, errors.New("give a reason: the trial is kept and shown with it, not used")
			}
			return nil, set(reason)
		},
	}, "")
}

// weigh asks for one more weighing of the spoon under the cursor, else of the first
// spoon weighed.
func (p *powderPage) weigh() {
	l := model.LevelSpoon{
		Spoon: model.Teaspoon, SpoonsEach: 1, ResolutionG: model.DefaultResolutionG,
		How: model.Loose,
	}
	spoons := p.session.Profile().LevelSpoons
	if i := p.rows[p.cursor].spoon; i >= 0 {
		l = spoons[i]
	} else if len(spoons) > 0 {
		l = spoons[0]
	}
	title := "Grams of a level " + l.Spoon
	if l.Each() > 1 {
		title = fmt.Sprintf("Grams of %d level %s together", l.Each(), l.Spoon)
	}
	p.Ask(ui.Question{
		Title: title,
		Why: "Tare, fill as before, strike off level. Several with spaces between; \"tapped 2.9\" beside loose " +
			"ones says how it packs.",
		Answer: func(text string) (tea.Cmd, error) {
			filled, grams, err := typed.Weighings(text, "2.3 g")
			if err == nil && len(grams) == 0 {
				err = errors.New("type the grams, as 2.3 g")
			}
			if err != nil {
				return nil, err
			}
			asked := l
			asked.How = cmp.Or(filled, l.How)
			return nil, p.session.Weigh(asked, grams...)
		},
	}, "")
}

// fill sets the next way of filling for the weighings of a level spoon.
func (p *powderPage) fill(spoon int) {
	l, all := p.session.Profile().LevelSpoons[spoon], model.Fillings()
	next := all[(slices.Index(all, l.Filling())+1)%len(all)]
	if l.How == model.ByPot {
		p.Refuse("the pot gave this weight: it is filled as in the trial")
		return
	}
	if err := p.session.Fill(l.Spoon, next); err != nil {
		p.Refuse(err.Error())
		return
	}
	p.refresh()
	p.Say("weighed " + next + ": fill every " + l.Spoon + " of this powder like that")
}

// mendWeighing asks for the picked weighing again.
func (p *powderPage) mendWeighing(spoon int) {
	l := p.session.Profile().LevelSpoons[spoon]
	if len(l.Grams) == 0 {
		p.weigh()
		return
	}
	n := p.pick
	p.Ask(ui.Question{
		Title: fmt.Sprintf("Weighing %d of %s", n+1, l.Spoon),
		Answer: func(text string) (tea.Cmd, error) {
			g, err := typed.Mass(text, "2.3 g")
			if err != nil {
				return nil, err
			}
			return nil, p.session.MendWeighing(l.Spoon, n, g)
		},
	}, model.Number(l.Grams[n])+" g")
}

// removeWeighing deletes the picked weighing, and with the last one the spoon's
// table.
func (p *powderPage) removeWeighing(spoon int) {
	l := p.session.Profile().LevelSpoons[spoon]
	n := p.pick
	if n >= len(l.Grams) {
		p.Refuse("no weighing is picked")
		return
	}
	if err := p.session.DeleteWeighing(l.Spoon, n); err != nil {
		p.Refuse(err.Error())
		return
	}
	p.refresh()
	p.Say(fmt.Sprintf("deleted: %s g of %s; u brings it back", model.Number(l.Grams[n]), l.Spoon))
}
