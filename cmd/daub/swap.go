package main

import (
	"cmp"
	"fmt"
	"strings"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/cmd/daub/internal/reply"
	"daub.example/daub/cmd/daub/internal/usage"
	"daub.example/daub/data"
	"daub.example/daub/data/export"
	"daub.example/daub/model"
	"daub.example/daub/model/care"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/readings"
	"github.com/spf13/cobra"
)

// swapJSON is the answer of `daub swap --json`: one powder replaced by another. If
// the two cannot be compared (pair.refused says why) there are no new amounts. An
// amount that was given or kept has no width.
type swapJSON struct {
	Level     float64          `json:"level"`
	Liquid    *string          `json:"liquid"` // null when refused
	Keep      string           `json:"keep"`   // liquid, powder or total
	From      sideJSON         `json:"from"`
	To        sideJSON         `json:"to"`
	OldPowder *export.Interval `json:"old_powder_g"`
	OldLiquid *export.Interval `json:"old_liquid_g"`
	NewPowder *export.Interval `json:"new_powder_g"`
	NewLiquid *export.Interval `json:"new_liquid_g"`
	Spoons    *spoonSumJSON    `json:"spoons"` // the new powder; null if it cannot be measured by spoons
	Notes     []string         `json:"notes"`
	Acid      *reply.AcidOffer `json:"acid"` // for the new paste; null without an acid test that reached its target
	Pair      pairJSON         `json:"pair"`
	Sentence  string           `json:"sentence"`
	Deferral  string           `json:"deferral"`
}

// swapFlags holds the flags of a swap.
type swapFlags struct {
	level          usage.Level
	on             model.Choice
	powder, liquid float64 // g
	keep           string
	spoons         []string
}

// amounts names the flags given that are of no use without a second powder.
func (f swapFlags) amounts() string {
	var given []string
	for _, flag := range []struct {
		name  string
		given bool
	}{{"--powder", f.powder > 0}, {"--liquid", f.liquid > 0}, {"--keep", f.keep != ""}} {
		if flag.given {
			given = append(given, flag.name)
		}
	}
	return strings.Join(given, " and ")
}

func (a *app) swapCommand() *cobra.Command {
	var (
		flags  swapFlags
		asJSON bool
	)
	cmd := &cobra.Command{
		Use:   "swap FROM [TO --powder G | --liquid G]",
		Short: "Put one powder in another's place",
		Long: `Says how much of another powder, with how much liquid, comes to the same level
as the amounts given: the target level of FROM unless --level says otherwise.
With one of the two amounts the other follows from FROM's ratio. The liquid is
kept unless --keep says otherwise.

Without TO it lists what could stand in for FROM, first what stands nearest to
its level gram for gram.

It also says whether the same grams would come out as thick. Exit code 3: the
two cannot be compared. In a saved recipe: daub recipe swap.`,
		Example: `  daub swap "white clay"
  daub swap "white clay" "green clay" --powder 20
  daub swap white-clay green-clay --powder 20 --liquid 15 --keep total
  daub swap white-clay green-clay --liquid 15 --json`,
		Args:              usage.Takes(1, 2, "one or two powders, what is there and what takes its place"),
		ValidArgsFunction: a.completePowders(2),
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) == 1 {
				s, err := a.readStandIns(args[0], flags)
				if err != nil {
					return err
				}
				return a.answer(s, asJSON)
			}
			s, err := a.readSwap(args[0], args[1], flags)
			if err != nil {
				return err
			}
			return a.answer(s, asJSON)
		},
	}
	usage.AddAmount(cmd, &flags.powder, usage.Grams, "powder", "grams of FROM")
	usage.AddAmount(cmd, &flags.liquid, usage.Grams, "liquid", "grams of liquid with it")
	usage.AddKeep(cmd, &flags.keep, "liquid")
	usage.AddSpoons(cmd, &flags.spoons)
	usage.AddLevel(cmd, &flags.level)
	usage.AddChoice(cmd, &flags.on)
	usage.AddJSON(cmd, &asJSON)
	return cmd
}

