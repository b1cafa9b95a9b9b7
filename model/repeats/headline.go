package repeats

import (
	"fmt"
	"math"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
)

// Headline gives the answer in few words, to be copied: "2.2 g water per g, 5.1 g per level
// tsp of 2.31 g; next dish 1.6 to 3.0". Where the level is not reached it is the Sentence.
func (r Ratio) Headline() string {
	if r.Powder == nil || r.Powder.Median == 0 || math.IsInf(r.Powder.Median, 1) {
		return r.Sentence()
	}
	about := ""
	if r.Reach == fit.OneSided {
		about = "about "
	}
	text := fmt.Sprintf("%s%s g %s per g", about, model.Significant(r.Powder.Median, 2), r.Basis.Liquid)
	if r.PerTsp != nil {
		text += bench.PerTspText(r.PerTsp.Median, r.TspG)
	}
	if r.Next != nil {
		text += "; next dish " + bench.ShortRange(*r.Next)
	}
	return text
}
