package compare_test

import (
	"strings"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/tui/internal/drive"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestCompareLevelsAndReference(t *testing.T) {
	f := drive.Pantry()
	d := drive.Start(t, f.Deps(), 80, 24).Press("down space down space down space c")
	frame := d.Frame()
	assert.Contains(t, frame, "At 5 spread, against A Oat: g water per g powder, rest 2 min.")
	for _, fact := range []string{
		"▸ A Oat", "  B Rye", "  C Quick", "(A) Oat", "(B) Rye", "times A",
		"gram for gram", "! not sure yet", "! no: crumbly", "B: Rye takes ",
	} {
		assert.Contains(t, frame, fact)
	}
	d.Press("right")
	assert.Contains(t, d.Frame(), "Compare  3 powders at 5.5 spread/stiff")
	d.Press("left left")
	assert.Contains(t, d.Frame(), "at 4.5 dollop/spread")
	d.Press("tab tab")
	assert.Contains(t, d.Frame(), "▸ C Quick")
	assert.Contains(t, d.Frame(), "times C")
	assert.Contains(t, d.Frame(), "A: Oat takes ")
	d.Press("up up")
	assert.Contains(t, d.Frame(), "▸ A Oat")
	for range 20 {
		d.Press("right")
	}
	assert.Contains(t, d.Frame(), "at 6 stiff", "no further than there are ratios")
	for range 20 {
		d.Press("pgdown")
	}
	assert.Contains(t, d.Flat(), "this is no medical or regulatory advice", "the end of the text")
}

func TestCompareBesideAt120(t *testing.T) {
	d := drive.Start(t, drive.Pantry().Deps(), 120, 40).Press("down space down space c")
	assert.Regexp(t, `▸ A Oat .* 1 +- +1 `, d.Frame())
	assert.Regexp(t, `  B Rye .*\d \([0-9.]+ to [0-9.]+\)`, d.Frame(), "there is room for the intervals of the factors")
	assert.Regexp(t, `level +\(A\) Oat .*B: Rye takes`, d.Frame(), "the text stands beside the chart")
}

func TestOtherLiquidIsRefusedLoudly(t *testing.T) {
	d := drive.Start(t, drive.Pantry().Deps(), 80, 24).Press("down space down down down space c")
	frame := d.Frame()
	assert.Contains(t, frame, "! NOT COMPARED with A: B.")
	assert.Contains(t, frame, "! none")
	assert.Contains(t, frame, "(B) in vegetable oil, not drawn")
	assert.Contains(t, frame, "! B: Not compared: Oat was tried in water, Oily in vegetable oil.")
	d.Press("s")
	assert.Contains(t, d.Frame(), "Kitchen › swap")
	assert.Contains(t, d.Frame(), "! Not compared: Oat was tried in water")
	d.Press("down down down 50")
	assert.NotContains(t, d.Frame(), "For 50", "no amounts for what is not compared")
}

func TestPowderWithoutATrialIsRefused(t *testing.T) {
	d := drive.Start(t, drive.Pantry().Deps(), 80, 24).Press("down space down down down down space c")
	assert.Contains(t, d.Frame(), "no trial")
	assert.Contains(t, d.Flat(), "! B: Not compared: Never tried has no finished trial in water with a rest near 2")
}

// What two pairs have in common is said once. Groups that waited differently are
// each named.
func TestWhatRepeatsIsSaidOnce(t *testing.T) {
	slow := drive.Finished("Slow", model.Botanical, "water", 0, 2, 4, 5, 6)
	long := 3600
	slow.Trials[0].RestS = &long
	d := drive.Start(t, drive.NewShelf(
		drive.Finished("Ash", model.PlainClay, "water", 0, 2, 4, 5, 6), drive.Finished("Birch", model.PlainClay,
			"water", 0, 2, 4, 5, 6), slow,
	).Deps(), 100, 60).Press("space down space down space c")
	text := strings.Join(strings.Fields(d.Flat()), " ")
	assert.Equal(t, 1, strings.Count(text, "Not like for like"), text)
	assert.NotContains(t, text, "the others waited")
	d.Press("tab tab")
	text = strings.Join(strings.Fields(d.Flat()), " ")
	assert.Contains(t, text, "against C Slow")
	assert.Equal(t, 1, strings.Count(text, "Not like for like"), text)
	assert.Equal(t, 1, strings.Count(text, "Allergens with Slow only"), text)
}