// swapAnswer is a swap, or why there is none.
type swapAnswer struct {
	from, to data.Entry
	pair     kitchen.Pair
	swap     *kitchen.Swap // nil when refused
	spoons   *kitchen.SpoonSum
	keep     kitchen.Keep
	measured []readings.Pair
	offer    readings.Offer // acid for the new paste; its total is 0 without one
}

func (a *app) readSwap(from, to string, flags swapFlags) (swapAnswer, error) {
	if flags.powder == 0 && flags.liquid == 0 {
		return swapAnswer{}, usage.Misused("swap how much? give --powder G, --liquid G or both, as in --powder 20")
	}
	keep, err := usage.KeepOf(flags.keep)
	if err != nil {
		return swapAnswer{}, err
	}
	chosen, err := a.choose(from, to)
	if err != nil {
		return swapAnswer{}, err
	}
	hand, err := usage.AtHand(flags.spoons, chosen.ownSpoons, chosen.entries[1].Profile)
	if err != nil {
		return swapAnswer{}, err
	}
	a.sayUntried(flags.on, chosen.profiles()...)
	c, err := kitchen.Compare(chosen.entries, flags.level.Or(chosen.aim()), flags.on, chosen.ownSpoons)
	if err != nil {
		return swapAnswer{}, err
	}
	s := swapAnswer{from: chosen.entries[0], to: chosen.entries[1], pair: c.Against(0)[0]}
	s.keep = cmp.Or(keep, kitchen.KeepLiquid)
	s.measured = readings.Against(s.from.Profile, s.to.Profile, chosen.ownSpoons)
	if s.pair.Refused != "" {
		return s, nil
	}
	swap, err := s.pair.Swap(flags.powder, flags.liquid, s.keep)
	if err != nil {
		return swapAnswer{}, usage.Wrong(err)
	}
	s.swap = &swap
	s.offer, _ = readings.OfferOf(s.to.Profile, s.pair.B.Ratio.Basis.Liquid,
		swap.NewPowder.Median+swap.NewLiquid.Median, chosen.ownSpoons)
	if sum, err := swap.Spoons(hand); err == nil {
		s.spoons = &sum
	}
	return s, nil
}

func (s swapAnswer) json() any {
	out := swapJSON{
		Level: s.pair.A.Ratio.Level, Keep: string(s.keep), From: toSide(s.from, s.pair.A), To: toSide(s.to, s.pair.B),
		Spoons: toSpoonSum(s.spoons), Notes: []string{}, Pair: toPair(s.from.Slug, s.to.Slug, s.pair, s.measured),
		Sentence: s.sentence(), Deferral: care.Deferral,
	}
	if w := s.swap; w != nil {
		out.Liquid = &s.pair.A.Ratio.Basis.Liquid
		out.OldPowder, out.OldLiquid = export.IntervalOf(&w.OldPowder), export.IntervalOf(&w.OldLiquid)
		out.NewPowder, out.NewLiquid = export.IntervalOf(&w.NewPowder), export.IntervalOf(&w.NewLiquid)
		out.Notes, out.Acid = reply.Filled(w.Notes), reply.OfferOf(s.offer, s.offer.TotalG > 0)
	}
	return out
}

// refused reports whether there is no swap.
func (s swapAnswer) refused() bool { return s.swap == nil }

func (s swapAnswer) sentence() string {
	if s.swap == nil {
		return "No swap: " + s.pair.WhyNot()
	}
	return s.swap.Sentence()
}

// text writes the swap for people.
func (s swapAnswer) text(p *page.Page) {
	if s.swap == nil {
		p.Say(s.sentence())
	} else {
		if s.pair.RestsApart {
			p.Say(s.pair.Warnings[0])
			p.Gap()
		}
		found := s.swap.Finding()
		if s.pair.NextTrial != "" {
			found += " " + model.Capital(s.pair.NextTrial) + "."
		}
		p.Say(found)
		if s.spoons != nil {
			p.Say("By level spoons: " + s.spoons.Sentence())
		}
		for _, n := range s.swap.Notes {
			p.Say(n)
		}
		if s.offer.TotalG > 0 {
			p.Say(s.offer.Sentence())
		}
	}
	texts := page.PairNotes(s.pair, s.sentence())
	for _, at := range s.measured {
		texts = append(texts, at.Sentence(s.from.Profile.Powder.Title(), s.to.Profile.Powder.Title()))
	}
	p.List("Also:", texts...)
	p.Gap()
	p.Say(care.Deferral)
}

