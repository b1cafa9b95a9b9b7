package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"time"

	"github.com/spf13/cobra"

	"daub.example/daub/data"
	"daub.example/daub/data/parallel"
	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// listJSON is one powder in the answer of `daub list --json`, a list by name.
type listJSON struct {
	powderJSON
	basisJSON
	levelJSON
	LastTrial  *time.Time `json:"last_trial"` // the newest that counts
	Unfinished int        `json:"unfinished"` // trials still being made
}

// powderJSON says which powder an answer is about.
type powderJSON struct {
	Powder      string   `json:"powder"`
	Lot         string   `json:"lot"`
	Slug        string   `json:"slug"`
	Family      string   `json:"family"`
	File        string   `json:"file"`
	GramsPerTsp *float64 `json:"grams_per_tsp"` // of a level teaspoon; null when none was weighed
}

func (a *app) listCommand() *cobra.Command {
	var (
		level  levelFlag
		asJSON bool
	)
	cmd := &cobra.Command{
		Use:   "list",
		Short: "Say what is on the shelf",
		Long: `Lists every powder and lot with its ratio, each at the level that its newest
trial aims at unless --level says otherwise. Powders are written so that they
can be given to other commands: name@lot. A "?" marks a ratio that was seen
from one side only.`,
		Example: `  daub list
  daub list --level 4 --shelf ~/powders
  daub list --json`,
		Args:              takes(0, 0, "nothing"),
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE:              func(*cobra.Command, []string) error { return a.list(level, asJSON) },
	}
	addLevel(cmd, &level)
	addJSON(cmd, &asJSON)
	return cmd
}

// list answers with every entry that can be read and complains of the others.
func (a *app) list(level levelFlag, asJSON bool) error {
	shelf := a.shelf()
	if _, err := os.Stat(shelf.Dir()); errors.Is(err, fs.ErrNotExist) && a.shelfDir != "" {
		return misused("there is no shelf at %s: check the folder given with --shelf", shelf.Dir())
	}
	visit := shelf.Visit()
	entries, errs := visit.List()
	powders := parallel.Map(entries, func(e data.Entry) powderAnswer { return askPowder(e, level, visit.Drawer) })
	answers := make([]listJSON, len(entries))
	for i, q := range powders {
		answers[i] = listJSON{
			powderJSON: q.powder(), basisJSON: toBasis(q.ratio.Basis), levelJSON: toLevel(q.ratio),
			LastTrial: moment(q.entry.Profile.LastTrial()), Unfinished: len(q.entry.Unfinished()),
		}
	}
	err := a.answer(asJSON, answers, func(p *page) { p.shelf(powders) })
	if len(entries)+len(errs) == 0 {
		a.say("the shelf %s is empty; daub makes the first trial, daub demo shows sample powders", shelf.Dir())
	}
	return a.afterList(err, errs)
}

// afterList says which files of a list could not be read, after the list.
func (a *app) afterList(err error, errs []error) error {
	for _, e := range errs {
		a.complain(e)
	}
	if err == nil && len(errs) > 0 {
		return errSaid
	}
	return err
}

// moment is a time; null when there is none.
func moment(t time.Time) *time.Time {
	if t.IsZero() {
		return nil
	}
	return &t
}

// powderAnswer is one entry, read at one level on its newest basis.
type powderAnswer struct {
	entry  data.Entry
	level  float64
	ratio  model.PowderRatio // not reached, without a bound, when no trial counts
	tspG   float64           // of a level teaspoon; 0 when none was weighed
	bases  []model.Basis
	drawer model.Drawer
}

func askPowder(e data.Entry, level levelFlag, d model.Drawer) powderAnswer {
	p := e.Profile
	q := powderAnswer{entry: e, level: level.or(p.Aim()), bases: p.Bases(), drawer: d}
	q.tspG, _ = p.Scales(model.US, d).Teaspoon()
	q.ratio = model.PowderRatio{Level: q.level}
	if len(q.bases) > 0 {
		q.ratio = q.at(q.bases[0], q.level)[0]
	}
	return q
}

// at reads the powder at several levels.
func (q powderAnswer) at(b model.Basis, levels ...float64) []model.PowderRatio {
	return q.entry.Profile.Ratios(b, levels, q.drawer)
}

func (q powderAnswer) powder() powderJSON {
	p := q.entry.Profile.Powder
	return powderJSON{p.Name, p.Lot, q.entry.Slug, string(p.Kind()), q.entry.Path, data.Positive(q.tspG)}
}

// shelf is the list for a person.
func (p *page) shelf(powders []powderAnswer) {
	if len(powders) == 0 {
		return
	}
	rows := make([][]string, len(powders))
	for i, q := range powders {
		rows[i] = q.row()
	}
	p.table([]column{
		{title: "powder", gives: true},
		{title: "g/tsp", right: true},
		{title: "level", right: true},
		{title: "g liquid per g"},
		{title: "trials", right: true},
		{title: "last"},
	}, rows)
}

func (q powderAnswer) row() []string {
	powder := q.entry.Profile.Powder
	name := powder.Name
	if powder.Lot != "" {
		name += "@" + powder.Lot
	}
	tsp := "-"
	if q.tspG > 0 {
		tsp = model.Grams(q.tspG)
	}
	ratio := ratioCell(q.ratio.Powder, q.ratio.Bound)
	switch {
	case q.ratio.Trials == 0 && len(q.entry.Unfinished()) > 0:
		ratio = "unfinished trial"
	case q.ratio.Powder != nil && q.ratio.Reach == fit.OneSided:
		ratio += " ?"
	}
	last, counting := "-", 0
	if t := q.entry.Profile.LastTrial(); !t.IsZero() {
		last = t.Format(day[:len("2006-01")])
	}
	for _, t := range q.entry.Profile.Trials {
		if t.Used() {
			counting++
		}
	}
	return []string{name, tsp, model.Number(q.level), ratio, fmt.Sprint(counting), last}
}
