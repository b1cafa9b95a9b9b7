package main

import (
	"cmp"
	"fmt"
	"strings"
	"time"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/cmd/daub/internal/reply"
	"daub.example/daub/cmd/daub/internal/usage"
	"daub.example/daub/data/export"
	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/care"
	"daub.example/daub/model/handling"
	"daub.example/daub/model/readings"
	"daub.example/daub/model/repeats"
	"github.com/spf13/cobra"
)

// showJSON is the answer of `daub show --json`: one powder at one level.
type showJSON struct {
	powderJSON
	powderFactsJSON
	Notes       string             `json:"notes"`
	LevelSpoons []levelSpoonJSON   `json:"level_spoons"`
	Checked     []checkedSpoonJSON `json:"checked_spoons"` // spoons of its trials that were checked with water

	// The answer of the trials on the newest basis at the level asked for.
	answerJSON
	Table        []reply.AtLevel   `json:"table"`        // levels 1 to 6 and the one asked for
	OtherBases   []answerJSON      `json:"other_bases"`  // trials in another liquid, or with a rest far from this one
	TrialList    []trialJSON       `json:"trial_list"`   // every trial, in the order of the file
	Marks        []string          `json:"marks"`        // seen in any trial that is not set aside
	Behaviour    string            `json:"behaviour"`    // the marks, summed up; also those seen only at first
	Handling     []string          `json:"handling"`     // what is known besides the ratio, a sentence each
	ByReading    []reply.ByReading `json:"by_reading"`   // of the powder by measurements, one for each scale
	Plausibility []string          `json:"plausibility"` // how the answer compares with handbook values
	Cautions     []string          `json:"cautions"`
	Deferral     string            `json:"deferral"` // shown with every list of cautions
}

// answerJSON is the answer of the trials on one basis at one level.
type answerJSON struct {
	reply.Basis
	reply.AtLevel
	// BetweenTrials is the median spread between trials, in ln R; null when not
	// reached.
	BetweenTrials *float64            `json:"between_trials"`
	Budget        *reply.PowderBudget `json:"budget"` // of ratio; null when not reached
}

// levelSpoonJSON is the mean of the weighings of one size of level spoon.
type levelSpoonJSON struct {
	Spoon     string   `json:"spoon"`
	Weighings int      `json:"weighings"`
	MeanG     *float64 `json:"mean_g"` // null without a weighing
	SDG       *float64 `json:"sd_g"`   // plain sample SD; null with fewer than two
	HalfG     *float64 `json:"half_g"` // half-width of the mean's 95 % interval
	Pot       int      `json:"pot"`    // number of the weighings that come from the pot of powder
	Filled    string   `json:"filled"` // loose, tapped or packed; or as in the file
}

// checkedSpoonJSON is a spoon that was checked with water.
type checkedSpoonJSON struct {
	Spoon string `json:"spoon"`
	reply.Size
	UncertaintyML *float64 `json:"standard_uncertainty_ml"`
}

// trialJSON is one trial by itself, read at the level asked for.
type trialJSON struct {
	Trial    int              `json:"trial"` // from 1
	Started  time.Time        `json:"started"`
	State    string           `json:"state"`     // open or done
	SetAside string           `json:"set_aside"` // the reason; such a trial does not count
	Liquid   string           `json:"liquid"`
	RestS    int              `json:"rest_s"`
	Aim      float64          `json:"aim"`
	Looks    int              `json:"looks"`
	Reach    string           `json:"reach"`
	Ratio    *export.Interval `json:"ratio"` // of this dish; null when not reached
	Bound    *export.Range    `json:"bound"` // when not reached; null without a look
	oddLooksJSON
	Pot      *potJSON        `json:"pot"`      // null when the pot was not weighed
	Measured *reply.Measured `json:"measured"` // null without a reading
	Acid     *reply.Acid     `json:"acid"`     // null without an acid test
	reply.Handling
	reply.SideBySide
}

