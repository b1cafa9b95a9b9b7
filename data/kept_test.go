package data

import (
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"daub.example/daub/data/record"
	"daub.example/daub/model"
	"daub.example/daub/model/handling"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What stands behind a key of later work and is not of its shape is neither used
// nor refused: it comes back to the byte, with the old file at hand and without,
// and daub check warns of it.
func TestKeysOfAnotherShapeAreKept(t *testing.T) {
	for name, kept := range map[string]string{
		"a level in words":        `    level_stirred = 'stiff, then "loose"'`,
		"a reading with its unit": `    reading = "61 mm"  # by the ring`,
		"a reading as a table":    `    reading = { mm = 61.00, by = 0x1F }`,
		"a number beside a dish":  `    beside = 3`,
		"a list over lines":       "    reading = [ # twice\n      61.50,\n\n      62.00, # dry by then\n    ]",
		"dotted keys":             "    beside.dish = 3\n    beside.look = \"thicker\"",
		"a look in words":         `  later = "looked at noon"`,
		"an acid in words":        `  acid   =   '''a few drops'''`,
		"a match in words":        `  match = "the grey one"`,
		"a match cut short":       "  [trial.match]\n  powder = \"grey-basin-clay\" # which?",
		"an acid of one's own": "    # strips\n  [trial.acid]\n  pH = 9.50 # before\n" +
			"    [trial.acid.deeper]\n    big = 1e300",
		"later looks by day": "  [[trial.later]]\n  day = 1979-05-27\n\n" +
			"  # and then\n  [[trial.later]]\n  level = 4.50",
		"a kind nobody knows":  "  [trial.measured]\n  kind = \"thumb\"\n  width = 1_000.0",
		"a level out of range": "  [[trial.later]]\n  at = 2026-05-03T11:10:00Z\n  level = 9.00",
	} {
		t.Run(name, func(t *testing.T) {
			inTrial := strings.HasPrefix(kept, "  ") && kept[2] != ' ' && kept[2] != '[' && kept[2] != '#'
			step := "\n  [[trial.step]]\n  at = 2026-05-03T10:13:00Z\n  add = \"powder\"\n" +
				"  grams = 4.0\n  level = 4.0\n"
			text := "schema = 1\n\n[powder]\nname = \"Test powder\"\n\n[[trial]]\n" +
				"started = 2026-05-03T10:12:00Z\nliquid_g = 20.0\n"
			if inTrial {
				text += kept + "\n" + step
			} else {
				text += step + strings.TrimSuffix(kept, "\n") + "\n"
			}
			file := filepath.Join(t.TempDir(), "test-powder.toml")
			require.NoError(t, os.WriteFile(file, []byte(text), 0o600))
			problems, warnings := Check(file, nil)
			assert.Empty(t, problems)
			told := 0
			for _, w := range warnings {
				if strings.Contains(w.What, "is not written as daub writes it: kept untouched, not used") {
					told++
					line := strings.Split(text, "\n")[w.Line-1]
					assert.Contains(t, line, strings.Fields(w.What)[0])
				}
			}
			assert.Equal(t, 1, told)

			p, err := record.Decode(file, []byte(text), nil)
			require.NoError(t, err)
			first := p.Trials[0]
			assert.Nil(t, first.Match)
			assert.Nil(t, first.Measured)
			assert.Nil(t, first.Acid)
			assert.Empty(t, first.Later)
			assert.Equal(t, []model.Step{{
				At: time.Date(2026, 5, 3, 10, 13, 0, 0, time.UTC), Add: model.AddPowder, Grams: 4,
				Looked: true, Level: 4,
				Reserved: first.Steps[0].Reserved,
			}}, first.Steps)
			p.Trials[0].Steps[0].Note = "seen again"
			for _, old := range [][]byte{[]byte(text), nil} {
				out, err := record.Encode(p, nil, old)
				require.NoError(t, err)
				lines := strings.TrimPrefix(kept, "    # strips\n") // what stands above goes with the old file
				assert.Contains(t, trimmed(string(out)), trimmed("\n"+lines+"\n"))
				again, err := record.Encode(p, nil, out)
				require.NoError(t, err)
				assert.Equal(t, string(out), string(again))
				for _, line := range strings.Split(kept, "\n") {
					if at := strings.Index(line, "# "); at >= 0 && (old != nil || !strings.Contains(line, "strips")) {
						assert.Equal(t, 1, strings.Count(string(out), line[at:]), "said once: %s", line[at:])
					}
				}
			}
		})
	}
}

// trimmed is a text without the indent of its lines.
func trimmed(text string) string {
	lines := strings.Split(text, "\n")
	for i := range lines {
		lines[i] = strings.TrimLeft(lines[i], " ")
	}
	return strings.Join(lines, "\n")
}

// The table of a packing in words, before every header.
func TestPackingOfAnotherShapeIsKept(t *testing.T) {
	line := "packing = { tapped = true, \"odd key\" = [1, [2.50, 'x']] } # for later\n"
	src := []byte("schema = 1\n" + line + "\n[powder]\nname = \"Test powder\"\n")
	p, err := record.Decode("x", src, nil)
	require.NoError(t, err)
	assert.Empty(t, p.Powder.Packings)
	out, err := record.Encode(p, nil, src)
	require.NoError(t, err)
	assert.Equal(t, string(src), string(out))
}

// Looks beside a dish and readings of what is of another shape are kept with it:
// nobody knows what they were made beside, or of what.
func TestLooksOfWhatIsKeptAreKept(t *testing.T) {
	src := []byte(`schema = 1

[powder]
name = "Test powder"

[[trial]]
started = 2026-05-03T10:12:00Z
liquid_g = 20.0
match = "the grey one"
measured = 'by thumb'

  [[trial.step]]
  add = "powder"
  grams = 4.0
  beside = 'thicker'

  [[trial.step]]
  add = "powder"
  grams = 1.0
  level = 4.0
  reading = 61.00
`)
	p, err := record.Decode("x", src, nil)
	require.NoError(t, err)
	assert.False(t, p.Trials[0].Steps[0].Looked)
	assert.Empty(t, p.Trials[0].Steps[0].Beside)
	assert.Zero(t, p.Trials[0].Steps[1].Reading)
	assert.True(t, p.Trials[0].Steps[1].Looked)
	p.Trials[0].Steps = p.Trials[0].Steps[1:]
	out, err := record.Encode(p, nil, src)
	require.NoError(t, err)
	assert.Contains(t, string(out), "  reading = 61.00\n")
	p, err = record.Decode("x", src, nil)
	require.NoError(t, err)
	out, err = record.Encode(p, nil, src)
	require.NoError(t, err)
	assert.Equal(t, string(src), string(out))
}

// A comment in what is kept goes to the end with its trial, not away.
func TestCommentsInWhatIsKeptAreNotLost(t *testing.T) {
	src := []byte(`schema = 1

[powder]
name = "Test powder"

[[trial]]
started = 2026-05-03T10:12:00Z
liquid_g = 20.0
later = "looked at noon" # by the window
`)
	p, err := record.Decode("x", src, nil)
	require.NoError(t, err)
	p.Trials = nil
	out, err := record.Encode(p, nil, src)
	require.NoError(t, err)
	assert.Contains(t, string(out), "by the window")

	p, err = record.Decode("x", src, nil)
	require.NoError(t, err)
	p.Trials[0].Reserved["later"] = "looked at two" // by another program, which knows no comments
	out, err = record.Encode(p, nil, src)
	require.NoError(t, err)
	assert.Contains(t, string(out), `later = "looked at two"`)
	assert.Contains(t, string(out), "by the window")
}

// Nothing can be recorded in the place of what is kept: one of the two would be
// lost.
func TestWhatIsKeptIsNotWrittenOver(t *testing.T) {
	four, reserved := 4.0, func(key string) map[string]any { return map[string]any{key: "in words"} }
	oats := func(change func(p *model.Profile, t *model.Trial, s *model.Step)) model.Profile {
		p := model.Profile{Powder: model.Powder{Name: "x"}, Trials: []model.Trial{{
			Started: time.Date(2026, 5, 3, 10, 12, 0, 0, time.UTC), LiquidG: 20,
			Steps: []model.Step{{Add: model.AddPowder, Grams: 4}},
		}}}
		change(&p, &p.Trials[0], &p.Trials[0].Steps[0])
		return p
	}
	for path, p := range map[string]model.Profile{
		"packing": oats(func(p *model.Profile, _ *model.Trial, _ *model.Step) {
			p.Reserved = reserved("packing")
			p.Powder.Packings = []model.Packing{{Spoon: "1 tsp", LooseG: []float64{2}, TappedG: []float64{3}}}
		}),
		"trial[0].later": oats(func(_ *model.Profile, t *model.Trial, _ *model.Step) {
			t.Reserved = reserved("later")
			t.Later = []model.LaterLook{{At: t.Started, Level: &four}}
		}),
		"trial[0].acid": oats(func(_ *model.Profile, t *model.Trial, _ *model.Step) {
			t.Reserved, t.Acid = reserved("acid"), &model.AcidTest{Acid: "vinegar", PasteG: 24}
		}),
		"trial[0].measured": oats(func(_ *model.Profile, t *model.Trial, _ *model.Step) {
			t.Reserved, t.Measured = reserved("measured"), &model.Measured{Kind: "cone"}
		}),
		"trial[0].match": oats(func(_ *model.Profile, t *model.Trial, _ *model.Step) {
			t.Reserved, t.Match = reserved("match"), &model.Match{Powder: "y", PowderPerLiquid: 0.2}
		}),
		"trial[0].step[0].level_stirred": oats(func(_ *model.Profile, _ *model.Trial, s *model.Step) {
			s.Reserved, s.LevelStirred = reserved("level_stirred"), &four
		}),
		"trial[0].step[0].reading": oats(func(_ *model.Profile, t *model.Trial, s *model.Step) {
			t.Measured = &model.Measured{Kind: "cone"}
			s.Reserved, s.Reading = reserved("reading"), 61
		}),
		"trial[0].step[0].beside": oats(func(_ *model.Profile, t *model.Trial, s *model.Step) {
			t.Match = &model.Match{Powder: "y", PowderPerLiquid: 0.2}
			s.Reserved, s.Looked, s.Beside = reserved("beside"), true, model.Thicker
		}),
	} {
		t.Run(path, func(t *testing.T) {
			problems := p.Validate(nil)
			require.Len(t, problems, 1)
			assert.Equal(t, path, problems[0].Path)
			assert.Contains(t, problems[0].What, "holds something else in the file, which would be lost")
			assert.NotEmpty(t, problems[0].Fix)
		})
	}
}

// A list of spoons keeps what is of another shape likewise; the size stays, and a
// check of that spoon with water is refused before anything is lost.
func TestSpoonsOfAnotherShapeAreKept(t *testing.T) {
	src := []byte(`[[spoon]]
name = "blue scoop"
volume_ml = 8.0
water_g = ["about 8", 7.90]  # by hand
temperature_c = "cool"
measured = 2026-03-02
`)
	file := filepath.Join(t.TempDir(), "spoons.toml")
	require.NoError(t, os.WriteFile(file, src, 0o600))
	problems, warnings := Check(file, nil)
	assert.Empty(t, problems)
	require.Len(t, warnings, 3)
	assert.Equal(t, []int{4, 5, 6}, []int{warnings[0].Line, warnings[1].Line, warnings[2].Line})
	own, doc, problems := record.ReadSpoons(src)
	require.Empty(t, problems)
	assert.Empty(t, own[0].WaterG)
	assert.True(t, own[0].Measured.IsZero())
	out, err := record.WriteSpoons(own, doc)
	require.NoError(t, err)
	assert.Equal(t, string(src), string(out))
}

// A spoon is not checked over what is kept in its place.
func TestSpoonChecksAreNotWrittenOverWhatIsKept(t *testing.T) {
	dir := t.TempDir()
	src := "[[spoon]]\nname = \"blue scoop\"\nvolume_ml = 8.0\nwater_g = \"about 8\"\n"
	file := filepath.Join(dir, "spoons.toml")
	require.NoError(t, os.WriteFile(file, []byte(src), 0o600))
	shelf := Open(dir, nil)
	was, err := shelf.Spoons()
	require.NoError(t, err)
	check, err := handling.CheckSpoon(was, "blue scoop", []float64{7.9, 7.95, 7.92}, nil, 0.01, time.Now())
	require.NoError(t, err)
	err = shelf.SaveSpoons(was, check.With(was))
	assert.ErrorContains(t, err, "water_g holds something else in the file, which would be lost")
	now, err := os.ReadFile(file)
	require.NoError(t, err)
	assert.Equal(t, src, string(now))
}
