package main

import (
	"strings"
	"testing"

	"daub.example/daub/model"
	"github.com/stretchr/testify/require"
)

func TestEditChangesAPowdersFacts(t *testing.T) {
	h := kitchenShelf(t)
	before := shelved(t, h, "chalk")
	got := daub(h, "edit", "chalk", "name=Quarry chalk", "lot=C3", "family=mineral", "fizzes=yes",
		"solid_density=2.7", "notes=south face")
	require.Zero(t, got.code, got.err)
	require.Contains(t, got.out, "fizzes=yes\n")
	after := shelved(t, h, "chalk") // the slug stays
	fizzes := true
	require.Equal(t, model.Powder{
		Name: "Quarry chalk", Lot: "C3", Family: model.Mineral, Fizzes: &fizzes, SolidDensity: 2.7, Notes: "south face",
		KeepFromMetal: before.Powder.KeepFromMetal,
	}, after.Powder)
	require.Equal(t, before.Trials, after.Trials)
	require.Contains(t, daub(h, "show", "Quarry chalk").out, "fizzes with vinegar")
}

// Of several changes, all are made or none.
func TestEditRefusesSlips(t *testing.T) {
	h := kitchenShelf(t)
	before := shelved(t, h, "chalk")
	for slip, said := range map[string]string{
		"fizzes=maybe": `fizzes: "maybe" is neither yes nor no`,
		"weight=3":     `a powder has no "weight": use one of name, lot`,
		"lot":          "says no value",
		"name=":        "name: a powder needs one",
	} {
		got := daub(h, "edit", "chalk", "lot=X", slip)
		require.Equal(t, exitMisused, got.code)
		require.Contains(t, got.err, said)
		require.Empty(t, got.out)
	}
	require.Equal(t, before, shelved(t, h, "chalk"))
	got := daub(h, "edit", "chalk")
	require.Zero(t, got.code)
	require.Contains(t, got.out, "name=Chalk\n")
}

func TestArchivedPowdersAreLeftOutOfTheList(t *testing.T) {
	h := kitchenShelf(t)
	require.Contains(t, strings.ToLower(daub(h, "list").out), "chalk")
	require.Zero(t, daub(h, "edit", "chalk", "archived=yes").code)
	got := daub(h, "list")
	require.NotContains(t, strings.ToLower(got.out), "chalk")
	require.Contains(t, got.err, "1 archived powder left out: daub list --all")
	require.Contains(t, strings.ToLower(daub(h, "list", "--all").out), "chalk")
	require.Contains(t, daub(h, "show", "chalk").out, "Archived")
}

// Whatever the screens can mend can be mended in lines.
func TestPlainTrialMendsEverything(t *testing.T) {
	h := testHost(t)
	lines := with(newClay, "1 tsp", "1", "1 tsp", "2", "1 tsp", "4",
		"mend 2 level 3", "mend 1 1/2 tsp", "insert 2 1.5 g", "delete 4", "set target=4", "set rest=60 s",
		"set precision=±10 %",
		"set start=6 g", "set lot=L9", "set fizzes=no", "set allergens=none", "set colour=red", "set", "quit")
	got := daub(typing(h, lines...), "trial", "--plain")
	require.Zero(t, got.code, got.err)
	p := shelved(t, h, "garden-clay")
	trial := p.Trials[0]
	require.Len(t, trial.Steps, 3, got.out)
	require.Equal(t, "1/2 tsp", trial.Steps[0].Spoon)
	require.Equal(t, 1.5, trial.Steps[1].Grams)
	require.Equal(t, 3.0, trial.Steps[2].Level)
	require.Equal(t, 4.0, trial.Aim)
	require.Equal(t, 60, *trial.RestS)
	require.InDelta(t, 0.10, trial.Tolerance, 1e-9)
	require.Equal(t, 6.0, trial.LiquidG)
	require.Equal(t, "L9", p.Powder.Lot)
	require.False(t, *p.Powder.Fizzes)
	require.Equal(t, []string{"none"}, p.Powder.Allergens)
	require.Contains(t, got.out, `a powder has no "colour"`)
	require.Contains(t, got.out, "set lot=L9\n")
	require.Contains(t, got.out, "  daub trial --plain \"Garden clay@L9\"\n")
}

// Lines never break a word, and a weighing can be deleted where it is asked for.
func TestPlainTrialBreaksNoWord(t *testing.T) {
	h := testHost(t)
	lines := []string{
		"New meal", "", "", "1 tsp", "1", "0.01", "2.31", "231", "yes", "undo", "undo", "2.30", "", "",
		"", "", "", "", "", "", "", "quit",
	}
	got := daub(typing(h, lines...), "trial", "--plain")
	require.Zero(t, got.code, got.err)
	require.Contains(t, got.out, "A new powder: New meal.")
	require.Contains(t, got.out, "Undone: ")
	for _, line := range strings.Split(got.out, "\n") {
		require.LessOrEqual(t, len([]rune(line)), 80+len(h.shelf), line)
		require.False(t, strings.HasSuffix(line, "-"), line)
	}
}
