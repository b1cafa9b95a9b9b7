package fit

import (
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// Row by row, the table of the reach, at level 5 unless the row says so.
func TestReach(t *testing.T) {
	type at struct{ x, level float64 }
	inf := math.Inf(1)
	for _, c := range []struct {
		name    string
		looks   []at
		level   float64
		reach   Reach
		missing Missing
		bound   *Bound
		nearest int
	}{
		{"both sides, near", []at{{0.2, 4}, {0.3, 6}}, 5, Bracketed, MissingNothing, nil, 1},
		{"the near look may be on one side only", []at{{0.2, 0}, {0.3, 6}}, 5, Bracketed, MissingNothing, nil, 1},
		{"two levels off is near", []at{{0.2, 3}, {0.3, 7}}, 5, Bracketed, MissingNothing, nil, 1},
		{"half a level more is not", []at{{0.2, 2.5}, {0.3, 7}}, 5, NotReached, MissingNear, &Bound{1 / 0.3, 5}, 1},
		{"a look at the level is both sides", []at{{0.2, 2}, {0.3, 5}}, 5, Bracketed, MissingNothing, nil, 1},
		{"the same look twice", []at{{0.3, 5}, {0.3, 5}}, 5, Bracketed, MissingNothing, nil, 1},
		{"one look at the level", []at{{0.3, 5}}, 5, OneSided, MissingSecond, nil, 0},
		{"one look below", []at{{0.3, 4}}, 5, OneSided, MissingThicker, nil, 0},
		{"all below, near", []at{{0.2, 2}, {0.3, 4}}, 5, OneSided, MissingThicker, nil, 1},
		{"all above, near", []at{{0.2, 6}, {0.3, 7}}, 5, OneSided, MissingThinner, nil, 0},
		{"7 is open, never near", []at{{0.2, 7}, {0.3, 7}}, 5, NotReached, MissingThinner, &Bound{5, inf}, 1},
		{"0 is open, never near", []at{{0.2, 0}, {0.3, 0}}, 2, NotReached, MissingThicker, &Bound{0, 1 / 0.3}, 1},
		{"0 and a near one", []at{{0.2, 0}, {0.3, 2}}, 1, Bracketed, MissingNothing, nil, 1},
		{"0.5 is closed", []at{{0.2, 0.5}, {0.3, 7}}, 1.5, Bracketed, MissingNothing, nil, 0},
		{"6.5 is closed", []at{{0.2, 0}, {0.3, 6.5}}, 5, Bracketed, MissingNothing, nil, 1},
		{"all below, out of order", []at{{0.4, 1}, {0.3, 2}}, 5, NotReached, MissingThicker, &Bound{0, 2.5}, 1},
		{"all above, out of order", []at{{0.5, 6}, {0.4, 7}}, 2, NotReached, MissingThinner, &Bound{2.5, inf}, 0},
		{
			"between the two nearest in level, the tightest of equals",
			[]at{{0.1, 0}, {0.2, 0}, {0.25, 1}, {0.3, 1}, {0.5, 7}, {0.6, 7}},
			5, NotReached, MissingNear, &Bound{2, 1 / 0.3}, 5,
		},
		{"between, out of order", []at{{0.5, 1}, {0.25, 7}}, 5, NotReached, MissingNear, &Bound{2, 4}, 1},
		{
			"unusable looks keep their place",
			[]at{{0.2, 4}, {0, 5}, {0.3, 6}, {0.3, 9}},
			5, Bracketed, MissingNothing,
			nil, 2,
		},
		{"nearest, later of equals", []at{{0.2, 5}, {0.3, 5}, {0.4, 7}}, 5, Bracketed, MissingNothing, nil, 1},
		{"no look", nil, 5, NotReached, MissingSecond, nil, -1},
	} {
		t.Run(c.name, func(t *testing.T) {
			d := Data{LevelStep: 0.5}
			for _, l := range c.looks {
				d.Looks = append(d.Looks, Look{l.x, l.level})
			}
			r := Solve(d).At(c.level)
			assert.Equal(t, c.reach, r.Reach)
			assert.Equal(t, c.missing, r.Missing)
			assert.Equal(t, c.bound, r.Bound)
			assert.Equal(t, c.nearest, r.Nearest)
			assert.Equal(t, c.reach != NotReached, r.Ratio != nil)
		})
	}
}

func TestReachAndMissingWords(t *testing.T) {
	assert.Equal(t, []string{"not-reached", "one-sided", "bracketed"},
		[]string{NotReached.String(), OneSided.String(), Bracketed.String()})
	assert.Equal(t, []string{"", "thicker", "thinner", "near", "another"}, []string{
		MissingNothing.String(), MissingThicker.String(), MissingThinner.String(),
		MissingNear.String(), MissingSecond.String(),
	})
}