// standInsJSON is the answer of `daub swap --json` for one powder.
type standInsJSON struct {
	compareJSON
	Refused *string `json:"refused"` // why nothing could be compared; null if something was
}

// standInsAnswer lists the powders that could replace one, the most alike first.
type standInsAnswer struct {
	chosen
	level float64
	side  kitchen.Side // of the powder to replace
	found []kitchen.StandIn
	left  string // what the list leaves out, and why; "" nothing
}

func (a *app) readStandIns(from string, flags swapFlags) (standInsAnswer, error) {
	if flags.powder > 0 || flags.liquid > 0 || flags.keep != "" {
		return standInsAnswer{}, usage.Misused("which powder takes the place of %s? name it too, or leave %s out for "+
			"a list of what could", from, flags.amounts())
	}
	c, err := a.choose(from)
	if err != nil {
		return standInsAnswer{}, err
	}
	a.sayUntried(flags.on, c.profiles()...)
	shelf, _ := a.shelf().List() // a profile that cannot be read is left out; daub check says why
	s := standInsAnswer{chosen: c, level: flags.level.Or(c.aim())}
	others := kitchen.Candidates(c.entries[0], shelf, flags.on, 0)
	s.found, err = kitchen.StandIns(c.entries[0], others, s.level, flags.on, c.ownSpoons)
	if err != nil {
		return s, err
	}
	s.left = kitchen.LeftOut(c.entries[0], shelf, s.found, s.level, flags.on)
	if s.refused() {
		p := c.entries[0].Profile
		s.side = kitchen.SideOf(p, p.BasisFor(flags.on), s.level, c.ownSpoons)
	} else {
		s.side = s.found[0].Pair.A
	}
	return s, nil
}

// refused reports whether there is nothing to choose from.
func (s standInsAnswer) refused() bool { return len(s.found) == 0 }

func (s standInsAnswer) json() any {
	from := s.entries[0]
	out := standInsJSON{compareJSON: compareJSON{
		Level: s.level, Powders: []sideJSON{toSide(from, s.side)}, Pairs: []pairJSON{}, Deferral: care.Deferral,
	}}
	if s.refused() {
		out.Refused = reply.OrNull(s.whyNot())
	}
	for _, f := range s.found {
		out.Powders = append(out.Powders, toSide(f.Entry, f.Pair.B))
		measured := readings.Against(from.Profile, f.Entry.Profile, s.ownSpoons)
		out.Pairs = append(out.Pairs, toPair(from.Slug, f.Entry.Slug, f.Pair, measured))
	}
	return out
}

// whyNot says why there is nothing to choose from.
func (s standInsAnswer) whyNot() string {
	return kitchen.NoStandIn(s.entries[0].Profile.Powder, s.level)
}

// text writes the list for people.
func (s standInsAnswer) text(p *page.Page) {
	from := s.entries[0].Profile.Powder.Title()
	if s.refused() {
		p.Say(s.whyNot())
		return
	}
	p.Say(fmt.Sprintf("The same grams of another powder, instead of %s (wanted: %s), the nearest first:", from,
		model.LevelName(s.level)))
	p.Gap()
	var rows [][]string
	for _, f := range s.found {
		factor, _ := page.Factor(f.Pair)
		rows = append(rows, []string{
			page.Handle(f.Entry.Profile.Powder), kitchen.StandingCell(*f.Pair.StandsAt), f.Pair.Verdict.Short(),
			factor,
		})
	}
	p.Table([]page.Column{
		{Title: "powder"}, {Title: "comes out at"}, {Title: "gram for gram"}, {Title: "times the liquid"},
	}, rows)
	p.Gap()
	for _, note := range []string{kitchen.RestsOf(s.side, s.found), s.left} {
		if note != "" {
			p.Say(note)
		}
	}
	p.Gap()
	p.Say("Thickness is not all: daub compare sets families, behaviour and allergens side by side.")
	p.Gap()
	p.Say(care.Deferral)
}
