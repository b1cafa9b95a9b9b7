package main

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/cmd/daub/internal/usage"
	"daub.example/daub/model"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/readings"
	"github.com/spf13/cobra"
)

// saveFlags holds the flags for saving a recipe.
type saveFlags struct {
	name  string
	force bool // write over an existing one
}

func (f *saveFlags) add(cmd *cobra.Command) {
	cmd.Flags().StringVar(&f.name, "save", "", "put it on the shelf as the recipe `NAME`")
	cmd.Flags().BoolVar(&f.force, "force", false, "save over the recipe of that name")
	_ = cmd.RegisterFlagCompletionFunc("save", cobra.NoFileCompletions)
}

// check refuses an empty name, and --force without a name.
func (f *saveFlags) check(cmd *cobra.Command) error {
	given := cmd.Flags().Changed("save")
	f.name = strings.TrimSpace(f.name)
	switch {
	case given && f.name == "":
		return usage.Misused("--save gives the recipe no name: give one, as in --save \"face mask\"")
	case f.force && !given:
		return usage.Misused("--force is for a recipe that is there: give its name with --save")
	}
	return nil
}

// keepChanged saves a changed recipe under its own name, if one was given.
func (a *app) keepChanged(r *recipeAnswer, f saveFlags) error {
	if f.name == "" {
		return nil
	}
	r.recipe.Name, r.recipe.Saved = f.name, a.now()
	saved, err := a.saveRecipe(r.recipe, f.force)
	r.saved = saved
	return err
}

func (a *app) recipeScaleCommand() *cobra.Command {
	var (
		total    float64
		portions int
		each     float64
		save     saveFlags
		asJSON   bool
	)
	cmd := &cobra.Command{
		Use:   "scale RECIPE --total G | --portions N [--each G]",
		Short: "Say what goes into another amount of it",
		Long: `Says what goes into another amount of a recipe, or another number of portions;
--save keeps it as a recipe of its own. The one on the shelf stays as it is. An
allowance in grams stays too, one in percent grows with the total.`,
		Example: `  daub recipe scale "face mask" --total 300
  daub recipe scale face-mask --total 300 --save "big face mask"
  daub recipe scale face-mask --portions 12 --each 15g`,
		Args:              usage.Takes(1, 1, "one recipe"),
		ValidArgsFunction: a.completeRecipe(0),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := cmp.Or(checkPortions(cmd, portions, each), save.check(cmd)); err != nil {
				return err
			}
			if total == 0 && portions == 0 {
				return usage.Misused("scale to what? give --total G or --portions N, as in --total 300")
			}
			r, err := a.readRecipe(args[0])
			if err != nil {
				return err
			}
			was := r.recipe
			if r.recipe, err = resized(r.recipe, total, portions, each); err != nil {
				return usage.Wrong(err)
			}
			r.was, r.made = &was, "Scaled from the recipe on the shelf, which stays as it is:"
			if err := a.keepChanged(&r, save); err != nil {
				return err
			}
			return a.answer(r, asJSON)
		},
	}
	usage.AddAmount(cmd, &total, usage.Grams, "total", "what is to come out, in grams")
	addPortions(cmd, &portions, &each, "--each or --total")
	save.add(cmd)
	usage.AddJSON(cmd, &asJSON)
	return cmd
}

// resized returns the recipe for another total, another number of portions, or
// both.
func resized(r model.Recipe, total float64, portions int, each float64) (model.Recipe, error) {
	if portions > 0 && total > 0 {
		if each > 0 {
			return r, fmt.Errorf("a total, portions and grams each are one too many: leave one out")
		}
		each = total / float64(portions)
	}
	if portions > 0 {
		return kitchen.InPortions(r, portions, each)
	}
	if total > 0 {
		return kitchen.Scale(r, total)
	}
	return r, nil
}

// recipeSwapJSON is the answer of `daub recipe swap --json`.
type recipeSwapJSON struct {
	Pair     pairJSON    `json:"pair"`
	Sentence string      `json:"sentence"`
	Recipe   *recipeJSON `json:"recipe"` // with the other powder; null when refused
}

