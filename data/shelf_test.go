package data

import (
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"runtime"
	"strings"
	"testing"
	"time"

	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
	"github.com/gofrs/flock"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func newShelf(t testing.TB) *Shelf {
	dir := t.TempDir()
	return Open(filepath.Join(dir, "shelf"), nil)
}

func profile(name, lot string) model.Profile {
	return model.Profile{Powder: model.Powder{Name: name, Lot: lot}}
}

func save(t testing.TB, s *Shelf, name, lot string) Entry {
	t.Helper()
	e, err := s.Save(Entry{Profile: profile(name, lot)})
	require.NoError(t, err)
	return e
}

// files lists everything in the shelf's folder of profiles.
func files(t testing.TB, s *Shelf) []string {
	t.Helper()
	found, err := os.ReadDir(filepath.Join(s.Dir(), powdersFolder))
	require.NoError(t, err)
	var names []string
	for _, f := range found {
		names = append(names, f.Name())
	}
	return names
}

func TestShelfThatDoesNotExistIsEmpty(t *testing.T) {
	s := newShelf(t)
	entries, errs := s.List()
	assert.Empty(t, entries)
	assert.Empty(t, errs)
	assert.NoDirExists(t, s.Dir())
}

func TestSaveLoadList(t *testing.T) {
	s := newShelf(t)
	b := save(t, s, "Beta", "2")
	save(t, s, "beta", "1")
	save(t, s, "Alpha", "")
	assert.Equal(t, "beta-2", b.Slug)
	b.Profile.Powder.Notes = "line one\nline \"two\""
	b.Profile.Trials = []model.Trial{{Started: time.Date(2026, 5, 3, 10, 12, 0, 0, time.UTC), LiquidG: 20}}
	b, err := s.Save(b)
	require.NoError(t, err)
	got, err := s.Load("beta-2")
	require.NoError(t, err)
	assert.Equal(t, canon(b.Profile), canon(got.Profile))
	assert.Equal(t, []int{0}, got.Profile.Unfinished())

	require.NoError(t, os.WriteFile(filepath.Join(s.Dir(), powdersFolder, "broken.toml"), []byte("schema = 2\n"),
		0o644))
	require.NoError(t, os.WriteFile(filepath.Join(s.Dir(), powdersFolder, ".alpha.toml.1-0.tmp"), []byte("sche"),
		0o644))
	require.NoError(t, os.WriteFile(filepath.Join(s.Dir(), powdersFolder, "README.md"), []byte("mine"), 0o644))
	entries, errs := s.List()
	var titles []string
	for _, e := range entries {
		titles = append(titles, e.Profile.Powder.Title())
	}
	assert.Equal(t, []string{"Alpha", "beta · lot 1", "Beta · lot 2"}, titles)
	require.Len(t, errs, 1)
	var refused *tomlfile.Error
	require.ErrorAs(t, errs[0], &refused)
	assert.Equal(t, "broken.toml", filepath.Base(refused.File))
}

func TestLinkThatLeadsNowhereIsSeen(t *testing.T) {
	s := newShelf(t)
	save(t, s, "Alpha", "")
	if err := os.Symlink(filepath.Join(s.Dir(), "gone.toml"), powders.path(s, "beta")); err != nil {
		t.Skip("no links here:", err)
	}
	entries, errs := s.List()
	assert.Len(t, entries, 1)
	require.Len(t, errs, 1)
	assert.ErrorContains(t, errs[0], "beta.toml: the link leads nowhere")
}

func TestFind(t *testing.T) {
	s := newShelf(t)
	save(t, s, "Fine oat flour", "2026-04")
	save(t, s, "Fine oat flour", "2026-05")
	save(t, s, "Tuber starch", "")
	save(t, s, "Odd@name", "")
	require.NoError(t, os.WriteFile(powders.path(s, "broken"), []byte("x"), 0o644))

	for powder, slug := range map[string]string{
		"tuber-starch": "tuber-starch", "Tuber starch": "tuber-starch", "tuber STARCH": "tuber-starch",
		"Fine oat flour@2026-05": "fine-oat-flour-2026-05", "Odd@name": "odd-name", "Tuber starch@": "tuber-starch",
		"Tuber-Starch": "tuber-starch", "tub": "tuber-starch", "FINE-oat-flour-2026-05": "fine-oat-flour-2026-05",
	} {
		e, err := s.Find(powder)
		require.NoError(t, err, powder)
		assert.Equal(t, slug, e.Slug, powder)
	}
	_, err := s.Find("Fine oat flour")
	var several *AmbiguousError
	require.ErrorAs(t, err, &several)
	assert.Equal(t, []string{"fine-oat-flour-2026-04", "fine-oat-flour-2026-05"}, several.Choices)
	_, err = s.Find("uber starch")
	var unknown *UnknownError
	require.ErrorAs(t, err, &unknown)
	assert.Equal(t, []string{"Tuber starch"}, unknown.Near, "its name once, not its file's too")
	assert.Equal(t, 1, unknown.Broken)
	_, err = s.Find("broken")
	var refused *tomlfile.Error
	require.ErrorAs(t, err, &refused)
	_, err = s.Load("../tuber-starch")
	require.ErrorAs(t, err, &unknown)
}

func TestSaveKeepsOutOfTheWay(t *testing.T) {
	s := newShelf(t)
	e := save(t, s, "Alpha", "")
	here, elsewhere := e, e
	elsewhere.Profile.Powder.Notes = "written elsewhere"
	_, err := s.Save(elsewhere)
	require.NoError(t, err)
	before, err := os.ReadFile(e.Path)
	require.NoError(t, err)

	here.Profile.Powder.Notes = "written here"
	_, err = s.Save(here)
	require.ErrorIs(t, err, ErrChanged)
	var changed *ChangedError
	require.ErrorAs(t, err, &changed)
	assert.Equal(t, e.Path, changed.File)
	after, err := os.ReadFile(e.Path)
	require.NoError(t, err)
	assert.Equal(t, before, after)

	beside, err := s.SaveAsNew(here)
	require.NoError(t, err)
	assert.Equal(t, "alpha-2", beside.Slug)
	assert.Equal(t, []string{"alpha-2.toml", "alpha.toml"}, files(t, s))
	beside.Profile.Powder.Name = "Gamma"
	beside, err = s.Save(beside)
	require.NoError(t, err)
	assert.Equal(t, "alpha-2", beside.Slug, "a slug is kept for good")
}

// A profile or list of spoons that was moved away or deleted while it was open
// is told, and not silently made again; who wants it back saves it beside.
func TestSaveTellsWhatWasMovedAway(t *testing.T) {
	s := newShelf(t)
	e := save(t, s, "Rye flour", "7")
	away := filepath.Join(s.dir, powdersFolder, "rye-old.toml")
	require.NoError(t, os.Rename(e.Path, away))
	e.Profile.Powder.Notes = "sifted"
	stands, err := s.Save(e)
	require.ErrorIs(t, err, ErrChanged)
	var changed *ChangedError
	require.ErrorAs(t, err, &changed)
	assert.True(t, changed.Gone)
	assert.NoFileExists(t, e.Path)

	stands, err = s.SaveAsNew(stands)
	require.NoError(t, err)
	assert.Equal(t, e.Slug, stands.Slug, "its name is free")
	assert.FileExists(t, away)

	cap := model.OwnSpoons{{Name: "cap", VolumeML: 4}}
	require.NoError(t, s.SaveSpoons(nil, cap))
	require.NoError(t, os.Remove(s.SpoonsPath()))
	require.ErrorAs(t, s.SaveSpoons(cap, nil), &changed)
	assert.True(t, changed.Gone)
}

func TestSaveRefusesWhatCouldNotBeRead(t *testing.T) {
	s := newShelf(t)
	e := save(t, s, "Alpha", "")
	e.Profile.Trials = []model.Trial{{Started: time.Now(), LiquidG: -3}}
	_, err := s.Save(e)
	var refused *tomlfile.Error
	require.ErrorAs(t, err, &refused)
	assert.Contains(t, err.Error(), "trial 1, liquid g: liquid of -3 g is not possible")
	_, err = s.Load("alpha")
	require.NoError(t, err)
}

func TestSaveKeepsCommentsPermissionsAndLinks(t *testing.T) {
	s := newShelf(t)
	e := save(t, s, "Alpha", "")
	target := filepath.Join(t.TempDir(), "kept-elsewhere.toml")
	require.NoError(t, os.WriteFile(target, []byte("# mine\nschema = 1\npowder.name = \"Alpha\" # the first\n"), 0o600))
	require.NoError(t, os.Remove(e.Path))
	if err := os.Symlink(target, e.Path); err != nil {
		t.Skip("no links here:", err)
	}
	e, err := s.Load("alpha")
	require.NoError(t, err)
	e.Profile.Powder.Lot = "7"
	_, err = s.Save(e)
	require.NoError(t, err)
	text, err := os.ReadFile(target)
	require.NoError(t, err)
	assert.Equal(t, "# mine\nschema = 1\n\n[powder]\nname = \"Alpha\"  # the first\nlot = \"7\"\n", string(text))
	info, err := os.Lstat(e.Path)
	require.NoError(t, err)
	assert.NotZero(t, info.Mode()&os.ModeSymlink, "the link is still a link")
	if runtime.GOOS != "windows" {
		info, err = os.Stat(target)
		require.NoError(t, err)
		assert.Equal(t, os.FileMode(0o600), info.Mode().Perm())
	}
}

func TestLockWaitsAndGivesUp(t *testing.T) {
	s := newShelf(t)
	e := save(t, s, "Alpha", "")
	other := flock.New(filepath.Join(s.dir, lockFile))
	held, err := other.TryLock()
	require.NoError(t, err)
	require.True(t, held)
	s.wait = 50 * time.Millisecond
	e.Profile.Powder.Notes = "x"
	_, err = s.Save(e)
	require.ErrorIs(t, err, ErrBusy)
	s.wait = 5 * time.Second
	time.AfterFunc(50*time.Millisecond, func() { _ = other.Unlock() })
	_, err = s.Save(e)
	require.NoError(t, err)
}

func TestSavesAtOnceAllSurvive(t *testing.T) {
	s := newShelf(t)
	const n = 8
	done := make(chan error, n)
	for i := range n {
		go func() {
			_, err := Open(s.dir,
				nil).Save(Entry{Profile: model.Profile{Powder: model.Powder{Name: "Alpha", Notes: fmt.Sprint(i)}}})
			done <- err
		}()
	}
	for range n {
		require.NoError(t, <-done)
	}
	entries, errs := s.List()
	assert.Empty(t, errs)
	assert.Len(t, entries, n)
}

func TestSlug(t *testing.T) {
	for in, want := range map[[2]string]string{
		{"Fine oat flour", "2026-04"}:         "fine-oat-flour-2026-04",
		{"Crème d'Été", "№ 7"}:                "creme-d-ete-7",
		{"Grüne Erde / weiß", ""}:             "gruene-erde-weiss",
		{"e\u0301te\u0301", ""}:               "ete",
		{"глина", ""}:                         "powder",
		{"", ""}:                              "powder",
		{"CON", ""}:                           "con-powder",
		{"lpt1", ""}:                          "lpt1-powder",
		{"../../etc/passwd", ""}:              "etc-passwd",
		{strings.Repeat("long name ", 9), ""}: "long-name-long-name-long-name-long-name-long-name-long-name",
	} {
		assert.Equal(t, want, Slug(in[0], in[1]))
	}
	shape := regexp.MustCompile(`^[a-z0-9]+(-[a-z0-9]+)*$`)
	rapid.Check(t, func(t *rapid.T) {
		slug := Slug(rapid.String().Draw(t, "name"), rapid.String().Draw(t, "lot"))
		for _, s := range []string{slug, numbered(slug, 2), numbered(slug, 1234)} {
			if !shape.MatchString(s) || len(s) > maxSlug {
				t.Fatalf("%q", s)
			}
		}
	})
}
