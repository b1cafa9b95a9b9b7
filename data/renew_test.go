package data

import (
	"fmt"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"daub.example/daub/data/record"
	"daub.example/daub/model"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/repeats"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// trusts reports whether an entry of that slug has a ratio table that overviews
// rely on.
func trusts(t *testing.T, s *Shelf, slug string) bool {
	e, err := s.Load(slug)
	require.NoError(t, err)
	return e.Read.(kept).derived.trusted != nil
}

// What is on disk is relied on until anything that it rests on is another.
func TestOverviewTrustsATableWhileItFits(t *testing.T) {
	s := newShelf(t)
	e, err := s.Save(Entry{Profile: benchProfile(2)})
	require.NoError(t, err)
	text := string(read(t, e.Path))
	require.Equal(t, 1, strings.Count(text, "derived_from = "))
	assert.True(t, trusts(t, s, e.Slug))

	write := func(text string) { require.NoError(t, os.WriteFile(e.Path, []byte(text), 0o644)) }
	for what, change := range map[string][2]string{
		"a record":    {"level = 5.0\n", "level = 4.0\n"},
		"the table":   {"liquid_per_powder = ", "liquid_per_powder = 1"},
		"the print":   {`derived_from = "`, `derived_from = "0`},
		"a new table": {"[[ratio]]", "[[level_spoon]]\nspoon = \"1/2 tsp\"\ngrams = [1.1]\n\n[[ratio]]"},
	} {
		require.Contains(t, text, change[0])
		write(strings.Replace(text, change[0], change[1], 1))
		assert.False(t, trusts(t, s, e.Slug), what)
	}
	write(strings.ReplaceAll(text, "\n", "\r\n"))
	assert.True(t, trusts(t, s, e.Slug), "line ends say nothing")
	write(text)
	require.NoError(t, s.SaveSpoons(nil, model.OwnSpoons{{Name: "cap", VolumeML: 4}}))
	assert.False(t, trusts(t, s, e.Slug), "other spoons")
}

// A maker's comment on the print is no part of what it vouches for.
func TestACommentOnThePrintIsNoReasonToDistrust(t *testing.T) {
	s := newShelf(t)
	e, err := s.Save(Entry{Profile: benchProfile(2)})
	require.NoError(t, err)
	text := strings.Replace(string(read(t, e.Path)), "derived_from = ", "# mine\nderived_from = ", 1)
	require.Contains(t, text, "# mine\n")
	once, err := record.Encode(e.Profile, nil, []byte(text))
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(e.Path, once, 0o644))
	assert.True(t, trusts(t, s, e.Slug))
	twice, err := record.Encode(e.Profile, nil, once)
	require.NoError(t, err)
	assert.Equal(t, string(once), string(twice))
}

// An overview says the same whether it reads the table or works it out.
func TestOverviewSaysTheSame(t *testing.T) {
	s := newShelf(t)
	require.NoError(t, WriteSample(s.Dir()))
	v := s.Visit()
	entries, errs := v.List()
	require.Empty(t, errs)
	require.NotEmpty(t, entries)
	for i := range entries {
		_, err := Renew(entries[i].Path, v.OwnSpoons)
		require.NoError(t, err)
	}
	entries, _ = v.List()
	for _, e := range entries {
		bare := e
		bare.Read = nil
		for _, b := range e.Profile.Bases() {
			require.NotNil(t, e.Read.(kept).derived.trusted, e.Slug)
			for _, level := range append(model.TableLevels(e.Profile.Aim()), 4.5) {
				alike(t, v.Ratio(e, b, level), v.Ratio(bare, b, level), fmt.Sprintf("%s at %v", e.Slug, level))
			}
		}
	}
}

// alike holds a ratio for an overview against the one of the table: the same but
// for a fifteenth of the interval's half-width in ln R (METHOD, overviews).
func alike(t *testing.T, table, overview repeats.Ratio, where string) {
	t.Helper()
	for _, pair := range [][2]*fit.Interval{{table.Powder, overview.Powder}, {table.Next, overview.Next}} {
		want, got := pair[0], pair[1]
		require.Equal(t, want == nil, got == nil, where)
		if want == nil {
			continue
		}
		within := want.HalfWidth()/15 + 1e-3 // and the rounding
		assert.InDelta(t, 0, math.Log(got.Median/want.Median), within, where)
		assert.InDelta(t, 0, math.Log(got.Low/want.Low), within, where)
		assert.InDelta(t, 0, math.Log(got.High/want.High), within, where)
	}
	table.Powder, table.Next, overview.Powder, overview.Next = nil, nil, nil, nil
	assert.Equal(t, table, overview, where)
}

