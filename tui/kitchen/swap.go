package kitchen

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

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

// swap replaces one powder by another, in amounts typed here or in a recipe.
type swap struct {
	recipe   *recipe // the recipe to change; nil for typed amounts
	pair     kitchen.Pair
	slug     string // slug of the new powder
	swap     kitchen.Swap
	taken    model.Recipe   // the recipe with the new powder in it
	kept     kitchen.Keep   // what the swap in the recipe keeps
	spoons   string         // the new powder in spoons
	err      error          // why the powders cannot be compared
	amount   error          // why the amounts give no swap
	offer    readings.Offer // how much acid it takes; its total is 0 without one
	measured []readings.Pair
	from     model.Entry // the powder to replace
	rank     ranking
}

// ranking lists the powders that could stand in, the nearest first. It holds for
// one powder, basis and level.
type ranking struct {
	from, basis string // slug, and value of the field
	level       float64
	found       []kitchen.StandIn
	cut         bool // the shelf may have more
}

// mostRanked is the most powders that are checked as stand-ins (chosen: that takes
// about 0.3 s).
const mostRanked = 60

// NewSwap asks for a powder to replace and a new one; both may be empty.
func NewSwap(deps ui.Deps, shelf []model.Entry, back ui.Screen, from, to model.Entry, level float64) ui.Screen {
	t := swapTop(deps, shelf, back, &swap{}, from, to, level)
	if from.Slug != "" && to.Slug == "" {
		t.At = swapTo
	}
	return t.ready(nil)
}

