package tui_test

import (
	"fmt"
	"strings"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/tui/internal/drive"
	"github.com/stretchr/testify/require"
)

// A powder beside the dish of another: from the result to the factor.
func TestBesideFrames(t *testing.T) {
	const (
		setUp = "enter m m"
		begun = setUp + " tab ctrl+g"
		look  = begun + " g 14 enter"
		next  = look + " 2 enter"
	)
	for _, f := range []struct {
		name, keys string
		facts      facts
	}{
		{"beside-setup", setUp, facts{
			[]string{"Trial › side by side", "WHICH POWDER?", "Tab take it from"},
			[]string{"Tab Soft chalk"},
			[]string{"Reference dish: trial 1 of Oat", "Keep it covered."},
		}},
		{"beside-rest", setUp + " tab enter", facts{
			[]string{"Trial › side by side", "▸ the pot now"},
			nil,
			[]string{"More settings (Tab): spoons", "Target, liquid and rest are those of the reference dish"},
		}},
		{"beside-more", setUp + " tab enter tab", facts{
			[]string{"Trial › side by side", "▸ precision"}, []string{"Tab fewer settings"}, nil,
		}},
		{"beside-look", look, facts{
			[]string{"LOOK", "1", "much thinner", "3", "the same", "1-5"},
			[]string{"beside the reference dish"},
			[]string{"nobody would mix them up|nobody would take one for the other"},
		}},
		{"beside-bench", next, facts{
			[]string{"ADD", "thinner"},
			nil,
			[]string{"seen thinner only", "likely looks", "e read early", "g water/g  beside"},
		}},
		{"beside-result", next + " g 6 enter 4 enter f enter", facts{
			[]string{"RESULT", "times as much water as Oat"},
			[]string{"by weight"},
			[]string{"as thick as trial 1 of Oat", "the same▸┤", "much thicker ┤"},
		}},
	} {
		for _, size := range sizes {
			name := fmt.Sprintf("%s-%dx%d", f.name, size[0], size[1])
			t.Run(name, func(t *testing.T) {
				shelf := drive.NewShelf(
					drive.Finished("Oat", model.Flour, "water", 0, 1, 2, 3, 4, 5, 5, 6),
					model.Profile{Powder: model.Powder{Name: "Soft chalk", Family: model.Mineral}})
				got := drive.Start(t, shelf.Deps(), size[0], size[1]).Press(f.keys).Frame()
				f.facts.hold(t, got, size[0])
				golden(t, name, got)
			})
		}
	}
}

// The help at a bench beside a dish lists the digits that it takes.
func TestHelpBesideADish(t *testing.T) {
	shelf := drive.NewShelf(
		drive.Finished("Oat", model.Flour, "water", 0, 1, 2, 3, 4, 5, 5, 6),
		model.Profile{Powder: model.Powder{Name: "Soft chalk", Family: model.Mineral}})
	frame := drive.Start(t, shelf.Deps(), 120, 40).Press("enter m m tab ctrl+g ?").Frame()
	said := strings.Join(strings.Fields(frame), " ")
	require.Contains(t, said, "a digit from 1, much thinner, to 5, much thicker, is how it stands beside the reference")
	require.NotContains(t, said, "0 to 7 is the level")
}