func (a *app) showCommand() *cobra.Command {
	var (
		level  usage.Level
		on     model.Choice
		asJSON bool
	)
	cmd := &cobra.Command{
		Use:   "show POWDER",
		Short: "Say what one powder takes",
		Long: `Says what all trials of one powder and lot say together, at the level that its
newest trial aims at unless --level says otherwise. POWDER is a name that only
one entry has, name@lot, or the name of its file without .toml.`,
		Example: `  daub show "fine oat flour"
  daub show "fine oat flour@2026-04" --level 4
  daub show fine-oat-flour-2026-04 --json`,
		Args:              usage.Takes(1, 1, "one powder"),
		ValidArgsFunction: a.completePowder,
		RunE: func(_ *cobra.Command, args []string) error {
			s, err := a.readShow(args[0], level, on)
			if err != nil {
				return err
			}
			a.sayUntried(on, s.entry.Profile)
			return a.answer(s, asJSON)
		},
	}
	usage.AddLevel(cmd, &level)
	usage.AddChoice(cmd, &on)
	usage.AddJSON(cmd, &asJSON)
	return cmd
}

// showAnswer is one powder with the answers of all its trials.
type showAnswer struct {
	powderAnswer
	table  []repeats.Ratio // on the newest basis; empty when no trial counts
	others []repeats.Ratio // on the other bases, at the level asked for
	dishes []page.Dish     // every trial by itself, at the level asked for
	lots   []care.Lot      // ratios of other lots of the powder

	untried string // says that no trial is in the liquid or of the rest asked for; else ""
}

func (a *app) readShow(powder string, level usage.Level, on model.Choice) (showAnswer, error) {
	if err := a.shelfIsThere(); err != nil {
		return showAnswer{}, err
	}
	shelf := a.shelf().Visit()
	entry, err := shelf.Find(powder)
	if err == nil {
		err = shelf.Err
	}
	if err != nil {
		return showAnswer{}, err
	}
	ownSpoons := shelf.OwnSpoons
	s := showAnswer{powderAnswer: askPowder(entry, level, on, ownSpoons)}
	if on.Untried(entry.Profile) != "" {
		s.untried = fmt.Sprintf("No finished trial %s.", on)
	}
	of := entry.Profile.Powder
	s.lots = care.Lots(of, shelf.Lots(of.Name), s.ratio.Basis, s.level, ownSpoons)
	for i, b := range s.bases {
		if i == 0 {
			s.table = s.at(b, model.TableLevels(s.level)...)
			continue
		}
		s.others = append(s.others, s.at(b, s.level)...)
	}
	for i, t := range entry.Profile.Trials {
		// No error: a step that cannot be calculated was refused on reading.
		reading, err := bench.Read(entry.Profile, t, ownSpoons)
		if err != nil {
			return showAnswer{}, err
		}
		s.dishes = append(s.dishes, page.Dish{
			Profile: entry.Profile, Trial: i, Reading: reading, Answer: reading.At(levelOf(reading, s.level)),
			OwnSpoons: ownSpoons,
		})
	}
	return s, nil
}

// levelOf returns the level at which a trial is read: beside a reference dish, that
// dish's.
func levelOf(r bench.Reading, asked float64) float64 {
	if m := r.Trial.Match; m != nil {
		return m.Level
	}
	return asked
}

// handling returns the sentences on what is known besides the ratio.
func (s showAnswer) handling() []string {
	liquid := cmp.Or(s.ratio.Basis.Liquid, s.entry.Profile.MainBasis().Liquid)
	return handling.OfPowder(s.entry.Profile, liquid, s.ownSpoons)
}

// plausibility compares the answer with handbook values and other lots.
func (s showAnswer) plausibility() []string {
	return care.Plausibility(s.entry.Profile.Powder, care.Doubt{
		Liquid: s.ratio.Basis.Liquid, Level: s.level, Ratio: s.ratio.Powder, GramsPerML: s.tspG / model.USTeaspoonML,
		Lots: s.lots,
	})
}

func (s showAnswer) json() any {
	powder := s.entry.Profile.Powder
	out := showJSON{
		powderJSON:      s.powder(),
		powderFactsJSON: powderFacts(powder), Notes: powder.Notes,
		LevelSpoons: s.levelSpoons(), Checked: []checkedSpoonJSON{},
		answerJSON: toAnswer(s.ratio),
		Table:      []reply.AtLevel{}, OtherBases: []answerJSON{}, TrialList: []trialJSON{},
		Behaviour: model.SeenText(s.entry.Profile.Seen()), Handling: reply.Filled(s.handling()),
		Marks: model.SeenNames(s.entry.Profile.Seen()), Plausibility: reply.Filled(s.plausibility()),
		Cautions: reply.Filled(care.Of(powder)), Deferral: care.Deferral,
		ByReading: reply.ByReadingOf(readings.Pools(s.entry.Profile, s.ownSpoons)),
	}
	out.Trials, _ = s.counted()
	for _, one := range handling.CheckedSpoons(s.entry.Profile, s.ownSpoons) {
		out.Checked = append(out.Checked,
			checkedSpoonJSON{one.Name, reply.SizeOf(one), export.Positive(one.UncertaintyML)})
	}
	for _, r := range s.table {
		out.Table = append(out.Table, reply.LevelOf(r))
	}
	for _, r := range s.others {
		out.OtherBases = append(out.OtherBases, toAnswer(r))
	}
	for _, d := range s.dishes {
		out.TrialList = append(out.TrialList, toTrial(d))
	}
	return out
}

