package data

import (
	"fmt"
	"slices"
	"strings"
	"testing"

	"daub.example/daub/data/record"
	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// commentedShelf is a shelf with a profile of n finished trials and an open
// one, with comments.
func commentedShelf(t testing.TB, n int) (*Shelf, Entry) {
	s := newShelf(t)
	p := benchProfile(n + 1)
	p.Trials[n].State = model.Open
	e, err := s.Save(Entry{Profile: p})
	require.NoError(t, err)
	text := "# mine\n" + strings.ReplaceAll(string(read(t, e.Path)), "add = \"powder\"",
		"add = \"powder\"  # struck off")
	require.NoError(t, Open(s.dir, nil).replace(e.Path, []byte(text), nil))
	e, err = s.Load(e.Slug)
	require.NoError(t, err)
	return s, e
}

// look is the entry with one more look in its last trial.
func look(e Entry, n int) Entry {
	e.Profile = e.Profile.Clone()
	last := &e.Profile.Trials[len(e.Profile.Trials)-1]
	last.Steps = append(last.Steps, model.Step{
		Add: model.AddNone, Looked: true, Level: 6,
		Note: fmt.Sprint("look ", n),
	})
	return e
}

// A save neither reads again what it has read nor calculates again what has not
// changed: it writes what is remembered of both.
func TestSaveRemembers(t *testing.T) {
	s, e := commentedShelf(t, 3)
	e, err := s.Save(look(e, 1))
	require.NoError(t, err)
	require.NotEmpty(t, e.Read.(kept).derived.rows)

	k := e.Read.(kept)
	k.derived.rows[0].Median = 77.77
	_, remembered, problems := record.ReadProfile([]byte(strings.Replace(string(k.read.Text), "# mine",
		"# remembered", 1)), nil)
	require.Empty(t, problems)
	require.Contains(t, remembered.Comments()[0], "remembered")
	remembered.Text, k.read = k.read.Text, remembered.Done()
	e.Read = k
	e, err = s.Save(look(e, 2))
	require.NoError(t, err)
	text := string(read(t, e.Path))
	assert.Contains(t, text, "liquid_per_powder = 77.77\n",
		"an open trial changes no ratio, so that none is worked out")
	assert.True(t, strings.HasPrefix(text, "# remembered\n"), "what stood there is not read again")
	assert.Equal(t, 4*8, strings.Count(text, "  # struck off\n"))

	e = look(e, 3)
	e.Profile.Trials[3].State = model.Done
	e, err = s.Save(e)
	require.NoError(t, err)
	assert.NotContains(t, string(read(t, e.Path)), "77.77", "a trial that begins to count does")
	e.Read.(kept).derived.rows[0].Median = 77.77
	require.NoError(t, s.SaveSpoons(nil, model.OwnSpoons{{Name: "cap", VolumeML: 4}}))
	_, err = s.Save(e)
	require.NoError(t, err)
	assert.NotContains(t, string(read(t, e.Path)), "77.77", "so do other spoons")
}

// BenchmarkSave shows what a look at the bench costs in a file with comments:
// reading, writing and the disk, and no fit.
func BenchmarkSave(b *testing.B) {
	for _, n := range []int{1, 10, 50} {
		b.Run(fmt.Sprint(n, " trials"), func(b *testing.B) {
			s, e := commentedShelf(b, n)
			steps := len(e.Profile.Trials[n].Steps)
			e, err := s.Save(look(e, -1)) // the first one after reading works the ratios out
			require.NoError(b, err)
			b.ReportAllocs()
			for i := 0; b.Loop(); i++ {
				next := look(e, i)
				if e, err = s.Save(next); err != nil {
					b.Fatal(err)
				}
				e.Profile.Trials[n].Steps = e.Profile.Trials[n].Steps[:steps]
			}
		})
	}
}

// Of what is wrong in a hostile file only as much is told as anybody reads.
func TestHostileFileIsToldShortly(t *testing.T) {
	var b strings.Builder
	b.WriteString("schema = 1\npowder.name = \"x\"\n")
	for i := range 30000 {
		fmt.Fprintf(&b, "weather%d = 1\n", i)
	}
	_, err := record.Decode("x.toml", []byte(b.String()), nil)
	var refused *tomlfile.Error
	require.ErrorAs(t, err, &refused)
	require.Len(t, refused.Problems, 11)
	assert.Equal(t, "29990 more problems follow", refused.Problems[10].What)
}

// A file of more than any bench fills is refused before it costs; comments cost
// nothing.
func TestHostileLinesAreCounted(t *testing.T) {
	for want, line := range map[string]string{
		"the file has more than 50000 tables":           "[[level_spoon]]\n",
		"the file has more than 300000 keys":            "a=1\n",
		"the file has more than 100000 keys":            "a_key_of_some_more_length='b'\n",
		"the file has more than 200000 values in lists": "a=[1,2,3,4,5,6,7,8,9]\n",
	} {
		_, err := record.Decode("x.toml", []byte(strings.Repeat(line, tomlfile.MaxFileSize/len(line))), nil)
		assert.ErrorContains(t, err, want)
	}
	const sound = "schema = 1\n[powder]\nname = 'x'\n"
	comments := strings.Repeat("# c\n", (tomlfile.MaxFileSize-len(sound))/4)
	_, err := record.Decode("x.toml", []byte(sound+comments), nil)
	assert.NoError(t, err)
}

// The longest trial allowed, and a shelf file of years, load whole with a comment
// beside every step, and keep the comments when written again.
func TestLongTrialsWithCommentsLoad(t *testing.T) {
	long := benchProfile(1)
	step := long.Trials[0].Steps[0]
	long.Trials[0].State = model.Open
	long.Trials[0].Steps = slices.Repeat([]model.Step{step}, 5000)
	many := benchProfile(300)
	for i := range many.Trials {
		many.Trials[i].State = model.Open
	}
	for name, p := range map[string]model.Profile{"one of 5000 steps": long, "300 trials": many} {
		text, err := record.Encode(p, nil, nil)
		require.NoError(t, err, name)
		commented := strings.ReplaceAll(string(text), "add = \"powder\"", "add = \"powder\"  # as it was")
		commented = strings.ReplaceAll(commented, "[[trial.step]]", "# one more\n[[trial.step]]")
		require.Less(t, len(commented), tomlfile.MaxFileSize)
		back, err := record.Decode("x.toml", []byte(commented), nil)
		require.NoError(t, err, name)
		require.Len(t, back.Trials[0].Steps, len(p.Trials[0].Steps))
		require.Len(t, back.Trials, len(p.Trials))
		back.Powder.Notes = "changed"
		again, err := record.Encode(back, nil, []byte(commented))
		require.NoError(t, err, name)
		for _, comment := range []string{"# as it was\n", "# one more\n"} {
			require.Equal(t, strings.Count(commented, comment), strings.Count(string(again), comment), name)
		}
	}
}

// BenchmarkLongTrial shows what reading and writing costs in a trial as long as
// one may be.
func BenchmarkLongTrial(b *testing.B) {
	for _, n := range []int{500, 5000} {
		p := benchProfile(1)
		p.Trials[0].State = model.Open
		p.Trials[0].Steps = slices.Repeat(p.Trials[0].Steps[:1], n)
		text, err := record.Encode(p, nil, nil)
		require.NoError(b, err)
		text = []byte(strings.ReplaceAll(string(text), "[[trial.step]]", "# one more\n[[trial.step]]"))
		b.Run(fmt.Sprint("read ", n), func(b *testing.B) {
			for b.Loop() {
				if _, err := record.Decode("x.toml", text, nil); err != nil {
					b.Fatal(err)
				}
			}
		})
		b.Run(fmt.Sprint("write ", n), func(b *testing.B) {
			for b.Loop() {
				if _, err := record.Encode(p, nil, text); err != nil {
					b.Fatal(err)
				}
			}
		})
	}
}