func (a *app) recipeSwapCommand() *cobra.Command {
	var (
		keep   string
		save   saveFlags
		asJSON bool
	)
	cmd := &cobra.Command{
		Use:   "swap RECIPE FROM TO",
		Short: "Put another powder into it",
		Long: `Says what a recipe, also one of a mix, becomes with another powder in the place
of one of its own, at the recipe's level, before and after, and where the other
stands gram for gram; --save keeps it as a recipe of its own. The one on the
shelf stays as it is. The liquid is kept, or the total of a recipe in portions,
unless --keep says otherwise. Exit code 3: the two cannot be compared, or acid
would meet a carbonate in a jar. daub swap FROM lists what could take its place.`,
		Example: `  daub recipe swap "face mask" white-clay green-clay
  daub recipe swap face-mask white-clay green-clay --keep total --save green`,
		Args:              usage.Takes(3, 3, "a recipe, the powder in it and the one that takes its place"),
		ValidArgsFunction: a.completeRecipe(2),
		RunE: func(cmd *cobra.Command, args []string) error {
			keep, err := usage.KeepOf(keep)
			if err == nil {
				err = save.check(cmd)
			}
			if err != nil {
				return err
			}
			s, err := a.swapIn(args[0], args[1], args[2], keep)
			if err != nil {
				return err
			}
			if s.none {
				if save.name != "" {
					return kitchen.Cannot{Why: fmt.Errorf("nothing to save: %s", s.pair.Sentence())}
				}
			} else if err := a.keepChanged(&s.recipeAnswer, save); err != nil {
				return err
			}
			return a.answer(s, asJSON)
		},
	}
	usage.AddKeep(cmd, &keep, "see above")
	save.add(cmd)
	usage.AddJSON(cmd, &asJSON)
	return cmd
}

// recipeSwap is a recipe with another powder in it, or why there is none.
type recipeSwap struct {
	recipeAnswer
	pair     kitchen.Pair
	from, to string // slugs
	measured []readings.Pair
	none     bool
}

// refused reports whether there is no swap.
func (s recipeSwap) refused() bool { return s.none }

func (a *app) swapIn(recipe, from, to string, keep kitchen.Keep) (recipeSwap, error) {
	r, err := a.readRecipe(recipe)
	if err != nil {
		return recipeSwap{}, err
	}
	c, err := a.choose(from, to)
	if err != nil {
		return recipeSwap{}, err
	}
	on := model.Choice{In: r.recipe.Liquid}
	if len(on.Among(c.entries[1].Profile.Bases())) == 0 {
		on = model.Choice{} // the answer says in what it was tried instead
	}
	both, err := kitchen.Compare(c.entries, r.recipe.Level, on, c.ownSpoons)
	if err != nil {
		return recipeSwap{}, err
	}
	s := recipeSwap{recipeAnswer: r, pair: both.Against(0)[0], from: c.entries[0].Slug, to: c.entries[1].Slug}
	s.measured = readings.Against(c.profiles()[0], c.profiles()[1], c.ownSpoons)
	if s.pair.Refused != "" {
		s.none = true
		return s, nil
	}
	var sides []kitchen.Side
	if paste, ok := kitchen.RecipePaste(r.recipe, r.profiles, c.ownSpoons); ok {
		for _, part := range paste.Powders {
			sides = append(sides, part.Side)
		}
	}
	was := r.recipe
	keep = cmp.Or(keep, kitchen.UsualKeep(was))
	if s.recipe, err = kitchen.SwapPowder(was, s.pair, s.to, keep, sides); err != nil {
		if kitchen.IsCannot(err) {
			return recipeSwap{}, err
		}
		return recipeSwap{}, usage.Wrong(err)
	}
	s.was, s.made = &was, "Swapped from the recipe on the shelf, which stays as it is:"
	if text := kitchen.TotalChange(was, s.recipe, keep); text != "" {
		s.notes = append(s.notes, text)
	}
	s.profiles = append(slices.Clone(r.profiles), c.profiles()[1])
	return s, nil
}

func (s recipeSwap) json() any {
	out := recipeSwapJSON{Pair: toPair(s.from, s.to, s.pair, s.measured), Sentence: s.pair.Sentence()}
	if !s.none {
		r := toRecipe(s.recipeAnswer)
		out.Recipe = &r
	}
	return out
}

// text writes the changed recipe for people.
func (s recipeSwap) text(p *page.Page) {
	if s.none {
		p.Say("No swap: " + s.pair.WhyNot())
		p.List("Also:", s.pair.Differences...)
		return
	}
	p.Say(s.pair.Sentence())
	p.List("Also:", page.PairNotes(s.pair, s.pair.Sentence())...)
	p.Gap()
	s.recipeAnswer.text(p)
}
