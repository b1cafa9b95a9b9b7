package main

import (
	"fmt"
	"math"
	"strings"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/cmd/daub/internal/reply"
	"daub.example/daub/cmd/daub/internal/usage"
	"daub.example/daub/data"
	"daub.example/daub/data/export"
	"daub.example/daub/model"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/repeats"
	"daub.example/daub/model/typed"
	"github.com/spf13/cobra"
)

// spoonsJSON is the answer of `daub spoons --json`.
type spoonsJSON struct {
	powderJSON
	Asked string `json:"asked"` // grams or spoons: the one that was given
	spoonSumJSON
	Level      *float64 `json:"level"`       // of level_shift; null without a ratio there
	LevelShift *float64 `json:"level_shift"` // how many levels thicker the rounding makes a paste
	Sentence   string   `json:"sentence"`
}

// spoonSumJSON is a sum of level spoons of one powder.
type spoonSumJSON struct {
	// Text is the sum of spoons, or begins "weigh it" if spoons are too coarse; the
	// nearest sum still follows.
	Text         string           `json:"text"`
	Weigh        *string          `json:"weigh"`  // why weighing is better; null if spoons do
	Spoons       []spoonCountJSON `json:"spoons"` // the largest first
	Grams        *float64         `json:"grams"`  // what they hold
	WantedG      *float64         `json:"wanted_g"`
	ErrorG       *float64         `json:"error_g"` // grams too much in the spoons
	ErrorPercent *float64         `json:"error_percent"`
}

// spoonCountJSON is so many level spoons of one size.
type spoonCountJSON struct {
	Spoon string   `json:"spoon"`
	Count int      `json:"count"`
	EachG *float64 `json:"each_g"`
	reply.Size
}

func toSpoonSum(s *kitchen.SpoonSum) *spoonSumJSON {
	if s == nil {
		return nil
	}
	out := spoonSumJSON{
		Text: s.String(), Spoons: []spoonCountJSON{}, Grams: export.Number(s.Grams), WantedG: export.Number(s.WantedG),
		ErrorG: export.Number(s.ErrorG()), ErrorPercent: export.Number(s.ErrorPercent()), Weigh: reply.OrNull(s.Weigh),
	}
	if s.Weigh != "" {
		out.Text = "weigh it"
	}
	for _, c := range s.Spoons {
		out.Spoons = append(out.Spoons, spoonCountJSON{c.Spoon, c.Count, export.Number(c.EachG), reply.SizeOf(c.Size)})
	}
	return &out
}

