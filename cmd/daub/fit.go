package main

import (
	"errors"
	"fmt"
	"io/fs"

	"github.com/spf13/cobra"

	"daub.example/daub/data"
	"daub.example/daub/model"
)

// fitJSON is the answer of `daub fit --json`: what one dish says of one level.
type fitJSON struct {
	Powder string             `json:"powder"`
	Lot    string             `json:"lot"`
	Level  float64            `json:"level"`
	Trial  int                `json:"trial"`  // from 1, as in the file
	Looks  int                `json:"looks"`  // those that count
	Reach  string             `json:"reach"`  // bracketed, one-sided or not-reached
	Fit    *data.IntervalJSON `json:"fit"`    // from the looks alone; null when not reached
	Ratio  *data.IntervalJSON `json:"ratio"`  // with what the masses do not know; null when not reached
	Bound  *data.RangeJSON    `json:"bound"`  // when not reached; null without a look
	Budget *budgetJSON        `json:"budget"` // of ratio; null when not reached
	Advice *adviceJSON        `json:"advice"` // what to do next for this level; null where nothing can be said
}

// adviceJSON is what to do next. Spoon and count are null for an addition by
// weight, grams too when nothing is to be added.
type adviceJSON struct {
	Action string   `json:"action"` // powder, liquid, weigh or stop
	Spoon  *string  `json:"spoon"`
	Count  *int     `json:"count"`
	Grams  *float64 `json:"grams"`
	Why    string   `json:"why"`
}

func (a *app) fitCommand() *cobra.Command {
	var (
		level  levelFlag
		trial  int
		asJSON bool
	)
	cmd := &cobra.Command{
		Use:   "fit FILE",
		Short: "Say what one dish takes, from a file anywhere",
		Long: `Reads one trial of a file, which need not be on a shelf, and says what this
dish takes. Without --trial it is the newest trial that is done and not set
aside, else the newest that is open.`,
		Example: `  daub fit oat.toml
  daub fit oat.toml --level 4.5 --trial 2
  daub fit oat.toml --json`,
		Args:              takes(1, 1, "one file"),
		ValidArgsFunction: completeFiles,
		RunE: func(cmd *cobra.Command, args []string) error {
			f, err := a.readFit(args[0], trial, cmd.Flags().Changed("trial"), level)
			if err != nil {
				return err
			}
			return a.answer(asJSON, f.json(), f.page)
		},
	}
	addLevel(cmd, &level)
	cmd.Flags().IntVar(&trial, "trial", 0, "the trial by its number `N` in the file, from 1")
	_ = cmd.RegisterFlagCompletionFunc("trial", cobra.NoFileCompletions)
	addJSON(cmd, &asJSON)
	return cmd
}

// dishFit is one trial of a file, read at one level.
type dishFit struct {
	profile model.Profile
	trial   int // from 0
	reading model.Reading
	answer  model.Answer
}

// readFit reads a trial: the one with the given number, or, when none is
// chosen, the one to be taken.
func (a *app) readFit(file string, asked int, chosen bool, level levelFlag) (dishFit, error) {
	drawer, err := a.shelf().Spoons()
	if err != nil {
		return dishFit{}, err
	}
	p, err := readProfile(file, drawer)
	if err != nil {
		return dishFit{}, err
	}
	n := len(p.Trials)
	if n == 0 {
		return dishFit{}, fmt.Errorf("fit %s: there is no trial in it; make one at the bench", file)
	}
	i := asked - 1
	switch {
	case !chosen:
		if i = pickTrial(p); i < 0 {
			return dishFit{}, fmt.Errorf("fit %s: every trial in it is set aside; --trial N reads one all the same", file)
		}
	case i < 0 || i >= n:
		return dishFit{}, misused("fit %s: there is no trial %d in it; give --trial 1 to %d", file, asked, n)
	case p.Trials[i].SetAside != "":
		a.say("trial %d is set aside (%s): it does not count for the powder", asked, p.Trials[i].SetAside)
	}
	reading, err := model.Read(p, p.Trials[i], drawer)
	if err != nil {
		return dishFit{}, fmt.Errorf("fit %s: trial %d, %w", file, i+1, err)
	}
	return dishFit{p, i, reading, reading.At(level.or(reading.Trial.Aim))}, nil
}

