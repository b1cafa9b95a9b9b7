package tui

import (
	"errors"
	"fmt"
	"math"
	"strings"

	"daub.example/daub/model"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// The fields of spoons and grams.
const (
	spoonsPowder = iota
	spoonsAmount
	spoonsHand
)

// spoons turns grams of a powder into level spoons and back.
type spoons struct {
	side    model.Side
	toGrams bool
	sum     model.SpoonSum
	err     error
}

func newSpoons(w World, stock []row, back screen, r row) screen {
	t := newWorktop(w, stock, back, &spoons{})
	hand := textField("spoons at hand", "The spoons you have, with commas between them.")
	hand.set(strings.Join(spoonsAtHand(r), ", "))
	return t.ready([]field{
		spoonsPowder: t.powderField("powder", r),
		spoonsAmount: textField("amount", "Grams, as 12.5 g, or level spoons, as 2 x 1 tsp + 1/4 tsp."),
		spoonsHand:   hand,
	})
}

func (s *spoons) title() string       { return "spoons and grams" }
func (s *spoons) keys() []key.Binding { return nil }

func (s *spoons) key(t *worktop, _ tea.KeyMsg) (screen, tea.Cmd) { return t, nil }

func (s *spoons) work(t *worktop) { s.err = s.reckon(t) }

var errNoSpoons = errors.New("give grams, or level spoons")

func (s *spoons) reckon(t *worktop) error {
	r, err := t.powder(spoonsPowder)
	if err != nil {
		return err
	}
	p := r.item.Profile
	s.side = p.Side(p.MainBasis(), p.Aim(), t.world.Drawer)
	v := t.fields[spoonsAmount].value()
	if v == "" {
		return errNoSpoons
	}
	sum, isSpoons, err := spoonSum(v, t.world.Drawer)
	if err != nil {
		return err
	}
	if s.toGrams = isSpoons; isSpoons {
		s.sum, err = s.side.Scales.SpoonsToGrams(sum)
		return err
	}
	grams, err := number(v, "g")
	if err != nil {
		return err
	}
	hand, err := spoonNames(t.fields[spoonsHand].value(), t.world.Drawer)
	if err != nil {
		return err
	}
	s.sum, err = s.side.Scales.SpoonsFor(grams, hand)
	return err
}

func (s *spoons) lines(_ *worktop, w int) []string {
	if s.err != nil {
		return incomplete(s.err, w)
	}
	name := s.side.Powder.Title()
	if s.toGrams {
		lines := painted(titleStyle, fmt.Sprintf("%s of %s is %s g.", s.sum, name, model.Grams(s.sum.Grams)), w)
		return append(lines, s.each(w)...)
	}
	lines := painted(titleStyle, name+": "+s.sum.Sentence(), w)
	if r := s.side.Ratio; r.Powder != nil {
		shift := r.Slope * math.Log(s.sum.Grams/s.sum.WantedG)
		lines = append(lines, painted(plainStyle, fmt.Sprintf("At %s that rounding %s, the liquid being weighed.", model.LevelName(r.Level), shiftText(shift)), w)...)
	}
	return append(lines, s.each(w)...)
}

// each is what every spoon of the sum holds.
func (s *spoons) each(w int) []string {
	lines := []string{"", dimStyle.Render("level spoon         g each        g")}
	for _, c := range s.sum.Spoons {
		lines = append(lines, cut(pad(fmt.Sprintf("%d × %s", c.Count, sanitise(c.Spoon)), 18)+padLeft(model.Grams(c.EachG), 8)+padLeft(model.Grams(float64(c.Count)*c.EachG), 9), w))
	}
	return append(append(lines, ""), painted(dimStyle, "Level spoons are struck off flat, by the weighings on the shelf.", w)...)
}
