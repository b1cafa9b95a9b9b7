package picture

import (
	"fmt"
	"slices"
	"time"

	"daub.example/daub/data/parallel"
	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/repeats"
)

// scene holds everything that a picture shows.
type scene struct {
	title   string
	liquid  string
	target  float64 // the level asked for
	noBands bool
	series  []series
	axis    axis
}

// series is one powder. x is g powder per g liquid throughout.
type series struct {
	letter  string // "" for a single powder
	powder  model.Powder
	looks   []bench.LookPoint
	started []time.Time          // the start of each trial of the profile
	runs    [][]bench.CurvePoint // the curve, without the levels not reached
	answer  repeats.Ratio
	target  bench.CurvePoint // the answer as a point of the curve
	dropped []int            // indexes of the trials that cannot be calculated
}

// sceneOf reads the profiles, each on the basis it shares with most of the others.
func sceneOf(profiles []model.Profile, own model.OwnSpoons, o Options) (scene, error) {
	if n := len(profiles); n < 1 || n > kitchen.MaxCompared {
		return scene{}, fmt.Errorf("draw a picture of %d powders: one is drawn alone, two to six over each other; "+
			"choose that many", n)
	}
	s := scene{title: o.Title, target: o.Level, noBands: o.NoBands}
	if s.target == 0 {
		s.target = profiles[0].Aim()
	}
	if !model.IsAskable(s.target) {
		return scene{}, fmt.Errorf("draw a picture at level %s: there is no ratio at it; give a whole or half "+
			"level from 1 to 6", model.Number(s.target))
	}
	answers, err := answersAt(profiles, s.target, o.On, own)
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
	s.series = parallel.Map(all, func(a asked) series { return seriesOf(a.profile, a.answer, own) })
	if err := s.name(); err != nil {
		return scene{}, err
	}
	s.axis = s.ratioAxis()
	return s, nil
}

// answersAt calculates the ratio of each profile at the level.
func answersAt(profiles []model.Profile, level float64, on model.Choice, own model.OwnSpoons) ([]repeats.Ratio, error) {
	if len(profiles) == 1 {
		p := profiles[0]
		return repeats.Ratios(p, p.BasisFor(on), []float64{level}, own), nil
	}
	powders := make([]model.Entry, len(profiles))
	for i, p := range profiles {
		powders[i].Profile = p
	}
	c, err := kitchen.Compare(powders, level, on, own)
	if err != nil {
		return nil, err
	}
	var out []repeats.Ratio
	for _, side := range c.Sides {
		out = append(out, side.Ratio)
	}
	return out, nil
}

func seriesOf(p model.Profile, answer repeats.Ratio, own model.OwnSpoons) series {
	c := repeats.CurveOf(p, answer.Basis, own)
	s := series{
		powder: p.Powder, answer: answer, dropped: c.Dropped,
		target: bench.CurvePointOf(answer.Level, answer.Powder, answer.Reach),
	}
	for _, t := range p.Trials {
		s.started = append(s.started, t.Started)
	}
	for _, look := range c.Looks {
		if drawable(look.X) {
			s.looks = append(s.looks, look)
		}
	}
	var run []bench.CurvePoint
	for _, k := range c.Points {
		if drawable(k.X) {
			run = append(run, k)
		} else if run != nil {
			s.runs, run = append(s.runs, smooth(run)), nil
		}
	}
	if run != nil {
		s.runs = append(s.runs, smooth(run))
	}
	return s
}

// pieces gives the curve piece by piece, cut where what was tested from both
// sides meets what was tested from one; both pieces have the point between them.
func (s series) pieces(each func(part []bench.CurvePoint, oneSided bool)) {
	for _, run := range s.runs {
		for first := 0; first+1 < len(run); {
			oneSided := func(i int) bool { return run[i].OneSided || run[i+1].OneSided }
			last := first + 1
			for last+1 < len(run) && oneSided(last) == oneSided(first) {
				last++
			}
			each(run[first:last+1], oneSided(first))
			first = last
		}
	}
}

// trials returns the indexes of the trials that have a look.
func (s series) trials() []int {
	var all []int
	for _, l := range s.looks {
		if !slices.Contains(all, l.Trial) {
			all = append(all, l.Trial)
		}
	}
	return all
}

// trialName gives a trial's number and day.
func (s series) trialName(trial int) string {
	name := fmt.Sprintf("trial %d", trial+1)
	if at := s.started[trial]; !at.IsZero() {
		name += ", " + at.Format("2006-01-02")
	}
	return name
}

// Limits of a ratio on an axis; a paste is between 0.02 and 50 (chosen, wider by
// far).
const leastRatio, mostRatio = 1e-4, 1e4

func drawable(x float64) bool { return x >= leastRatio && x <= mostRatio }

// name gives the picture its title and the powders their letters. It refuses
// powders that have nothing to show, or are in different liquids.
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
			return fmt.Errorf("draw a picture: %s was tried in %s but %s in %s, and ratios in different liquids "+
				"are different things; draw them one by one",
				printable.Words(s.series[first].powder.Title()), printable.Words(s.liquid),
				printable.Words(one.powder.Title()), printable.Words(liquid))
		}
	}
	if first < 0 && s.series[0].answer.OnlySideBySide {
		return fmt.Errorf("draw a picture of %s: %s, and a picture shows levels; finish a trial by levels first",
			printable.Words(s.series[0].powder.Title()), model.BesideOnly)
	}
	if first < 0 {
		return fmt.Errorf("draw a picture of %s: no finished trial has a look to show; finish a trial first",
			printable.Words(s.series[0].powder.Title()))
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

// short cuts text to n characters on one line.
func short(text string, n int) string {
	runes := []rune(printable.Words(text))
	if len(runes) <= n {
		return string(runes)
	}
	return string(runes[:n-1]) + "…"
}

// several reports whether there is more than one powder.
func (s scene) several() bool { return len(s.series) > 1 }

// restsApart reports whether two of the powders waited so differently before a look
// that it must be said.
func (s scene) restsApart() bool {
	return slices.ContainsFunc(s.series, func(a series) bool {
		return slices.ContainsFunc(s.series,
			func(b series) bool { return !model.ComparableRests(a.answer.Basis.RestS, b.answer.Basis.RestS) })
	})
}

// says gives the answer of powder i for the legend.
func (s scene) says(i int) string {
	says := s.series[i].says()
	if s.restsApart() && len(s.series[i].looks) > 0 {
		says += ", rest " + model.Seconds(s.series[i].answer.Basis.RestS)
	}
	return says
}

func (s series) says() string {
	r := s.answer.Rounded()
	switch {
	case r.OnlySideBySide:
		return model.BesideOnly
	case len(s.looks) == 0:
		return "no finished trial with a look"
	case r.Powder != nil && r.Reach == fit.OneSided:
		return "about " + bench.IntervalText(*r.Powder) + ", tested from one side only"
	case r.Powder != nil:
		return bench.IntervalText(*r.Powder)
	case r.Bound != nil:
		return fmt.Sprintf("level %s not reached, %s", model.Number(r.Level), bench.BoundText(*r.Bound))
	default:
		return fmt.Sprintf("level %s not reached", model.Number(r.Level))
	}
}
