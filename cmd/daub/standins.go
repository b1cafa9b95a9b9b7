package main

import (
	"fmt"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/cmd/daub/internal/reply"
	"daub.example/daub/cmd/daub/internal/usage"
	"daub.example/daub/model"
	"daub.example/daub/model/care"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/readings"
)

// standInsJSON is the answer of `daub swap --json` of one powder.
type standInsJSON struct {
	compareJSON
	Refused *string `json:"refused"` // why nothing could be compared; null where something was
}

// standInsAnswer is what could stand in for a powder, the likest first.
type standInsAnswer struct {
	chosen
	level float64
	side  kitchen.Side // of the powder itself
	found []kitchen.StandIn
}

func (a *app) readStandIns(from string, flags swapFlags) (standInsAnswer, error) {
	if flags.powder > 0 || flags.liquid > 0 || flags.keep != "" {
		return standInsAnswer{}, usage.Misused("which powder takes the place of %s? name it too; without an amount "+
			"or --keep daub swap lists what could", from)
	}
	c, err := a.choose(from)
	if err != nil {
		return standInsAnswer{}, err
	}
	a.sayUntried(flags.on, c.profiles()...)
	shelf, _ := a.shelf().List() // what cannot be read stands in for nothing; daub check says why
	s := standInsAnswer{chosen: c, level: flags.level.Or(c.aim())}
	others := kitchen.Candidates(c.entries[0], shelf, flags.on, 0)
	s.found, err = kitchen.StandIns(c.entries[0], others, s.level, flags.on, c.ownSpoons)
	if err != nil {
		return s, err
	}
	if s.refused() {
		p := c.entries[0].Profile
		s.side = kitchen.SideOf(p, p.BasisFor(flags.on), s.level, c.ownSpoons)
	} else {
		s.side = s.found[0].Pair.A
	}
	return s, nil
}

// refused reports whether there is nothing to choose from.
func (s standInsAnswer) refused() bool { return len(s.found) == 0 }

func (s standInsAnswer) json() any {
	from := s.entries[0]
	out := standInsJSON{compareJSON: compareJSON{
		Level: s.level, Powders: []sideJSON{toSide(from, s.side)}, Pairs: []pairJSON{}, Deferral: care.Deferral,
	}}
	if s.refused() {
		out.Refused = reply.OrNull(s.whyNot())
	}
	for _, f := range s.found {
		out.Powders = append(out.Powders, toSide(f.Entry, f.Pair.B))
		measured := readings.Against(from.Profile, f.Entry.Profile, s.ownSpoons)
		out.Pairs = append(out.Pairs, toPair(from.Slug, f.Entry.Slug, f.Pair, measured))
	}
	return out
}

// whyNot says why there is nothing to choose from.
func (s standInsAnswer) whyNot() string {
	return kitchen.NoStandIn(s.entries[0].Profile.Powder, s.level)
}

// text is the list for a person.
func (s standInsAnswer) text(p *page.Page) {
	from := s.entries[0].Profile.Powder.Title()
	if s.refused() {
		p.Say(s.whyNot())
		return
	}
	p.Say(fmt.Sprintf("In the place of %s gram for gram, wanted %s, the nearest first:", from,
		model.LevelName(s.level)))
	p.Gap()
	var rows [][]string
	for _, f := range s.found {
		factor, _ := page.Factor(f.Pair)
		verdict := f.Pair.Verdict.Short()
		if f.Pair.RestsApart {
			verdict += ", read after another rest"
		}
		rows = append(rows, []string{
			page.Handle(f.Entry.Profile.Powder), kitchen.StandsAt(f.Pair.StandsAt.Median), verdict, factor,
		})
	}
	p.Table([]page.Column{
		{Title: "powder"}, {Title: "stands at"}, {Title: "gram for gram"}, {Title: "times the liquid"},
	}, rows)
	p.Gap()
	p.Say("Thickness is not all: daub compare sets families, behaviour and allergens side by side.")
	p.Gap()
	p.Say(care.Deferral)
}
