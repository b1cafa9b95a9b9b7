package kitchen

import (
	"cmp"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"daub.example/daub/model"
)

// SpoonSum is a sum of level spoons of one powder, the largest first.
type SpoonSum struct {
	Spoons  []model.SpoonCount
	Grams   float64 // what they hold
	WantedG float64 // what was asked for, g
	Weigh   string  // why it is better weighed, after its name; "" where spoons do
}

// MostScoops is the largest number of scoops to count: beyond it weighing is surer and
// quicker (METHOD, using a ratio).
const MostScoops = 8

// nearEnough is how far from what was asked for a sum of MostScoops or fewer may be to
// spare the counting of more, as a share (chosen: about a third of a level).
const nearEnough = 0.05

// Why an amount is better weighed, after its name.
const (
	tooMany    = "takes more than eight spoonfuls"
	tooSmall   = "is less than the smallest spoon at hand"
	notWeighed = "is not weighed by these spoons yet"
)

// ErrorG is the error of the spoons, g: above 0 too much, below 0 too little.
func (s SpoonSum) ErrorG() float64 { return s.Grams - s.WantedG }

// ErrorPercent is ErrorG in percent of what was asked for.
func (s SpoonSum) ErrorPercent() float64 { return 100 * s.ErrorG() / s.WantedG }

// Count is the number of spoonfuls.
func (s SpoonSum) Count() int {
	n := 0
	for _, c := range s.Spoons {
		n += c.Count
	}
	return n
}

// String writes the sum as a maker says it: "2 × 1 tsp + 1/2 tsp".
func (s SpoonSum) String() string {
	var words []string
	for _, c := range s.Spoons {
		if c.Count == 1 {
			words = append(words, c.Spoon)
			continue
		}
		words = append(words, fmt.Sprintf("%d × %s", c.Count, c.Spoon))
	}
	return strings.Join(words, " + ")
}

// Checked gives the volumes of the spoons in sums that were checked with water, each once:
// "1 tsp holds 4.71 mL, checked 2026-03-02". It is "" without one; a sum that is nil or is
// better weighed is left out.
func Checked(sums ...*SpoonSum) string {
	var texts []string
	for _, s := range sums {
		if s == nil || s.Weigh != "" {
			continue
		}
		for _, c := range s.Spoons {
			if text := c.Size.CheckedText(); text != "" && !slices.Contains(texts, text) {
				texts = append(texts, text)
			}
		}
	}
	return strings.Join(texts, "; ")
}

// Sentence says the sum and its rounding, or that it is to be weighed.
func (s SpoonSum) Sentence() string {
	if s.Weigh != "" {
		return fmt.Sprintf("%s g %s: weigh it.", model.Grams(s.WantedG), s.Weigh)
	}
	holds := "which holds"
	if s.Count() > 1 {
		holds = "together"
	}
	return fmt.Sprintf("%s g is %s, %s %s g (%+.1f %%).", model.Grams(s.WantedG), s, holds, model.Grams(s.Grams),
		s.ErrorPercent())
}

// SpoonsToGrams returns the weight of a sum of level spoons; the given EachG do not count.
// Spoons named twice are added up.
func SpoonsToGrams(s model.SpoonWeights, spoons []model.SpoonCount) (SpoonSum, error) {
	names := make([]string, len(spoons))
	for i, c := range spoons {
		names[i] = c.Spoon
		if c.Count < 1 || c.Count > model.MaxCount {
			return SpoonSum{}, fmt.Errorf("%d × %s cannot be weighed: give a whole number from 1 to %d", c.Count,
				c.Spoon, model.MaxCount)
		}
	}
	sizes, err := sizes(s, names)
	if err != nil {
		return SpoonSum{}, err
	}
	counts := make([]int, len(sizes))
	for _, c := range spoons {
		counts[slices.IndexFunc(sizes, func(size model.SpoonCount) bool { return size.Spoon == c.Spoon })] += c.Count
	}
	sum := sumOf(sizes, counts)
	sum.WantedG = sum.Grams
	return sum, nil
}

