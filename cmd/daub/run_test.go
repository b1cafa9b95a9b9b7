package main

import (
	"bytes"
	"encoding/json"
	"flag"
	"fmt"
	"maps"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strconv"
	"strings"
	"testing"
	"time"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/cmd/daub/internal/reply"
	"daub.example/daub/data/export"
	"daub.example/daub/model/repeats"
	"github.com/charmbracelet/x/ansi"
	"github.com/stretchr/testify/require"
)

var update = flag.Bool("update", false, "rewrite the goldens")

// cases is the folder with the files of the tests.
const cases = "../../testdata/cli"

const (
	lightClay = cases + "/light-white-clay.toml"
	heavyClay = cases + "/heavy-swelling-clay.toml"
)

// said is the output of one run.
type said struct {
	code     int
	out, err string
}

// testHost is a host with its own empty shelf.
func testHost(t testing.TB) host {
	dir := t.TempDir()
	return host{
		in: strings.NewReader(""), shelf: filepath.Join(dir, "shelf"), temp: dir,
		now: func() time.Time { return time.Date(2026, 5, 3, 10, 0, 0, 0, time.UTC) },
	}
}

// daub runs a command in-process.
func daub(h host, args ...string) said {
	var out, err bytes.Buffer
	h.out, h.err = &out, &err
	code := run(args, h)
	return said{code, out.String(), err.String()}
}

// shelve puts a profile on the host's shelf under a file name.
func shelve(t testing.TB, h host, name, text string) string {
	t.Helper()
	path := filepath.Join(h.shelf, "powders", name+".toml")
	require.NoError(t, os.MkdirAll(filepath.Dir(path), 0o755))
	require.NoError(t, os.WriteFile(path, []byte(text), 0o644))
	return path
}

// read reads a test file.
func read(t testing.TB, path string) string {
	t.Helper()
	src, err := os.ReadFile(path)
	require.NoError(t, err)
	return string(src)
}

// clays is a host whose shelf holds the two clays and an unfinished trial.
func clays(t testing.TB) host {
	h := testHost(t)
	shelve(t, h, "light-white-clay", read(t, lightClay))
	shelve(t, h, "heavy-swelling-clay", read(t, heavyClay))
	shelve(t, h, "new-flour-a", unfinished("New flour", "a"))
	return h
}

func unfinished(name, lot string) string {
	return fmt.Sprintf(`schema = 1
[powder]
name = %q
lot = %q
[[trial]]
started = 2026-02-01T10:00:00Z
liquid_g = 20.0
[[trial.step]]
add = "powder"
grams = 5.0
level = 2.0
`, name, lot)
}

const broken = `schema = 1
[powder]
name = "Broken"
nmae = "x"
[[trial]]
started = 2026-02-01T10:00:00Z
liquid_g = -1.0
`

