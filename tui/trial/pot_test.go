package trial_test

import (
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/tui/internal/drive"
	"github.com/stretchr/testify/assert"
)

// settled is a trial whose pot was weighed at the start and whose advice is to
// stop.
func settled() model.Profile {
	p := drive.Barley(0, 1, 2, 3, 4, 5, 5, 6, 5, 5, 6, 6)
	p.Trials[0].PotG = 150
	return p
}

// If powder was taken since the pot was last weighed, the keys at the end offer to
// weigh it. Finishing asks for it once.
func TestFinishingAsksForThePotOnce(t *testing.T) {
	for _, key := range []string{"f", "enter"} {
		f := drive.NewShelf(settled())
		d := drive.Start(t, f.Deps(), 80, 24).Press("enter")
		assert.Contains(t, d.Frame(), "STOP  p weighs the pot once more, then Enter finishes the trial")
		assert.Contains(t, d.Frame(), "p weigh the powder's pot", "among the keys")
		d.Press(key)
		assert.Contains(t, d.Flat(), "SURE? Powder was taken since the pot was weighed last: p weighs it.")
		assert.Contains(t, d.Frame(), "p weigh the powder's pot", "among the answers")
		d.Press("p 140 enter")
		assert.Equal(t, 140.0, f.Steps(t, "Barley")[11].PotG)
		assert.NotContains(t, d.Frame(), "SURE?")
		d.PressUntil(key, "Trial › result")

		d = drive.Start(t, drive.NewShelf(settled()).Deps(), 80, 24).Press("enter " + key + " enter")
		assert.Contains(t, d.Frame(), "Trial › result", "asked once")
	}
	p := drive.Barley(0, 1, 3)
	p.Trials[0].PotG = 150
	d := drive.Start(t, drive.NewShelf(p).Deps(), 80, 24).Press("enter f")
	assert.Contains(t, d.Flat(), "±12 % was wanted. Powder was taken since the pot was weighed last: p weighs it.")
}

// Until the pot is weighed again, the powder in the dish is shown as a guess and no
// ratio is shown.
func TestAGuessedWeightIsShownAsAGuess(t *testing.T) {
	p := drive.Barley(0, 1, 3)
	p.LevelSpoons = nil
	p.Trials[0].PotG = 150
	f := drive.NewShelf(p)
	for _, size := range [][2]int{{120, 40}, {80, 24}, {60, 20}, {40, 12}} {
		frame := drive.Start(t, f.Deps(), size[0], size[1]).Press("enter").Flat()
		assert.Contains(t, frame, " + about 1.8 g powder", size)
		assert.Contains(t, frame, "guess", size)
		assert.NotContains(t, frame, "g/g", size)
		assert.NotContains(t, frame, "10.8", "20 g water on a guess of 1.85 g", size)
	}
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter right right")
	assert.Contains(t, d.Flat(), "struck off level (about ", "of a spoon too")
	d.Press("esc p 148.1 enter")
	assert.Contains(t, d.Flat(), "20.00 g water + 1.90 g powder: 10.5 g/g")
	assert.NotContains(t, d.Frame(), "guess")

	p.Trials[0].State = model.Done
	d = drive.Start(t, drive.NewShelf(p).Deps(), 80, 60).Press("enter")
	assert.Contains(t, d.Flat(), "Trial › result")
	assert.Contains(t, d.Flat(), "3 1/4 tsp of powder, level 3 ribbon")
}

// A wrong first weighing of the pot is mended among the trial's facts. An unlikely
// one is asked about, as at any weighing of the pot.
func TestTheFirstWeighingOfThePotIsMended(t *testing.T) {
	p := settled()
	p.Trials[0].PotG = 105.4
	f := drive.NewShelf(p)
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter p 142.6 enter")
	assert.Contains(t, d.Flat(), "The pot holds 37.20 g more than before.")
	d.Press("esc c").PressUntil("down", "▸ Pot")
	assert.Contains(t, d.Flat(), "▸ Pot 105.4 g before the first step; 0: not weighed")
	d.Press("150.4 enter")
	assert.Equal(t, 150.4, f.Profile("Barley").Trials[0].PotG)
	assert.Contains(t, d.Frame(), "the pot weighed 150.4 g before the first step")
	d.Press("p 142.6 enter")
	assert.Equal(t, 142.6, f.Steps(t, "Barley")[11].PotG, "nothing to ask")

	for key, kept := range map[string]float64{"enter": 105.4, "esc": 150.4} {
		d.Press("c").PressUntil("down", "▸ Pot").Press("105.4 esc")
		assert.Contains(t, d.Flat(), "SURE? The pot holds 37.20 g more than before.")
		d.Press(key)
		assert.Equal(t, kept, f.Profile("Barley").Trials[0].PotG)
		assert.Contains(t, d.Flat(), "▸ Pot "+model.Number(kept)+" g", "the line says what stands")
		d.Press("esc c").PressUntil("down", "▸ Pot").Press("150.4 enter")
	}

	d = drive.Start(t, drive.NewShelf(drive.Barley(0, 1)).Deps(), 80, 24).Press("enter c")
	assert.NotContains(t, d.Frame(), "Pot", "where it is not weighed nothing is asked of it")
}

// A key that is no answer to a question is told the answers.
func TestOtherKeysAtAQuestionAreToldTheAnswers(t *testing.T) {
	d := drive.Start(t, drive.NewShelf(drive.Barley(0, 1, 2, 4, 4, 6)).Deps(), 80, 24)
	d.Press("enter l left left up up enter 3")
	assert.Contains(t, d.Frame(), "SURE?")
	assert.Contains(t, d.Frame(), "! first the question: Enter add it all the same · Esc go back")
	assert.NotContains(t, d.Press("esc").Frame(), "first the question")

	d = drive.Start(t, drive.NewShelf(drive.Barley(0, 1)).Deps(), 80, 24).Press("enter enter 3 9")
	assert.Contains(t, d.Frame(), "! first the question: Enter yes · Esc wait · 0-7 level · Space stirred")
}
