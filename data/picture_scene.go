package data

import (
	"fmt"
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
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
	letter string // "" for a single powder
	powder model.Powder
	looks  []look
	runs   [][]knot // the curve, without the levels that are not reached
	answer model.PowderRatio
}

// look is one look at a dish.
type look struct {
	x, level float64
	far      bool // sits far from where the others put it
}

// open reports whether the look says only "at most" or "at least".
func (l look) open() bool { return l.level == model.MinLevel || l.level == model.MaxLevel }

// knot is one level of the curve with its band.
type knot struct{ level, x, low, high float64 }

// sceneOf reads the profiles, each on the basis it has in common with most of
// the others.
func sceneOf(entries []Entry, d model.Drawer, o PictureOptions) (scene, error) {
	var profiles []model.Profile
	for _, e := range entries {
		profiles = append(profiles, e.Profile)
	}
	if n := len(profiles); n < 1 || n > model.MaxCompared {
		return scene{}, fmt.Errorf("draw a picture of %d powders: one is drawn alone, two to six over each other; choose that many", n)
	}
	s := scene{title: o.Title, level: o.Level}
	if s.level == 0 {
		s.level = profiles[0].Aim()
	}
	if !askable(s.level) {
		return scene{}, fmt.Errorf("draw a picture at level %s: there is no ratio at it; give a whole or half level from 1 to 6", model.Number(s.level))
	}
	answers, err := answersAt(profiles, s.level, d)
	if err != nil {
		return scene{}, fmt.Errorf("draw a picture: %w", err)
	}
	s.series = make([]series, len(profiles))
	spread(len(profiles), func(i int) { s.series[i] = seriesOf(profiles[i], answers[i], d) })
	if err := s.name(); err != nil {
		return scene{}, err
	}
	return s, nil
}

// answersAt is what each profile says of the level.
func answersAt(profiles []model.Profile, level float64, d model.Drawer) ([]model.PowderRatio, error) {
	if len(profiles) == 1 {
		p := profiles[0]
		return p.Ratios(p.MainBasis(), []float64{level}, d), nil
	}
	c, err := model.Compare(profiles, level, d)
	if err != nil {
		return nil, err
	}
	var out []model.PowderRatio
	for _, side := range c.Sides {
		out = append(out, side.Ratio)
	}
	return out, nil
}

func seriesOf(p model.Profile, answer model.PowderRatio, d model.Drawer) series {
	s := series{powder: p.Powder, answer: answer}
	for _, t := range p.Trials {
		t = t.WithDefaults(p.Powder.Kind())
		if t.Used() && model.SameLiquid(t.Liquid, answer.Basis.Liquid) && model.ComparableRests(*t.RestS, answer.Basis.RestS) {
			s.looks = append(s.looks, looksOf(p, t, d)...)
		}
	}
	var run []knot
	for _, r := range p.Ratios(answer.Basis, model.CurveLevels(), d) {
		k, ok := knotOf(r)
		if ok {
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

// looksOf are the looks of one trial; one that cannot be reckoned has none, for
// it does not count.
func looksOf(p model.Profile, t model.Trial, d model.Drawer) []look {
	r, err := model.Read(p, t, d)
	if err != nil {
		return nil
	}
	far := r.FarOut()
	var looks []look
	for i, dish := range r.Dishes {
		x := dish.PowderPerLiquid()
		if step := t.Steps[i]; step.Looked && dish.Mixed() && drawable(x) {
			looks = append(looks, look{x, step.Level, slices.Contains(far, i)})
		}
	}
	return looks
}

// knotOf turns a ratio over; ok is false where it was not reached.
func knotOf(r model.PowderRatio) (k knot, ok bool) {
	if r.Powder == nil {
		return knot{}, false
	}
	k = knot{r.Level, 1 / r.Powder.Median, 1 / r.Powder.High, 1 / r.Powder.Low}
	return k, drawable(k.x) && drawable(k.low) && drawable(k.high)
}

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
				oneLine(s.series[first].powder.Title()), oneLine(s.liquid), oneLine(one.powder.Title()), oneLine(liquid))
		}
	}
	if first < 0 {
		return fmt.Errorf("draw a picture of %s: no finished trial has a look to show; finish a trial first", oneLine(s.series[0].powder.Title()))
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
		s.title = oneLine(s.series[0].powder.Title())
	}
	return nil
}

// short is a text of at most n characters on one line.
func short(text string, n int) string {
	runes := []rune(oneLine(text))
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
		return "about " + model.IntervalText(*r.Powder) + ", seen from one side"
	case r.Powder != nil:
		return model.IntervalText(*r.Powder)
	case r.Bound != nil:
		return fmt.Sprintf("level %s not reached, %s", model.Number(r.Level), model.BoundText(*r.Bound))
	default:
		return fmt.Sprintf("level %s not reached", model.Number(r.Level))
	}
}