func toAnswer(r repeats.Ratio) answerJSON {
	out := answerJSON{Basis: reply.BasisOf(r.Basis), AtLevel: reply.LevelOf(r), Budget: reply.PowderBudgetOf(r.Budget)}
	if r.Powder != nil {
		out.BetweenTrials = export.Number(r.BetweenTrials)
	}
	return out
}

// levelSpoons returns the sizes weighed, by themselves or by the pot, and those
// whose table is empty.
func (s showAnswer) levelSpoons() []levelSpoonJSON {
	spoons := []levelSpoonJSON{}
	weighed := map[string]bool{}
	filled := map[string]string{}
	for _, l := range s.entry.Profile.LevelSpoons {
		if l.How != model.ByPot {
			filled[l.Spoon] = cmp.Or(l.Filling(), l.How)
		}
	}
	for _, w := range s.weights().Weighed() {
		spoons = append(spoons, toLevelSpoon(w, filled[w.Spoon]))
		weighed[w.Spoon] = true
	}
	for _, l := range s.entry.Profile.LevelSpoons {
		if !weighed[l.Spoon] {
			spoons = append(spoons, levelSpoonJSON{Spoon: l.Spoon, Filled: filled[l.Spoon]})
		}
	}
	return spoons
}

func (s showAnswer) weights() model.SpoonWeights {
	return s.entry.Profile.SpoonWeights(s.entry.Profile.SpoonSet(), s.ownSpoons)
}

func toLevelSpoon(w model.Weighed, filled string) levelSpoonJSON {
	out := levelSpoonJSON{
		Spoon: w.Spoon, Weighings: w.Weight.N, Pot: w.Pot, Filled: cmp.Or(filled, model.Loose),
		MeanG: export.Number(w.Weight.Mean), HalfG: export.Number(w.Weight.HalfWidth()),
	}
	if w.Weight.N > 1 {
		out.SDG = export.Number(w.Weight.SD)
	}
	return out
}

// toTrial converts one trial's answer for JSON.
func toTrial(d page.Dish) trialJSON {
	t := d.Reading.Trial
	return trialJSON{
		Trial: d.Trial + 1, Started: t.Started, State: string(t.State), SetAside: t.SetAside,
		Liquid: t.Liquid, RestS: *t.RestS, Aim: t.Aim, Looks: d.Reading.Looks(),
		Reach: d.Answer.Reach.String(), Ratio: export.IntervalOf(d.Answer.Dish), Bound: export.BoundOf(d.Answer.Bound),
		oddLooksJSON: toOddLooks(d.Reading), Pot: toPot(t), SideBySide: reply.SideBySideOf(d.Reading),
		Measured: reply.MeasuredOf(d.Reading), Acid: reply.AcidOf(d.Reading, d.OwnSpoons),
		Handling: reply.HandlingOf(d.Reading),
	}
}

