package kitchen

import (
	"cmp"
	"errors"
	"fmt"

	"daub.example/daub/model"
	"daub.example/daub/model/care"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/readings"
	"daub.example/daub/model/typed"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// The fields of a swap.
const (
	swapFrom = iota
	swapTo
	swapBasis
	swapLevel
	swapPowderG
	swapLiquidG
	swapKeep
)

// swap is one powder in the place of another, in numbers typed here or in a
// recipe.
type swap struct {
	recipe   *recipe // into which it goes; nil: none
	pair     kitchen.Pair
	slug     string // of the powder that comes in
	swap     kitchen.Swap
	taken    model.Recipe   // the recipe with the new powder in it
	kept     kitchen.Keep   // in it
	spoons   string         // the new powder in spoons
	err      error          // why there is no pair
	amount   error          // why there is no swap
	offer    readings.Offer // of acid for what is made; its total is 0 without one
	measured []readings.Pair
}

func NewSwap(deps ui.Deps, shelf []model.Entry, back ui.Screen, from, to model.Entry, level float64) ui.Screen {
	return swapTop(deps, shelf, back, &swap{}, from, to, level).ready(nil)
}

// newRecipeSwap swaps a powder of a recipe; its amounts are given.
func newRecipeSwap(deps ui.Deps, shelf []model.Entry, r *recipe, from model.Entry) ui.Screen {
	t := swapTop(deps, shelf, r, &swap{recipe: r}, from, model.Entry{}, r.entry.Recipe.Level)
	t.Fields[swapKeep].Set(string(kitchen.UsualKeep(r.entry.Recipe)))
	mixed := len(r.entry.Recipe.Powders) > 1
	t.Hidden = func(i int) bool { return i != swapTo && i != swapKeep && !(mixed && i == swapFrom) }
	t.At = swapTo
	if mixed {
		var own []string
		for i, e := range shelf {
			for _, p := range r.entry.Recipe.Powders {
				if kitchen.PlaceOnShelf(p, shelf) == i && e.Slug != "" {
					own = append(own, t.names[i])
				}
			}
		}
		f := &t.Fields[swapFrom]
		f.All, f.Options = own, own
		f.Set(f.Value())
	}
	return t.ready(nil)
}

func swapTop(deps ui.Deps, shelf []model.Entry, back ui.Screen, job *swap, from, to model.Entry,
	level float64,
) *calculator {
	var keeps []string
	for _, k := range kitchen.Keeps() {
		keeps = append(keeps, string(k))
	}
	t := newCalculator(deps, shelf, back, job)
	keep := ui.ChoiceField("keep", "What stays as it was: the liquid, the powder, or the total of both.", keeps...)
	keep.Set(keeps[0])
	t.Fields = []ui.Field{
		swapFrom:    t.powderField("instead of", from),
		swapTo:      t.powderField("take", to),
		swapBasis:   basisField(),
		swapLevel:   levelField(level),
		swapPowderG: ui.TextField("its powder, g", "What the recipe has of the old powder. One of the two is enough."),
		swapLiquidG: ui.TextField("its liquid, g", "What the recipe has of the liquid. One of the two is enough."),
		swapKeep:    keep,
	}
	t.Hidden = func(i int) bool { return i == swapBasis && len(t.Fields[i].Options) < 2 }
	return t
}

func (s *swap) title() string {
	if s.recipe != nil {
		return "recipe › swap  " + printable.Line(s.recipe.entry.Recipe.Name)
	}
	return "swap"
}

func (s *swap) update(t *calculator) { s.err = s.calculate(t) }

var errSamePowder = errors.New("choose two different powders")

func (s *swap) calculate(t *calculator) error {
	from, err := t.powder(swapFrom)
	if err != nil {
		return fmt.Errorf("instead of: %w", err)
	}
	to, err := t.powder(swapTo)
	switch {
	case err != nil:
		return fmt.Errorf("take: %w", err)
	case from.Slug == to.Slug:
		return errSamePowder
	}
	choice := t.choice(swapBasis, from, to)
	if s.recipe != nil {
		choice = model.Choice{In: s.recipe.entry.Recipe.Liquid}
	}
	c, err := kitchen.Compare([]model.Entry{from, to}, t.level(swapLevel), choice, t.deps.OwnSpoons)
	if err != nil {
		return err
	}
	s.pair, s.slug, s.offer = c.Against(0)[0], to.Slug, readings.Offer{}
	s.measured = readings.Against(from.Profile, to.Profile, t.deps.OwnSpoons)
	if s.recipe != nil {
		return s.intoRecipe(t)
	}
	if s.swap, s.amount = s.amounts(t); s.amount == nil {
		s.offer, _ = readings.OfferOf(to.Profile, s.pair.B.Ratio.Basis.Liquid,
			s.swap.NewPowder.Median+s.swap.NewLiquid.Median, t.deps.OwnSpoons)
	}
	if sum, err := s.swap.Spoons(spoonsAtHand(to)); s.amount == nil && err == nil {
		s.spoons = sum.Sentence()
	} else {
		s.spoons = ""
	}
	return nil
}

var errNoAmount = errors.New("give the grams of powder, of liquid, or of both")

// amounts puts the pair to the amounts given.
func (s *swap) amounts(t *calculator) (kitchen.Swap, error) {
	powder, err := t.amount(swapPowderG, typed.Mass, "20 g")
	if err != nil {
		return kitchen.Swap{}, err
	}
	liquid, err := t.amount(swapLiquidG, typed.Mass, "15 g")
	if err != nil {
		return kitchen.Swap{}, err
	}
	if powder == 0 && liquid == 0 {
		return kitchen.Swap{}, errNoAmount
	}
	return s.pair.Swap(powder, liquid, s.keep(t))
}

func (s *swap) keep(t *calculator) kitchen.Keep { return kitchen.Keep(t.Fields[swapKeep].Value()) }

// intoRecipe puts the new powder into the recipe, of one powder or a mix.
func (s *swap) intoRecipe(t *calculator) error {
	r := s.recipe.entry.Recipe
	var sides []kitchen.Side
	if len(r.Powders) > 1 {
		paste, ok := kitchen.RecipePaste(r, kitchen.ProfilesOf(r, t.shelf), t.deps.OwnSpoons)
		if !ok {
			return errors.New("not all powders of the mix are on the shelf with a ratio")
		}
		for _, p := range paste.Powders {
			sides = append(sides, p.Side)
		}
	}
	s.kept = s.keep(t)
	s.taken, s.amount = kitchen.SwapPowder(r, s.pair, s.slug, s.kept, sides)
	return nil
}

func (s *swap) problem() string {
	if s.recipe == nil {
		return "a swap is saved from a recipe: open one, and swap its powder there"
	}
	return said(cmp.Or(s.err, s.amount))
}

func (s *swap) keys() []key.Binding {
	if s.recipe == nil || s.err != nil || s.amount != nil {
		return nil
	}
	return []key.Binding{calculatorKeys.take}
}

// key takes the swap into the recipe.
func (s *swap) key(t *calculator, _ tea.KeyMsg) (ui.Next, tea.Cmd) {
	s.recipe.change(s.taken, fmt.Sprintf("%s in the place of %s", s.pair.B.Powder.Name, s.pair.A.Powder.Name))
	return s.recipe, nil
}

func (s *swap) lines(_ *calculator, w int) []string {
	if s.err != nil {
		return incomplete(s.err, w)
	}
	var lines []string
	switch {
	case s.pair.Refused != "": // the pair's own sentence says why
	case errors.Is(s.amount, errNoAmount):
		lines = append(incomplete(s.amount, w), "")
	case s.amount != nil:
		lines = append(ui.Loud(s.amount.Error(), w), "")
	case s.recipe != nil:
		was := s.recipe.entry.Recipe
		lines = append(changeLines(was, s.taken, w), "")
		if text := kitchen.TotalChange(was, s.taken, s.kept); text != "" {
			lines = append(ui.Warned(text, w), lines...)
		}
	default:
		lines = ui.Painted(ui.TitleStyle, s.swap.Sentence(), w)
		if s.spoons != "" {
			lines = append(lines, ui.Painted(ui.PlainStyle, "By the spoon: "+s.spoons, w)...)
		}
		for _, n := range s.swap.Notes {
			lines = append(lines, ui.Warned(n, w)...)
		}
		if s.offer.TotalG > 0 {
			lines = append(lines, ui.Painted(ui.PlainStyle, s.offer.Sentence(), w)...)
		}
		lines = append(lines, "")
	}
	lines = append(lines, ui.TitleStyle.Render("Can it stand in?"))
	lines = append(lines, ui.PairLines(s.pair, w)...)
	for _, at := range s.measured {
		lines = append(lines, ui.Bullet(at.Sentence(s.pair.A.Powder.Title(), s.pair.B.Powder.Title()), w)...)
	}
	return append(lines, careLines(w, care.OfPaste(s.pair.B.Ratio.Basis.Liquid, nil, s.pair.B.Powder))...)
}
