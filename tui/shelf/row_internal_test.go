package shelf

import (
	"math"
	"testing"

	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/repeats"
	"github.com/stretchr/testify/require"
)

// The shelf has the digits of the ratio's table: 0.96649 is 0.9665 there, and 0.967 of
// that in every place.
func TestTheShelfHasTheDigitsOfTheTable(t *testing.T) {
	for ln := -1.0; ln < 2; ln += 0.0037 {
		powder := fit.Interval{Median: math.Exp(ln), Low: math.Exp(ln - 0.1), High: math.Exp(ln + 0.1)}
		told := repeats.RoundedInterval(powder)
		r := row{ratio: repeats.Ratio{Level: 5, Reach: fit.Bracketed, Powder: &powder, Next: &powder}}
		require.Equal(t, bench.IntervalText(told), r.ratioText())
		r.ratio = repeats.Ratio{Level: 5, Bound: &fit.Bound{Low: powder.Low, High: powder.High}}
		require.Equal(t, bench.BoundText(fit.Bound{Low: told.Low, High: told.High}), r.ratioText())
	}
}
