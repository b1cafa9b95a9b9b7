package bench

import (
	"cmp"
	"fmt"
	"slices"

	"daub.example/daub/model"
)

// Weigh records weighings of level spoons, g, as AddWeighings does. A weighing that looks
// like a slip is asked about: the error is a *Question then.
func (e *Editor) Weigh(l model.LevelSpoon, grams ...float64) error {
	p, err := AddWeighings(e.profile, l, grams...)
	if err != nil {
		return err
	}
	var added []int
	if !BesideLoose(e.profile, l) {
		n := len(p.LevelSpoons[tableOf(p.LevelSpoons, l.Spoon)].Grams)
		for i := range grams {
			added = append(added, n-len(grams)+i)
		}
	}
	return e.weighed("weighing of "+l.Spoon, p, l.Spoon, added...)
}

// WeighHere records weighings of the spoon that is weighed at the bench. filled is one of
// model.Fillings; "" means as before.
func (e *Editor) WeighHere(filled string, grams ...float64) error {
	l := e.SpoonWeighedHere()
	l.How = cmp.Or(filled, l.How)
	return e.Weigh(l, grams...)
}

// Fill says how a level spoon was filled at its weighings, one of model.Fillings.
func (e *Editor) Fill(spoon, how string) error {
	tables := slices.Clone(e.profile.LevelSpoons)
	at := tableOf(tables, spoon)
	if at < 0 {
		return fmt.Errorf("no level %s has been weighed", spoon)
	}
	return e.Edit("filling of "+spoon, func(p *model.Profile, _ *model.Trial) {
		tables[at].How = how
		p.LevelSpoons = tables
	})
}

// MendWeighing corrects weighing i of a level spoon, counted from 0. A slip is asked about
// as by Weigh.
func (e *Editor) MendWeighing(spoon string, i int, grams float64) error {
	p, err := e.atWeighing(spoon, i, func(l *model.LevelSpoon) { l.Grams[i] = grams })
	if err != nil {
		return err
	}
	return e.weighed(fmt.Sprintf("mending of weighing %d of %s", i+1, spoon), p, spoon, i)
}

// DeleteWeighing deletes weighing i of a level spoon, counted from 0.
func (e *Editor) DeleteWeighing(spoon string, i int) error {
	p, err := e.atWeighing(spoon, i, func(l *model.LevelSpoon) { l.Grams = slices.Delete(l.Grams, i, i+1) })
	if err != nil {
		return err
	}
	return e.weighed(fmt.Sprintf("removal of weighing %d of %s", i+1, spoon), p, spoon)
}

// atWeighing gives the profile with the table of a weighing changed.
func (e *Editor) atWeighing(spoon string, i int, change func(l *model.LevelSpoon)) (model.Profile, error) {
	tables := slices.Clone(e.profile.LevelSpoons)
	at := tableOf(tables, spoon)
	if at < 0 || i < 0 || i >= len(tables[at].Grams) {
		return e.profile, fmt.Errorf("there is no weighing %d of a level %s", i+1, spoon)
	}
	tables[at].Grams = slices.Clone(tables[at].Grams)
	change(&tables[at])
	p := e.profile
	p.LevelSpoons = tables
	return p, nil
}

// weighed saves the weighings of a profile, unless one of the new ones of a spoon looks
// like a slip.
func (e *Editor) weighed(what string, p model.Profile, spoon string, added ...int) error {
	change := func() error {
		return e.Edit(what, func(now *model.Profile, _ *model.Trial) {
			now.LevelSpoons, now.Powder.Packings = p.LevelSpoons, p.Powder.Packings
		})
	}
	set := model.US
	if e.trial != NoTrial {
		set = e.Trial().SpoonSet
	}
	for _, i := range added {
		if text, wild := p.WildWeighing(spoon, i, set, e.ownSpoons); wild {
			return &Question{AskWeighing, text, change}
		}
	}
	return change()
}

// Method is a way to know the powder of a trial by mass.
type Method int

// The methods.
const (
	ByPot    Method = iota // the pot is weighed before the first spoon and again later
	BySpoons               // a few level spoons are weighed before the trial
	ByEach                 // every addition is weighed
)

// MethodOf gives the likely way in which the powder of the next trial is known by mass. It
// is that of its newest trial, else level spoons where they were weighed, else the pot.
func MethodOf(p model.Profile) Method {
	if i := p.Newest(); i >= 0 {
		switch newest := p.Trials[i].WithDefaults(p.Powder.Kind()); {
		case newest.PotG > 0:
			return ByPot
		case len(newest.Spoons) == 0:
			return ByEach
		}
	}
	if len(p.LevelSpoons) > 0 {
		return BySpoons
	}
	return ByPot
}

