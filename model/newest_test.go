package model_test

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"daub.example/daub/model"
)

func TestNewestTrials(t *testing.T) {
	aside := func(tr model.Trial) model.Trial {
		tr.SetAside = "spilled"
		return tr
	}
	open := func(tr model.Trial) model.Trial {
		tr.State = model.Open
		return tr
	}
	assert.Equal(t, -1, oats().Newest())
	assert.Equal(t, -1, withTrials(full(1, 2)).NewestUnfinished())
	p := withTrials(open(full(3, 2)), full(2, 2), open(full(3, 2)), open(full(1, 2)), aside(open(full(4, 2))))
	assert.Equal(t, 2, p.Newest(), "by the start; of equals the later in the file; not the one set aside")
	assert.Equal(t, 2, p.NewestUnfinished())
	assert.Equal(t, []int{0, 2, 3}, p.Unfinished())
	p = withTrials(aside(full(1, 2)), aside(full(2, 2)))
	assert.Equal(t, 1, p.Newest(), "where all are set aside, the newest of them")

	thin := aside(full(5, 2))
	thin.Aim = 3
	assert.Equal(t, model.DefaultAim, withTrials(full(1, 2), thin).Aim(), "a spoiled trial does not set the aim")
	assert.Equal(t, model.Basis{Liquid: "water", RestS: 120}, oats().MainBasis())
}
