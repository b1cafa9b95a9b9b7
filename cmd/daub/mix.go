package main

import (
	"fmt"
	"strings"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/cmd/daub/internal/usage"
	"daub.example/daub/data"
	"daub.example/daub/model"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/repeats"
	"daub.example/daub/model/typed"
	"github.com/spf13/cobra"
)

func (a *app) mixCommand() *cobra.Command {
	var (
		flags  batchFlags
		trial  bool
		level  usage.Level
		on     model.Choice
		asJSON bool
	)
	cmd := &cobra.Command{
		Use:   "mix POWDER=PARTS POWDER=PARTS...",
		Short: "Estimate what a dry mix takes",
		Long: `Estimates how much liquid a dry mix of two to five powders takes, from what each
takes, at the target level of most of them unless --level says otherwise. Parts
are by mass and of any sum: 60 and 40, or 3 and 2. With --total or --jar it says
what goes into a batch.

It is a first estimate: make a trial of the mix. --trial puts the mix on the
shelf as a powder of its own, with a trial set up like those of its powders.`,
		Example: `  daub mix white-clay=60 green-clay=40
  daub mix white-clay=3 oat-flour=1 --total 120 --save "oat mask"
  daub mix white-clay=60 green-clay=40 --trial`,
		Args:              usage.Takes(2, model.MaxMixed, "two to five powders with their parts"),
		ValidArgsFunction: a.completeShares,
		RunE: func(cmd *cobra.Command, args []string) error {
			m, err := a.readMix(cmd, args, &flags, trial, level, on)
			if err != nil {
				return err
			}
			return a.answer(m, asJSON)
		},
	}
	flags.add(cmd)
	cmd.Flags().BoolVar(&trial, "trial", false, "put the mix on the shelf, with an open trial")
	usage.AddLevel(cmd, &level)
	usage.AddChoice(cmd, &on)
	usage.AddJSON(cmd, &asJSON)
	return cmd
}

func (a *app) readMix(
	cmd *cobra.Command, args []string, flags *batchFlags, trial bool, level usage.Level, on model.Choice,
) (pasteAnswer, error) {
	if err := checkPortions(cmd, flags.portions, flags.each); err != nil {
		return pasteAnswer{}, err
	}
	if idle := flags.idle(); !flags.wanted() && len(idle) > 0 {
		return pasteAnswer{}, usage.Misused("%s is for a batch: give a size with it, as in --total 120",
			strings.Join(idle, ", "))
	}
	names, parts, err := partsOf(args)
	if err != nil {
		return pasteAnswer{}, err
	}
	c, err := a.choose(names...)
	if err != nil {
		return pasteAnswer{}, err
	}
	m := pasteAnswer{chosen: c, level: level.Or(model.SharedAim(c.profiles()...)), parts: parts}
	mixed := make([]kitchen.MixPart, len(parts))
	for i, p := range c.profiles() {
		mixed[i] = kitchen.MixPart{Profile: p, Parts: parts[i]}
	}
	mix, refused := kitchen.MixOf(mixed, m.level, on, c.ownSpoons)
	if trial && refused != nil {
		return pasteAnswer{}, fmt.Errorf("no trial of the mix: %w", refused)
	}
	if trial { // before anything is saved: a refusal must leave no recipe behind
		if err := a.nameIsFree(mix.Name()); err != nil {
			return pasteAnswer{}, err
		}
	}
	if err := a.order(cmd, &m, mix, refused, flags); err != nil {
		return pasteAnswer{}, err
	}
	if trial && !m.refused() {
		m.trial, err = a.saveMix(mix)
	}
	return m, err
}

// partsOf reads powders with their parts, in the order given.
func partsOf(args []string) (names []string, parts []float64, err error) {
	for _, text := range args {
		at := strings.LastIndex(text, "=")
		if at < 1 {
			return nil, nil, usage.Misused("%q: give a powder and its parts by mass, as in white-clay=60", text)
		}
		part, err := typed.Part(text[at+1:])
		if err != nil {
			return nil, nil, usage.Misused("%s: %w", text[:at], err)
		}
		names, parts = append(names, strings.TrimSpace(text[:at])), append(parts, part)
	}
	return names, parts, nil
}

// nameIsFree refuses a name that a powder on the shelf has.
func (a *app) nameIsFree(name string) error {
	entries, _ := a.shelf().List()
	for _, e := range entries {
		if repeats.SameName(e.Profile.Powder.Name, name) {
			return usage.Misused("there is %q on the shelf already (%s): go on with it, as in daub trial --plain %s",
				name, e.Path, e.Slug)
		}
	}
	return nil
}

// saveMix saves the mix as a powder with a trial ready to begin.
func (a *app) saveMix(mix kitchen.Paste) (*savedJSON, error) {
	p := mix.Profile()
	p.Trials[0].Started = a.now()
	e, err := a.shelf().Save(data.Entry{Profile: p})
	if err != nil {
		return nil, err
	}
	return &savedJSON{p.Powder.Name, e.Slug, e.Path}, nil
}

// mixed writes the mix's ratio and shares for people.
func (b pasteAnswer) mixed(p *page.Page) {
	p.Say(b.paste.Finding())
	p.Gap()
	var rows [][]string
	for _, part := range b.paste.Powders {
		rows = append(rows, []string{
			page.Handle(part.Powder), model.Number(model.RoundSignificant(100*part.Fraction, 3)),
			page.Ratio(part.Ratio.Rounded().Powder, nil), part.Ratio.Reach.Tested(),
		})
	}
	p.Table([]page.Column{
		{Title: "powder"},
		{Title: "%", Right: true},
		{Title: "g liquid per g"},
		{Title: "tested from"},
	}, rows)
	if b.batch == nil { // a batch has them too
		p.List("Take care:", b.paste.Warnings...)
	} else {
		p.Gap()
	}
}
