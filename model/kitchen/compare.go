package kitchen

import (
	"fmt"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/repeats"
)

// A comparison takes this many powders.
const (
	MinCompared = 2
	MaxCompared = 6
)

// Side is one powder in a comparison: the answer of its trials on one basis at one level.
type Side struct {
	Slug         string // its name on the shelf; "" where it has none
	Powder       model.Powder
	Ratio        repeats.Ratio
	TspG         float64            // g per level teaspoon; 0 without a weighed spoon
	LiquidGML    float64            // density of the liquid, g/mL; 0 where it is not known
	Seen         []model.Seen       // behaviour in the trials that count
	LevelStep    float64            // its newest trial's levels are to the nearest 1 or 0.5; 0 without a trial
	LastTrial    time.Time          // start of the newest trial that counts; zero without
	SpoonWeights model.SpoonWeights // turns spoons of the powder into grams
	PH           *float64           // of its paste before any acid, by the newest acid test in the liquid; nil without

	matches []matched // its finished trials beside dishes of other powders
}

// SideOf reads the profile at one level on one basis.
func SideOf(p model.Profile, b model.Basis, level float64, own model.OwnSpoons) Side {
	ratio := repeats.Ratios(p, b, []float64{level}, own)[0]
	s := Side{Powder: p.Powder, Ratio: ratio, SpoonWeights: p.SpoonWeights(p.SpoonSet(), own)}
	s.LiquidGML, _ = model.LiquidDensity(b.Liquid, model.DefaultTemperatureC)
	var like []model.Trial
	for _, i := range p.NewestFirst() {
		t := p.Trials[i]
		t = t.WithDefaults(p.Powder.Kind())
		if s.PH == nil && t.Used() && t.Acid != nil && model.SameLiquid(t.Liquid, b.Liquid) {
			if ph, ok := t.Acid.Plain(); ok {
				s.PH = &ph
			}
		}
		if !t.Used() || !b.Matches(t, p.Powder.Kind()) {
			continue
		}
		if s.LevelStep == 0 {
			s.LevelStep, s.LastTrial = t.LevelStep, t.Started
			s.SpoonWeights = p.SpoonWeights(t.SpoonSet, own)
			if density, ok := t.Density(); ok {
				s.LiquidGML = density
			}
		}
		like = append(like, t)
	}
	s.Seen = model.Profile{Trials: like}.Seen()
	s.TspG, _ = s.SpoonWeights.Teaspoon()
	return s
}

// Comparison is two to six powders at one level.
type Comparison struct {
	Level float64
	Sides []Side
}

// Compare puts two to six profiles side by side at one level, 1 to 6 in halves. Each is on
// the basis that it shares with most of the others, among those chosen.
func Compare(powders []model.Entry, level float64, on model.Choice, own model.OwnSpoons) (Comparison, error) {
	if n := len(powders); n < MinCompared || n > MaxCompared {
		return Comparison{}, fmt.Errorf("compare %d powders: two to six can be set side by side; choose that many", n)
	}
	if err := model.CheckLevel(level); err != nil {
		return Comparison{}, err
	}
	profiles := make([]model.Profile, len(powders))
	for i, e := range powders {
		profiles[i] = e.Profile
	}
	c := Comparison{Level: level, Sides: sides(profiles, level, on, own)}
	for i, e := range powders {
		c.Sides[i].Slug, c.Sides[i].matches = e.Slug, matchesOf(e.Profile, powders, own)
	}
	return c, nil
}

// Against pairs every other powder with the one numbered i from 0, in order.
func (c Comparison) Against(i int) []Pair {
	var pairs []Pair
	for j, s := range c.Sides {
		if j != i {
			pairs = append(pairs, PairOf(c.Sides[i], s))
		}
	}
	return pairs
}

// Rests names the groups of powders that were read after rests more than threefold apart;
// "" where all may be compared. Powders that stood side by side were read alike.
func (c Comparison) Rests() string {
	apart := make([]bool, len(c.Sides))
	for i := range c.Sides {
		for j := range i {
			if PairOf(c.Sides[j], c.Sides[i]).RestsApart {
				apart[i], apart[j] = true, true
			}
		}
	}
	var sides []Side
	var names []string
	for i, s := range c.Sides {
		if apart[i] {
			sides, names = append(sides, s), append(names, s.Powder.Title())
		}
	}
	if len(sides) == 0 {
		return ""
	}
	return restsText(sides, names, forComparison)
}

// sides reads the profiles at one level, each on the basis of sharedBases.
func sides(profiles []model.Profile, level float64, on model.Choice, own model.OwnSpoons) []Side {
	out := make([]Side, len(profiles))
	for i, b := range sharedBases(profiles, on) {
		out[i] = SideOf(profiles[i], b, level, own)
	}
	return out
}

// sharedBases picks a basis for each profile among those chosen: the one that most of the
// others share. Where the rests are apart it takes at least the same liquid, and with
// nothing in common the profile's main one.
func sharedBases(profiles []model.Profile, on model.Choice) []model.Basis {
	own := make([][]model.Basis, len(profiles))
	var candidates []model.Basis
	for i, p := range profiles {
		own[i] = on.Among(p.Bases())
		candidates = append(candidates, own[i]...)
	}
	if len(candidates) == 0 {
		candidates = []model.Basis{profiles[0].BasisFor(on)}
	}
	var chosen []model.Basis
	best := -1
	for _, candidate := range candidates {
		score := 0
		each := make([]model.Basis, len(own))
		for i := range own {
			basis, likeness := candidate.Nearest(own[i])
			each[i] = basis
			score += likeness
		}
		if score > best {
			best, chosen = score, each
		}
	}
	return chosen
}
