package fit

import (
	"math/rand/v2"
	"testing"

	"github.com/stretchr/testify/assert"
)

// forget has the next fits worked out anew.
func forget() {
	solved, pools = memo[string, *Posterior]{most: solved.most}, memo[string, *Powder]{most: pools.most}
}

func TestMemoKeepsWhatWasAskedForLast(t *testing.T) {
	m, worked := memo[int, int]{most: 2}, 0
	ask := func(key int) int {
		return m.of(key, func() int { worked++; return 10 * key })
	}
	for _, key := range []int{1, 2, 1, 3, 1} { // 2 goes when 3 comes
		assert.Equal(t, 10*key, ask(key))
	}
	assert.Equal(t, 3, worked)
	ask(2)
	assert.Equal(t, 4, worked)
	assert.Len(t, m.known, 2)
	assert.Len(t, m.order, 2)
}

// A remembered answer equals one worked out anew, and a look of another weight, level or
// step makes another trial.
func TestRememberedIsTheSame(t *testing.T) {
	forget()
	d := dish(rand.New(rand.NewPCG(8, 1)), 9, 1, 2, 6, 0.4, 1)
	xs := []float64{0.4, 0.5, 0.6}
	type answers struct {
		levels   []Result
		farOut   []int
		outlooks []Outlook
		powder   Interval
		next     Interval
	}
	ask := func(d Data) answers {
		p := Solve(d)
		pool := Pool([]Trial{{p, 0.05}})
		known := Expected{Low: 1, High: 3}
		return answers{p.Results(allLevels), p.FarOut(), p.Outlooks(5, xs, known), pool.Ratio(5), pool.Next(5)}
	}
	first := ask(d)
	assert.Same(t, Solve(d), Solve(d))
	assert.Equal(t, first, ask(d))
	forget()
	assert.Equal(t, first, ask(d))

	for name, change := range map[string]func(*Data){
		"a weight":   func(d *Data) { d.Looks[4].PowderPerLiquid *= 1.001 },
		"a level":    func(d *Data) { d.Looks[4].Level++ },
		"a step":     func(d *Data) { d.LevelStep = 0.5 },
		"a look off": func(d *Data) { d.Looks = d.Looks[:8] },
	} {
		other := Data{Looks: append([]Look(nil), d.Looks...), LevelStep: d.LevelStep}
		change(&other)
		assert.NotEqual(t, first.powder, ask(other).powder, name)
		assert.NotEqual(t, first.levels, ask(other).levels, name)
	}
	assert.Equal(t, first, ask(d), "the looks given out are the caller's to change")
	named, held := Data{Looks: []Look{{0.4, 1}, {0.5, 2}}}, beside(5, Look{0.4, 1}, Look{0.5, 2})
	assert.NotEqual(t, Solve(named).Ratio(0), Solve(held).Ratio(0), "the same numbers beside a dish are other looks")

	sketched := Pool([]Trial{{Sketch(d), 0.05}})
	assert.NotEqual(t, first.powder, sketched.Ratio(5), "a sketch is another curve")
	assert.NotEqual(t, first.powder, Pool([]Trial{{Solve(d), 0.06}}).Ratio(5), "other masses")
}
