package bench

import (
	"fmt"
	"math"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// Headline is what the dish says in few words, to be copied: "2.2 g water per g,
// 5.1 g per level teaspoon; this dish 1.9 to 2.6". Where the level is not
// reached it is the Sentence.
func (a Answer) Headline(liquid string) string {
	if a.Dish == nil {
		return a.Sentence(liquid)
	}
	about := ""
	if a.Reach == fit.OneSided {
		about = "about "
	}
	text := fmt.Sprintf("%s%s g %s per g", about, model.Significant(a.Dish.Median, 2), liquid)
	if a.PerTsp != nil {
		text += fmt.Sprintf(", %s g per level teaspoon", model.Significant(a.PerTsp.Median, 2))
	}
	return text + "; this dish " + ShortRange(*a.Dish)
}

// ShortRange is an interval's limits in few digits: "1.6 to 3.0", or "1.6 or
// more".
func ShortRange(iv fit.Interval) string {
	if math.IsInf(iv.High, 1) {
		return model.Significant(iv.Low, 2) + " or more"
	}
	return model.Significant(iv.Low, 2) + " to " + model.Significant(iv.High, 2)
}
