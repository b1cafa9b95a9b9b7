package main

import (
	"fmt"
	"os"
	"os/exec"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"daub.example/daub/data"
	"daub.example/daub/model/care"
	"github.com/stretchr/testify/require"
)

func TestListReadsPastABrokenFile(t *testing.T) {
	h := clays(t)
	path := shelve(t, h, "broken", broken)
	got := daub(h, "list")
	require.Equal(t, exitBadData, got.code)
	require.Contains(t, got.out, "Light white clay")
	require.Contains(t, got.out, "New flour@a")
	require.Contains(t, got.out, "unfinished trial")
	lines := strings.Split(strings.TrimSpace(got.err), "\n")
	require.Len(t, lines, 2, "one line for each thing wrong")
	require.Contains(t, lines[0], "daub: "+path+":4: ")
	require.Contains(t, lines[1], "daub: "+path+":7: ")

	got = daub(h, "list", "--json")
	require.Equal(t, exitBadData, got.code)
	require.Len(t, decode[[]listJSON](t, got), 3)

	got = daub(h, "show", "broken")
	require.Equal(t, exitBadData, got.code)
	require.Empty(t, got.out)
	require.Contains(t, got.err, ":4: ")
}

func TestShowSaysAllThereIs(t *testing.T) {
	h := clays(t)
	got := daub(h, "show", "light white clay")
	require.Zero(t, got.code, got.err)
	for _, want := range []string{
		"Light white clay", "plain-clay", "weighs 1.42 ±", "At 5 spread this powder takes 0.624",
		"Your next dish may take", "> 5 spread", "2026-01-10", "5.00 g water", "done",
		" % at 5 spread comes from, in parts of 100, rounded:", "Plausible?", "mostly take", "Fine dust", "Local rules",
	} {
		require.Contains(t, got.out, want)
	}
	s := decode[showJSON](t, daub(h, "show", "light white clay", "--json"))
	require.Equal(t, care.Deferral, s.Deferral)
	require.Len(t, s.Table, 6)
	sum := *s.Budget.Repeats
	for _, share := range []*float64{
		s.Budget.Looks, s.Budget.SpoonWeight, s.Budget.Scoops, s.Budget.PowderScale,
		s.Budget.Liquid, s.Budget.SpoonSize,
	} {
		sum += *share
	}
	require.InDelta(t, 1, sum, 0.001)
	require.Len(t, decode[showJSON](t, daub(h, "show", "light white clay", "--level", "2.5", "--json")).Table, 7)

	none := daub(h, "show", "new flour")
	require.Zero(t, none.code)
	require.Contains(t, none.out, "No finished trial with a look yet.")
	require.Contains(t, none.out, "unfinished")
}

func TestShowKeepsOtherLiquidsApart(t *testing.T) {
	h := testHost(t)
	text := read(t, lightClay)
	i := strings.Index(text, "[[trial]]")
	milk := strings.Replace(strings.Replace(text[i:], "2026-01-10", "2026-01-09", 1), "liquid_g = 5.0",
		"liquid = \"milk\"\nliquid_g = 5.0", 1)
	shelve(t, h, "clay", text+milk)
	s := decode[showJSON](t, daub(h, "show", "clay", "--json"))
	require.Equal(t, "water", *s.Liquid)
	require.Equal(t, 1, s.Trials)
	require.Len(t, s.TrialList, 2)
	require.Len(t, s.OtherBases, 1)
	require.Equal(t, "milk", *s.OtherBases[0].Liquid)
	require.Contains(t, daub(h, "show", "clay").out, "In milk, rest 30 s: At 5 spread")
}

func TestShowWithoutATrialInTheLiquid(t *testing.T) {
	h := testHost(t)
	require.NoError(t, data.WriteSample(h.shelf))
	got := daub(h, "show", "pale valley clay", "--in", "milk")
	require.Zero(t, got.code, got.err)
	require.Contains(t, got.out, "No finished trial in milk.")
	require.NotContains(t, got.out, "with a look yet")
}

func TestCheckSaysWhereAndHow(t *testing.T) {
	h := testHost(t)
	bad := shelve(t, h, "bad", broken)
	got := daub(h, "check", lightClay, bad)
	require.Equal(t, exitBadData, got.code)
	require.Contains(t, got.out, lightClay+": sound")
	require.Contains(t, got.out, bad+": 2 problems\n")
	require.Contains(t, got.out, bad+":4: ")
	require.Contains(t, got.out, bad+":7: ")

	c := decode[[]checkJSON](t, daub(h, "check", bad, "gone.toml", "--json"))
	require.False(t, c[0].OK)
	require.Equal(t, 4, *c[0].Problems[0].Line)
	require.Contains(t, c[0].Problems[0].Fix, "name")
	require.NotNil(t, c[0].Warnings)
	require.Nil(t, c[1].Problems[0].Line, "the whole file is meant")
}

