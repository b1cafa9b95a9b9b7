package model_test

import (
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/internal/specimen"
	"github.com/stretchr/testify/assert"
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
	assert.Equal(t, -1, specimen.Oats().Newest())
	assert.Equal(t, -1, specimen.WithTrials(specimen.Full(1, 2)).NewestUnfinished())
	p := specimen.WithTrials(open(specimen.Full(3, 2)), specimen.Full(2, 2), open(specimen.Full(3, 2)),
		open(specimen.Full(1, 2)), aside(open(specimen.Full(4, 2))))
	assert.Equal(t, 2, p.Newest(), "by the start; of equals the later in the file; not the one set aside")
	assert.Equal(t, 2, p.NewestUnfinished())
	assert.Equal(t, []int{0, 2, 3}, p.Unfinished())
	p = specimen.WithTrials(aside(specimen.Full(1, 2)), aside(specimen.Full(2, 2)))
	assert.Equal(t, 1, p.Newest(), "where all are set aside, the newest of them")

	thin := aside(specimen.Full(5, 2))
	thin.Aim = 3
	assert.Equal(t, model.DefaultAim, specimen.WithTrials(specimen.Full(1, 2), thin).Aim(),
		"a spoiled trial does not set the aim")
	assert.Equal(t, model.Basis{Liquid: "water", RestS: 120}, specimen.Oats().MainBasis())
}