// The first save after reading works out nothing that the file has.
func TestFirstSaveKeepsATrustedTable(t *testing.T) {
	s := newShelf(t)
	e, err := s.Save(Entry{Profile: benchProfile(2)})
	require.NoError(t, err)
	text := string(read(t, e.Path))
	at := strings.Index(text, "liquid_per_powder = ")
	end := at + strings.Index(text[at:], "\n")
	forged := text[:at] + "liquid_per_powder = 77.77" + text[end:]
	f, _, problems := record.ReadProfile([]byte(forged), nil)
	require.Empty(t, problems)
	rows := make([]repeats.Row, len(f.Ratios))
	for i, r := range f.Ratios {
		rows[i] = r.Row
	}
	signed, err := record.WriteProfile(f.Profile, rows, nil, nil)
	require.NoError(t, err)
	require.NoError(t, os.WriteFile(e.Path, signed, 0o644))

	e, err = s.Load(e.Slug)
	require.NoError(t, err)
	open := e.Profile.Trials[0].Clone()
	open.State = model.Open
	e.Profile.Trials = append(e.Profile.Trials, open)
	_, err = s.Save(e)
	require.NoError(t, err)
	assert.Contains(t, string(read(t, e.Path)), "liquid_per_powder = 77.77\n")
}

func TestRenew(t *testing.T) {
	s := newShelf(t)
	e, err := s.Save(Entry{Profile: benchProfile(1)})
	require.NoError(t, err)
	want := read(t, e.Path)
	stale := "# mine\n" + strings.Replace(string(want), "liquid_per_powder = ", "liquid_per_powder = 1", 1)
	require.NoError(t, os.WriteFile(e.Path, []byte(stale), 0o644))
	_, warnings := Check(e.Path, nil)
	require.Len(t, warnings, 1)

	changed, err := Renew(e.Path, nil)
	require.NoError(t, err)
	assert.True(t, changed)
	assert.True(t, trusts(t, s, e.Slug))
	assert.True(t, strings.HasPrefix(string(read(t, e.Path)), "# mine\n"))
	changed, err = Renew(e.Path, nil)
	require.NoError(t, err)
	assert.False(t, changed)

	loose := filepath.Join(t.TempDir(), "loose.toml")
	require.NoError(t, os.WriteFile(loose, []byte(stale), 0o644))
	changed, err = Renew(loose, nil)
	require.NoError(t, err)
	assert.True(t, changed)
	files, err := os.ReadDir(filepath.Dir(loose))
	require.NoError(t, err)
	assert.Len(t, files, 1, "no lock where there is no shelf")

	broken := filepath.Join(t.TempDir(), "broken.toml")
	require.NoError(t, os.WriteFile(broken, []byte("schema = 1\n"), 0o644))
	_, err = Renew(broken, nil)
	require.Error(t, err)
	assert.Equal(t, "schema = 1\n", string(read(t, broken)))
}

// A shelf read bit by bit is the shelf read at once.
func TestReadingBitByBit(t *testing.T) {
	s := newShelf(t)
	for i := range 40 {
		save(t, s, "Powder", fmt.Sprintf("%02d", i))
	}
	require.NoError(t, os.WriteFile(powders.path(s, "broken"), []byte("schema = 1\n"), 0o644))
	v := s.Visit()
	var memory Memory
	r, err := v.Begin(&memory)
	require.NoError(t, err)
	assert.Equal(t, 41, r.Left())
	var seen []string
	var broken, parts int
	for ; r.Left() > 0; parts++ {
		some, errs := r.Next()
		for _, one := range some {
			seen = append(seen, one.Slug)
		}
		broken += len(errs)
	}
	assert.Len(t, seen, 40)
	assert.IsIncreasing(t, seen)
	assert.Equal(t, 1, broken)
	assert.Equal(t, 4, parts)
	some, errs := r.Next()
	assert.Empty(t, some)
	assert.Empty(t, errs)

	e, err := s.Load(seen[0])
	require.NoError(t, err)
	e.Profile.Powder.Notes = "changed"
	_, err = s.Save(e)
	require.NoError(t, err)
	other := memory.seen[seen[1]]
	other.Ratio.Level = 3.25 // a sign that this was remembered
	memory.keep(other)
	r, err = v.Begin(&memory)
	require.NoError(t, err)
	some, _ = r.Next()
	assert.Equal(t, "changed", some[0].Profile.Powder.Notes, "a file that has changed is read anew")
	assert.Equal(t, 3.25, some[1].Ratio.Level)
	require.NoError(t, s.SaveSpoons(nil, model.OwnSpoons{{Name: "cap", VolumeML: 4}}))
	r, err = s.Visit().Begin(&memory)
	require.NoError(t, err)
	some, _ = r.Next()
	assert.Zero(t, some[1].Ratio.Level, "other spoons give other ratios")
}
