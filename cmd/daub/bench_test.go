package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"daub.example/daub/cmd/daub/internal/term"
	"daub.example/daub/data"
	"daub.example/daub/model"
	"github.com/stretchr/testify/require"
)

func testApp(t *testing.T) (*app, *shelfAdapter) {
	a := &app{host: testHost(t), patience: lastPatience}
	return a, newShelfAdapter(a.host.shelf)
}

// fresh is a profile that has no file yet, with one trial of n steps.
func fresh(name string, n int) data.Entry {
	t := model.Trial{Started: time.Date(2026, 5, 3, 10, 0, 0, 0, time.UTC), LiquidG: 20}
	for range n {
		t.Steps = append(t.Steps, model.Step{Add: model.AddPowder, Grams: 2, Looked: true, Level: 1})
	}
	return data.Entry{Profile: model.Profile{Powder: model.Powder{Name: name}, Trials: []model.Trial{t}}}
}

func TestSampleShelfIsANewFolderEachTime(t *testing.T) {
	a, _ := testApp(t)
	one, err := a.sampleShelf()
	require.NoError(t, err)
	two, err := a.sampleShelf()
	require.NoError(t, err)
	require.NotEqual(t, one, two)
	require.Equal(t, a.temp, filepath.Dir(one))
	got := daub(a.host, "list", "--json", "--shelf", one)
	require.Zero(t, got.code, got.err)
	require.NotEmpty(t, decode[[]listJSON](t, got))
	require.NoDirExists(t, a.host.shelf, "the maker's own shelf is left alone")
}

func TestWorldOverTheShelf(t *testing.T) {
	a, adapter := testApp(t)
	w := a.deps(adapter, &term.Output{}, true)
	require.True(t, w.Demo)
	require.Equal(t, a.host.shelf, w.ShelfDir)
	require.NoError(t, w.AddSamples())

	require.NoError(t, os.WriteFile(filepath.Join(a.host.shelf, "spoons.toml"),
		[]byte("[[spoon]]\nname = \"1 tsp\"\nvolume_ml = 5.2\n"), 0o644))
	path := shelve(t, a.host, "broken", broken)
	l, err := w.List()
	require.NoError(t, err)
	require.NotEmpty(t, l.Items)
	require.Equal(t, []string{"spoons.toml gives 1 tsp another size; it counts only in trials with spoon set own"},
		l.Notes)
	require.NotEmpty(t, l.Broken)
	for _, line := range l.Broken {
		require.NotContains(t, line, "\n")
	}
	require.Contains(t, strings.Join(l.Broken, " "), path+":4: ")
	require.Contains(t, strings.Join(l.Broken, " "), "(and 1 more)")

	stands, err := w.Save(fresh("Oat", 1))
	require.NoError(t, err)
	require.Equal(t, "oat", stands.Slug)
	stands.Profile.Powder.Notes = "again"
	again, err := w.Save(stands)
	require.NoError(t, err, "the token is what was read or last saved")
	require.Equal(t, "oat", again.Slug)
	_, err = w.Save(stands)
	require.NoError(t, err, "the same once more changes nothing")

	require.NoError(t, os.WriteFile(again.Path, []byte(broken), 0o644))
	again.Profile.Powder.Notes = "and again"
	_, err = w.Save(again)
	require.ErrorIs(t, err, data.ErrChanged)
	beside, err := w.SaveAsNew(again)
	require.NoError(t, err)
	require.Equal(t, "oat-2", beside.Slug)
	require.Equal(t, broken, read(t, again.Path))
}

// The program is closed during a write: the screens never hear of its end and still
// have a newer state to save.
func TestTheLastSaveBuildsOnAWriteTheScreensNeverHeardOf(t *testing.T) {
	a, adapter := testApp(t)
	_, err := adapter.save(fresh("Oat", 1))
	require.NoError(t, err)
	require.NoError(t, a.saveOnExit(adapter, fresh("Oat", 2)))
	entries, errs := adapter.shelf.List()
	require.Empty(t, errs)
	require.Len(t, entries, 1, "no second file")
	require.Len(t, entries[0].Profile.Trials[0].Steps, 2)
	_, err = adapter.save(fresh("Oat", 1))
	require.ErrorIs(t, err, errLeft, "a write that begins later would put an older state over it")

	adapter = &shelfAdapter{shelf: a.shelf()}
	known := entries[0]
	newer := known
	newer.Profile = fresh("Oat", 3).Profile
	_, err = adapter.save(newer)
	require.NoError(t, err)
	known.Profile = fresh("Oat", 4).Profile
	require.NoError(t, a.saveOnExit(adapter, known))
	entries, _ = adapter.shelf.List()
	require.Len(t, entries, 1)
	require.Len(t, entries[0].Profile.Trials[0].Steps, 4)
}

// A new profile that only shares the name of the one before gets its own file.
func TestTheLastSaveTakesNoOtherProfileFile(t *testing.T) {
	a, adapter := testApp(t)
	_, err := adapter.save(fresh("Oat", 5))
	require.NoError(t, err)
	other := fresh("Oat", 1)
	other.Profile.Trials[0].Started = other.Profile.Trials[0].Started.Add(time.Hour)
	require.NoError(t, a.saveOnExit(adapter, other))
	entries, _ := adapter.shelf.List()
	require.Len(t, entries, 2)
	require.Len(t, entries[0].Profile.Trials[0].Steps, 5)
}

func TestWhatTheShelfCannotTakeIsPutElsewhere(t *testing.T) {
	a, adapter := testApp(t)
	require.NoError(t, os.WriteFile(a.host.shelf, []byte("a file where the shelf should be"), 0o644))
	err := a.saveOnExit(adapter, fresh("Oat", 3))
	require.Error(t, err)
	require.Equal(t, exitBadData, (&app{begun: true}).code(err))
	found, _ := filepath.Glob(filepath.Join(a.temp, "daub-oat-*.toml"))
	require.Len(t, found, 1)
	require.ErrorContains(t, err, found[0])
	p, err := data.ReadPowder(found[0], nil)
	require.NoError(t, err)
	require.Len(t, p.Trials[0].Steps, 3)

	a.temp = filepath.Join(a.temp, "gone")
	err = a.saveOnExit(adapter, fresh("Oat", 3))
	require.ErrorContains(t, err, `name = "Oat"`, "as a last resort it is printed")
}

// Every reading brings the maker's own spoons and the warnings of the shelf.
func TestReadingTheShelfAgainBringsItsSpoons(t *testing.T) {
	a, adapter := testApp(t)
	listing, err := adapter.list()
	require.NoError(t, err)
	require.Empty(t, listing.OwnSpoons)
	require.NoError(t, os.MkdirAll(a.host.shelf, 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(a.host.shelf, "spoons.toml"),
		[]byte("[[spoon]]\nname = \"cap\"\nvolume_ml = 4.0\n"), 0o644))
	require.NoError(t, os.WriteFile(filepath.Join(a.host.shelf, ".lock"),
		[]byte("owner = \"anna\"\nmachine = \"the loft\"\n"), 0o644))
	_, err = adapter.save(fresh("Oat", 1))
	require.NoError(t, err)
	listing, err = adapter.list()
	require.NoError(t, err)
	require.Len(t, listing.OwnSpoons, 1)
	require.Len(t, listing.Notes, 1)
	require.Contains(t, listing.Notes[0], "anna on the loft")
}