// SpoonWeighedHere gives the spoon to weigh at the bench: the one weighed first, else the
// first at hand.
func (e *Editor) SpoonWeighedHere() model.LevelSpoon {
	for _, have := range e.profile.LevelSpoons {
		if have.How != model.ByPot {
			return have
		}
	}
	spoon := model.Teaspoon
	if e.trial != NoTrial && len(e.Trial().Spoons) > 0 {
		spoon = e.Trial().Spoons[0]
	}
	return e.SpoonWeighed(spoon)
}

// SpoonWeighed gives the weighings of a level spoon so far. For one without a weighing it
// gives the usual way to weigh it.
func (e *Editor) SpoonWeighed(spoon string) model.LevelSpoon {
	if at := tableOf(e.profile.LevelSpoons, spoon); at >= 0 {
		return e.profile.LevelSpoons[at]
	}
	l := model.LevelSpoon{Spoon: spoon, SpoonsEach: 1, ResolutionG: model.DefaultResolutionG, How: model.Loose}
	if e.trial != NoTrial {
		l.ResolutionG = e.Trial().ResolutionG
	}
	return l
}

// AddWeighings adds weighings, g, to a profile, of the spoon and filling of l. Tapped ones
// of a spoon that was weighed loose go to its packing. Those of another number of spoons,
// or filled otherwise than those so far, are refused. The profile given stays as it is.
func AddWeighings(p model.Profile, l model.LevelSpoon, grams ...float64) (model.Profile, error) {
	if BesideLoose(p, l) {
		return addTapped(p, l, grams...), nil
	}
	out := slices.Clone(p.LevelSpoons)
	i := tableOf(out, l.Spoon)
	if i < 0 {
		l.Grams = slices.Clone(grams)
		p.LevelSpoons = append(out, l)
		return p, nil
	}
	have := &out[i]
	switch {
	case len(have.Grams) == 0:
		have.How = l.How
	case have.Each() != l.Each():
		return p, fmt.Errorf("the weighings so far are of %d spoons each; weigh %d again, or delete those first",
			have.Each(), have.Each())
	case have.How != l.How && have.Filling() != l.Filling():
		return p, fmt.Errorf("the weighings so far were filled %s, and what is %s weighs another amount: fill the "+
			"spoon as before, or delete those first", have.How, l.How)
	}
	have.SpoonsEach, have.ResolutionG = l.SpoonsEach, l.ResolutionG
	have.Grams = slices.Concat(have.Grams, grams)
	p.LevelSpoons = out
	return p, nil
}

// BesideLoose reports whether weighings like l are tapped ones of a spoon that was weighed
// loose: the two together tell how it packs.
func BesideLoose(p model.Profile, l model.LevelSpoon) bool {
	i := tableOf(p.LevelSpoons, l.Spoon)
	return l.Filling() == model.Tapped && i >= 0 && len(p.LevelSpoons[i].Grams) > 0 &&
		p.LevelSpoons[i].Filling() == model.Loose
}

// addTapped adds tapped weighings, g, to the packing of a spoon that was weighed loose. The
// loose ones are those of the spoon where the packing has none.
func addTapped(p model.Profile, l model.LevelSpoon, grams ...float64) model.Profile {
	each := func(grams []float64, spoons int) []float64 {
		out := make([]float64, len(grams))
		for i, g := range grams {
			out[i] = model.RoundSignificant(g/float64(spoons), 6)
		}
		return out
	}
	p.Powder.Packings = slices.Clone(p.Powder.Packings)
	i := slices.IndexFunc(p.Powder.Packings, func(have model.Packing) bool { return have.Spoon == l.Spoon })
	if i < 0 {
		loose := p.LevelSpoons[tableOf(p.LevelSpoons, l.Spoon)]
		i = len(p.Powder.Packings)
		p.Powder.Packings = append(p.Powder.Packings,
			model.Packing{Spoon: l.Spoon, LooseG: each(loose.Grams, loose.Each())})
	}
	have := &p.Powder.Packings[i]
	have.TappedG = slices.Concat(have.TappedG, each(grams, l.Each()))
	return p
}

// tableOf gives the index of a spoon's own weighings, -1 without any.
func tableOf(tables []model.LevelSpoon, spoon string) int {
	return slices.IndexFunc(tables, func(l model.LevelSpoon) bool { return l.Spoon == spoon && l.How != model.ByPot })
}
