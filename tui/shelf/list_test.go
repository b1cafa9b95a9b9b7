package shelf_test

import (
	"errors"
	"strings"
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/tui/internal/drive"
	"daub.example/daub/tui/ui"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

func TestShelfFiltersAsYouType(t *testing.T) {
	a, b := drive.Barley(), drive.Barley()
	a.Powder = model.Powder{Name: "Red clay", Family: model.PlainClay}
	b.Powder = model.Powder{Name: "Maize starch", Family: model.Starch}
	d := drive.Start(t, drive.NewShelf(a, b).Deps(), 80, 24).Press("/ clay")
	assert.Contains(t, d.Frame(), "Red clay")
	assert.NotContains(t, d.Frame(), "Maize")
	d.Press("x")
	assert.Contains(t, d.Frame(), "nothing on the shelf passes this filter")
	d.Press("esc")
	assert.Contains(t, d.Frame(), "Maize starch")
}

func TestSamplesAreOffered(t *testing.T) {
	d := drive.Start(t, drive.NewShelf().Deps(), 80, 24).Press("s")
	assert.Contains(t, d.Frame(), "Sample")
}

func TestBrokenFilesAreNamed(t *testing.T) {
	f := drive.NewShelf(drive.Barley())
	w := f.Deps()
	list := w.List
	w.List = func() (ui.Listing, error) {
		l, err := list()
		l.Broken = []string{"oat.toml:12: the level is no number"}
		return l, err
	}
	assert.Contains(t, drive.Start(t, w, 80, 24).Frame(), "! oat.toml:12")
}

// A trial that was set aside is not opened.
func TestOpensTheNewestTrialInUse(t *testing.T) {
	p := drive.Barley(0, 1, 3, 5)
	p.Trials[0].State = model.Done
	spoiled := p.Trials[0].Clone()
	spoiled.Started = spoiled.Started.Add(time.Hour)
	spoiled.SetAside = "spilled"
	p.Trials = append(p.Trials, spoiled)
	d := drive.Start(t, drive.NewShelf(p).Deps(), 80, 24).Press("enter")
	assert.Contains(t, d.Frame(), "Trial › result  Barley · lot A7 (1 of 2)")

	p.Trials[0].SetAside = "wrong scale"
	d = drive.Start(t, drive.NewShelf(p).Deps(), 80, 24).Press("enter")
	assert.Contains(t, d.Frame(), "(2 of 2)", "where all are set aside, the newest")

	older := spoiled.Clone()
	older.Started, older.SetAside = p.Trials[0].Started.Add(-time.Hour), ""
	p.Trials = append(p.Trials, older)
	p.Trials[0].SetAside = ""
	d = drive.Start(t, drive.NewShelf(p).Deps(), 80, 24).Press("enter")
	assert.Contains(t, d.Frame(), "(1 of 3)", "newest by its start, wherever it stands in the file")
}

// TestTheNewestReadOfTheShelfWins ends the reads of the shelf in the wrong
// order.
func TestTheNewestReadOfTheShelfWins(t *testing.T) {
	f := drive.NewShelf(drive.Barley(0, 1))
	d := drive.Start(t, f.Deps(), 80, 24)
	older := d.Hold("r")()
	f.Entries[0].Profile.Powder.Name = "Newer"
	newer := d.Hold("r")()
	d.Send(newer)
	d.Send(older)
	assert.Contains(t, d.Frame(), "▸ Newer")
}

func TestMarksSurvive(t *testing.T) {
	d := drive.Start(t, drive.Pantry().Deps(), 80, 24).Press("down space down space down space")
	assert.Contains(t, d.Frame(), "* 3 marked: Oat, Rye, Quick")
	assert.Contains(t, d.Frame(), "▸*Quick")
	d.Press("/ oat enter")
	assert.Contains(t, d.Frame(), "* 3 marked", "also where the filter hides them")
	d.Press("esc r c")
	assert.Contains(t, d.Frame(), "Compare  3 powders at 5 spread")
	d.Press("esc")
	assert.Contains(t, d.Frame(), "* 3 marked: Oat, Rye, Quick", "back from comparing")
	assert.Contains(t, d.Frame(), "▸*Oat", "the cursor stays on the powder")
	d.Press("enter esc")
	assert.Contains(t, d.Frame(), "* 3 marked", "back from a result")
	d.Press("space")
	assert.Contains(t, d.Frame(), "* 2 marked: Rye, Quick")
	d.Press("u")
	assert.NotContains(t, d.Frame(), "marked:")
}

func TestCompareSaysHowManyToMark(t *testing.T) {
	f := drive.Pantry()
	for _, n := range []string{"U", "V", "W"} {
		f.Entries = append(f.Entries, model.Entry{Slug: n, Profile: drive.Finished(n, model.Flour, "water", 0, 2, 4,
			5, 6)})
	}
	d := drive.Start(t, f.Deps(), 80, 24).Press("c")
	assert.Contains(t, d.Frame(), "! 0 marked: mark two to six powders with Space")
	d.Press("space c")
	assert.Contains(t, d.Frame(), "! 1 marked")
	d.Press("down space down space down space down space down space down space c")
	assert.Contains(t, d.Frame(), "! 7 marked: six at most")
}

func TestNotWrittenStays(t *testing.T) {
	f := drive.Pantry()
	d := drive.Start(t, f.Deps(), 80, 24).Press("down e")
	f.Fail = errors.New("the disk is full")
	d.Press("csv enter down up")
	assert.Contains(t, d.Frame(), "! NOT WRITTEN: the disk is full")
	f.Fail = nil
	d.Press("e csv enter")
	assert.NotContains(t, d.Frame(), "NOT WRITTEN")
	assert.Equal(t, "1 at 0", f.Files["oat.csv"], "the powder under the cursor, all levels")
}

// The own spoons are read anew with the shelf, not only at the start.
func TestOwnSpoonsAreReadWithTheShelf(t *testing.T) {
	f := drive.NewShelf(drive.Barley())
	d := drive.Start(t, f.Deps(), 80, 40)
	f.OwnSpoons = model.OwnSpoons{{Name: "blue scoop", VolumeML: 2.5, UncertaintyML: 0.025}}
	d.Press("t tab")
	assert.NotContains(t, d.Frame(), "blue scoop")
	d.Press("esc esc t")
	assert.Contains(t, d.Frame(), "blue scoop", "leaving the set-up reads the shelf again")
}

// Liquid and rest are shown where the powders differ in them.
func TestShelfTellsLiquidsApart(t *testing.T) {
	same := drive.NewShelf(drive.Finished("Oat", model.Flour, "water", 0, 2, 4, 5, 6),
		drive.Finished("Rye", model.Flour, "water", 0, 2, 4, 6))
	assert.NotContains(t, drive.Start(t, same.Deps(), 80, 24).Frame(), "liquid   ")
	apart := drive.NewShelf(drive.Finished("Oat", model.Flour, "water", 0, 2, 4, 5, 6),
		drive.Finished("Rye", model.Flour, "vegetable oil", 0, 2, 4, 6))
	assert.Contains(t, drive.Start(t, apart.Deps(), 80, 24).Frame(), "vegetabl…")
}

func TestShelfSaysWhatALevelTeaspoonWeighs(t *testing.T) {
	lines := strings.Split(drive.Start(t, drive.NewShelf(drive.Barley(0)).Deps(), 80, 24).Frame(), "\n")
	assert.Contains(t, lines[1], "  1 tsp  ", "not to be read as the liquid for one")
	assert.Contains(t, lines[2], "  2.61 g  ")
}

func TestShelfShowsTheReadingOfAPowderWithoutLooks(t *testing.T) {
	d := drive.Start(t, drive.NewShelf(drive.Ochre(model.Done)).Deps(), 80, 24)
	assert.Contains(t, d.Frame(), "1.13 at 62 mm  ", "a cell has no room for the interval")
	assert.NotContains(t, d.Frame(), "no finished trial")
	d = drive.Start(t, drive.NewShelf(drive.Ochre(model.Done, 2, 3, 4, 5)).Deps(), 80, 24)
	assert.NotContains(t, d.Frame(), "1.13 at 62 mm  ", "levels come first")
}

// A powder that was only tried beside another's dish has no ratio. The shelf shows
// its answer, and its looks on their own scale.
func TestShelfShowsAPowderTriedSideBySideOnly(t *testing.T) {
	chalk := drive.SideBySide("Soft chalk", "oat", model.Thinner, model.Thicker)
	f := drive.NewShelf(chalk, drive.Finished("Oat", model.Flour, "water", 0, 2, 4, 5, 6))
	for _, size := range [][2]int{{80, 24}, {120, 40}} {
		d := drive.Start(t, f.Deps(), size[0], size[1])
		require.Contains(t, d.Frame(), "▸ Soft chalk")
		assert.Regexp(t, `Soft chalk +side by side only +2.61 g +1 `, d.Frame())
		assert.NotContains(t, d.Frame(), "no finished trial")
		assert.NotContains(t, d.Frame(), "No finished trial")
		assert.Contains(t, d.Frame(), "times as much water as Oat")
		assert.Contains(t, d.Frame(), "a trial by levels (t)")
		assert.Contains(t, d.Frame(), "2 looks side by side, in water")
		assert.Contains(t, d.Frame(), "the same▸┤")
		assert.NotContains(t, d.Frame(), "7 ┤")
		assert.Regexp(t, `1  2026-05-30  .*2 looks side by side  1.1 times \(0.84 to 1.4\)`,
			d.Press("p").Frame(), "on the page no ratio by levels")
	}
}

// The free half of the window shows the chosen powder: answer, next steps, trials.
func TestShelfShowsTheChosenPowder(t *testing.T) {
	for _, w := range []int{80, 120} {
		d := drive.Start(t, drive.Pantry().Deps(), w, 30)
		assert.Contains(t, d.Frame(), "Unfinished since 2026-05-30 08:00.")
		d.Press("down")
		assert.Contains(t, d.Frame(), "── Oat")
		assert.Contains(t, d.Frame(), "Level 5 (spread): 4.8 g water per g")
		assert.Contains(t, d.Frame(), "One finished trial so far")
		assert.Contains(t, d.Frame(), "2026-05-30  in water, 2 min, 9 looks")
		assert.Contains(t, d.Frame(), "g water per g powder", "the chart")
		d.Press("down down down down")
		assert.Contains(t, d.Frame(), "No finished trial yet. t starts one.")
	}
}

func TestArchivedPowdersAreHidden(t *testing.T) {
	f := drive.Pantry()
	f.Entries[1].Profile.Powder.Archived = true
	d := drive.Start(t, f.Deps(), 80, 24)
	assert.NotContains(t, d.Frame(), "Oat")
	d.PressUntil("down", "▸ Rye").Press("v")
	assert.Contains(t, d.Frame(), "Oat · archived")
	d.Press("v")
	assert.NotContains(t, d.Frame(), "Oat")
}

func TestClicksChooseAndOpen(t *testing.T) {
	d := drive.Start(t, drive.Pantry().Deps(), 80, 24)
	click := func(y int) {
		d.Send(tea.MouseMsg{X: 5, Y: y, Action: tea.MouseActionPress, Button: tea.MouseButtonLeft})
	}
	click(3)
	assert.Contains(t, d.Frame(), "▸ Oat")
	click(3)
	assert.Contains(t, d.Frame(), "Trial › result  Oat")
}

// "so far" is not said of a trial that cannot be calculated.
func TestNothingSoFarIsNotSaid(t *testing.T) {
	p := drive.Barley(1)
	p.Trials[0].Steps = append(p.Trials[0].Steps, model.Step{Add: model.Removed, Grams: 500})
	d := drive.Start(t, drive.NewShelf(p).Deps(), 100, 30)
	assert.NotContains(t, d.Frame(), "so far:")
	d = drive.Start(t, drive.NewShelf(drive.Barley(1, 3)).Deps(), 100, 30)
	assert.Contains(t, d.Frame(), "so far:")
}
