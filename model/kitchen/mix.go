package kitchen

import (
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
)

// mixWarning goes with every mix. Sources: Seed, Woodward & Lundgren 1964 and
// Polidori 2007 for the straight line; Sivapullaiah & Sridharan 1985, Geotech.
// Test. J. 8(3) 111-116, for where it fails.
const mixWarning = mixBegin + " make a trial of the mix. What it truly takes may lie outside this range: by a few " +
	"percent where the powders are of one kind, by much more with a strongly swelling powder or coarse grains."

// mixBegin begins mixWarning, whatever words a saved recipe has it in.
const mixBegin = "A first estimate:"

// MixPart is one powder of a mix and its part by mass; the parts may have any
// sum, as in 60 to 40 or 3 to 1.
type MixPart struct {
	Profile model.Profile
	Parts   float64 // above 0
}

// PastePowder is one powder of a paste and its fraction of all the powder.
type PastePowder struct {
	Side
	Fraction float64 // above 0, up to 1
}

// Paste holds the powders of a batch at one level: one powder, or a dry mix of
// several.
type Paste struct {
	Level    float64
	Basis    model.Basis
	Powders  []PastePowder // their fractions sum to 1
	Powder   fit.Interval  // R from the powders' own trials
	Next     fit.Interval  // R of the next dish
	Slope    float64       // levels per e-fold of powder per liquid, at the level
	Warnings []string
}

// PasteOf makes the paste of one powder at one level, on the basis chosen.
func PasteOf(p model.Profile, level float64, on model.Choice, own model.OwnSpoons) (Paste, error) {
	return paste([]MixPart{{p, 1}}, level, on, own)
}

// MixOf makes the paste of two to five powders mixed dry, at one level. Its ratio is the
// sum of the powders' ratios, each by its fraction by mass, and so is its slope. The
// intervals' halves are joined in quadrature in R, the powders being independent.
func MixOf(parts []MixPart, level float64, on model.Choice, own model.OwnSpoons) (Paste, error) {
	if n := len(parts); n < 2 || n > model.MaxMixed {
		return Paste{}, fmt.Errorf("mix %d powders: a mix has two to five; choose that many", n)
	}
	return paste(parts, level, on, own)
}

// paste reads the powders at one level and joins them.
func paste(parts []MixPart, level float64, on model.Choice, own model.OwnSpoons) (Paste, error) {
	if err := model.CheckLevel(level); err != nil {
		return Paste{}, err
	}
	profiles := make([]model.Profile, len(parts))
	for i, s := range parts {
		profiles[i] = s.Profile
	}
	for _, p := range profiles {
		if text := on.Untried(p); text != "" {
			return Paste{}, cannot("%s: %s", p.Powder.Title(), text)
		}
	}
	powders := make([]PastePowder, len(parts))
	for i, side := range sides(profiles, level, on, own) {
		powders[i] = PastePowder{side, parts[i].Parts}
	}
	return PasteOfSides(powders)
}

// PasteOfSides makes the paste of powders already read at one level; their fractions may be
// parts of any sum.
func PasteOfSides(powders []PastePowder) (Paste, error) {
	if n := len(powders); n < 1 || n > model.MaxMixed {
		return Paste{}, fmt.Errorf("a paste of %d powders: it has one to five; choose that many", n)
	}
	total := 0.0
	for _, part := range powders {
		if !(part.Fraction > 0 && part.Fraction <= model.MaxGrams) {
			return Paste{}, fmt.Errorf("a part of %s for %s is not possible: give parts by mass above 0, as in 60 "+
				"and 40", model.Number(part.Fraction), part.Powder.Title())
		}
		total += part.Fraction
	}
	p := Paste{Level: powders[0].Ratio.Level, Basis: powders[0].Ratio.Basis, Powders: slices.Clone(powders)}
	for i := range p.Powders {
		p.Powders[i].Fraction /= total
	}
	if err := p.comparable(); err != nil {
		return Paste{}, err
	}
	var powder, next quadrature
	for _, part := range p.Powders {
		powder.add(part.Fraction, *part.Ratio.Powder)
		next.add(part.Fraction, *part.Ratio.Next)
		p.Slope += part.Fraction * part.Ratio.Slope
	}
	p.Powder, p.Next = powder.interval(), next.interval()
	p.Next.Median = p.Powder.Median // what is made has the ratio that is shown; the two differ by the quadrature
	if p.Mixed() {
		p.Warnings = append([]string{mixWarning}, p.Warnings...)
	}
	return p, nil
}

