package main

import (
	"encoding/json"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/data/export"
	"daub.example/daub/model"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// kitchenShelf is a host with the two clays (common practice, no published source),
// a powder without a finished trial, one in milk and one without a weighed
// spoon.
func kitchenShelf(t *testing.T) host {
	h := clays(t)
	light := read(t, lightClay)
	milk := strings.Replace(light, "liquid_g = 5.0", "liquid = \"milk\"\nliquid_g = 5.0", 1)
	shelve(t, h, "clay-in-milk", strings.Replace(milk, "Light white clay", "Clay in milk", 1))
	shelve(t, h, "chalk", `schema = 1
[powder]
name = "Chalk"
family = "mineral"
[[trial]]
started = 2026-02-03T10:00:00Z
state = "done"
liquid_g = 20.0
[[trial.step]]
add = "powder"
grams = 25.0
level = 3.0
[[trial.step]]
add = "powder"
grams = 10.0
level = 5.0
`)
	return h
}

// spaced splits a command line at |.
func spaced(args string) []string { return strings.Split(args, "|") }

// about checks a number to one part in a hundred.
func about(t *testing.T, want float64, got *float64) {
	t.Helper()
	require.NotNil(t, got)
	require.InEpsilon(t, want, *got, 0.01)
}

func TestKitchenExitCodes(t *testing.T) {
	h := kitchenShelf(t)
	tests := []struct {
		args string
		code int
		err  string // what standard error must say; "" for nothing
	}{
		{"compare|light-white-clay|heavy-swelling-clay", 0, ""},
		{"compare|light-white-clay|clay-in-milk", 0, ""}, // other liquid: an answer
		{"compare|light-white-clay|new-flour-a", 0, ""},  // nothing known: an answer
		{"compare|light-white-clay|heavy-swelling-clay|chalk|--level|4.5", 0, ""},
		{"swap|light-white-clay|heavy-swelling-clay|--powder|20", 0, ""},
		{"swap|light-white-clay|clay-in-milk|--powder|20", 3, ""},
		{"swap|light-white-clay|new-flour-a|--liquid|20 g|--keep|total", 3, ""},
		{"batch|light-white-clay|--total|100", 0, ""},
		{"batch|light-white-clay|--total|500|--jar|60", 0, ""}, // too large: an answer
		{"batch|new-flour-a|--total|100", 3, ""},               // no ratio
		{"batch|chalk|--total|100", 0, ""},
		{"batch|chalk|--jar|60|--solid-density|2.7", 0, ""},
		{"mix|light-white-clay=60|heavy-swelling-clay=40", 0, ""},
		{"mix|light-white-clay=3|chalk=1%|--jar|60", 2, "give its solid density"},
		{"mix|light-white-clay=60|clay-in-milk=40", 3, ""},
		{"batch|light-white-clay|--total|100|--extra|glycerine=60%", 3, ""},    // more than it takes up
		{"batch|chalk|--total|100|--extra|vinegar=5%", 0, ""},                  // warned of
		{"batch|chalk|--jar|60|--solid-density|2.7|--extra|vinegar=5%", 3, ""}, // would burst
		{"batch|chalk|--jar|60|--solid-density|2.7|--extra|red wine=5%", 3, ""},
		{"batch|light-white-clay|--jar|60|--extra|lemon juice=5%", 3, ""}, // a clay never tested
		{"mix|light-white-clay=60|chalk=40|--total|100|--jar|90|--extra|citric acid=2%", 2, "give its solid density"},
		{"batch|light-white-clay|--total|100|--in|milk", 3, ""},
		{"batch|clay-in-milk|--total|100|--in|Milk|--rest|1 min", 0, ""},
		{"batch|light-white-clay|--portions|20|--each|75g", 0, ""},
		{"batch|light-white-clay|--portions|20|--jar|60", 0, ""},
		{"spoons|light-white-clay|20", 0, ""},
		{"spoons|light-white-clay|2 x 1 tsp + 1/4 tsp", 0, ""},
		{"spoons|light-white-clay|2|x|1 tsp", 0, ""},

		{"compare|light-white-clay", 2, "two to six powders, but only one was given"},
		{"compare|light-white-clay|LIGHT white clay", 2, "named twice"},
		{"compare|light-white-clay|zzzz|yyyy", 2, "zzzz"},
		{"compare|light-white-clay|chalk|--level|7", 2, "1 to 6 in halves"},
		{"swap|light-white-clay", 0, ""},
		{"swap|new-flour-a", 3, ""}, // nothing known
		{"swap|light-white-clay|--powder|20", 2, "which powder takes the place of light-white-clay?"},
		{"swap", 2, "but nothing was given"},
		{"swap|light-white-clay|chalk", 2, "as in --powder 20"},
		{"swap|light-white-clay|chalk|--powder|0", 2, "above 0"},
		{"swap|light-white-clay|chalk|--powder|NaN", 2, "not a number"},
		{"swap|light-white-clay|chalk|--powder|1,000", 2, "1.000 or 1000?"},
		{"swap|light-white-clay|chalk|--powder|1e9", 2, "100000"},
		{"swap|light-white-clay|chalk|--powder|20|--keep|water", 2, "liquid, powder or total"},
		{"swap|light-white-clay|chalk|--powder|20|--spoons|ladle", 2, `"ladle" is no level spoon`},
		{"batch|light-white-clay", 2, "--total G"},
		{"batch|light-white-clay|--portions|20", 2, "20 portions of how much each? give --each G, --total"},
		{"batch|light-white-clay|--each|75", 2, "what a portion weighs, but not how many: give --portions N"},
		{"batch|light-white-clay|--total|20|--each|5", 2, "give --portions N"},
		{"batch|light-white-clay|--total|20|--portions|-1", 2, "from 1 to"},
		{"batch|light-white-clay|--portions|0|--each|75", 2, "--portions 0: give a number from 1 to 10000"},
		{"mix|light-white-clay=60|chalk=40|--portions|0|--each|75", 2, "--portions 0: give a number from 1 to 10000"},
		{"batch|light-white-clay|--portions|2.5|--each|75", 2, `"2.5" is not a whole number: type it like 8;`},
		{"batch|light-white-clay|--total|100|--portions|3|--each|20", 2, "are not the total"},
		{"batch|light-white-clay|--total|100|--extra|honey=3%:wet", 2, "liquid, oil or dry"},
		{"batch|light-white-clay|--total|100|--rest|soon", 2, "--rest"},
		{"batch|light-white-clay|--total|1e9", 2, "100000"},
		{"batch|light-white-clay|--total|0", 2, `: --total: "0" is nothing; give a number above 0, as in 20;`},
		{"batch|light-white-clay|--jar|-3", 2, "--jar"},
		{"batch|light-white-clay|--portion|3", 2, "did you mean --portions?"},
		{"batch|light-white-clay|--total|100|--extra|honey", 2, "honey=3%"},
		{"batch|light-white-clay|--total|100|--extra|", 2, "nothing was typed: type it like honey=3%"},
		{"batch|light-white-clay|--total|100|--extra|honey=3", 2, "then type honey=3%"},
		{"batch|light-white-clay|--total|100|--extra|honey=-3%", 2, `"-3%" is not a share`},
		{"batch|light-white-clay|--total|100|--extra|honey=3%|--extra|Honey=1%", 2, "Honey is named twice"},
		{"batch|light-white-clay|--total|100|--extra|Water=3%", 2, "Water is the liquid of this paste already"},
		{"batch|light-white-clay|--total|100|--extra|a=60%|--extra|b=60%", 2, "leaves no room"},
		{"batch|light-white-clay|--total|100|--allowance|5", 2, "5 % of the total, or 5 g?"},
		{"batch|light-white-clay|--total|100|--save|", 2, "gives the recipe no name"},
		{"batch|chalk|--jar|60", 2, "leave --jar out"},
		{"mix|light-white-clay=60", 2, "two to five"},
		{"mix|light-white-clay=60|chalk", 2, "white-clay=60"},
		{"mix|light-white-clay=60|chalk=-1", 2, "above 0"},
		{"mix|light-white-clay=60|light-white-clay=1", 2, "named twice"},
		{"mix|light-white-clay=60|chalk=1|--extra|a=0.1|--save|x", 2, "--extra, --save"},
		{"spoons|light-white-clay", 2, "grams or spoons"},
		{"spoons|light-white-clay|0", 2, "above 0"},
		{"spoons|light-white-clay|1e9", 2, "100000"},
		{"spoons|light-white-clay|3 ladles", 2, "2 x 1 tsp + 1/4 tsp"},
		{"spoons|light-white-clay|5000 tsp", 2, "1000"},

		{"spoons|chalk|20", 3, "weigh one"},
		{"batch|new-flour-a|--total|100|--save|x", 3, "nothing to save"},
		{"batch|chalk|--jar|60|--solid-density|2.7|--extra|vinegar=5%|--save|x", 3, "nothing to save"},
		{"mix|light-white-clay=60|clay-in-milk=40|--trial", 3, "no trial of the mix"},
	}
	for _, tt := range tests {
		t.Run(tt.args, func(t *testing.T) {
			for _, more := range [][]string{nil, {"--json"}} {
				got := daub(h, append(spaced(tt.args), more...)...)
				require.Equal(t, tt.code, got.code, "stderr: %s", got.err)
				if tt.err == "" {
					require.Empty(t, got.err)
					require.NotEmpty(t, got.out)
					require.Equal(t, more != nil, json.Valid([]byte(got.out)))
					require.NotContains(t, got.out, "NaN")
					require.NotContains(t, got.out, "Inf")
					continue
				}
				require.Contains(t, got.err, tt.err)
				require.Empty(t, got.out, "standard output is for the answer")
				for line := range strings.Lines(got.err) {
					require.True(t, strings.HasPrefix(line, "daub: "), "%q", line)
				}
			}
		})
	}
	require.NoDirExists(t, filepath.Join(h.shelf, "recipes"), "nothing was saved")
	files, err := os.ReadDir(filepath.Join(h.shelf, "powders"))
	require.NoError(t, err)
	require.Len(t, files, 5)
}

// Two clays that look alike on the shelf: 7.6 times by weight, 26 by the spoon.
func TestCompareTheTwoClays(t *testing.T) {
	h := kitchenShelf(t)
	c := decode[compareJSON](t, daub(h, "compare", "light-white-clay", "heavy-swelling-clay", "clay-in-milk", "--json"))
	require.Equal(t, 5.0, c.Level)
	require.Len(t, c.Powders, 3)
	require.Equal(t, "light-white-clay", c.Powders[0].Slug)
	about(t, 0.626, c.Powders[0].Ratio.Median)
	about(t, 4.78, c.Powders[1].GramsPerTsp)
	require.NotEmpty(t, c.Powders[1].Cautions)

	pair := c.Pairs[0]
	require.Equal(t, []string{"light-white-clay", "heavy-swelling-clay"}, []string{pair.From, pair.To})
	about(t, 7.6, pair.ByWeight.Median)
	require.InDelta(t, 26, *pair.BySpoon.Median, 0.5)
	require.Equal(t, "not-a-stand-in", *pair.Verdict)
	require.True(t, pair.RestsApart)
	require.NotEmpty(t, pair.Warnings)
	require.NotEmpty(t, pair.Differences)
	require.Nil(t, pair.Refused)

	milk := c.Pairs[1]
	require.Equal(t, "other-liquid", *milk.Refused)
	require.Nil(t, milk.ByWeight)
	require.Nil(t, milk.Verdict)
	require.Contains(t, milk.Sentence, "same liquid")

	out := daub(h, "compare", "light-white-clay", "heavy-swelling-clay").out
	for _, want := range []string{
		"7.6 times", "26 times", "far too thick", "no: crumbly", "0.624 (", "4.78",
		"swelling-clay", "dust, alkaline", "Local rules",
	} {
		require.Contains(t, out, want)
	}
}

// The pairs are worked out once, for either form of the answer.
func TestCompareWorksThePairsOutOnce(t *testing.T) {
	a := &app{host: kitchenShelf(t)}
	chosen, err := a.choose("light-white-clay", "heavy-swelling-clay")
	require.NoError(t, err)
	c, err := compare(chosen, 0, model.Choice{})
	require.NoError(t, err)
	require.Len(t, c.pairs, 1)
	c.pairs[0].Differences = []string{"one smells of rain"}
	require.Equal(t, c.pairs[0].Differences, c.json().(compareJSON).Pairs[0].Differences)
	p := page.New(true)
	c.text(p)
	require.Contains(t, p.Drain(), "one smells of rain")
}

// counted counts how often it is written in each form.
type counted struct{ asJSON, asText int }

func (c *counted) json() any         { c.asJSON++; return nil }
func (c *counted) text(p *page.Page) { c.asText++ }

func TestAnswersAreToldInOneWayOnly(t *testing.T) {
	a := &app{host: testHost(t)}
	a.out = io.Discard
	c := &counted{}
	require.NoError(t, a.answer(c, true))
	require.NoError(t, a.answer(c, false))
	require.Equal(t, counted{1, 1}, *c)
}

func TestCompareWhatIsNotReached(t *testing.T) {
	h := kitchenShelf(t)
	c := decode[compareJSON](t, daub(h, "compare", "light-white-clay", "new-flour-a", "--json"))
	require.Equal(t, "level-missing", *c.Pairs[0].Refused)
	require.Contains(t, c.Pairs[0].Sentence, "no finished trial")
	require.Nil(t, c.Powders[1].Liquid)
	require.Nil(t, c.Powders[1].LevelStep)
	require.Nil(t, c.Powders[1].Ratio)
}

func TestSwapTheTwoClays(t *testing.T) {
	h := kitchenShelf(t)
	swap := func(args ...string) swapJSON {
		return decode[swapJSON](t,
			daub(h, append([]string{"swap", "light-white-clay", "heavy-swelling-clay", "--json"}, args...)...))
	}
	s := swap("--powder", "20")
	about(t, 20, s.OldPowder.Median)
	require.Equal(t, *s.OldPowder.Low, *s.OldPowder.High, "given, not measured")
	about(t, 12.5, s.OldLiquid.Median)
	about(t, 2.63, s.NewPowder.Median)
	require.Equal(t, s.OldLiquid, s.NewLiquid, "the liquid is kept")
	require.Equal(t, "not-a-stand-in", *s.Pair.Verdict)
	require.Equal(t, "1/2 tsp", s.Spoons.Text)

	s = swap("--powder", "20g", "--keep", "powder")
	about(t, 20, s.NewPowder.Median)
	about(t, 95.4, s.NewLiquid.Median)

	s = swap("--powder", "20", "--liquid", "12,5", "--keep", "total")
	about(t, 32.5, export.Number(*s.NewPowder.Median+*s.NewLiquid.Median))
	require.Empty(t, s.Notes)
	require.NotEmpty(t, swap("--powder", "20", "--liquid", "30").Notes, "far from what the powder takes at the level")

	out := daub(h, "swap", "light-white-clay", "heavy-swelling-clay", "--powder", "20").out
	require.Contains(t, out, "2.63 g")
	require.Contains(t, out, "Gram for gram it would come out at")
	refused := daub(h, "swap", "light-white-clay", "clay-in-milk", "--powder", "20")
	require.Contains(t, refused.out, "No swap: Light white clay was tried in water")
	none := decode[swapJSON](t, daub(h, "swap", "light-white-clay", "clay-in-milk", "--powder", "20", "--json"))
	require.Nil(t, none.NewPowder)
	require.Equal(t, "other-liquid", *none.Pair.Refused)
}

func TestBatch(t *testing.T) {
	h := kitchenShelf(t)
	batch := func(args ...string) *batchJSON {
		return decode[pasteJSON](t, daub(h, append([]string{"batch", "light-white-clay", "--json"}, args...)...)).Batch
	}
	b := batch("--total", "100", "--extra", "honey=3%", "--extra", "rose oil=0.002", "--allowance", "5%",
		"--allowance", "2g")
	about(t, 107, b.MadeG)
	about(t, 107*0.03, b.Extras[0].Grams)
	require.Equal(t, "rose oil", b.Extras[1].Name)
	about(t, 107*(1-0.032), export.Number(*b.PowderG.Median+*b.LiquidG.Median))
	require.InEpsilon(t, 0.626, (*b.LiquidG.Median+*b.CountedG) / *b.PowderG.Median, 0.01, "honey is liquid too")
	require.Equal(t, []string{"liquid", "oil"}, []string{*b.Extras[0].Counts, *b.Extras[1].Counts})
	require.Nil(t, b.JarML)
	require.Nil(t, b.Fits)
	require.Nil(t, b.Saved)

	jar := batch("--jar", "60 mL")
	about(t, 91.6, jar.JarG)
	require.Equal(t, *jar.JarG, *jar.TotalG)
	require.True(t, *jar.Fits)

	full := batch("--jar", "60", "--total", "200")
	require.False(t, *full.Fits)
	require.Contains(t, full.Warnings[0], "too much for the jar")
	require.Contains(t, daub(h, "batch", "light-white-clay", "--jar", "60", "--total", "200").out,
		"too much for the jar")

	none := decode[pasteJSON](t, daub(h, "batch", "new-flour-a", "--total", "50", "--json"))
	require.Contains(t, *none.Refused, "no ratio")
	require.Nil(t, none.Batch)
	require.Nil(t, none.Ratio)
}

func TestMix(t *testing.T) {
	h := kitchenShelf(t)
	m := decode[pasteJSON](t, daub(h, "mix", "light-white-clay=60", "heavy-swelling-clay=40", "--json"))
	about(t, 0.6, m.Powders[0].Fraction)
	about(t, 0.6*0.626+0.4*4.77, m.Ratio.Median)
	require.Contains(t, m.Warnings[0], "first estimate")
	require.Nil(t, m.Batch)
	require.Nil(t, m.Trial)
	require.Contains(t, daub(h, "mix", "light-white-clay=60", "heavy-swelling-clay=40").out, "make a trial of the mix")

	with := decode[pasteJSON](t, daub(h, "mix", "light-white-clay=3", "heavy-swelling-clay=2", "--total", "100",
		"--json"))
	require.Equal(t, m.Ratio, with.Ratio, "parts are of any sum")
	require.Len(t, with.Batch.Powders, 2)

	put := decode[pasteJSON](t, daub(h, "mix", "light-white-clay=60", "heavy-swelling-clay=40", "--trial", "--json"))
	require.FileExists(t, put.Trial.File)
	s := decode[showJSON](t, daub(h, "show", put.Trial.Slug, "--json"))
	require.Len(t, s.TrialList, 1)
	require.Equal(t, "open", s.TrialList[0].State)
	require.Equal(t, 300, s.TrialList[0].RestS, "the longest of their rests")
	again := daub(h, "mix", "light-white-clay=60", "heavy-swelling-clay=40", "--total", "50", "--save", "x", "--trial")
	require.Equal(t, exitMisused, again.code)
	require.Contains(t, again.err, "on the shelf already")
	require.NoDirExists(t, filepath.Join(h.shelf, "recipes"), "what is refused leaves nothing behind")
}

func TestSpoonsThereAndBack(t *testing.T) {
	h := kitchenShelf(t)
	s := decode[spoonsJSON](t, daub(h, "spoons", "light-white-clay", "20", "--json"))
	require.Equal(t, "grams", s.Asked)
	require.Equal(t, "weigh it", s.Text)
	require.Equal(t, "takes more than eight spoonfuls", *s.Weigh)
	about(t, 20.06, s.Grams)
	require.NotNil(t, s.LevelShift)
	require.Equal(t, "20.00 g takes more than eight spoonfuls: weigh it.\n",
		daub(h, "spoons", "light-white-clay", "20").out)
	require.Equal(t, "0.05 g is less than the smallest spoon at hand: weigh it.\n",
		daub(h, "spoons", "light-white-clay", "0.05").out)
	require.Contains(t, daub(h, "spoons", "light-white-clay", "dash").out, "1/8 tsp of Light white clay holds 0.18 g")
	require.Contains(t, daub(h, "spoons", "light-white-clay", "2 pinches").out, "holds 0.18 g")
	s = decode[spoonsJSON](t, daub(h, "spoons", "light-white-clay", "10", "--json"))
	require.Equal(t, "7 × 1 tsp", s.Text)
	back := decode[spoonsJSON](t, daub(h, "spoons", "light-white-clay", s.Text, "--json"))
	require.Equal(t, "spoons", back.Asked)
	require.Equal(t, s.Grams, back.Grams)
	require.Equal(t, s.Spoons, back.Spoons)

	for text, want := range map[string]float64{
		"1 tsp": 1.42, "3 tsp": 4.26, "1 1/2 tsp": 2.13, "2x1tsp+ 1/4tsp": 3.195, "2 * 1 TBSP": 8.52, "1 tbsp": 4.26,
		"1,42 G": 1.42,
	} {
		about(t, want, decode[spoonsJSON](t, daub(h, "spoons", "light-white-clay", text, "--json")).Grams)
	}
	coarse := decode[spoonsJSON](t, daub(h, "spoons", "light-white-clay", "20", "--spoons", "1 tbsp, 1/2 tsp",
		"--json"))
	require.Equal(t, "4 × 1 tbsp + 4 × 1/2 tsp", coarse.Text)
	require.Contains(t, daub(h, "spoons", "light-white-clay", "2", "--spoons", "1 tsp").out, "levels thinner")
}

// Microbes do not grow in oil alone: the caution comes with the first extra that
// has water in it.
func TestOilAloneIsNotWarnedOfMicrobesInABatch(t *testing.T) {
	h := clays(t)
	oil := strings.Replace(read(t, lightClay), "liquid_g = 5.0", "liquid = \"vegetable oil\"\nliquid_g = 5.0", 1)
	shelve(t, h, "clay-in-oil", strings.Replace(oil, "Light white clay", "Clay in oil", 1))
	for _, args := range []string{"batch|clay-in-oil|--total|100", "batch|clay-in-oil|--jar|60|--extra|walnut oil=5%"} {
		got := daub(h, spaced(args)...)
		require.Zero(t, got.code, got.err)
		require.Contains(t, got.out, "Fine dust", args)
		require.NotContains(t, got.out, "Microbes", args)
	}
	got := daub(h, spaced("batch|clay-in-oil|--total|100|--extra|honey=2%")...)
	require.Contains(t, got.out, "Microbes")
}

// A liquid or rest that was never tried is refused with a list of those that were.
func TestUntriedLiquidsAndRestsAreNamed(t *testing.T) {
	h := kitchenShelf(t)
	for args, says := range map[string]string{
		"batch|chalk|--total|20|--in|water|--rest|5min": "Cannot calculate: Chalk: no finished trial in water with a " +
			"rest of 5 min; there are trials in water, rest 30 s",
		"batch|chalk|--total|20|--in|oil":           "no finished trial in oil; there are trials in water, rest 30 s",
		"mix|chalk=1|clay-in-milk=1|--in|milk":      "Chalk: no finished trial in milk; there are trials in water",
		"list|--in|oil":                             "there are trials in ",
		"show|chalk|--in|milk":                      "no finished trial in milk; there are trials in water, rest 30 s",
		"compare|chalk|light-white-clay|--rest|9 h": "no finished trial with a rest of 9 h; there are",
		"swap|chalk|--in|milk":                      "there are trials in water, rest 30 s",
		"export|chalk|--in|milk|--to|csv":           "there are trials in water, rest 30 s",
	} {
		got := daub(h, spaced(args)...)
		assert.Contains(t, strings.Join(strings.Fields(got.out+got.err), " "), says, args)
	}
	assert.NotContains(t, daub(h, "list", "--in", "milk").err, "no finished trial")
}

// The list and its JSON count the same trials.
func TestListAndItsJSONCountTheSameTrials(t *testing.T) {
	h := kitchenShelf(t)
	shelve(t, h, "soft-chalk", besideChalk)
	var all []listJSON
	require.NoError(t, json.Unmarshal([]byte(daub(h, "list", "--json").out), &all))
	require.NotEmpty(t, all)
	matches := 0
	split := func(line string) []string { return regexp.MustCompile(`  +`).Split(strings.TrimSpace(line), -1) }
	list := daub(h, "list").out
	trials := slices.Index(split(strings.Split(list, "\n")[0]), "trials")
	require.Positive(t, trials)
	for line := range strings.Lines(list) {
		for _, one := range all {
			if strings.HasPrefix(line, one.Powder+" ") || strings.HasPrefix(line, one.Powder+"@") {
				matches++
				assert.Equal(t, fmt.Sprint(one.Trials), split(line)[trials], line)
			}
		}
	}
	require.Equal(t, len(all), matches, "every powder is in both")
}

// A powder that nothing can replace still has an answer, with the reason. What a
// swap keeps is asked only once there is a stand-in.
func TestNothingCanStandIn(t *testing.T) {
	h := kitchenShelf(t)
	refused := daub(h, "swap", "clay-in-milk", "--json")
	require.Equal(t, exitCannot, refused.code, refused.err)
	got := decode[standInsJSON](t, refused)
	require.Len(t, got.Powders, 1)
	assert.Equal(t, "clay-in-milk", got.Powders[0].Slug)
	assert.Positive(t, got.Powders[0].Trials)
	assert.Empty(t, got.Pairs)
	require.NotNil(t, got.Refused)
	assert.Equal(t, *got.Refused, flat(daub(h, "swap", "clay-in-milk").out), "the same words")
	assert.Contains(t, *got.Refused, "Nothing on the shelf can be compared with Clay in milk")

	found := decode[standInsJSON](t, daub(h, "swap", "light-white-clay", "--json"))
	assert.Nil(t, found.Refused)
	assert.Greater(t, len(found.Powders), 1)

	keep := daub(h, "swap", "light-white-clay", "--keep", "total")
	assert.Equal(t, exitMisused, keep.code)
	assert.Contains(t, keep.err, "name it too, or leave --keep out for a list")
	both := daub(h, "swap", "light-white-clay", "--powder", "20", "--liquid", "15")
	assert.Contains(t, both.err, "leave --powder and --liquid out")
	list := daub(h, "swap", "light-white-clay").out
	assert.Contains(t, flat(list), "Not listed: ")
	assert.Contains(t, flat(list), "Clay in milk (tried in milk)")
}
