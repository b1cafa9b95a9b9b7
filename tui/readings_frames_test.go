package tui_test

import (
	"fmt"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/tui/internal/drive"
)

// TestReadingFrames holds the frames of readings, acid and plausibility.
func TestReadingFrames(t *testing.T) {
	open, both := drive.Ochre(model.Open), drive.Ochre(model.Open, 3, 0, 4, 5)
	odd := drive.Ochre(model.Done, 1, 2, 3, 4)
	for i := range odd.Trials[0].Steps { // as if another spoon had been weighed
		odd.Trials[0].Steps[i].Grams /= 6
	}
	other := drive.Ochre(model.Done, 3, 4, 4, 5)
	other.Powder.Lot = "autumn"
	for _, f := range []struct {
		name  string
		shelf []model.Profile
		keys  string
		facts facts
	}{
		{"bench-kind", []model.Profile{drive.Barley(0, 1)}, "enter r", facts{
			[]string{"what is measured", "spread"}, nil, []string{"Asked once in a trial", "Enter keeps it"},
		}},
		{"bench-reading", []model.Profile{open}, "enter r", facts{
			[]string{"reading, mm (spread of 15 mL)"}, nil, []string{"Enter keeps it", "58 mm"},
		}},
		{"bench-measured", []model.Profile{open}, "enter r 59 enter", facts{
			[]string{"1.13 (1.09 to 1.16)"},
			nil,
			[]string{"at 62 mm, spread of 15 mL", "That is within the ±12 % wanted", "62▸"},
		}},
		{"bench-both", []model.Profile{both}, "enter i", facts{
			[]string{"Measured:"}, nil, []string{"at 62 mm, spread of 15 mL", "At 5 spread this dish takes"},
		}},
		{"result-measured", []model.Profile{drive.Ochre(model.Done)}, "enter", facts{
			[]string{"RESULT", "1.13 (1.04 to 1.18)"},
			nil,
			[]string{"at 62 mm, spread of 15 mL", "p pH and acid", "62▸"},
		}},
		{"result-both", []model.Profile{drive.Soured(3, 0, 4, 5)}, "enter pgdown pgdown pgdown", facts{
			[]string{"Trial › result"}, nil, []string{"── measured", "two scales", "62▸"},
		}},
		{"result-odd", []model.Profile{odd, other}, "enter", facts{
			[]string{"Trial › result"}, nil, []string{"! 5.2 times what lot autumn took"},
		}},
		{"acid-none", []model.Profile{drive.Ochre(model.Done)}, "enter p", facts{
			[]string{"NOT BEGUN", "Enter begin", "Not tested for fizzing"}, nil, []string{"the back of the strip"},
		}},
		{"acid-begin", []model.Profile{drive.Ochre(model.Done)}, "enter p enter", facts{
			[]string{"1 of 4: which acid"}, nil, []string{"Vinegar has at least 4 g"},
		}},
		{"acid", []model.Profile{drive.Soured()}, "enter p", facts{
			[]string{"ACID", "For pH 5.5: 1.46 g", "t target pH"},
			[]string{"level 4 dollop, lumps", "The acid counts as liquid", "Del delete it"},
			nil,
		}},
	} {
		for _, size := range sizes {
			name := fmt.Sprintf("%s-%dx%d", f.name, size[0], size[1])
			t.Run(name, func(t *testing.T) {
				got := drive.Start(t, drive.NewShelf(f.shelf...).Deps(), size[0], size[1]).Press(f.keys).Frame()
				f.facts.hold(t, got, size[0])
				golden(t, name, got)
			})
		}
	}
}
