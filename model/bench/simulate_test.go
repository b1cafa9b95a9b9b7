package bench_test

import (
	"flag"
	"math"
	"testing"

	"github.com/stretchr/testify/assert"
)

// A simulated bench: makers with a known truth play whole trials, and daub's answer at the
// end is compared with the truth. The makers know nothing of the fit:
// they scoop, stir and look. The same trial number is the same maker.
//
//	go test -tags long ./model/bench -run TestSimulated -v -trials 2000
//
// prints the table that DEVELOPERS.md shows; without the tag it is the first
// rows alone.

var simulated = flag.Int("trials", 40, "simulated trials for each row of the table")

// trialsOfARow is the number of trials played for a row.
func trialsOfARow() int {
	if testing.Short() {
		return min(*simulated, 6)
	}
	return *simulated
}

// simulatedRow is one row of the table.
type simulatedRow struct {
	name string
	how  func(int) outcome
	most report // the limits: most for errors and additions, least for coverage
}

// The benches of the table. The section on masses takes scoops and spoon sizes to
// be as unsure as here.
var (
	exactBench   = simulatedBench{tolerance: 0.12, family: true}
	scoopedBench = simulatedBench{tolerance: 0.12, family: true, scoops: 0.05, sizes: 0.05, weighings: 3}
)

const tableHead = "\n| %-52s | %4s | %5s | %5s | %5s | %5s | %3s | %5s |"

// run plays the rows and checks each against its limits.
func run(t *testing.T, rows []simulatedRow) {
	t.Helper()
	t.Logf(tableHead, "played", "err", "bias", "cover", "half", "adds", "max", "> 14")
	for _, row := range rows {
		got := play(trialsOfARow(), row.how)
		t.Log(got.row(row.name))
		row.holds(t, got)
	}
}

// holds complains about a row that is worse than it may be. A short run strays:
// its root mean square by about 1/sqrt(2n) of itself, its coverage by a few
// percent.
func (row simulatedRow) holds(t *testing.T, got report) {
	t.Helper()
	stray := 1 + 3/math.Sqrt(2*float64(trialsOfARow()))
	if row.most.rms == 0 {
		assert.Greater(t, got.rms, 0.15, "%s: counting spoons is no match", row.name)
		return
	}
	assert.Less(t, got.rms, row.most.rms*stray, "%s: error", row.name)
	assert.Less(t, got.additions, row.most.additions*(1+0.3*(stray-1)), "%s: additions", row.name)
	assert.Greater(t, got.coverage, row.most.coverage-0.3*(stray-1), "%s: coverage", row.name)
	assert.Zero(t, got.ungiven, "%s: every trial gives an estimate", row.name)
}

func TestSimulatedBench(t *testing.T) {
	pot := scoopedBench
	pot.weighings, pot.pot = 0, true
	run(t, []simulatedRow{
		{"half spoons until it looks right", func(n int) outcome { return exactBench.byHand(n, false) }, report{}},
		{
			"a careful hand: quarters once it thickens",
			func(n int) outcome { return exactBench.byHand(n, true) },
			report{},
		},
		{"advice, 0.12, masses exact", exactBench.advised, report{rms: 0.051, additions: 4.9, coverage: 0.93}},
		{
			"advice, 0.12, scoops and sizes 5 %, pot weighed", pot.advised,
			report{rms: 0.053, additions: 5.2, coverage: 0.93},
		},
	})
	assert.Equal(t, play(5, exactBench.advised), play(5, exactBench.advised), "the same to the digit")
}