func (a *app) spoonsCommand() *cobra.Command {
	var (
		spoons []string
		level  usage.Level
		on     model.Choice
		asJSON bool
	)
	cmd := &cobra.Command{
		Use:   "spoons POWDER GRAMS|SPOONS",
		Short: "Turn grams into level spoons, and back",
		Long: `Says which level spoons come nearest to so many grams of a powder, and what the
rounding does to the level; or, given spoons, how many grams they hold. It takes
a powder of which a level spoon has been weighed. More than eight spoonfuls, or
less than the smallest spoon, is to be weighed.`,
		Example: `  daub spoons "white clay" 20
  daub spoons white-clay 20 --spoons "1 tbsp,1 tsp,1/4 tsp"
  daub spoons white-clay "2 x 1 tsp + 1/4 tsp"`,
		Args: usage.Takes(2, usage.Many, "a powder, and grams or spoons"),
		ValidArgsFunction: func(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective) {
			if len(args) == 0 {
				return a.completePowder(cmd, args, typed)
			}
			return model.StandardSpoonNames(), cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(_ *cobra.Command, args []string) error {
			s, err := a.readSpoons(args[0], strings.Join(args[1:], " "), spoons, level, on)
			if err != nil {
				return err
			}
			return a.answer(s, asJSON)
		},
	}
	usage.AddSpoons(cmd, &spoons)
	usage.AddLevel(cmd, &level)
	usage.AddChoice(cmd, &on)
	usage.AddJSON(cmd, &asJSON)
	return cmd
}

// spoonsAnswer is grams in spoons, or spoons in grams.
type spoonsAnswer struct {
	entry   data.Entry
	weights model.SpoonWeights
	sum     kitchen.SpoonSum
	grams   bool          // grams were given
	ratio   repeats.Ratio // at the level of the rounding's shift
}

func (a *app) readSpoons(powder, text string, hand []string, level usage.Level, on model.Choice) (spoonsAnswer, error) {
	c, err := a.choose(powder)
	if err != nil {
		return spoonsAnswer{}, err
	}
	p := c.entries[0].Profile
	q := askPowder(c.entries[0], level, on, c.ownSpoons)
	s := spoonsAnswer{entry: c.entries[0], weights: p.SpoonWeights(p.SpoonSet(), c.ownSpoons), ratio: q.ratio}
	at, err := usage.AtHand(hand, c.ownSpoons, p)
	if err != nil {
		return spoonsAnswer{}, err
	}
	if _, known := s.weights.Teaspoon(); !known && !anyWeighed(p) {
		return spoonsAnswer{}, kitchen.Cannot{Why: fmt.Errorf("no level spoon of %s has been weighed: "+
			"weigh one in daub, where p on the shelf opens its page and w there takes the grams", p.Powder.Title())}
	}
	amount, err := typed.SpoonsOf(c.ownSpoons, p).Amount(text, "20 g or 2 x 1 tsp + 1/4 tsp")
	if err != nil {
		return spoonsAnswer{}, usage.Wrong(err)
	}
	if s.grams = amount.Spoons == nil; s.grams {
		s.sum, err = kitchen.SpoonsFor(s.weights, amount.Grams, at)
	} else {
		s.sum, err = kitchen.SpoonsToGrams(s.weights, amount.Spoons)
	}
	if err != nil {
		return spoonsAnswer{}, usage.Wrong(err)
	}
	return s, nil
}

// anyWeighed reports whether a level spoon of the powder was weighed.
func anyWeighed(p model.Profile) bool {
	for _, l := range p.LevelSpoons {
		if _, ok := l.Weight(); ok {
			return true
		}
	}
	return false
}

// shift returns how many levels thicker the rounding makes a paste, by the curve;
// ok is false if unknown.
func (s spoonsAnswer) shift() (levels float64, ok bool) {
	if s.ratio.Curve == nil {
		return 0, false
	}
	there := 1 / s.ratio.Powder.Median
	return s.ratio.Curve.Level(there*s.sum.Grams/s.sum.WantedG).Median - s.ratio.Curve.Level(there).Median, true
}

func (s spoonsAnswer) sentence() string {
	if !s.grams {
		return fmt.Sprintf("%s of %s holds %s g.", s.sum, s.entry.Profile.Powder.Title(), model.Grams(s.sum.Grams))
	}
	return s.sum.Sentence()
}

func (s spoonsAnswer) json() any {
	tsp, _ := s.weights.Teaspoon()
	out := spoonsJSON{
		powderJSON: named(s.entry, tsp), Asked: "spoons", spoonSumJSON: *toSpoonSum(&s.sum), Sentence: s.sentence(),
	}
	if s.grams {
		out.Asked = "grams"
	}
	if levels, ok := s.shift(); ok {
		out.Level, out.LevelShift = &s.ratio.Level, export.Number(levels)
	}
	return out
}

// text writes the spoons for people.
func (s spoonsAnswer) text(p *page.Page) {
	p.Say(s.sentence())
	p.Checked(kitchen.Checked(&s.sum))
	if levels, ok := s.shift(); ok && s.grams && s.sum.Weigh == "" {
		p.Say(fmt.Sprintf("At %s the rounding makes the paste %s.", model.LevelName(s.ratio.Level), shift(levels)))
	}
}

// shift describes a change of so many levels.
func shift(levels float64) string {
	if math.Abs(levels) < 0.1 {
		return "no thicker or thinner to speak of"
	}
	return kitchen.LevelShift(levels)
}
