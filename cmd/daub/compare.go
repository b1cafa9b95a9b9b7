package main

import (
	"strings"
	"time"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/cmd/daub/internal/reply"
	"daub.example/daub/cmd/daub/internal/usage"
	"daub.example/daub/data"
	"daub.example/daub/data/export"
	"daub.example/daub/model"
	"daub.example/daub/model/care"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/readings"
	"github.com/spf13/cobra"
)

// compareJSON is the answer of `daub compare --json`.
type compareJSON struct {
	Level    float64    `json:"level"`
	Powders  []sideJSON `json:"powders"` // in the order asked
	Pairs    []pairJSON `json:"pairs"`   // every other powder against the first
	Deferral string     `json:"deferral"`
}

// sideJSON is one of the compared powders.
type sideJSON struct {
	powderJSON
	reply.Basis
	reply.AtLevel
	LevelStep *float64   `json:"level_step"` // its looks are to the nearest 1 or 0.5; null without a trial
	LastTrial *time.Time `json:"last_trial"` // the newest that the ratio is based on
	Marks     []string   `json:"marks"`      // behaviour seen
	Behaviour string     `json:"behaviour"`  // the marks, summed up
	PH        *float64   `json:"ph"`         // of its paste before any acid; null if it was not read
	Cautions  []string   `json:"cautions"`
}

func toSide(e data.Entry, s kitchen.Side) sideJSON {
	out := sideJSON{
		powderJSON: named(e, s.TspG), AtLevel: reply.LevelOf(s.Ratio), LevelStep: export.Positive(s.LevelStep),
		LastTrial: reply.Moment(s.LastTrial), Marks: model.SeenNames(s.Seen),
		Behaviour: model.SeenText(s.Seen), PH: s.PH, Cautions: reply.Filled(care.Of(s.Powder)),
	}
	if s.LevelStep > 0 { // without a trial, the basis is the others'
		out.Basis = reply.BasisOf(s.Ratio.Basis)
	}
	return out
}

// pairJSON is one powder (to) against another (from) at one level.
type pairJSON struct {
	From     string           `json:"from"`      // slug
	To       string           `json:"to"`        // slug
	Refused  *string          `json:"refused"`   // other-liquid or level-missing; null if they are compared
	Verdict  *string          `json:"verdict"`   // close, adjust, unsettled or not-a-stand-in; null when refused
	ByWeight *export.Interval `json:"by_weight"` // times as much liquid for a gram; null when refused
	BySpoon  *export.Interval `json:"by_spoon"`  // the same for a level spoon; null also if none was weighed
	// StandsAt is the level of from at which to can replace it gram for gram, 0 to
	// 7.
	StandsAt    *export.Interval  `json:"stands_at"`
	Bound       *export.Range     `json:"bound"` // limits of by_weight if a level is missing
	RestsApart  bool              `json:"rests_apart"`
	Reasons     []string          `json:"reasons"` // of the verdict
	NextTrial   *string           `json:"settle"`  // what would settle an open verdict
	Warnings    []string          `json:"warnings"`
	Differences []string          `json:"differences"` // beside the ratio
	Measured    []reply.AtReading `json:"measured"`    // at equal reading, one for each scale that both have
	Sentence    string            `json:"sentence"`
	Scale       *string           `json:"scale"` // of by_weight: levels or side-by-side; null when refused
	// SideBySide is the answer of dishes side by side, which overrules two separate
	// profiles; null without.
	SideBySide *sideBySideJSON `json:"side_by_side"`
}

// sideBySideJSON is the answer of dishes brought to one thickness side by side.
type sideBySideJSON struct {
	Level    float64          `json:"level"` // of the reference dish
	ByWeight *export.Interval `json:"by_weight"`
	Trials   int              `json:"trials"`
	Newest   time.Time        `json:"newest"`
	Dishes   string           `json:"dishes"` // which dishes, and when, in words
	// Lost says that the record of a reference dish has changed; what the trial
	// noted of it is used.
	Lost bool `json:"lost"`
}

func toSideBySide(p kitchen.Pair) (scale *string, out *sideBySideJSON) {
	b := p.SideBySide
	switch {
	case p.ByWeight == nil:
		return nil, nil
	case b == nil:
		return reply.OrNull("levels"), nil
	}
	return reply.OrNull("side-by-side"), &sideBySideJSON{
		Level: b.Level, ByWeight: export.IntervalOf(&b.ByWeight), Trials: b.Trials, Newest: b.Newest, Dishes: b.Text,
		Lost: b.Lost,
	}
}

