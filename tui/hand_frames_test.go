package tui_test

import (
	"fmt"
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/tui/internal/drive"
)

// handled is a shelf with a powder of which more than a ratio is known. It has a
// covered dish with later looks, was weighed loose and tapped, and was seen to raft
// and gel.
func handled() *drive.Shelf {
	p := drive.Finished("Marsh clay", model.SwellingClay, "water", 2, 3, 4, 5)
	p.Powder.Packings = []model.Packing{{Spoon: "1 tsp", LooseG: []float64{2.6, 2.56}, TappedG: []float64{3.42, 3.4}}}
	t := &p.Trials[0]
	steps := t.Steps
	steps[0].Marks, steps[3].Marks = []string{"rafts"}, []string{"gels"}
	stirred, six, five := 4.0, 6.0, 5.0
	steps[3].LevelStirred = &stirred
	added, _ := t.LastAdded()
	t.Covered = true
	t.Later = []model.LaterLook{
		{At: added.Add(8 * time.Minute), Level: &six},
		{At: added.Add(32 * time.Minute), Level: &six, Stirred: &five, Note: "a skin on top"},
	}
	f := drive.NewShelf(p)
	f.OwnSpoons = model.OwnSpoons{{Name: "blue scoop", VolumeML: 5, UncertaintyML: 0.1}}
	f.Clock = added.Add(5 * time.Hour)
	return f
}

// checked are the keys of a spoon check that is kept.
const checked = "k down down down down enter blue space scoop enter 6.02 space 6.05 space 6.03 enter ctrl+s"

// TestHandFrames holds the screens of later looks, contact time, packing and spoon
// checks.
func TestHandFrames(t *testing.T) {
	frames := []struct {
		name, keys string
		facts
	}{
		{"due", "", facts{
			[]string{"▸ later look due: Marsh clay"}, []string{"4 hours (l)"}, []string{"l later looks"},
		}},
		{"later", "l", facts{
			[]string{"COVERED", "A look is due now: 4 hours after the last addition."},
			[]string{"a level thicker", "0-7 level as it stands"},
			[]string{"5 spread after ten turns", "Mix a little thinner, to level 4: it gains a level", "Del delete it"},
		}},
		{"later-words", "l enter", facts{
			[]string{"▸ A look now"}, []string{"For example: 5, stirred 4, gels"}, []string{"Enter keep"},
		}},
		{"spoon-check", checked, facts{
			[]string{"▸ temperature", "kept in spoons.toml"},
			[]string{"blue scoop holds 6.051 mL", "21 % more than the 5 mL it was taken for"},
			[]string{"Ctrl+O older trials too"},
		}},
		{"packing", "p down down down down down down down", facts{
			[]string{"▸ packing", "1 tsp: loose"},
			[]string{"Hausner ratio"},
			[]string{"flow passable. Give this one in grams", "1 tsp, loose"},
		}},
	}
	for _, f := range frames {
		for _, size := range sizes {
			name := fmt.Sprintf("%s-%dx%d", f.name, size[0], size[1])
			t.Run(name, func(t *testing.T) {
				got := drive.Start(t, handled().Deps(), size[0], size[1]).Press(f.keys).Frame()
				f.hold(t, got, size[0])
				golden(t, name, got)
			})
		}
	}
}
