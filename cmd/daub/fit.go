package main

import (
	"errors"
	"fmt"
	"io/fs"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/cmd/daub/internal/reply"
	"daub.example/daub/cmd/daub/internal/usage"
	"daub.example/daub/data"
	"daub.example/daub/data/export"
	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"github.com/spf13/cobra"
)

// fitJSON is the answer of `daub fit --json`: one dish at one level.
type fitJSON struct {
	Powder string           `json:"powder"`
	Lot    string           `json:"lot"`
	Level  float64          `json:"level"`
	Trial  int              `json:"trial"`  // from 1, as in the file
	Looks  int              `json:"looks"`  // those that count
	Reach  string           `json:"reach"`  // bracketed, one-sided or not-reached
	Fit    *export.Interval `json:"fit"`    // from the looks alone; null when not reached
	Ratio  *export.Interval `json:"ratio"`  // with the uncertainty of the masses; null when not reached
	Bound  *export.Range    `json:"bound"`  // when not reached; null without a look
	Budget *reply.Budget    `json:"budget"` // of ratio; null when not reached
	Advice *adviceJSON      `json:"advice"` // the next step for this level; null if nothing can be said
	oddLooksJSON
	Pot         *potJSON        `json:"pot"`           // null when the pot was not weighed
	GramsPerTsp *float64        `json:"grams_per_tsp"` // of a level teaspoon; null if unknown
	Measured    *reply.Measured `json:"measured"`      // null without a reading
	Acid        *reply.Acid     `json:"acid"`          // null without an acid test
	reply.SideBySide
}

// oddLooksJSON lists the looks of a trial that the maker left out, and those whose
// wait was far from the rest.
type oddLooksJSON struct {
	LeftOut []int      `json:"left_out"` // the steps, from 1
	Early   []waitJSON `json:"early"`    // before half the rest
	Late    []waitJSON `json:"late"`     // after more than three times the rest
}

// waitJSON is one look and the wait before it.
type waitJSON struct {
	Step    int `json:"step"` // from 1
	RestedS int `json:"rested_s"`
}

func toOddLooks(r bench.Reading) oddLooksJSON {
	leftOut := []int{}
	for i, step := range r.Trial.Steps {
		if step.LeftOut {
			leftOut = append(leftOut, i+1)
		}
	}
	waits := func(steps []int) []waitJSON {
		out := make([]waitJSON, len(steps))
		for i, step := range steps {
			out[i] = waitJSON{step + 1, *r.Trial.Steps[step].RestedS}
		}
		return out
	}
	return oddLooksJSON{leftOut, waits(r.Early()), waits(r.Late())}
}

// potJSON holds the weighings of the powder's pot in a trial.
type potJSON struct {
	Readings int      `json:"readings"`
	LossG    *float64 `json:"loss_g"` // between the first and the last; null with one
	Open     bool     `json:"open"`   // spoonfuls were added since its last weighing
}

func toPot(t model.Trial) *potJSON {
	if !t.PotWeighed() {
		return nil
	}
	pot := &potJSON{Readings: 1, Open: t.PotOpen()}
	lost := 0.0
	for _, span := range t.PotSpans() {
		lost += span.LossG
		pot.Readings++
	}
	if pot.Readings > 1 {
		pot.LossG = export.Number(lost)
	}
	return pot
}

// toTsp returns the weight of a level teaspoon, g; null if unknown.
func toTsp(s model.SpoonWeights) *float64 {
	grams, _ := s.Teaspoon()
	return export.Positive(grams)
}

// adviceJSON is the advised next step. Spoon and count are null for an addition by
// weight; grams too if nothing is to be added.
type adviceJSON struct {
	Action string   `json:"action"` // powder, liquid, weigh or stop
	Spoon  *string  `json:"spoon"`
	Count  *int     `json:"count"`
	Grams  *float64 `json:"grams"`
	Why    string   `json:"why"`
}

func (a *app) fitCommand() *cobra.Command {
	var (
		level  usage.Level
		trial  int
		asJSON bool
	)
	cmd := &cobra.Command{
		Use:   "fit FILE|POWDER",
		Short: "Say what one dish takes, from a file anywhere",
		Long: `Reads one trial and says what its dish takes: of a file, which need not be on a
shelf, or of a powder of the shelf. Without --trial it is the newest trial that
is done and not set aside, else the newest that is open.`,
		Example: `  daub fit oat.toml
  daub fit "fine oat flour"
  daub fit oat.toml --level 4.5 --trial 2
  daub fit oat.toml --json`,
		Args:              usage.Takes(1, 1, "one file or powder"),
		ValidArgsFunction: completeFiles,
		RunE: func(cmd *cobra.Command, args []string) error {
			f, err := a.readFit(args[0], trial, cmd.Flags().Changed("trial"), level)
			if err != nil {
				return err
			}
			return a.answer(f, asJSON)
		},
	}
	usage.AddLevel(cmd, &level)
	usage.AddWhole(cmd, &trial, "trial", "N", "2", "the trial by its number in the file, from 1")
	usage.AddJSON(cmd, &asJSON)
	return cmd
}