func TestLotsSurviveInTheTable(t *testing.T) {
	long := drive.Finished("A powder of a name that fills the line", model.Starch, "water", 0, 2, 4, 5, 6)
	long.Powder.Lot = "K4"
	other := drive.Finished("A powder of a name that fills the line", model.Starch, "water", 0, 2, 4, 5, 6)
	other.Powder.Lot = "K5"
	d := drive.Start(t, drive.NewShelf(long, other).Deps(), 80, 24).Press("space down space c")
	assert.Contains(t, d.Frame(), "▸ A A powder of a name … · K4")
	assert.Contains(t, d.Frame(), "  B A powder of a name … · K5")
}

func TestComparisonGetsOut(t *testing.T) {
	f := drive.Pantry()
	d := drive.Start(t, f.Deps(), 80, 24).Press("down space down space c y")
	assert.Contains(t, f.Clip, "At 5 spread, against A Oat")
	assert.Contains(t, f.Clip, "B: Rye takes ")
	assert.NotContains(t, f.Clip, "\x1b")
	assert.Contains(t, d.Frame(), "the comparison copied to the clipboard")

	d.Press("e")
	assert.Contains(t, d.Frame(), ".csv .toml .json .md .svg .png .pdf")
	d.Press("bmp enter")
	assert.Contains(t, d.Frame(), `! "bmp" does not say what to write`)
	d.Press("bksp bksp bksp svg enter")
	assert.Contains(t, d.Frame(), "written to /written/powders.svg")
	assert.Equal(t, "2 at 5", f.Files["powders.svg"])
	require.Len(t, f.Exported, 1)
	assert.Equal(t, "Oat", f.Exported[0][0].Profile.Powder.Name)

	f.Files["powders.svg"] = "mine"
	d.Press("e svg enter")
	assert.Contains(t, d.Frame(), "! powders.svg is there already and was left as it is")
	assert.Equal(t, "mine", f.Files["powders.svg"])
	d.Press("esc")
	assert.Equal(t, "mine", f.Files["powders.svg"])
	d.Press("e svg enter pdf enter")
	assert.Contains(t, d.Frame(), "written to /written/powders.pdf")
	assert.Equal(t, "mine", f.Files["powders.svg"], "another name leaves it alone too")
	d.Press("e end bksp bksp bksp svg enter enter")
	assert.Equal(t, "2 at 5", f.Files["powders.svg"], "asked again, and meant")
}

// l goes through the liquids and rests in which the powders were tried.
func TestCompareInAnotherLiquid(t *testing.T) {
	both := func(name string, levels ...float64) model.Profile {
		p := drive.Finished(name, model.Flour, "water", 0, 2, 4, 5, 6)
		p.Trials = append(p.Trials, drive.Finished(name, model.Flour, "vegetable oil", levels...).Trials...)
		return p
	}
	f := drive.NewShelf(both("Oat", 0, 1, 3, 5, 6), both("Rye", 0, 3, 4, 5, 6))
	d := drive.Start(t, f.Deps(), 80, 24).Press("space down space c")
	assert.Contains(t, d.Frame(), "against A Oat: g vegetable oil per g powder, rest 2 min.", "the newest")
	d.Press("l")
	assert.Contains(t, d.Frame(), "against A Oat: g water per g powder, rest 2 min.")
	assert.Contains(t, d.Frame(), "g powder per g water")
	d.Press("l")
	assert.Contains(t, d.Frame(), "against A Oat: g vegetable oil per g powder, rest 2 min.")

	one := drive.Start(t, drive.Pantry().Deps(), 80, 24).Press("down space down space c")
	assert.NotContains(t, one.Frame(), "l liquid and rest", "nothing to choose among")
}

func TestCompareExplainsItsSigns(t *testing.T) {
	d := drive.Start(t, drive.Pantry().Deps(), 120, 40).Press("down space down space c ?")
	for _, fact := range []string{"side by side", "Times A", "In the chart:", "(A), (B) …: whose curve it is"} {
		assert.Contains(t, d.Flat(), fact)
	}
}
