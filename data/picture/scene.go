package picture

import (
	"fmt"
	"slices"

	"daub.example/daub/data/parallel"
	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/repeats"
)

// scene is what a picture shows.
type scene struct {
	title  string
	liquid string
	level  float64
	series []series
}

// series is one powder. x is g powder per g liquid throughout.
type series struct {
	letter  string // "" for a single powder
	powder  model.Powder
	looks   []bench.LookPoint
	runs    [][]bench.CurvePoint // the curve, without the levels that are not reached
	answer  repeats.Ratio
	dropped []int // trials that cannot be reckoned, from 0
}

// sceneOf reads the profiles, each on the basis it has in common with most of
// the others.
func sceneOf(profiles []model.Profile, d model.Drawer, o Options) (scene, error) {
	if n := len(profiles); n < 1 || n > kitchen.MaxCompared {
		return scene{}, fmt.Errorf("draw a picture of %d powders: one is drawn alone, two to six over each other; choose that many", n)
	}
	s := scene{title: o.Title, level: o.Level}
	if s.level == 0 {
		s.level = profiles[0].Aim()
	}
	if !model.IsAskable(s.level) {
		return scene{}, fmt.Errorf("draw a picture at level %s: there is no ratio at it; give a whole or half level from 1 to 6", model.Number(s.level))
	}
	answers, err := answersAt(profiles, s.level, d)
	if err != nil {
		return scene{}, fmt.Errorf("draw a picture: %w", err)
	}
	type asked struct {
		profile model.Profile
		answer  repeats.Ratio
	}
	all := make([]asked, len(profiles))
	for i, p := range profiles {
		all[i] = asked{p, answers[i]}
	}
	s.series = parallel.Map(all, func(a asked) series { return seriesOf(a.profile, a.answer, d) })
	if err := s.name(); err != nil {
		return scene{}, err
	}
	return s, nil
}

// answersAt is what each profile says of the level.
func answersAt(profiles []model.Profile, level float64, d model.Drawer) ([]repeats.Ratio, error) {
	if len(profiles) == 1 {
		p := profiles[0]
		return repeats.Ratios(p, p.MainBasis(), []float64{level}, d), nil
	}
	c, err := kitchen.Compare(profiles, level, model.Choice{}, d)
	if err != nil {
		return nil, err
	}
	var out []repeats.Ratio
	for _, side := range c.Sides {
		out = append(out, side.Ratio)
	}
	return out, nil
}

func seriesOf(p model.Profile, answer repeats.Ratio, d model.Drawer) series {
	c := repeats.CurveOf(p, answer.Basis, d)
	s := series{powder: p.Powder, answer: answer, dropped: c.Dropped}
	for _, look := range c.Looks {
		if drawable(look.X) {
			s.looks = append(s.looks, look)
		}
	}
	var run []bench.CurvePoint
	for _, k := range c.Knots {
		if isDrawn(k) {
			run = append(run, k)
		} else if run != nil {
			s.runs, run = append(s.runs, run), nil
		}
	}
	if run != nil {
		s.runs = append(s.runs, run)
	}
	return s
}

// isDrawn reports whether a level of the curve was reached, and has a place on
// the axis.
func isDrawn(k bench.CurvePoint) bool { return drawable(k.X) && drawable(k.Low) && drawable(k.High) }

// drawable reports whether a value has a place on an axis of ratios; a paste
// is between 0.02 and 50 (chosen, wider by far).
func drawable(x float64) bool { return x >= 1e-4 && x <= 1e4 }

// name gives the picture its title and the powders their letters. It refuses
// powders that have nothing to show, or not in the same liquid.
func (s *scene) name() error {
	first := -1 // the first powder with a trial
	for i, one := range s.series {
		if s.several() {
			s.series[i].letter = string(rune('A' + i))
		}
		if len(one.looks) == 0 {
			continue
		}
		if first < 0 {
			first, s.liquid = i, one.answer.Basis.Liquid
		}
		if liquid := one.answer.Basis.Liquid; !model.SameLiquid(liquid, s.liquid) {
			return fmt.Errorf("draw a picture: %s was tried in %s but %s in %s, and ratios in different liquids are different things; draw them one by one",
				printable.Words(s.series[first].powder.Title()), printable.Words(s.liquid), printable.Words(one.powder.Title()), printable.Words(liquid))
		}
	}
	if first < 0 {
		return fmt.Errorf("draw a picture of %s: no finished trial has a look to show; finish a trial first", printable.Words(s.series[0].powder.Title()))
	}
	s.liquid, s.title = short(s.liquid, 60), short(s.title, 200)
	for i := range s.series {
		s.series[i].answer.Basis.Liquid = s.liquid
	}
	switch {
	case s.title != "":
	case s.several():
		s.title = fmt.Sprintf("%d powders in %s", len(s.series), s.liquid)
	default:
		s.title = printable.Words(s.series[0].powder.Title())
	}
	return nil
}

// short is a text of at most n characters on one line.
func short(text string, n int) string {
	runes := []rune(printable.Words(text))
	if len(runes) <= n {
		return string(runes)
	}
	return string(runes[:n-1]) + "…"
}

// several reports whether powders are drawn over each other.
func (s scene) several() bool { return len(s.series) > 1 }

// restsApart reports whether two of the powders waited so differently before
// a look that it has to be said.
func (s scene) restsApart() bool {
	return slices.ContainsFunc(s.series, func(a series) bool {
		return slices.ContainsFunc(s.series, func(b series) bool { return !model.ComparableRests(a.answer.Basis.RestS, b.answer.Basis.RestS) })
	})
}

// says is the powder's answer at the level, for the legend.
func (s series) says() string {
	r := s.answer
	switch {
	case len(s.looks) == 0:
		return "no finished trial with a look"
	case r.Powder != nil && r.Reach == fit.OneSided:
		return "about " + bench.IntervalText(*r.Powder) + ", seen from one side"
	case r.Powder != nil:
		return bench.IntervalText(*r.Powder)
	case r.Bound != nil:
		return fmt.Sprintf("level %s not reached, %s", model.Number(r.Level), bench.BoundText(*r.Bound))
	default:
		return fmt.Sprintf("level %s not reached", model.Number(r.Level))
	}
}