// fitAnswer holds the answer of one trial of a file.
type fitAnswer page.Dish

// text writes the answer for people.
func (f fitAnswer) text(p *page.Page) { p.Dish(page.Dish(f)) }

// readFit reads a trial: the one asked for, or without a number the one that
// pickTrial finds.
func (a *app) readFit(file string, asked int, chosen bool, level usage.Level) (fitAnswer, error) {
	ownSpoons, err := a.shelf().Spoons()
	if err != nil {
		return fitAnswer{}, err
	}
	p, err := a.readProfile(file, ownSpoons)
	if err != nil {
		return fitAnswer{}, err
	}
	n := len(p.Trials)
	if n == 0 {
		return fitAnswer{}, fmt.Errorf("fit %s: there is no trial in it; make one at the bench", file)
	}
	i := asked - 1
	switch {
	case !chosen:
		if i = pickTrial(p); i < 0 {
			return fitAnswer{}, fmt.Errorf("fit %s: every trial in it is set aside; --trial N reads one all the same",
				file)
		}
	case i < 0 || i >= n:
		return fitAnswer{}, usage.Misused("fit %s: there is no trial %d in it; give --trial 1 to %d", file, asked, n)
	case p.Trials[i].SetAside != "":
		a.say("trial %d is set aside (%s): it does not count for the powder", asked, p.Trials[i].SetAside)
	}
	reading, err := bench.Read(p, p.Trials[i], ownSpoons)
	if err != nil {
		return fitAnswer{}, fmt.Errorf("fit %s: trial %d, %w", file, i+1, err)
	}
	at := reading.Trial.Aim
	if reading.Trial.Match == nil { // otherwise one thickness only, whatever level was asked for
		at = level.Or(at)
	}
	return fitAnswer{p, i, reading, reading.At(at), ownSpoons}, nil
}

// readProfile reads a profile from a file anywhere, or the powder of the shelf with that
// name.
func (a *app) readProfile(name string, own model.OwnSpoons) (model.Profile, error) {
	p, err := data.ReadPowder(name, own)
	if !errors.Is(err, fs.ErrNotExist) {
		return p, err
	}
	entry, err := a.shelf().Visit().Find(name)
	var unknown *data.UnknownError
	if errors.As(err, &unknown) {
		err = fmt.Errorf("%s: there is no such file, and no powder of that name on the shelf; check the path, or see "+
			"daub list", name)
	}
	return entry.Profile, err
}

// pickTrial returns the newest trial that counts, else the newest beside a dish,
// else the newest unfinished one; -1 if there is none.
func pickTrial(p model.Profile) int {
	if counts := p.NewestWhere(model.Trial.Used); counts >= 0 {
		return counts
	}
	if beside := p.NewestWhere(model.Trial.Finished); beside >= 0 {
		return beside
	}
	return p.NewestUnfinished()
}

func (f fitAnswer) json() any {
	return fitJSON{
		Powder: f.Profile.Powder.Name, Lot: f.Profile.Powder.Lot,
		Level: f.Answer.Level, Trial: f.Trial + 1, Looks: f.Reading.Looks(),
		Reach: f.Answer.Reach.String(),
		Fit:   export.IntervalOf(f.Answer.Ratio), Ratio: export.IntervalOf(f.Answer.Dish),
		Bound:  export.BoundOf(f.Answer.Bound),
		Budget: reply.BudgetOf(f.Answer.Budget), Advice: toAdvice(page.Dish(f).Next()),
		oddLooksJSON: toOddLooks(f.Reading), Pot: toPot(f.Reading.Trial), GramsPerTsp: toTsp(f.Reading.SpoonWeights),
		Measured: reply.MeasuredOf(f.Reading), Acid: reply.AcidOf(f.Reading, f.OwnSpoons),
		SideBySide: reply.SideBySideOf(f.Reading),
	}
}

// toAdvice converts an advice; null without one.
func toAdvice(a bench.Advice, ok bool) *adviceJSON {
	if !ok {
		return nil
	}
	out := &adviceJSON{Action: string(a.Action), Why: a.Text()}
	if a.Spoon != "" {
		out.Spoon, out.Count = &a.Spoon, &a.Count
	}
	out.Grams = export.Positive(a.Grams)
	return out
}
