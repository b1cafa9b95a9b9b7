package main

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"slices"
	"time"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/cmd/daub/internal/reply"
	"daub.example/daub/cmd/daub/internal/usage"
	"daub.example/daub/data"
	"daub.example/daub/data/parallel"
	"daub.example/daub/model"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/readings"
	"daub.example/daub/model/repeats"
	"github.com/spf13/cobra"
)

// listJSON is one powder in the answer of `daub list --json`, a list by name.
type listJSON struct {
	powderJSON
	reply.Basis
	reply.AtLevel
	LastTrial  *time.Time `json:"last_trial"` // the newest that counts
	Unfinished int        `json:"unfinished"` // trials still being made
	Archived   bool       `json:"archived"`   // only with --all

	ByReading []reply.ByReading `json:"by_reading"` // if no trial has a look; one for each scale
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
		level  usage.Level
		on     model.Choice
		all    bool
		asJSON bool
	)
	cmd := &cobra.Command{
		Use:   "list",
		Short: "Say what is on the shelf",
		Long: `Lists every powder and lot with its ratio, each at the level that its newest
trial aims at unless --level says otherwise. Powders are written so that they
can be given to other commands: name@lot. A "?" marks a ratio that was tested
from one side only. Liquid and rest stand beside where they differ; then there
may be no room for the number of trials and the newest, which daub show says.
Archived powders are left out without --all.`,
		Example: `  daub list
  daub list --level 4 --shelf ~/powders
  daub list --json`,
		Args:              usage.Takes(0, 0, "nothing"),
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE:              func(*cobra.Command, []string) error { return a.list(level, on, all, asJSON) },
	}
	cmd.Flags().BoolVar(&all, "all", false, "archived powders too")
	usage.AddLevel(cmd, &level)
	usage.AddChoice(cmd, &on)
	usage.AddJSON(cmd, &asJSON)
	return cmd
}

// listedInFull is the most powders without a ratio table that a list works out in
// full, so that it agrees with show to the last digit. A longer list uses a sketch
// of the fit, which may be one off in the third digit (chosen: 100 take half a
// second).
const listedInFull = 100

// list lists every entry that can be read, and reports the others.
func (a *app) list(level usage.Level, on model.Choice, all, asJSON bool) error {
	shelf := a.shelf()
	if err := a.shelfIsThere(); err != nil {
		return err
	}
	visit := shelf.Visit()
	entries, errs := visit.List()
	onShelf := len(entries)
	if !all {
		entries = slices.DeleteFunc(entries, func(e data.Entry) bool { return e.Profile.Powder.Archived })
	}
	a.sayUntried(on, profiles(entries)...)
	powders := parallel.Map(entries, func(e data.Entry) powderAnswer {
		q := powderOf(e, level, on, visit.OwnSpoons)
		if len(q.bases) == 0 {
			return q
		}
		full := len(entries) <= listedInFull && !data.InTable(e, q.level)
		if asJSON || full { // JSON gives the weight of a teaspoon, which the file lacks
			q.ratio = q.at(q.bases[0], q.level)[0]
		} else {
			q.ratio = visit.Ratio(e, q.bases[0], q.level)
		}
		return q
	})
	err := a.answer(listAnswer(powders), asJSON)
	if n := onShelf - len(entries); n > 0 {
		a.say("%s left out: daub list --all", model.Plural(n, "archived powder"))
	}
	if onShelf+len(errs) == 0 {
		a.say("the shelf %s is empty; daub makes the first trial, daub demo shows sample powders", shelf.Dir())
	}
	return a.afterList(err, errs)
}

// shelfIsThere refuses a shelf that was named and does not exist.
func (a *app) shelfIsThere() error {
	dir, named := a.shelf().Dir(), "with --shelf"
	switch {
	case a.shelfDir != "":
	case a.shelfNamed:
		named = "in $DAUB_SHELF"
	default:
		return nil // the user's own shelf may be empty
	}
	if _, err := os.Stat(dir); errors.Is(err, fs.ErrNotExist) {
		return usage.Misused("there is no shelf at %s: check the folder given %s", dir, named)
	}
	return nil
}

// afterList reports the files that could not be read, after the list.
func (a *app) afterList(err error, errs []error) error {
	for _, e := range errs {
		a.complain(e)
	}
	if err == nil && len(errs) > 0 {
		return errSaid
	}
	return err
}

// powderAnswer is one entry, read at one level on its main basis or the chosen one.
type powderAnswer struct {
	entry     data.Entry
	level     float64
	ratio     repeats.Ratio // if no trial counts: not reached, without a bound
	tspG      float64       // of a level teaspoon; 0 if none was weighed
	bases     []model.Basis
	ownSpoons model.OwnSpoons
}

