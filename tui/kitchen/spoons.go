package kitchen

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/typed"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// The fields of spoons and grams.
const (
	spoonsPowder = iota
	spoonsBasis
	spoonsAmount
	spoonsHand
)

// spoons turns grams of a powder into level spoons and back.
type spoons struct {
	side    kitchen.Side
	toGrams bool
	sum     kitchen.SpoonSum
	err     error
}

func newSpoons(deps ui.Deps, shelf []model.Entry, back ui.Screen, r model.Entry) ui.Screen {
	t := newCalculator(deps, shelf, back, &spoons{})
	hand := ui.TextField("spoons at hand", "The spoons you have, with commas between them.")
	hand.Set(strings.Join(r.Profile.SpoonsAtHand(), ", "))
	t.Hidden = func(i int) bool { return i == spoonsBasis && len(t.Fields[i].Options) < 2 }
	return t.ready([]ui.Field{
		spoonsPowder: t.powderField("powder", r),
		spoonsBasis:  basisField(),
		spoonsAmount: ui.TextField("amount", "Grams, as 12.5 g, or level spoons, as 2 x 1 tsp + 1/4 tsp."),
		spoonsHand:   hand,
	})
}

func (s *spoons) problem() string     { return "a sum of spoons is not saved" }
func (s *spoons) title() string       { return "spoons and grams" }
func (s *spoons) keys() []key.Binding { return nil }

func (s *spoons) key(t *calculator, _ tea.KeyMsg) (ui.Next, tea.Cmd) { return t, nil }

func (s *spoons) update(t *calculator) { s.err = s.calculate(t) }

var errNoSpoons = errors.New("give grams, or level spoons")

func (s *spoons) calculate(t *calculator) error {
	r, err := t.powder(spoonsPowder)
	if err != nil {
		return err
	}
	p := r.Profile
	s.side = kitchen.SideOf(p, p.BasisFor(t.choice(spoonsBasis, r)), p.Aim(), t.deps.OwnSpoons)
	v := t.Fields[spoonsAmount].Value()
	if v == "" {
		return errNoSpoons
	}
	known := typed.SpoonsOf(t.deps.OwnSpoons, p)
	amount, err := known.Amount(v, "20 g or 2 x 1 tsp + 1/4 tsp")
	if err != nil {
		return err
	}
	if s.toGrams = amount.Spoons != nil; s.toGrams {
		s.sum, err = kitchen.SpoonsToGrams(s.side.SpoonWeights, amount.Spoons)
		return err
	}
	hand, err := known.List(t.Fields[spoonsHand].Value())
	if err != nil {
		return err
	}
	s.sum, err = kitchen.SpoonsFor(s.side.SpoonWeights, amount.Grams, hand)
	return err
}

func (s *spoons) lines(_ *calculator, w int) []string {
	if s.err != nil {
		return incomplete(s.err, w)
	}
	name := s.side.Powder.Title()
	if s.toGrams {
		lines := ui.Painted(ui.TitleStyle, fmt.Sprintf("%s of %s is %s g.", s.sum, name, model.Grams(s.sum.Grams)), w)
		return append(lines, s.each(w)...)
	}
	lines := ui.Painted(ui.TitleStyle, name+": "+s.sum.Sentence(), w)
	if r := s.side.Ratio; r.Powder != nil {
		shift := r.Slope * math.Log(s.sum.Grams/s.sum.WantedG)
		level := model.LevelName(r.Level)
		text := fmt.Sprintf("At %s that rounding %s, the liquid being weighed.", level, shiftText(shift))
		lines = append(lines, ui.Painted(ui.PlainStyle, text, w)...)
	}
	return append(lines, s.each(w)...)
}

// each lists the weight of every spoon in the sum.
func (s *spoons) each(w int) []string {
	lines := []string{"", ui.NoteStyle.Render("level spoon         g each        g")}
	for _, c := range s.sum.Spoons {
		spoons := ui.Pad(fmt.Sprintf("%d × %s", c.Count, printable.Line(c.Spoon)), 18)
		each, all := model.Grams(c.EachG), model.Grams(float64(c.Count)*c.EachG)
		lines = append(lines, ui.Cut(spoons+ui.PadLeft(each, 8)+ui.PadLeft(all, 9), w))
	}
	text := "Level spoons are struck off flat, by the weighings on the shelf."
	if checked := kitchen.Checked(&s.sum); checked != "" {
		text += " " + printable.Line(checked) + "."
	}
	foot := ui.Painted(ui.NoteStyle, text, w)
	return append(append(lines, ""), foot...)
}
