package main

import (
	"fmt"

	"github.com/spf13/cobra"

	"daub.example/daub/model"
)

// compareJSON is the answer of `daub compare --json`.
type compareJSON struct {
	Level    float64    `json:"level"`
	Powders  []sideJSON `json:"powders"` // in the order asked
	Pairs    []pairJSON `json:"pairs"`   // every other powder against the first
	Deferral string     `json:"deferral"`
}

func (a *app) compareCommand() *cobra.Command {
	var (
		level  levelFlag
		asJSON bool
	)
	cmd := &cobra.Command{
		Use:   "compare POWDER POWDER...",
		Short: "Set two to six powders side by side",
		Long: `Sets two to six powders side by side at one level, the aim of the first one
unless --level says otherwise, and says of each other one whether it can stand
in for the first. Ratios in different liquids are never compared. A "?" marks a
ratio that was seen from one side only.`,
		Example: `  daub compare "white clay" "green clay"
  daub compare white-clay green-clay@2026-04 oat-flour --level 4
  daub compare white-clay green-clay --json`,
		Args:              takes(model.MinCompared, model.MaxCompared, "two to six powders"),
		ValidArgsFunction: a.completePowders(model.MaxCompared),
		RunE: func(_ *cobra.Command, args []string) error {
			chosen, err := a.choose(args...)
			if err != nil {
				return err
			}
			c, err := model.Compare(chosen.profiles(), level.or(chosen.aim()), chosen.drawer)
			if err != nil {
				return err
			}
			return a.answer(asJSON, comparison(chosen, c), func(p *page) { p.comparison(c) })
		},
	}
	addLevel(cmd, &level)
	addJSON(cmd, &asJSON)
	return cmd
}

func comparison(chosen chosen, c model.Comparison) compareJSON {
	out := compareJSON{Level: c.Level, Deferral: model.Deferral}
	for i, s := range c.Sides {
		out.Powders = append(out.Powders, toSide(chosen.entries[i], s))
	}
	slugs := chosen.slugs()
	for i, p := range c.Against(0) {
		out.Pairs = append(out.Pairs, toPair(slugs[0], slugs[i+1], p))
	}
	return out
}

// comparison is the powders for a person.
func (p *page) comparison(c model.Comparison) {
	p.line("%s", fmt.Sprintf("At %s:", model.LevelName(c.Level)))
	p.gap()
	p.sides(c.Sides)
	for _, pair := range c.Against(0) {
		p.pair(pair)
	}
	p.gap()
	p.say("", "", model.Deferral)
}
