package tomlfile

import (
	"strings"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const tangled = `# top
schema = 1
powder = { name = "x", "lot" = '''a
b''' }

[[trial]]
  [[trial.step]]
  note = """
[[trial]] # no header
"""
  marks = [ # the first
    "a]#", 'b', # both

    "c",
  ]
  [[trial.step]] # the second
    level.deep.er = 3
[[trial]]
step = [
  { add = 1 },
  # before the second
  { add = 2, in = { k = [
     5 ] } },
]
[trial.acid]
"odd key" . b = 1
  [[trial.acid.c]]
  [[trial.acid.c]]
  d = 1979-05-27 07:32:00
# end`

func TestIndex(t *testing.T) {
	ix, err := fullScan(tangled)
	require.NoError(t, err)
	for path, line := range map[string]int{
		"schema": 2, "powder": 3, "powder.name": 3, "powder.lot": 3,
		"trial[0]": 6, "trial[0].step[0]": 7, "trial[0].step[0].note": 8, "trial[0].step[0].marks": 11,
		"trial[0].step[0].marks[1]": 12, "trial[0].step[0].marks[2]": 14,
		"trial[0].step[1]": 16, "trial[0].step[1].level": 17, "trial[0].step[1].level.deep.er": 17,
		"trial[1]": 18, "trial[1].step": 19, "trial[1].step[0].add": 20, "trial[1].step[1].add": 22,
		"trial[1].step[1].in.k[0]": 23,
		"trial[1].acid":            25, `trial[1].acid."odd key".b`: 26, "trial[1].acid.c[1]": 28,
		"trial[1].acid.c[1].d": 29,
		// what is absent stands where its table does
		"trial[0].step[1].add": 16, "trial[1].liquid_g": 18, "nothing": 1, "": 1,
		"trial": 6,
	} {
		assert.Equal(t, line, ix.line(path), path)
	}
	want := []comment{
		{text: "# top", where: head},
		{text: "# the first", path: "trial[0].step[0].marks[0]", where: above},
		{text: "# both", path: "trial[0].step[0].marks[1]", where: above},
		{text: "# the second", path: "trial[0].step[1]", where: beside},
		{text: "# before the second", path: "trial[1].step[1]", where: above},
		{text: "# end", where: tail},
	}
	for i := range want {
		want[i].at = strings.Index(tangled, want[i].text)
	}
	assert.Equal(t, want, ix.comments)
	assert.Equal(t, "  marks = [ # the first\n    \"a]#\", 'b', # both\n\n    \"c\",\n  ]",
		tangled[ix.statements[5].from:ix.statements[5].to])
}

// The same text with other line ends has the same lines.
func TestIndexOfOtherLineEnds(t *testing.T) {
	unix, err := fullScan(tangled)
	require.NoError(t, err)
	other, err := fullScan(strings.ReplaceAll(tangled, "\n", "\r\n"))
	require.NoError(t, err)
	assert.Equal(t, unix.lines, other.lines)
	assert.Equal(t, unix.twice, other.twice)
	require.Len(t, other.comments, len(unix.comments))
	for i, c := range unix.comments {
		c.at = other.comments[i].at
		assert.Equal(t, c, other.comments[i])
	}
	assert.Equal(t, unix.nameless, other.nameless)
	require.Len(t, other.statements, len(unix.statements))
	for i, s := range unix.statements {
		o := other.statements[i]
		assert.Equal(t, s.path, o.path)
		assert.Equal(t, s.header, o.header)
		assert.Equal(t, unix.src[s.from:s.to], strings.ReplaceAll(other.src[o.from:o.to], "\r", ""))
	}
}

// A text that is cut off or nested beyond reason never panics.
func TestIndexOfAnyPrefix(t *testing.T) {
	for i := range tangled {
		_, err := scan(tangled[:i])
		assert.NoError(t, err)
	}
	for _, hostile := range []string{
		strings.Repeat("[", 100000), "a = " + strings.Repeat("[", 100000),
		"a = " + strings.Repeat("{a=", 100000), strings.Repeat("a.", 100000),
	} {
		_, problems := parse([]byte(hostile))
		assert.Len(t, problems, 1)
	}
}

func TestDecimalText(t *testing.T) {
	for v, want := range map[float64]string{
		20: "20.0", 0: "0.0", 2.31: "2.31", 0.1 + 0.2: "0.3", 1.0 / 3: "0.3333333333",
		123456.789012345: "123456.789012345", 1e-7: "0.0000001", 99999: "99999.0", -4.5: "-4.5",
	} {
		assert.Equal(t, want, decimalText(v))
	}
	now, before := 130.31, 130.01
	assert.Equal(t, "0.3", decimalText(now-before), "what the scale shows now less what it showed before")
	zero := 0.0
	assert.Equal(t, "0.0", decimalText(-zero))
}