// newRecipeSwap swaps a powder of a recipe; the recipe gives the amounts.
func newRecipeSwap(deps ui.Deps, shelf []model.Entry, r *recipe, from, to model.Entry) ui.Screen {
	t := swapTop(deps, shelf, r, &swap{recipe: r}, from, to, r.entry.Recipe.Level)
	t.Fields[swapKeep].Set(string(kitchen.UsualKeep(r.entry.Recipe)))
	mixed := len(r.entry.Recipe.Powders) > 1
	t.Hidden = func(i int) bool { return i != swapTo && i != swapKeep && !(mixed && i == swapFrom) }
	t.At = swapTo
	if mixed {
		var own []string
		for i, e := range shelf {
			for _, p := range r.entry.Recipe.Powders {
				if kitchen.ShelfIndex(p, shelf) == i && e.Slug != "" {
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
		swapFrom:    t.powderField("old powder", from),
		swapTo:      t.powderField("new powder", to),
		swapBasis:   basisField(),
		swapLevel:   levelField(level),
		swapPowderG: ui.TextField("old powder, g", "What the recipe has of the old powder. One of the two is enough."),
		swapLiquidG: ui.TextField("its liquid, g", "What the recipe has of the liquid. One of the two is enough."),
		swapKeep:    keep,
	}
	t.Hidden = func(i int) bool { return i == swapBasis && len(t.Fields[i].Options) < 2 }
	return t
}

func (s *swap) help() []string {
	return []string{
		"A swap: how much of another powder comes to the same level, keeping the liquid, the powder or the total as " +
			"it was. Until you choose a new powder there is a list: each powder, and the level that the same " +
			"weight of it would give, the nearest first. \"no\" there means not the same " +
			"weight: another amount may still do.",
		"Thickness is not all that a powder does: what differs in behaviour, family, allergens and cautions is " +
			"listed below the amounts.",
		calculatorKeys.recipe.Help().Key + " goes on in a saved recipe, with its extras and portions; s in a recipe " +
			"does the same.",
	}
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
		s.rank = ranking{}
		return fmt.Errorf("old powder: %w", err)
	}
	s.from = from
	to, err := t.powder(swapTo)
	both := []model.Entry{from, to}
	if err != nil {
		both = both[:1]
	}
	choice := t.choice(swapBasis, both...)
	if s.recipe != nil {
		choice = model.Choice{In: s.recipe.entry.Recipe.Liquid}
	}
	s.ranks(t, choice)
	switch {
	case err != nil:
		return fmt.Errorf("new powder: %w", err)
	case from.Slug == to.Slug:
		f := &t.Fields[swapTo]
		f.Options, f.Pick = f.All, -1 // → goes to the first of the others
		return errSamePowder
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
	if sum, err := s.swap.Spoons(to.Profile.SpoonsAtHand()); s.amount == nil && err == nil {
		s.spoons = sum.Sentence()
	} else {
		s.spoons = ""
	}
	return nil
}

// ranks sorts the options of the new powder: possible stand-ins first, the nearest
// first. It ranks again only if powder, basis or level changed.
func (s *swap) ranks(t *calculator, on model.Choice) {
	now := ranking{from: s.from.Slug, basis: t.Fields[swapBasis].Value(), level: t.level(swapLevel)}
	if was := s.rank; was.from == now.from && was.basis == now.basis && was.level == now.level {
		return
	}
	others := kitchen.Candidates(s.from, t.shelf, on, mostRanked)
	now.cut = len(others) == mostRanked
	// No error: the field offers only valid levels.
	now.found, _ = kitchen.StandIns(s.from, others, now.level, on, t.deps.OwnSpoons)
	s.rank = now
	place := func(name string) int {
		slug := t.shelf[slices.Index(t.names, name)].Slug
		at := slices.IndexFunc(now.found, func(f kitchen.StandIn) bool { return f.Entry.Slug == slug })
		if at < 0 {
			return len(t.names)
		}
		return at
	}
	f := &t.Fields[swapTo]
	f.All = slices.DeleteFunc(slices.Clone(t.names), func(name string) bool {
		return t.shelf[slices.Index(t.names, name)].Slug == now.from
	})
	slices.SortStableFunc(f.All, func(a, b string) int { return cmp.Compare(place(a), place(b)) })
	f.Options = ui.Narrowed(f.All, f.Value())
	if slices.Contains(f.All, f.Value()) {
		f.Options = f.All
	}
	f.Pick = slices.Index(f.Options, f.Value()) // -1: → goes to the first
}

// rankLines lists the possible stand-ins, the nearest first.
func (s *swap) rankLines(w int) []string {
	if len(s.rank.found) == 0 {
		return ui.Painted(ui.PlainStyle, kitchen.NoStandIn(s.from.Profile.Powder, s.rank.level), w)
	}
	head := fmt.Sprintf("What could take its place, and where the same weight of it comes out, the nearest to %s "+
		"first. → takes the first, → again the next; then the swap says how much of it.",
		model.LevelName(s.rank.level))
	lines := ui.Painted(ui.PlainStyle, head, w)
	name := 6
	for _, f := range s.rank.found {
		name = max(name, ui.Cells(ui.Title(f.Entry)))
	}
	const verdicts = 14 // cells of "not sure yet !"
	stands, at := kitchen.StandingCell, len("comes out")
	for _, f := range s.rank.found {
		at = max(at, ui.Cells(stands(*f.Pair.StandsAt)))
	}
	if w < 12+2+at+2+verdicts { // no room for intervals
		stands, at = kitchen.StandingShort, len("comes out")
	}
	name = min(name, max(w-2-at-2-verdicts, 12))
	row := func(title, stands, verdict string) string {
		return ui.Cut(strings.TrimRight(ui.Pad(title, name)+"  "+ui.Pad(stands, at)+"  "+verdict, " "), w)
	}
	lines = append(lines, ui.NoteStyle.Render(row("powder", "comes out", "same weight works?")))
	apart := false
	for _, f := range s.rank.found {
		verdict := f.Pair.Verdict.Short()
		if f.Pair.RestsApart {
			verdict, apart = verdict+" !", true
		}
		lines = append(lines, row(ui.CutTitle(f.Entry.Profile.Powder, name), stands(*f.Pair.StandsAt), verdict))
		about := f.Entry.Profile.Powder.Kind().Words()
		if seen := model.SeenText(f.Entry.Profile.Seen()); seen != "" {
			about += "; " + seen
		}
		for _, line := range ui.Wrap(about, max(w-4, 12)) {
			lines = append(lines, ui.NoteStyle.Render("    "+line))
		}
	}
	if s.rank.cut {
		text := fmt.Sprintf("Of the first %d on the shelf, its family first; daub swap NAME looks at all.", mostRanked)
		lines = append(lines, ui.Painted(ui.NoteStyle, text, w)...)
	}
	if apart {
		lines = append(lines, ui.Warned("read after another rest: not like for like", w)...)
	}
	return lines
}

var errNoAmount = errors.New("give the grams of powder, of liquid, or of both")

// amounts works out the swap for the amounts typed.
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

// intoRecipe works out the recipe, of one powder or a mix, with the new powder in
// it.
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
		return calculatorKeys.recipe.Help().Key + " chooses the recipe to swap it in"
	}
	return said(cmp.Or(s.err, s.amount))
}

func (s *swap) keys() []key.Binding {
	switch {
	case s.recipe == nil:
		return []key.Binding{calculatorKeys.recipe}
	case s.err != nil || s.amount != nil:
		return nil
	}
	return []key.Binding{calculatorKeys.take}
}

// key puts the swap into the recipe, or lets the maker choose a recipe first.
func (s *swap) key(t *calculator, _ tea.KeyMsg) (ui.Next, tea.Cmd) {
	if s.recipe == nil {
		from, _ := t.powder(swapFrom)
		to, _ := t.powder(swapTo)
		book := newCookbook(t.deps, t.shelf, t)
		book.choose = func(e model.RecipeEntry) ui.Next {
			all := *book
			all.choose, all.back = nil, t.back
			return newRecipe(t.deps, t.shelf, &all, e).swap(from, to)
		}
		return book, readRecipes(t.deps)
	}
	s.recipe.change(s.taken, fmt.Sprintf("%s in the place of %s", s.pair.B.Powder.Name, s.pair.A.Powder.Name))
	return s.recipe, nil
}

// recipeLine names the key that swaps the powder in a saved recipe.
func (s *swap) recipeLine(w int) []string {
	if s.recipe != nil {
		return nil
	}
	return ui.Painted(ui.NoteStyle, calculatorKeys.recipe.Help().Key+" swaps it in a saved recipe.", w)
}

func (s *swap) lines(_ *calculator, w int) []string {
	var lines []string
	if s.err != nil {
		lines = append(incomplete(s.err, w), s.recipeLine(w)...)
		if (errors.Is(s.err, errNoPowder) || errors.Is(s.err, errSamePowder)) && s.rank.from != "" {
			lines = append(append(lines, ""), s.rankLines(w)...)
		}
		return lines
	}
	switch {
	case s.pair.Refused != "": // the pair's own sentence says why
	case errors.Is(s.amount, errNoAmount):
		lines = append(append(incomplete(s.amount, w), s.recipeLine(w)...), "")
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
	lines = append(lines, ui.TitleStyle.Render("How the two compare"))
	lines = append(lines, ui.PairLines(s.pair, w)...)
	for _, at := range s.measured {
		lines = append(lines, ui.Bullet(at.Sentence(s.pair.A.Powder.Title(), s.pair.B.Powder.Title()), w)...)
	}
	if s.recipe != nil && s.amount == nil { // with everything else in the recipe
		return append(lines, careLines(w, kitchen.RecipeCautions(s.taken, nil))...)
	}
	return append(lines, careLines(w, care.OfPaste(s.pair.B.Ratio.Basis.Liquid, nil, s.pair.B.Powder))...)
}
