package acid_test

import (
	"strings"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/tui/internal/drive"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// begun opens the acid test of a finished trial: 30 g of paste, drops of 0.05 g.
func begun(t *testing.T, p model.Profile, by string) (*drive.Driver, *drive.Shelf) {
	f := drive.NewShelf(p)
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter")
	require.Contains(t, d.Flat(), "p pH and acid")
	d.Press("p enter").Write("citric acid 10 %").Press("enter").Write("30 g").Press("enter").Write(by).Press("enter")
	d.Write("0.05").Press("enter")
	require.Contains(t, d.Flat(), "pH of the paste before any acid")
	return d, f
}

func ochre(levels ...float64) model.Profile {
	return drive.Finished("Ochre", model.PlainClay, "water", append([]float64{1, 3, 4, 5, 6}, levels...)...)
}

func ph(d *drive.Driver, readings ...string) {
	for _, r := range readings {
		if strings.Contains(d.Flat(), "Enter keep · Esc back") {
			d.Write(r).Press("enter")
			continue
		}
		d.Press("enter").Write(r).Press("enter")
	}
}

// pH and acid from the result: begun, read, mended, deleted and undone. The trial
// stays finished throughout.
func TestAcid(t *testing.T) {
	d, f := begun(t, ochre(), "strip 0.5")
	ph(d, "8.5")
	assert.Contains(t, d.Flat(), "No amount yet")
	ph(d, "7 after 5 drops", "5 after 5 drops, wait 2 min, level 4, lumps")
	// By hand: from pH 7 to 5 over 0.25 g, so 5.5 at 0.4375 g of 30 g: 1.458 g per
	// 100 g. ± 0.25 gives 0.406 and 0.469 g.
	assert.Contains(t, d.Flat(),
		"For pH 5.5: 1.46 g (1.35 to 1.56) of citric acid 10 % per 100 g of paste, about 29 drops")
	assert.Contains(t, d.Flat(), "The acid counts as liquid")
	assert.Contains(t, d.Flat(), "level 4 dollop, lumps")
	trial := func() model.Trial { return f.Profile("Ochre").Trials[0] }
	require.Len(t, trial().Acid.Steps, 3)
	assert.Equal(t, model.Done, trial().State, "the looks are what they were")

	d.Press("e").Erase(60).Write("5.5 after 6 drops").Press("enter")
	assert.Equal(t, 6, trial().Acid.Steps[2].Drops)
	d.Press("u")
	assert.Contains(t, d.Flat(), "undone: mending of pH 3")
	assert.Equal(t, 5, trial().Acid.Steps[2].Drops)
	d.Press("del")
	assert.Len(t, trial().Acid.Steps, 2)
	d.Press("u t").Write("8").Press("enter")
	assert.Contains(t, d.Flat(), "For pH 8: 0.278 g")
	assert.Equal(t, 8.0, trial().Acid.TargetPH)
	d.Press("x")
	assert.Nil(t, trial().Acid)
	d.Press("u u u u u u u u u u u")
	assert.Nil(t, trial().Acid, "all of it undone")
	assert.Contains(t, d.Flat(), "nothing to be undone here", "and nothing before it")
	d.Press("U U U U")
	assert.Len(t, trial().Acid.Steps, 3)
	assert.Equal(t, model.Done, trial().State)
	d.Press("esc")
	assert.Contains(t, d.Flat(), "Trial › result")
	d.PressUntil("pgdown", "For pH 5.5: 1.46 g")
	d.Press("b u")
	assert.Equal(t, model.Done, trial().State)
}

// Esc between the questions keeps nothing. A drop without a weight is refused with
// what to do, and the text typed stays.
func TestHalfATest(t *testing.T) {
	f := drive.NewShelf(ochre())
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter p enter").Write("vinegar 5 %").Press("enter esc")
	assert.Nil(t, f.Profile("Ochre").Trials[0].Acid)
	d.Press("enter").Write("vinegar 5 %").Press("enter enter enter enter").Write("9").Press("enter enter")
	d.Write("8 after 3 drops").Press("enter")
	assert.Contains(t, d.Flat(), "weigh twenty drops")
	assert.Contains(t, d.Flat(), "8 after 3 drops")
	assert.Len(t, f.Profile("Ochre").Trials[0].Acid.Steps, 1)
}

// As METHOD says: readings out of order, a target never crossed or already passed,
// and a strip of whole units.
func TestOddReadings(t *testing.T) {
	d, _ := begun(t, ochre(), "strip 0.5")
	ph(d, "9", "6 after 5 drops", "7 after 5 drops")
	assert.Contains(t, d.Flat(), "The pH rose where it should fall; such readings are averaged")
	assert.Contains(t, d.Flat(), "For pH 5.5: more than was tried, 1.67 g", "never extrapolated")
	d.Press("t").Write("9.5").Press("enter")
	assert.Contains(t, d.Flat(), "The paste reads pH 9.5 or below without acid: none is wanted")

	d, _ = begun(t, ochre(), "strip 1")
	ph(d, "9", "5 after 10 drops", "4 after 10 drops")
	// From pH 9 to 5 over 0.5 g, to 4 over the next: 5.5 at 0.4375 g. ± half a unit
	// gives 0.375 and 0.5 g of 30 g.
	assert.Contains(t, d.Flat(), "For pH 5.5: 1.46 g (1.25 to 1.67)")
	assert.Contains(t, d.Flat(), "A strip of whole units tells little")

	d, _ = begun(t, ochre(), "strip 0.5")
	ph(d, "4 after 10 drops", "3 after 10 drops")
	assert.Contains(t, d.Flat(), "less than was tried first, 1.67 g")
}

// A powder that fizzes: a caution before the first drop, and the fizz is recorded
// when seen. Its pH climbs back, so the last reading at an amount counts.
func TestAFizzingPowder(t *testing.T) {
	p := drive.Finished("Chalk", model.Mineral, "water", 1, 3, 4, 5, 6)
	f := drive.NewShelf(p)
	d := drive.Start(t, f.Deps(), 80, 24).Press("enter p")
	assert.Contains(t, d.Flat(), "It fizzes: open bowl, a drop at a time; never a closed jar")

	d, f = begun(t, ochre(), "strip 0.5")
	ph(d, "9", "6 after 20 drops")
	d.Press("f")
	assert.Contains(t, d.Flat(), "recorded: it fizzes")
	require.NotNil(t, f.Profile("Ochre").Powder.Fizzes)
	assert.True(t, *f.Profile("Ochre").Powder.Fizzes)
	assert.Contains(t, d.Flat(), "read again after ten minutes. Never a closed jar")
	ph(d, "8, wait 10 min", "5 after 20 drops, wait 10 min")
	assert.Contains(t, d.Flat(), "pH 8 read again, 1.00 g in all, waited 10 min")
	// 9 at 0, 8 (not 6) at 1 g, 5 at 2 g: 5.5 at 1.833 g of 30 g
	assert.Contains(t, d.Flat(), "For pH 5.5: 6.11 g")
	assert.NotContains(t, d.Flat(), "averaged")
}
