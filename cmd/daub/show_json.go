package main

import (
	"time"

	"daub.example/daub/data"
	"daub.example/daub/model"
)

// showJSON is the answer of `daub show --json`: one powder at one level.
type showJSON struct {
	powderJSON
	SolidDensity  *float64         `json:"solid_density"` // g/mL; null when not given
	KeepFromMetal bool             `json:"keep_from_metal"`
	Notes         string           `json:"notes"`
	LevelSpoons   []levelSpoonJSON `json:"level_spoons"`

	// What the trials on the newest basis say of the level asked for.
	answerJSON
	Table        []levelJSON  `json:"table"`        // level 1 to 6, and the one asked for; empty when no trial counts
	OtherBases   []answerJSON `json:"other_bases"`  // trials in another liquid, or with a rest far from this one
	TrialList    []trialJSON  `json:"trial_list"`   // every trial, in the order of the file
	Marks        []string     `json:"marks"`        // seen in any trial that is not set aside
	Plausibility []string     `json:"plausibility"` // how the answer compares with handbook values
	Cautions     []string     `json:"cautions"`
	Deferral     string       `json:"deferral"` // goes with every list of cautions
}

// answerJSON is what the trials on one basis say of one level.
type answerJSON struct {
	basisJSON
	levelJSON
	BetweenTrials *float64          `json:"between_trials"` // median spread between trials, in ln R; null when not reached
	Budget        *powderBudgetJSON `json:"budget"`         // of ratio; null when not reached
}

// levelSpoonJSON is what the weighings of one size of level spoon say.
type levelSpoonJSON struct {
	Spoon     string   `json:"spoon"`
	Weighings int      `json:"weighings"`
	MeanG     *float64 `json:"mean_g"` // null without a weighing
	SDG       *float64 `json:"sd_g"`   // plain sample SD; null with fewer than two
	HalfG     *float64 `json:"half_g"` // half-width of the mean's 95 % interval
}

// trialJSON is one trial by itself, read at the level asked for.
type trialJSON struct {
	Trial    int                `json:"trial"` // from 1
	Started  time.Time          `json:"started"`
	State    string             `json:"state"`     // open or done
	SetAside string             `json:"set_aside"` // the reason; such a trial does not count
	Liquid   string             `json:"liquid"`
	RestS    int                `json:"rest_s"`
	Aim      float64            `json:"aim"`
	Looks    int                `json:"looks"`
	Reach    string             `json:"reach"`
	Ratio    *data.IntervalJSON `json:"ratio"` // of this dish; null when not reached
	Bound    *data.RangeJSON    `json:"bound"` // when not reached; null without a look
}

func (s showAnswer) json() showJSON {
	powder := s.entry.Profile.Powder
	out := showJSON{
		powderJSON:   s.powder(),
		SolidDensity: data.Positive(powder.SolidDensity), KeepFromMetal: powder.KeepFromMetal, Notes: powder.Notes,
		LevelSpoons: []levelSpoonJSON{},
		answerJSON:  toAnswer(s.ratio),
		Table:       []levelJSON{}, OtherBases: []answerJSON{}, TrialList: []trialJSON{},
		Marks: filled(s.marks()), Plausibility: filled(s.plausibility()), Cautions: filled(powder.Cautions()),
		Deferral: model.Deferral,
	}
	for _, l := range s.entry.Profile.LevelSpoons {
		out.LevelSpoons = append(out.LevelSpoons, toLevelSpoon(l))
	}
	for _, r := range s.table {
		out.Table = append(out.Table, toLevel(r))
	}
	for _, r := range s.others {
		out.OtherBases = append(out.OtherBases, toAnswer(r))
	}
	for _, d := range s.dishes {
		out.TrialList = append(out.TrialList, d.listed())
	}
	return out
}

// filled is a list that JSON writes as [] when it is empty.
func filled(texts []string) []string { return append([]string{}, texts...) }

func toAnswer(r model.PowderRatio) answerJSON {
	out := answerJSON{basisJSON: toBasis(r.Basis), levelJSON: toLevel(r), Budget: toPowderBudget(r.Budget)}
	if r.Powder != nil {
		out.BetweenTrials = data.Number(r.BetweenTrials)
	}
	return out
}

func toLevelSpoon(l model.LevelSpoon) levelSpoonJSON {
	w, ok := l.Weight()
	if !ok {
		return levelSpoonJSON{Spoon: l.Spoon}
	}
	out := levelSpoonJSON{Spoon: l.Spoon, Weighings: w.N, MeanG: data.Number(w.Mean), HalfG: data.Number(w.HalfWidth())}
	if w.N > 1 {
		out.SDG = data.Number(w.SD)
	}
	return out
}

// listed is the dish as one trial among others.
func (f dishFit) listed() trialJSON {
	t := f.reading.Trial
	return trialJSON{
		Trial: f.trial + 1, Started: t.Started, State: string(t.State), SetAside: t.SetAside,
		Liquid: t.Liquid, RestS: *t.RestS, Aim: t.Aim, Looks: f.reading.Looks(),
		Reach: f.answer.Reach.String(), Ratio: data.ToInterval(f.answer.Dish), Bound: data.ToBound(f.answer.Bound),
	}
}