// SpoonsFor finds the sum of level spoons nearest to so many grams. Sums within half the
// smallest spoon count as equally near; of those the one with the fewest spoons is taken,
// then the nearest, then the one with the larger spoons. Where these are more than
// MostScoops, the nearest sum of fewer is taken if it is near enough. It is one spoon at
// least; Weigh says where that is no good sum. atHand nil means DefaultSpoons.
func SpoonsFor(s model.SpoonWeights, grams float64, atHand []string) (SpoonSum, error) {
	if !(grams > 0 && grams <= model.MaxGrams) {
		return SpoonSum{}, fmt.Errorf("%s g cannot be spooned: give grams above 0 and up to %s", model.Number(grams),
			model.Number(model.MaxGrams))
	}
	if atHand == nil {
		atHand = model.DefaultSpoons()
	}
	sizes, err := sizes(s, atHand)
	if err != nil {
		return SpoonSum{}, err
	}
	// What is far beyond the largest spoon is counted in it at once.
	const searched = 8
	largest, smallest := sizes[0].EachG, sizes[len(sizes)-1].EachG
	first := max(0, math.Floor(grams/largest)-searched)
	if first > model.MaxCount {
		return SpoonSum{WantedG: grams, Grams: grams, Weigh: tooMany}, nil
	}
	search := spoonSearch{
		sizes: sizes, near: smallest / 2 * (1 + 1e-9), counts: make([]int, len(sizes)),
		fewest: math.MaxInt,
	}
	search.from(0, grams-first*largest, 0)
	if search.best == nil { // less than half the smallest spoon
		search.best = make([]int, len(sizes))
		search.best[len(sizes)-1] = 1
	}
	search.best[0] += int(first)
	sum := sumOf(sizes, search.best)
	if sum.Count() > MostScoops && grams*(1-nearEnough) <= MostScoops*largest {
		few := spoonSearch{
			sizes: sizes, near: nearEnough * grams, counts: make([]int, len(sizes)), fewest: MostScoops, nearest: true,
		}
		few.from(0, grams, 0)
		if few.best != nil {
			sum = sumOf(sizes, few.best)
		}
	}
	sum.WantedG = grams
	switch {
	case sum.Count() > MostScoops:
		sum.Weigh = tooMany
	case grams < smallest*(1-1e-9):
		sum.Weigh = tooSmall
	}
	return sum, nil
}

// sizes lists the weight of each of the spoons, the heaviest first, each once.
func sizes(s model.SpoonWeights, names []string) ([]model.SpoonCount, error) {
	if len(names) == 0 {
		return nil, errors.New("no spoon is given: name the spoons at hand")
	}
	var sizes []model.SpoonCount
	for _, name := range names {
		scoop, err := s.Scoop(name)
		if err != nil {
			return nil, err
		}
		if !slices.ContainsFunc(sizes, func(c model.SpoonCount) bool { return c.Spoon == name }) {
			size, _ := s.OwnSpoons.Spoon(s.Set, name)
			sizes = append(sizes, model.SpoonCount{Spoon: name, Count: 1, EachG: scoop.Grams, Size: size})
		}
	}
	slices.SortStableFunc(sizes, func(a, b model.SpoonCount) int { return cmp.Compare(b.EachG, a.EachG) })
	return sizes, nil
}

// sumOf builds the sum with so many spoons of each size.
func sumOf(sizes []model.SpoonCount, counts []int) SpoonSum {
	var sum SpoonSum
	for i, n := range counts {
		if n > 0 {
			c := sizes[i]
			c.Count = n
			sum.Spoons = append(sum.Spoons, c)
			sum.Grams += float64(n) * c.EachG
		}
	}
	return sum
}

// spoonSearch tries all sums that can still win, larger spoons first.
type spoonSearch struct {
	sizes  []model.SpoonCount // the heaviest first
	near   float64            // g: sums this near count as equally near
	counts []int              // the sum being tried
	best   []int
	fewest int     // spoons in best, or the most there may be
	off    float64 // g, error of best
	// nearest takes the nearest sum, whether it has fewer spoons or not.
	nearest bool
}

// from tries all counts of the spoons from i on for the grams that are left,
// n spoons being taken already.
func (s *spoonSearch) from(i int, left float64, n int) {
	if i == len(s.sizes) {
		s.try(math.Abs(left), n)
		return
	}
	each := s.sizes[i].EachG
	for c := min(int(math.Max(0, (left+s.near)/each)), s.fewest-n); c >= 0; c-- {
		rest := left - float64(c)*each
		if rest > s.near && (i+1 == len(s.sizes) || n+c+int(math.Ceil((rest-s.near)/s.sizes[i+1].EachG)) > s.fewest) {
			break // fewer of this size only leave more to smaller ones
		}
		s.counts[i] = c
		s.from(i+1, rest, n+c)
	}
	s.counts[i] = 0
}

// try takes the sum if it beats the best so far.
func (s *spoonSearch) try(off float64, n int) {
	nearer := s.best == nil || off < s.off-1e-12
	if n == 0 || off > s.near || n > s.fewest || (s.nearest || n == s.fewest) && !nearer {
		return
	}
	s.best, s.off = slices.Clone(s.counts), off
	if !s.nearest {
		s.fewest = n
	}
}