func TestExitCodes(t *testing.T) {
	h := clays(t)
	shelve(t, h, "twin-a", unfinished("Twin", "a"))
	shelve(t, h, "twin-b", unfinished("Twin", "b"))
	bad := filepath.Join(t.TempDir(), "bad.toml")
	require.NoError(t, os.WriteFile(bad, []byte(broken), 0o644))
	bare := filepath.Join(t.TempDir(), "bare.toml")
	require.NoError(t, os.WriteFile(bare, []byte("schema = 1\n[powder]\nname = \"Bare\"\n"), 0o644))
	recipe := filepath.Join(t.TempDir(), "paste.toml")
	require.NoError(t, os.WriteFile(recipe, []byte("schema = 1\n[recipe]\nname = \"Paste\"\n"), 0o644))

	tests := []struct {
		args string // words parted by |
		code int
		err  string // what standard error must say; "" for nothing
	}{
		{"list", 0, ""},
		{"list|--level|4.5", 0, ""},
		{"show|light-white-clay", 0, ""},
		{"show|LIGHT white clay", 0, ""},
		{"show|twin@b", 0, ""},
		{"fit|" + lightClay, 0, ""},
		{"fit|" + heavyClay + "|--level|1", 0, ""},
		{"check|" + lightClay, 0, ""},
		{"version", 0, ""},
		{"--version", 0, ""},
		{"--help", 0, ""},
		{"help|fit", 0, ""},
		{"completion|bash", 0, ""},

		{"check|" + bad, 1, ""},
		{"check|" + lightClay + "|no-such.toml", 1, ""},
		{"fit|" + bad, 1, "bad.toml:4: "},
		{"fit|" + bare, 1, "there is no trial in it"},
		{"fit|no-such.toml", 1, "no-such.toml: there is no such file, and no powder of that name"},
		{"fit|" + recipe, 1, "paste.toml: this is a recipe, not a powder; daub recipe show paste shows it"},

		{"", 2, "needs a terminal"},
		{"demo", 2, "needs a terminal"},
		{"demo|--shelf|x", 2, "leave --shelf out"},
		{"lisst", 2, "did you mean list?"},
		{"lsit", 2, "did you mean list?"},
		{"help|nothing", 2, `no command "nothing"`},
		{"completion", 2, "name one: bash"},
		{"completion|tcsh", 2, "name a shell: bash"},
		{"list|--jsn", 2, "daub list --help"},
		{"list|x", 2, "takes nothing"},
		{"show", 2, "takes one powder, but nothing was given"},
		{"show|a|b", 2, "takes one powder, but 2"},
		{"show|light white cly", 2, "did you mean Light white clay"},
		{"show|zzzz", 2, "daub list"},
		{"show|twin", 2, "use one of: twin-a, twin-b"},
		{"show|twin-a|--level|7", 2, "1 to 6 in halves"},
		{"show|twin-a|--level|4.3", 2, "1 to 6 in halves"},
		{"fit|" + lightClay + "|--level|0.5", 2, "1 to 6 in halves"},
		{"fit|" + lightClay + "|--level|five", 2, "1 to 6 in halves"},
		{"fit|" + lightClay + "|--trial|2", 2, "give --trial 1 to 1"},
		{"fit|" + lightClay + "|--trial|0", 2, "give --trial 1 to 1"},
		{"fit|" + lightClay + "|--trial|x", 2, "daub fit --help"},
		{"check", 2, "takes one file or more"},
		{"list|--shelf=", 2, "names no folder"},
	}
	for _, tt := range tests {
		t.Run(tt.args, func(t *testing.T) {
			got := daub(h, strings.FieldsFunc(tt.args, func(r rune) bool { return r == '|' })...)
			require.Equal(t, tt.code, got.code, "stderr: %s", got.err)
			if tt.err == "" {
				require.Empty(t, got.err)
				require.NotEmpty(t, got.out)
				return
			}
			require.Contains(t, got.err, tt.err)
			require.Empty(t, got.out, "standard output is for the answer")
			for line := range strings.Lines(got.err) {
				require.True(t, strings.HasPrefix(line, "daub: "), "%q", line)
			}
		})
	}
}

// Text from files must not reach the terminal as a command to it.
func TestTextFromFilesIsHarmless(t *testing.T) {
	h := testHost(t)
	nasty := `Nasty \u001b[31m\u0007\u009b2Jclay`
	shelve(t, h, "nasty", strings.Replace(unfinished("Nasty", "x\\ty"), `"Nasty"`, `"`+nasty+`"`, 1))
	for _, args := range [][]string{
		{"list"},
		{"show", "nasty"},
		{"fit", filepath.Join(h.shelf, "powders", "nasty.toml")},
	} {
		got := daub(h, args...)
		require.Equal(t, exitBadData, got.code, "such a file is refused")
		require.Contains(t, got.err, "Nasty")
		for _, steers := range []string{"\x1b", "\a", "\u009b"} {
			require.NotContains(t, got.out+got.err, steers)
		}
	}
}

func TestPagesAreEightyCellsAndASCIIOnRequest(t *testing.T) {
	h := clays(t)
	for _, args := range [][]string{
		{"list"},
		{"show", "light-white-clay"},
		{"show", "heavy-swelling-clay", "--level", "2.5"},
		{"show", "new-flour-a"},
		{"fit", lightClay},
		{"fit", heavyClay, "--level", "3.5"},
		{"version"},
		{"--help"},
		{"fit", "--help"},
	} {
		for line := range strings.Lines(daub(h, args...).out) {
			if !strings.Contains(line, h.shelf) { // a path is never broken
				require.LessOrEqual(t, ansi.StringWidth(strings.TrimSuffix(line, "\n")), page.Width, "%v: %s", args,
					line)
			}
		}
		for _, r := range daub(h, append(args, "--ascii")...).out {
			require.Less(t, r, rune(0x80), "%v", args)
		}
	}
}

