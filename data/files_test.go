package data

import (
	"flag"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"daub.example/daub/data/record"
	"daub.example/daub/data/tomlfile"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the expected complaints and exports, and the [[ratio]] of the samples")

const filesFolder = "../testdata/files"

func glob(t testing.TB, pattern string) []string {
	t.Helper()
	files, err := filepath.Glob(pattern)
	require.NoError(t, err)
	require.NotEmpty(t, files, pattern)
	return files
}

// Every broken file is refused with the complaints that stand beside it, and
// left as it is.
func TestBrokenFilesAreRefused(t *testing.T) {
	files := glob(t, filesFolder+"/bad/*.toml")
	require.GreaterOrEqual(t, len(files), 20)
	for _, file := range files {
		t.Run(strings.TrimSuffix(filepath.Base(file), ".toml"), func(t *testing.T) {
			src, err := os.ReadFile(file)
			require.NoError(t, err)
			_, err = record.Decode(filepath.Base(file), src, nil)
			var refused *tomlfile.Error
			require.ErrorAs(t, err, &refused)
			for _, p := range refused.Problems {
				assert.NotEmpty(t, p.What)
				assert.NotEmpty(t, p.Fix)
			}
			wanted := strings.TrimSuffix(file, ".toml") + ".want"
			if *update {
				require.NoError(t, os.WriteFile(wanted, []byte(err.Error()+"\n"), 0o644))
			}
			want, readErr := os.ReadFile(wanted)
			require.NoError(t, readErr)
			assert.Equal(t, strings.ReplaceAll(string(want), "\r\n", "\n"), err.Error()+"\n")
			after, readErr := os.ReadFile(file)
			require.NoError(t, readErr)
			assert.Equal(t, src, after)
		})
	}
}

// The lines that matter most, said here and not only in a golden file: the
// library would place each of them elsewhere.
func TestComplaintsStandAtTheirLine(t *testing.T) {
	for name, want := range map[string]struct {
		line int
		what string
	}{
		"type-in-first-step": {19, "level is text"},
		"key-case":           {19, `the key "Level" is not known`},
		"level-8":            {24, "a level of 8"},
		"header-in-string":   {28, "a level of 8"},
		"bom-crlf":           {8, "liquid of -1 g"},
		"inline":             {8, "a level of 9"},
		"mark-number":        {22, "marks is the whole number 3"},
		"add-missing":        {15, "add is missing"},
	} {
		src, err := os.ReadFile(filesFolder + "/bad/" + name + ".toml")
		require.NoError(t, err)
		_, err = record.Decode(name, src, nil)
		var refused *tomlfile.Error
		require.ErrorAs(t, err, &refused, name)
		assert.Equal(t, want.line, refused.Problems[0].Line, name)
		assert.Contains(t, refused.Problems[0].What, want.what, name)
	}
}

// Good files are read, and rewriting keeps every comment and every value;
// rewriting again changes nothing.
func TestGoodFilesSurviveRewriting(t *testing.T) {
	for _, file := range glob(t, filesFolder+"/good/*.toml") {
		t.Run(filepath.Base(file), func(t *testing.T) {
			src, err := os.ReadFile(file)
			require.NoError(t, err)
			p, err := record.Decode(file, src, nil)
			require.NoError(t, err)
			once, err := record.Encode(p, nil, src)
			require.NoError(t, err)
			again, err := record.Decode(file, once, nil)
			require.NoError(t, err, "%s", once)
			assert.Equal(t, canon(p), canon(again))
			twice, err := record.Encode(again, nil, once)
			require.NoError(t, err)
			assert.Equal(t, string(once), string(twice))
			assertComments(t, src, once)
		})
	}
}

// assertComments holds that every comment of the old text is in the new one.
func assertComments(t require.TestingT, old, now []byte) {
	was, problems := tomlfile.Parse(old)
	require.Empty(t, problems)
	is, problems := tomlfile.Parse(now)
	require.Empty(t, problems)
	have, want := is.Comments(), was.Comments()
	// The longest first, for a shorter one may be the end of a longer.
	slices.SortStableFunc(want, func(a, b string) int { return len(b) - len(a) })
	for _, c := range want {
		words := strings.TrimSpace(strings.TrimPrefix(c, "#"))
		at := -1
		for i, text := range have {
			if strings.HasSuffix(text, words) {
				at = i
				break
			}
		}
		require.GreaterOrEqual(t, at, 0, "comment %q is lost in\n%s", c, now)
		have = append(have[:at], have[at+1:]...)
	}
}

func TestCommentsStayWithWhatTheyStandAt(t *testing.T) {
	src, err := os.ReadFile(filesFolder + "/good/comments.toml")
	require.NoError(t, err)
	p, err := record.Decode("comments.toml", src, nil)
	require.NoError(t, err)
	p.Trials[0].Steps[0].Count = 0 // the maker turned to weighing
	p.Trials[0].Steps[0].Grams = 6.5
	out, err := record.Encode(p, nil, src)
	require.NoError(t, err)
	text := string(out)
	assert.True(t, strings.HasPrefix(text, "# kept by hand\n\nschema = 1  # version\n"), text)
	assert.Contains(t, text, `state = "done"  # finished on the day`)
	assert.Contains(t, text, "\nlevel = 5.0  # mine\n")
	end := text[strings.Index(text, "# nothing more"):]
	assert.Equal(t, "# nothing more\n\n"+"# Comments whose place in this file is gone:\n"+
		"# (trial 1, set aside) nothing wrong with it\n"+
		"# (trial 1, step 1, count) heaped at first, then struck off\n", end)
}

func TestCommentsFollowTheirStep(t *testing.T) {
	src := []byte(`schema = 1
powder.name = "Test powder"
[[trial]]
started = 2026-05-03T10:12:00Z
liquid_g = 20.0
[[trial.step]]
at = 2026-05-03T10:13:00Z
add = "powder"
grams = 2.0 # the first
[[trial.step]]
at = 2026-05-03T10:15:00Z # the second
add = "powder"
grams = 3.0
# the third
[[trial.step]]
at = 2026-05-03T10:17:00Z
add = "none"
`)
	p, err := record.Decode("x", src, nil)
	require.NoError(t, err)
	p.Trials[0].Steps = append(p.Trials[0].Steps[:1], p.Trials[0].Steps[2])
	p.Trials[0].Steps[1].Note = "looked again"
	out, err := record.Encode(p, nil, src)
	require.NoError(t, err)
	assert.Contains(t, string(out), "grams = 2.0  # the first\n")
	assert.Contains(t, string(out), "  # the third\n  [[trial.step]]\n  at = 2026-05-03T10:17:00Z\n")
	assert.Contains(t, string(out),
		"# Comments whose place in this file is gone:\n# (trial 1, step 2, at) the second\n")
}

func TestReservedTablesComeBackUntouched(t *testing.T) {
	src, err := os.ReadFile(filesFolder + "/good/reserved.toml")
	require.NoError(t, err)
	p, err := record.Decode("reserved.toml", src, nil)
	require.NoError(t, err)
	assert.Equal(t, int64(3), p.Trials[0].Reserved["measured"].(tomlfile.Verbatim).Value)
	out, err := record.Encode(p, nil, nil)
	require.NoError(t, err)
	for _, lines := range []string{
		`packing = { tapped = true, "odd key" = [1, [2.5, "x"], { a = 1979-05-27, b = 07:32:00 }] } # for later`,
		"measured = 3 # not a table\n", "  [trial.acid]\n  \"pH before\" = 9.5\n",
		"at = 2026-05-03T10:12:00.5-07:00\n  local = 1979-05-27T07:32:00\n\n    [trial.acid.deeper]\n    on = true\n" +
			"    big = 1e300\n    odd = nan\n    none = []\n",
		"  [[trial.later]]\n  level = 4\n\n  [[trial.later]]\n",
	} {
		assert.Contains(t, string(out), lines)
	}
}

// What daub does not understand in the place of a later look or a packing is
// kept, not used, and warned of.
func TestTablesOfAnotherShapeAreWarnedOf(t *testing.T) {
	problems, warnings := Check(filesFolder+"/good/later.toml", nil)
	assert.Empty(t, problems)
	require.Len(t, warnings, 2, "the ratio table is not there either")
	assert.Equal(t, 42, warnings[1].Line)
	assert.Contains(t, warnings[1].What, "later is not written as daub writes it: kept untouched")

	src, err := os.ReadFile(filesFolder + "/good/later.toml")
	require.NoError(t, err)
	p, err := record.Decode("later.toml", src, nil)
	require.NoError(t, err)
	first := p.Trials[0]
	require.Len(t, first.Later, 1)
	assert.Equal(t, "5 spread as it stands, 4.5 dollop/spread after ten turns", first.Later[0].Readings())
	assert.Equal(t, 3.0, *first.Steps[0].LevelStirred)
	assert.True(t, first.Covered)
	assert.Equal(t, []float64{2.5, 2.52}, p.Powder.Packings[0].LooseG)
	out, err := record.Encode(p, nil, src)
	require.NoError(t, err)
	assert.Contains(t, string(out), "  # after lunch\n  [[trial.later]]\n")
	assert.Contains(t, string(out), "later = \"looked at noon\" # no table\n")
	for _, other := range []string{"level = 9", "", "level = 5\nlid = \"on\"", "level = \"5\"", "stirred_level = 4.2"} {
		text := "schema = 1\n[powder]\nname = \"x\"\n[[trial]]\nstarted = 2026-05-03T10:12:00Z\nliquid_g = 20.0\n" +
			"[[trial.later]]\nat = 2026-05-03T10:43:00Z\n" + other + "\n"
		p, err := record.Decode("x", []byte(text), nil)
		require.NoError(t, err, other)
		assert.Empty(t, p.Trials[0].Later)
		assert.NotNil(t, p.Trials[0].Reserved["later"])
	}
}

func TestLineEndsAreKept(t *testing.T) {
	src, err := os.ReadFile(filesFolder + "/good/bom-crlf.toml")
	require.NoError(t, err)
	require.Contains(t, string(src), "\r\n")
	p, err := record.Decode("bom-crlf.toml", src, nil)
	require.NoError(t, err)
	out, err := record.Encode(p, nil, src)
	require.NoError(t, err)
	assert.Equal(t, strings.Count(string(out), "\n"), strings.Count(string(out), "\r\n"))
}

// Readings and an acid test load, and come back with what the maker wrote beside
// them.
func TestReadingsAndAcidComeBack(t *testing.T) {
	src, err := os.ReadFile(filesFolder + "/good/readings.toml")
	require.NoError(t, err)
	p, err := record.Decode("readings.toml", src, nil)
	require.NoError(t, err)
	first := p.Trials[0]
	require.NotNil(t, first.Measured)
	assert.Equal(t, 15.0, first.Measured.VolumeML)
	assert.Equal(t, 66.0, first.Steps[1].Reading)
	require.NotNil(t, first.Acid)
	require.Len(t, first.Acid.Steps, 2)
	assert.Equal(t, 10, first.Acid.Steps[1].Drops)
	assert.Equal(t, 3.5, *first.Acid.Steps[1].Level)
	out, err := record.Encode(p, nil, src)
	require.NoError(t, err)
	for _, line := range []string{"[trial.measured]  # a ring of 15 mL", "# stirred well", `note = "set at 4 and 7"`} {
		assert.Contains(t, string(out), line)
	}
	again, err := record.Decode("readings.toml", out, nil)
	require.NoError(t, err)
	assert.Equal(t, first.Acid, again.Trials[0].Acid)
	assert.Equal(t, first.Measured, again.Trials[0].Measured)

	p, err = record.Decode("readings.toml",
		[]byte(strings.Replace(string(src), `kind = "spread"`, `kind = "thumb"`, 1)), nil)
	require.NoError(t, err, "a table of another shape is kept, and the readings with it")
	assert.Nil(t, p.Trials[0].Measured)
	assert.False(t, p.Trials[0].HasReading())
}
