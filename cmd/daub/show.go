package main

import (
	"math"

	"github.com/spf13/cobra"

	"daub.example/daub/model"
)

func (a *app) showCommand() *cobra.Command {
	var (
		level  levelFlag
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
		Args:              takes(1, 1, "one powder"),
		ValidArgsFunction: a.completePowder,
		RunE: func(_ *cobra.Command, args []string) error {
			s, err := a.readShow(args[0], level)
			if err != nil {
				return err
			}
			return a.answer(asJSON, s.json(), s.page)
		},
	}
	addLevel(cmd, &level)
	addJSON(cmd, &asJSON)
	return cmd
}

// showAnswer is one powder with all that its trials say.
type showAnswer struct {
	powderAnswer
	table  []model.PowderRatio // on the newest basis; empty when no trial counts
	others []model.PowderRatio // on the other bases, at the level asked for
	dishes []dishFit           // every trial by itself, at the level asked for
}

func (a *app) readShow(powder string, level levelFlag) (showAnswer, error) {
	shelf := a.shelf().Visit()
	entry, err := shelf.Find(powder)
	if err == nil {
		err = shelf.Err
	}
	if err != nil {
		return showAnswer{}, err
	}
	drawer := shelf.Drawer
	s := showAnswer{powderAnswer: askPowder(entry, level, drawer)}
	for i, b := range s.bases {
		if i == 0 {
			s.table = s.at(b, model.TableLevels(s.level)...)
			continue
		}
		s.others = append(s.others, s.at(b, s.level)...)
	}
	for i, t := range entry.Profile.Trials {
		// A step that cannot be reckoned would have been refused on reading.
		reading, err := model.Read(entry.Profile, t, drawer)
		if err != nil {
			return showAnswer{}, err
		}
		s.dishes = append(s.dishes, dishFit{entry.Profile, i, reading, reading.At(s.level)})
	}
	return s, nil
}

// marks are the marks seen in any trial that is not set aside, each once.
func (s showAnswer) marks() []string {
	var all model.Trial
	for _, t := range s.entry.Profile.Trials {
		if t.SetAside == "" {
			all.Steps = append(all.Steps, t.Steps...)
		}
	}
	return all.MarksSeen()
}

// plausibility holds the answer against handbook values.
func (s showAnswer) plausibility() []string {
	median := math.NaN()
	if s.ratio.Powder != nil {
		median = s.ratio.Powder.Median
	}
	return s.entry.Profile.Powder.Plausibility(s.ratio.Basis.Liquid, s.level, median, s.tspG/model.USTeaspoonML)
}