func TestDefaultShelf(t *testing.T) {
	require.Equal(t, "mine", defaultShelf("mine", "data"))
	require.Equal(t, filepath.Join("data", "daub"), defaultShelf("", "data"))

	h := clays(t)
	elsewhere := testHost(t)
	got := daub(h, "list", "--shelf", elsewhere.shelf)
	require.Equal(t, exitMisused, got.code, "a folder that was named and is not there is a slip")
	require.Empty(t, got.out)
	require.Contains(t, got.err, "there is no shelf at "+elsewhere.shelf)
	require.Contains(t, daub(elsewhere, "list").err, "is empty", "one's own shelf is made when it is needed")
	require.Equal(t, "[]\n", daub(elsewhere, "list", "--json").out)
	require.NoDirExists(t, elsewhere.shelf, "looking makes no folder")
}

// JSON answers, each with a golden file of its keys and the kinds of their values:
// other programs rely on them.
func TestJSONKeys(t *testing.T) {
	h := clays(t)
	bad := filepath.Join(t.TempDir(), "bad.toml")
	require.NoError(t, os.WriteFile(bad, []byte(broken), 0o644))
	spoons := filepath.Join(t.TempDir(), "spoons.toml") // sound, with a warning
	require.NoError(t, os.WriteFile(spoons, []byte("[[spoon]]\nname = \"1 tsp\"\nvolume_ml = 5.0\n"), 0o644))
	for name, args := range map[string][]string{
		"fit":       {"fit", lightClay},
		"fit-bound": {"fit", filepath.Join(h.shelf, "powders", "new-flour-a.toml"), "--level", "6"},
		"show":      {"show", "light-white-clay"},
		"show-none": {"show", "new-flour-a"},
		"list":      {"list"},
		"edit":      {"edit", "light-white-clay"},
		"check":     {"check", spoons, bad},
		"version":   {"version"},
	} {
		t.Run(name, func(t *testing.T) {
			got := daub(h, append(args, "--json")...)
			var v any
			require.NoError(t, json.Unmarshal([]byte(got.out), &v), got.err)
			golden(t, "keys-"+name+".txt", keys(v))
		})
	}
}

// keys lists a JSON value's keys with the kinds of their values, in order, and the
// values that are the same on every machine. The elements of a list are listed
// together.
func keys(v any) string {
	values := map[string][]string{}
	collect(v, "", values)
	var out strings.Builder
	for _, key := range slices.Sorted(maps.Keys(values)) {
		out.WriteString(key)
		if stable := values[key]; len(stable) > 0 && !slices.Contains(stable, "") {
			out.WriteString(" = " + strings.Join(stable, " | "))
		}
		out.WriteString("\n")
	}
	return out.String()
}

// collect gathers each key with its kind and its different values.
func collect(v any, at string, values map[string][]string) {
	keep := func(kind, value string) {
		key := at + ": " + kind
		if !slices.Contains(values[key], value) {
			values[key] = append(values[key], value)
		}
	}
	switch v := v.(type) {
	case map[string]any:
		for k, child := range v {
			collect(child, strings.TrimPrefix(at+"."+k, "."), values)
		}
	case []any:
		keep("list", "")
		for _, child := range v {
			collect(child, at+"[]", values)
		}
	case nil:
		keep("null", "")
	default:
		keep(fmt.Sprintf("%T", v), stable(v))
	}
}

// ofMachine are the parts of `daub version` that depend on machine and build.
var ofMachine = []string{runtime.Version(), runtime.GOOS + "/" + runtime.GOARCH, "(devel)"}

// stable returns a value if it is the same on every machine: a number to three
// digits, yes or no, or a few words. Sentences are held elsewhere, and paths depend
// on the machine.
func stable(v any) string {
	const fewWords = 32
	switch v := v.(type) {
	case float64:
		return strconv.FormatFloat(v, 'g', 3, 64)
	case string:
		if v == "" {
			return `""`
		}
		if len(v) > fewWords || filepath.IsAbs(v) || slices.Contains(ofMachine, v) {
			return ""
		}
		return v
	default:
		return fmt.Sprint(v)
	}
}

// golden compares text with a golden file.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join(cases, name)
	if *update {
		require.NoError(t, os.WriteFile(path, []byte(got), 0o644))
	}
	require.Equal(t, read(t, path), got)
}

func TestNumbersInJSONAreFinite(t *testing.T) {
	zero, inf := 0.0, 1.0
	inf /= zero
	require.Nil(t, export.Number(inf))
	require.Nil(t, export.Number(inf-inf))
	require.Nil(t, export.Positive(0))
	require.InDelta(t, 0.1235, *export.Number(0.123456), 1e-12)
	require.Equal(t, "not-reached", reply.LevelOf(repeats.Ratio{}).Reach)
}