// comparable refuses powders that cannot go into one ratio, and gathers the
// warnings of those that can.
func (p *Paste) comparable() error {
	for i, part := range p.Powders {
		if part.Ratio.Powder == nil {
			return cannot("%s has no ratio at %s in %s: finish a trial of it that reaches the level",
				part.Powder.Title(), model.LevelName(p.Level), part.Ratio.Basis.Liquid)
		}
		if part.Ratio.Reach == fit.OneSided && !p.Mixed() {
			p.Warnings = append(p.Warnings, oneSided(part.Powder.Title()))
		}
		for _, other := range p.Powders[:i] {
			pair := PairOf(other.Side, part.Side)
			if pair.Refused != "" {
				return Cannot{Why: errors.New(pair.WhyNot())}
			}
			for _, w := range pair.warnings(forMix) {
				if !slices.Contains(p.Warnings, w) {
					p.Warnings = append(p.Warnings, w)
				}
			}
		}
	}
	return nil
}

// quadrature sums intervals by fractions, their halves in quadrature in R.
type quadrature struct{ median, low, high float64 }

// add adds an interval in R by its fraction.
func (q *quadrature) add(fraction float64, iv fit.Interval) {
	q.median += fraction * iv.Median
	q.low = math.Hypot(q.low, fraction*(iv.Median-iv.Low))
	q.high = math.Hypot(q.high, fraction*(iv.High-iv.Median))
}

// interval gives the sum as an interval.
func (q quadrature) interval() fit.Interval {
	return fit.Interval{Median: q.median, Low: q.median - q.low, High: q.median + q.high}
}

// RestS gives the rest for a dish of the paste, s: the longest of its powders'.
func (p Paste) RestS() int {
	rest := 0
	for _, part := range p.Powders {
		rest = max(rest, part.Ratio.Basis.RestS)
	}
	return rest
}

// Mixed reports whether the paste is of more than one powder.
func (p Paste) Mixed() bool { return len(p.Powders) > 1 }

// Title names the powder with its lot, or the mix: "A 60 + B 40".
func (p Paste) Title() string {
	if !p.Mixed() {
		return p.Powders[0].Powder.Title()
	}
	return p.Name()
}

// Name names the powder, or the mix with its percentages: "A 60 + B 40". Long
// names are cut so that the whole stays a name.
func (p Paste) Name() string {
	if !p.Mixed() {
		return p.Powders[0].Powder.Name
	}
	room := model.MaxNameLength/len(p.Powders) - len(" 99.9 + ")
	var words []string
	for _, part := range p.Powders {
		name := []rune(part.Powder.Name)
		words = append(words,
			string(name[:min(len(name), room)])+" "+model.Number(model.RoundSignificant(100*part.Fraction, 3)))
	}
	return strings.Join(words, " + ")
}

// SolidDensity gives the density of the solid itself, g/mL, from each powder's own or its
// family's usual one. An error names the powder that needs one.
func (p Paste) SolidDensity() (gPerML float64, err error) {
	volume := 0.0 // mL per g of powder
	for _, part := range p.Powders {
		density := part.Powder.SolidDensity
		if density == 0 {
			usual, ok := part.Powder.Kind().TypicalSolidDensity()
			if !ok {
				return 0, fmt.Errorf("a jar of %s cannot be worked out: a powder of the family %s has no usual "+
					"density of the solid; give its solid density in g/mL (the supplier's data sheet has it), or "+
					"give the total in grams", part.Powder.Title(), part.Powder.Kind().Words())
			}
			density = usual
		}
		volume += part.Fraction / density
	}
	return 1 / volume, nil
}