// askPowder reads an entry with its ratio.
func askPowder(e data.Entry, level usage.Level, on model.Choice, own model.OwnSpoons) powderAnswer {
	q := powderOf(e, level, on, own)
	if len(q.bases) > 0 {
		q.ratio = q.at(q.bases[0], q.level)[0]
	}
	return q
}

// powderOf reads an entry without its ratio.
func powderOf(e data.Entry, level usage.Level, on model.Choice, own model.OwnSpoons) powderAnswer {
	p := e.Profile
	q := powderAnswer{entry: e, level: level.Or(p.Aim()), bases: on.Among(p.Bases()), ownSpoons: own}
	q.tspG, _ = p.SpoonWeights(p.SpoonSet(), own).Teaspoon()
	q.ratio = repeats.Ratio{Level: q.level, OnlySideBySide: p.OnlySideBySide()}
	return q
}

// at returns the powder's ratios at several levels.
func (q powderAnswer) at(b model.Basis, levels ...float64) []repeats.Ratio {
	return repeats.Ratios(q.entry.Profile, b, levels, q.ownSpoons)
}

func (q powderAnswer) powder() powderJSON {
	return named(q.entry, q.tspG)
}

// listAnswer is the powders of the shelf, by name.
type listAnswer []powderAnswer

func (l listAnswer) json() any {
	out := make([]listJSON, len(l))
	for i, q := range l {
		at := reply.LevelOf(q.ratio)
		trials, newest := q.counted()
		at.Trials = trials
		out[i] = listJSON{
			powderJSON: q.powder(), Basis: reply.BasisOf(q.ratio.Basis), AtLevel: at,
			LastTrial: reply.Moment(newest), Unfinished: len(q.entry.Profile.Unfinished()),
			Archived: q.entry.Profile.Powder.Archived, ByReading: reply.ByReadingOf(q.byReading()),
		}
	}
	return out
}

// text writes the list for people.
func (l listAnswer) text(p *page.Page) {
	if len(l) == 0 {
		return
	}
	columns := []page.Column{
		{Title: "powder"},
		{Title: "g/tsp", Right: true},
		{Title: "level", Right: true},
		{Title: "g liquid per g"},
	}
	liquids, rests := l.apart()
	if liquids {
		columns = append(columns, page.Column{Title: "in"})
	}
	if rests {
		columns = append(columns, page.Column{Title: "rest"})
	}
	rows := make([][]string, len(l))
	for i, q := range l {
		rows[i] = q.row(liquids, rests)
	}
	p.TableInRoom(2, append(columns, page.Column{Title: "trials", Right: true}, page.Column{Title: "last"}), rows)
}

// apart reports whether the ratios are for different liquids, and for rests more
// than threefold apart.
func (l listAnswer) apart() (liquids, rests bool) {
	var first *model.Basis
	for _, q := range l {
		b := q.ratio.Basis
		switch {
		case b.Liquid == "":
		case first == nil:
			first = &b
		default:
			liquids = liquids || !model.SameLiquid(b.Liquid, first.Liquid)
			rests = rests || !model.ComparableRests(b.RestS, first.RestS)
		}
	}
	return liquids, rests
}

// byReading returns the answers by reading of a powder without looks.
func (q powderAnswer) byReading() []readings.Powder {
	if !readings.Only(q.entry.Profile) {
		return nil
	}
	return readings.Pools(q.entry.Profile, q.ownSpoons)
}

// counted returns how many trials count, and when the newest began. For a powder
// tried only side by side, those trials count.
func (q powderAnswer) counted() (trials int, newest time.Time) {
	if q.ratio.OnlySideBySide {
		return q.entry.Profile.FinishedTrials()
	}
	return q.ratio.Trials, q.entry.Profile.LastTrial()
}

func (q powderAnswer) row(liquids, rests bool) []string {
	tsp := "-"
	if q.tspG > 0 {
		tsp = model.SpoonGrams(q.tspG)
	}
	ratio := page.RatioOf(q.ratio)
	switch {
	case q.ratio.Trials == 0 && len(q.entry.Profile.Unfinished()) > 0:
		ratio = "unfinished trial"
	case q.ratio.Powder != nil && q.ratio.Reach == fit.OneSided:
		ratio += " ?"
	default:
		if all := q.byReading(); len(all) > 0 {
			ratio = all[0].Brief()[0]
		}
	}
	last := "-"
	trials, newest := q.counted()
	if !newest.IsZero() {
		last = newest.Format("2006-01")
	}
	cells := []string{page.Handle(q.entry.Profile.Powder), tsp, model.Number(q.level), ratio}
	liquid, rest := "-", "-"
	if b := q.ratio.Basis; b.Liquid != "" {
		liquid, rest = b.Liquid, model.Seconds(b.RestS)
	}
	if liquids {
		cells = append(cells, liquid)
	}
	if rests {
		cells = append(cells, rest)
	}
	return append(cells, fmt.Sprint(trials), last)
}