// text writes the powder for people.
func (s showAnswer) text(p *page.Page) {
	powder := s.entry.Profile.Powder
	p.Say(powder.Title())
	p.Say(fmt.Sprintf("%s, %s", powder.Kind(), s.spoonText()))
	for _, one := range handling.CheckedSpoons(s.entry.Profile, s.ownSpoons) {
		p.Checked(one.CheckedText())
	}
	p.Line("%s", s.entry.Path)
	if powder.Archived {
		p.Say("Archived: hidden from the shelf and from daub list without --all.")
	}
	if powder.Fizzes != nil && *powder.Fizzes {
		p.Say("It fizzes with vinegar: never acid and a closed jar.")
	}
	if list, recorded := powder.AllergensKnown(); recorded && len(list) > 0 {
		p.Say("Allergens: " + powder.AllergensText())
	} else if len(list) > 0 {
		p.Say("Allergens: " + powder.AllergensText() + "; ask the supplier")
	}
	if powder.Notes != "" {
		p.Say("Notes: " + powder.Notes)
	}
	p.Gap()
	p.Say(cmp.Or(s.untried, s.ratio.Sentence()))
	if s.ratio.PerTsp != nil {
		perTsp := bench.IntervalText(*s.ratio.Rounded().PerTsp)
		p.Say(fmt.Sprintf("One level teaspoon of it takes %s g %s.", perTsp, s.ratio.Basis.Liquid))
	}
	s.tables(p)
	if s.ratio.Budget != nil {
		p.Budget(s.level, *s.ratio.Powder, s.ratio.Terms())
	}
	for _, n := range s.ratio.Far {
		p.Say(fmt.Sprintf("Trial %d sits far from the others: look at its steps, repeat it, or set it aside with "+
			"a reason.",
			n+1))
	}
	var timings []string
	for _, d := range s.dishes {
		for _, text := range d.Reading.Timings() {
			timings = append(timings, fmt.Sprintf("Trial %d: %s", d.Trial+1, text))
		}
	}
	p.List(page.EarlyOrLate, timings...)
	p.List("Measured, and acid (scales of their own):", s.otherScales()...)
	var others []string
	for _, r := range s.others {
		others = append(others, fmt.Sprintf("In %s, rest %s: %s",
			r.Basis.Liquid, model.Seconds(r.Basis.RestS), r.Sentence()))
	}
	p.List("Kept apart from these, for another liquid or another rest:", others...)
	p.List("How it behaves:", s.handling()...)
	p.List("Plausible?", s.plausibility()...)
	p.Cautions(care.Of(powder))
}

// otherScales says what the trials give besides levels.
func (s showAnswer) otherScales() (texts []string) {
	texts = readings.OfPowder(s.entry.Profile, s.ownSpoons)
	for _, d := range s.dishes {
		for _, text := range readings.Sentences(d.Reading, s.ownSpoons) {
			texts = append(texts, fmt.Sprintf("Trial %d: %s", d.Trial+1, text))
		}
	}
	return texts
}

// spoonText gives the weight of a level spoon, for each size weighed.
func (s showAnswer) spoonText() string {
	texts := s.weights().Texts()
	if len(texts) == 0 {
		return "no level spoon weighed"
	}
	return strings.Join(texts, ", ")
}

// tables writes the powder's levels and its trials.
func (s showAnswer) tables(p *page.Page) {
	if len(s.table) > 0 && (s.ratio.Trials > 0 || len(readings.Pools(s.entry.Profile, s.ownSpoons)) == 0) {
		var rows [][]string
		for _, r := range s.table {
			r = r.Rounded()
			next := "-"
			if r.Next != nil {
				next = bench.RangeText(*r.Next)
			}
			rows = append(rows, []string{
				page.Marked(r.Level, s.level), page.Ratio(r.Powder, r.Bound), next, r.Reach.Tested(),
				fmt.Sprint(r.Trials),
			})
		}
		p.Gap()
		p.Table([]page.Column{
			{Title: "  level"},
			{Title: "g liquid per g"},
			{Title: "next dish"},
			{Title: "tested from"},
			{Title: "trials", Right: true},
		}, rows)
		p.Line("%s", page.BothSides)
	}
	if len(s.dishes) == 0 {
		return
	}
	var besides []string
	var rows [][]string
	for _, d := range s.dishes {
		t := d.Reading.Trial
		rows = append(rows, []string{
			fmt.Sprint(d.Trial + 1), t.Started.Format(page.Day),
			model.Grams(t.LiquidG) + " g " + t.Liquid, model.Seconds(*t.RestS),
			fmt.Sprint(d.Reading.Looks()), page.Ratio(d.Answer.Dish, d.Answer.Bound), page.State(t),
		})
		if t.Match != nil {
			besides = append(besides, fmt.Sprintf("Trial %d: %s", d.Trial+1, d.Answer.Sentence(t.Liquid)))
		}
	}
	p.Gap()
	p.Table([]page.Column{
		{Title: "trial", Right: true},
		{Title: "begun"},
		{Title: "with"},
		{Title: "rest"},
		{Title: "looks", Right: true},
		{Title: "this dish"},
		{Title: "state"},
	}, rows)
	p.List("Side by side:", besides...)
}