// Density gives the density of the paste with its extras, g/mL: the volumes of powder,
// liquid and every extra add up.
func (p Paste) Density(extras []model.Extra) (gPerML float64, err error) {
	solid, err := p.SolidDensity()
	if err != nil {
		return 0, err
	}
	density := p.Powders[0].LiquidGML
	if !(density > 0) {
		return 0, fmt.Errorf("a jar cannot be worked out: the density of %q is not known; give it in g/mL with "+
			"the trial, or give the total in grams", p.Basis.Liquid)
	}
	powder, liquid, _ := model.Split(extras, p.Next.Median)
	volume := powder/solid + liquid/density
	for _, e := range extras {
		volume += e.Share / e.Density()
	}
	return 1 / volume, nil
}

// Profile makes a new profile for the mix, with an open trial set up like those of its
// powders: same liquid and level, the longest of their rests. The trial has no start yet.
func (p Paste) Profile() model.Profile {
	largest := p.Powders[0]
	metal, known, rest := false, true, 0
	for _, part := range p.Powders {
		if part.Fraction > largest.Fraction {
			largest = part
		}
		metal = metal || part.Powder.KeepFromMetal
		rest = max(rest, part.Ratio.Basis.RestS)
		known = known && part.Powder.SolidDensity > 0
	}
	powder := model.Powder{
		Name: p.Name(), Family: largest.Powder.Family, KeepFromMetal: metal,
		Notes: "mixed dry by mass",
	}
	if solid, err := p.SolidDensity(); err == nil && known {
		powder.SolidDensity = model.RoundSignificant(solid, 3)
	}
	trial := model.Trial{
		Liquid: p.Basis.Liquid, LiquidG: bench.UsualLiquidG, Aim: p.Level, RestS: &rest,
		LevelStep: largest.LevelStep, Spoons: model.DefaultSpoons(), SpoonSet: largest.SpoonWeights.Set,
	}
	return model.Profile{Powder: powder, Trials: []model.Trial{trial.WithDefaults(powder.Kind())}}
}

// Finding gives the paste's ratio and that of the next dish.
func (p Paste) Finding() string {
	dish := "the next dish may take"
	if p.Mixed() {
		dish = "your first dish may take"
	}
	return fmt.Sprintf("At %s %s takes %s; %s %s.", model.LevelName(p.Level), p.Title(),
		model.PerPowder(bench.IntervalText(p.Powder), p.Basis.Liquid), dish, bench.RangeText(p.Next))
}

// Tried says in which liquid and after which rests the powders were read, and how long a
// paste of powders with several rests is to stand.
func (p Paste) Tried() string {
	var rests []string
	for _, s := range p.restsS() {
		rests = append(rests, model.Seconds(s))
	}
	if len(rests) == 1 {
		return fmt.Sprintf("by trials in %s with a rest of %s", p.Basis.Liquid, rests[0])
	}
	return fmt.Sprintf("by trials in %s with rests of %s; let this one rest %s", p.Basis.Liquid, listed(rests),
		model.Seconds(p.RestS()))
}

// restsS lists the rests of the powders' trials, s, the shortest first, each once.
func (p Paste) restsS() []int {
	var rests []int
	for _, part := range p.Powders {
		rests = append(rests, part.Ratio.Basis.RestS)
	}
	slices.Sort(rests)
	return slices.Compact(rests)
}

// Sentence gives the finding with the warnings.
func (p Paste) Sentence() string {
	return strings.Join(append([]string{p.Finding()}, p.Warnings...), " ")
}
