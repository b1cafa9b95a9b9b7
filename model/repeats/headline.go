package repeats

import (
	"math"

	"daub.example/daub/model/bench"
)

// Headline gives the answer in few words, to be copied. An example is "2.2 g water per g
// powder (5.1 g water per level tsp, weighing 2.31 g); the next dish may need 1.6 to 3.0".
// Where the level is not reached it is the Sentence.
func (r Ratio) Headline() string {
	if r.Powder == nil || r.Powder.Median == 0 || math.IsInf(r.Powder.Median, 1) {
		return r.Sentence()
	}
	text := r.Takes()
	if r.Next != nil {
		text += "; the next dish may need " + bench.ShortRange(*r.Next)
	}
	return text
}

// Takes gives the headline's first half, the ratio without an interval. The answer must
// have a ratio.
func (r Ratio) Takes() string {
	return bench.TakesText(r.Powder.Median, r.Basis.Liquid, r.PerTsp, r.TspG, r.Reach)
}