// readProfile reads a profile from a file anywhere.
func readProfile(file string, d model.Drawer) (model.Profile, error) {
	p, err := data.ReadPowder(file, d)
	if errors.Is(err, fs.ErrNotExist) {
		err = fmt.Errorf("read a profile: %w; check the path", err)
	}
	return p, err
}

// pickTrial is the newest trial that counts, else the newest that is open; of
// trials begun together the later in the file. It is -1 without any.
func pickTrial(p model.Profile) int {
	counts, open := -1, -1
	newer := func(than, i int) int {
		if than >= 0 && p.Trials[than].Started.After(p.Trials[i].Started) {
			return than
		}
		return i
	}
	for i, t := range p.Trials {
		switch {
		case t.Used():
			counts = newer(counts, i)
		case t.SetAside == "":
			open = newer(open, i)
		}
	}
	if counts >= 0 {
		return counts
	}
	return open
}

func (f dishFit) json() fitJSON {
	return fitJSON{
		Powder: f.profile.Powder.Name, Lot: f.profile.Powder.Lot,
		Level: f.answer.Level, Trial: f.trial + 1, Looks: f.reading.Looks(),
		Reach: f.answer.Reach.String(),
		Fit:   data.ToInterval(f.answer.Ratio), Ratio: data.ToInterval(f.answer.Dish),
		Bound: data.ToBound(f.answer.Bound), Budget: toBudget(f.answer.Budget), Advice: f.advice(),
	}
}

// advice is what to do next for the level asked for; a trial that is set aside
// or done gets it too: it may be opened again, or repeated.
func (f dishFit) advice() *adviceJSON {
	a, ok := f.next()
	if !ok {
		return nil
	}
	out := &adviceJSON{Action: string(a.Action), Why: a.Why}
	if a.Spoon != "" {
		out.Spoon, out.Count = &a.Spoon, &a.Count
	}
	out.Grams = data.Positive(a.Grams)
	return out
}

func (f dishFit) next() (model.Advice, bool) {
	r := f.reading
	r.Trial.Aim = f.answer.Level
	return r.Advice()
}

// page is the answer for a person.
func (f dishFit) page(p *page) {
	t := f.reading.Trial
	p.say("", "", f.profile.Powder.Title())
	p.say("", "", fmt.Sprintf("Trial %d of %d, %s: %s g %s, %s, rest %s, looks to the nearest %s.",
		f.trial+1, len(f.profile.Trials), standing(t), model.Grams(t.LiquidG), t.Liquid,
		plural(f.reading.Looks(), "look"), model.Seconds(*t.RestS), nearest(t.LevelStep)))
	p.gap()
	p.say("", "", f.answer.Sentence(t.Liquid))
	if f.answer.Ratio != nil {
		p.say("", "", "The looks alone: "+model.IntervalText(*f.answer.Ratio)+".")
	}
	p.gap()
	f.table(p)
	if f.answer.Budget != nil {
		p.budget(fmt.Sprintf("The interval at %s is made of:", model.LevelName(f.answer.Level)), f.reading.Terms(f.answer))
	}
	if a, ok := f.next(); ok {
		p.list("Next:", nextText(a))
	}
	p.list("Far from where the other looks put it (kept; mend it at the bench if it was a slip):", f.farOut()...)
}

func (f dishFit) table(p *page) {
	var rows [][]string
	for _, r := range f.reading.Answers(model.TableLevels(f.answer.Level)) {
		rows = append(rows, []string{marked(r.Level, f.answer.Level), ratioCell(r.Dish, r.Bound), ratioCell(r.PerTsp, nil), r.Reach.String()})
	}
	p.table([]column{{title: "  level"}, {title: "g liquid per g powder"}, {title: "g per level tsp"}, {title: "reach"}}, rows)
}

// nextText is an advice as a sentence.
func nextText(a model.Advice) string {
	switch a.Action {
	case model.ActStop, model.ActWeigh:
		return string(a.Action) + ": " + a.Why
	default:
		return fmt.Sprintf("add %s, %s", a.Action, a.Why)
	}
}

// farOut says which looks are hardly what the others lead to expect.
func (f dishFit) farOut() []string {
	var texts []string
	for _, i := range f.reading.FarOut() {
		dish := f.reading.Dishes[i]
		texts = append(texts, fmt.Sprintf("step %d: level %s at %s g %s per g powder",
			i+1, model.Number(f.reading.Trial.Steps[i].Level), model.RatioText(dish.Ratio()), f.reading.Trial.Liquid))
	}
	return texts
}