func toPair(from, to string, p kitchen.Pair, measured []readings.Pair) pairJSON {
	scale, beside := toSideBySide(p)
	return pairJSON{
		Scale: scale, SideBySide: beside,
		From: from, To: to, Refused: Keyword(string(p.Refused)), Verdict: Keyword(string(p.Verdict)),
		ByWeight: export.IntervalOf(p.ByWeight), BySpoon: export.IntervalOf(p.BySpoon), Bound: export.BoundOf(p.Bound),
		StandsAt: toLevels(p.StandsAt), RestsApart: p.RestsApart, Reasons: reply.Filled(p.Reasons),
		NextTrial: reply.OrNull(p.NextTrial), Warnings: reply.Filled(p.Warnings),
		Differences: reply.Filled(p.Differences), Sentence: p.Sentence(),
		Measured: reply.AtReadingOf(measured),
	}
}

// toLevels limits an interval of levels to the scale; its ends also stand for what
// is beyond.
func toLevels(levels *fit.Interval) *export.Interval {
	if levels == nil {
		return nil
	}
	on := func(z float64) float64 { return min(max(z, model.MinLevel), model.MaxLevel) }
	return export.IntervalOf(&fit.Interval{Median: on(levels.Median), Low: on(levels.Low), High: on(levels.High)})
}

// Keyword converts a word of the model for JSON, without spaces; "" is null.
func Keyword(text string) *string { return reply.OrNull(strings.ReplaceAll(text, " ", "-")) }

func (a *app) compareCommand() *cobra.Command {
	var (
		level  usage.Level
		on     model.Choice
		asJSON bool
	)
	cmd := &cobra.Command{
		Use:   "compare POWDER POWDER...",
		Short: "Set two to six powders side by side",
		Long: `Sets two to six powders side by side at one level, the target level of the first
unless --level says otherwise, and says of each other one whether it can stand
in for the first gram for gram. Ratios in different liquids are never compared.
A "?" marks a ratio that was tested from one side only.`,
		Example: `  daub compare "white clay" "green clay"
  daub compare white-clay green-clay@2026-04 oat-flour --level 4
  daub compare white-clay green-clay --json`,
		Args:              usage.Takes(kitchen.MinCompared, kitchen.MaxCompared, "two to six powders"),
		ValidArgsFunction: a.completePowders(kitchen.MaxCompared),
		RunE: func(_ *cobra.Command, args []string) error {
			chosen, err := a.choose(args...)
			if err != nil {
				return err
			}
			a.sayUntried(on, chosen.profiles()...)
			c, err := compare(chosen, level, on)
			if err != nil {
				return err
			}
			return a.answer(c, asJSON)
		},
	}
	usage.AddLevel(cmd, &level)
	usage.AddChoice(cmd, &on)
	usage.AddJSON(cmd, &asJSON)
	return cmd
}

// compareAnswer is powders side by side; the first is compared with every other.
type compareAnswer struct {
	chosen
	kitchen.Comparison
	pairs []kitchen.Pair
}

func compare(chosen chosen, level usage.Level, on model.Choice) (compareAnswer, error) {
	c, err := kitchen.Compare(chosen.entries, level.Or(model.SharedAim(chosen.profiles()...)), on, chosen.ownSpoons)
	if err != nil {
		return compareAnswer{}, err
	}
	return compareAnswer{chosen, c, c.Against(0)}, nil
}

func (c compareAnswer) json() any {
	out := compareJSON{Level: c.Level, Deferral: care.Deferral}
	for i, s := range c.Sides {
		out.Powders = append(out.Powders, toSide(c.entries[i], s))
	}
	slugs := c.slugs()
	for i, p := range c.pairs {
		out.Pairs = append(out.Pairs, toPair(slugs[0], slugs[i+1], p, c.measured(i)))
	}
	return out
}

// measured returns pair i, from 0, at equal reading.
func (c compareAnswer) measured(i int) []readings.Pair {
	return readings.Against(c.entries[0].Profile, c.entries[i+1].Profile, c.ownSpoons)
}

// text writes the comparison for people.
func (c compareAnswer) text(p *page.Page) {
	p.Line("At %s:", model.LevelName(c.Level))
	p.Gap()
	p.Sides(c.Sides, c.pairs)
	if text := c.Rests(); text != "" {
		p.Gap()
		p.Say(text)
	}
	p.Pairs(c.pairs)
	for i, pair := range c.pairs {
		for _, at := range c.measured(i) {
			p.Gap()
			p.Hang("", "  ", at.Sentence(pair.A.Powder.Title(), pair.B.Powder.Title()))
		}
	}
	p.Gap()
	p.Say(care.Deferral)
}