func TestCompletion(t *testing.T) {
	h := clays(t)
	complete := func(args ...string) []string {
		got := daub(h, append([]string{"__complete"}, args...)...)
		require.Zero(t, got.code, got.err)
		return strings.Split(strings.TrimSpace(got.out), "\n")
	}
	require.Equal(t, []string{
		"heavy-swelling-clay\tHeavy swelling clay", "light-white-clay\tLight white clay",
		"new-flour-a\tNew flour · lot a", ":4",
	}, complete("show", ""))
	require.Equal(t, []string{"light-white-clay\tLight white clay", ":4"}, complete("show", "li"))
	require.Equal(t, []string{":4"}, complete("show", "light-white-clay", ""), "one powder only")
	require.Equal(t, []string{":4"}, complete("--shelf", filepath.Join(h.temp, "none"), "show", ""))
	require.Equal(t, []string{"toml", ":8"}, complete("fit", ""))
	require.Contains(t, complete("fit", "--level", ""), "4.5\tdollop/spread")
	require.Contains(t, complete("help", ""), "fit\tSay what one dish takes, from a file anywhere")
	for _, shell := range []string{"bash", "zsh", "fish", "powershell"} {
		require.Contains(t, daub(h, "completion", shell).out, "daub")
	}
}

// If the environment names a folder that does not exist, daub says so and does not
// show an empty shelf.
func TestNamedShelfThatIsNotThere(t *testing.T) {
	h := testHost(t)
	h.shelfNamed = true
	for _, args := range [][]string{
		{"show", "clay"}, {"list"}, {"batch", "clay", "--total", "10"}, {"compare", "a", "b"}, {"recipe", "list"},
	} {
		got := daub(h, args...)
		require.Equal(t, exitMisused, got.code, "%v", args)
		require.Contains(t, got.err, "there is no shelf at "+h.shelf+": check the folder given in $DAUB_SHELF",
			"%v", args)
		require.NoDirExists(t, h.shelf)
	}
}

// A bash without its completion package says what is missing; one with the
// package's functions does not.
func TestBashSaysWhatItNeeds(t *testing.T) {
	bash, err := exec.LookPath("bash")
	if err != nil {
		t.Skip("no bash here")
	}
	script := filepath.Join(t.TempDir(), "daub")
	require.NoError(t, os.WriteFile(script, []byte(daub(testHost(t), "completion", "bash").out), 0o644))
	tab := func(before string) string {
		cmd := exec.Command(bash, "--norc", "--noprofile", "-c",
			before+"; source "+script+" 2>/dev/null; COMP_WORDS=(daub li); COMP_CWORD=1; __start_daub")
		said, _ := cmd.CombinedOutput() // it fails without the package
		return string(said)
	}
	require.Equal(t,
		"\ndaub: completion needs the package bash-completion; install it and start a new shell\n", tab(":"))
	require.NotContains(t, tab("_get_comp_words_by_ref() { return 1; }"), "package")
}

// A list of a shelf without ratio tables agrees with the full calculation to the
// last digit shown.
func TestListAgreesWithShowToTheLastDigit(t *testing.T) {
	h := testHost(t)
	src := read(t, lightClay)
	for n := range 20 { // each powder as it is, except for the size of its dish
		text := strings.Replace(src, `"Light white clay"`, fmt.Sprintf(`"Clay %02d"`, n), 1)
		text = strings.ReplaceAll(text, "liquid_g = 5.0", fmt.Sprintf("liquid_g = %.2f", 5+0.07*float64(n)))
		shelve(t, h, fmt.Sprintf("clay-%02d", n), text)
	}
	listed := daub(h, "list")
	require.Zero(t, listed.code, listed.err)
	ratio := regexp.MustCompile(`[0-9.]+ \([0-9.]+ to [0-9.]+\)`)
	for n := range 20 {
		got := daub(h, "show", fmt.Sprintf("clay-%02d", n))
		require.Zero(t, got.code, got.err)
		line := regexp.MustCompile(fmt.Sprintf(`(?m)^.*Clay %02d.*$`, n)).FindString(listed.out)
		require.Contains(t, got.out, ratio.FindString(line), line)
	}
}
