package data

import (
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"math"
	"os"
	"slices"
	"strconv"
	"strings"
	"testing"

	"daub.example/daub/data/export"
	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
	"daub.example/daub/model/care"
	"daub.example/daub/model/repeats"
	"github.com/BurntSushi/toml"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

const exportFiles = "../testdata/export"

// sampleEntries is the sample shelf and its spoons.
func sampleEntries(t testing.TB) ([]export.Powder, model.OwnSpoons) {
	t.Helper()
	s := Open("samples", nil)
	own, err := s.Spoons()
	require.NoError(t, err)
	entries, errs := s.List()
	require.Empty(t, errs)
	powders := make([]export.Powder, len(entries))
	for i, e := range entries {
		powders[i] = export.Powder{Slug: e.Slug, Profile: e.Profile}
	}
	return powders, own
}

func exportedAs(t require.TestingT, format string, entries []export.Powder, own model.OwnSpoons, level float64) []byte {
	var out bytes.Buffer
	require.NoError(t, export.Write(&out, format, entries, own, export.Options{Level: level}))
	return out.Bytes()
}

// golden compares with a file, or writes it.
func golden(t *testing.T, file string, have []byte) {
	t.Helper()
	if *update {
		require.NoError(t, os.WriteFile(file, have, 0o644))
	}
	want := read(t, file)
	assert.Equal(t, strings.ReplaceAll(string(want), "\r\n", "\n"), string(have))
}

func TestMarkdownIsAsItWas(t *testing.T) {
	entries, own := sampleEntries(t)
	entries = append(entries, sixTried()[5], export.Powder{Profile: profile("Never tried | yet\n", "")})
	golden(t, exportFiles+"/level-5.md", exportedAs(t, "md", entries, own, 5))
	all := exportedAs(t, "md", entries[2:3], own, 0)
	golden(t, exportFiles+"/one-powder.md", all)
	assert.Contains(t, string(all), care.Deferral)
	for _, c := range care.Of(entries[2].Profile.Powder) {
		assert.Contains(t, string(all), "- "+c+"\n", "a caution for all names none")
	}
}

// jsonKeys lists every key with what is behind it.
func jsonKeys(path string, v any, keys map[string]bool) {
	switch v := v.(type) {
	case map[string]any:
		for name, in := range v {
			jsonKeys(strings.TrimPrefix(path+"."+name, "."), in, keys)
		}
	case []any:
		keys[path+": list"] = true
		for _, in := range v {
			jsonKeys(path+"[]", in, keys)
		}
	case nil:
		keys[path+": null"] = true
	default:
		keys[fmt.Sprintf("%s: %T", path, v)] = true
	}
}

func TestJSONKeysStay(t *testing.T) {
	entries, own := sampleEntries(t)
	entries = append(entries, sixTried()[5], export.Powder{Profile: profile("Never tried", "")})
	var tree any
	require.NoError(t, json.Unmarshal(exportedAs(t, "json", entries, own, 0), &tree))
	keys := map[string]bool{}
	jsonKeys("", tree, keys)
	var lines []string
	for k := range keys {
		lines = append(lines, k)
	}
	slices.Sort(lines)
	golden(t, exportFiles+"/json-keys.txt", []byte(strings.Join(lines, "\n")+"\n"))
}

// awkward are texts that a spreadsheet might take for something else, with
// what stands in the cell.
var awkward = []struct{ text, cell string }{
	{"=1+2", "'=1+2"},
	{"+49", "'+49"},
	{"-3 to 4", "'-3 to 4"},
	{"@home", "'@home"},
	{"\ttab", "'\ttab"},
	{"\rreturn", "'\nreturn"},
	{`comma, "quote"` + "\nand line", `comma, "quote"` + "\nand line"},
	{"Ätherisch ß ø", "Ätherisch ß ø"},
	{"a=b", "a=b"},
	{"'=x", "'=x"},
	{" = x", " = x"},
	{"\x00=1", "'=1"},
	{"2026-04", "2026-04"},
	{"泥 🏺", "泥 🏺"},
}

func TestCSVReadsBackCellByCell(t *testing.T) {
	entries, own := sampleEntries(t)
	for _, a := range awkward {
		entries = append(entries,
			export.Powder{Slug: "s", Profile: model.Profile{Powder: model.Powder{Name: "x" + a.text, Lot: a.text}}})
		e := tried("Clay", model.PlainClay, 1, 7, 3.4, 1)
		e.Profile.Trials[0].Liquid = a.text
		entries = append(entries, e)
	}
	for _, level := range []float64{0, 5} {
		text := exportedAs(t, "csv", entries, own, level)
		require.False(t, bytes.HasPrefix(text, tomlfile.ByteOrderMark), "the mark belongs to files only")
		assert.Equal(t, bytes.Count(text, []byte("\n")), bytes.Count(text, []byte("\r\n")), "RFC 4180: CRLF throughout")
		rows, err := csv.NewReader(bytes.NewReader(text)).ReadAll()
		require.NoError(t, err)
		header := rows[0]
		row := 0
		next := func() map[string]string {
			row++
			cells := map[string]string{}
			for i, name := range header {
				cells[name] = rows[row][i]
			}
			require.Len(t, cells, len(header), "no two columns of one name")
			return cells
		}
		for _, e := range entries {
			p := e.Profile
			var wanted []repeats.Ratio
			for _, b := range p.Bases() {
				levels := []float64{level}
				if level == 0 {
					levels = model.TableLevels(p.Aim())
				}
				wanted = append(wanted, repeats.Ratios(p, b, levels, own)...)
			}
			if level == 0 {
				wanted = slices.DeleteFunc(wanted,
					func(r repeats.Ratio) bool { return r.Powder == nil && r.Bound == nil })
			}
			if len(wanted) == 0 {
				cells := next()
				assertPowderCells(t, e, cells)
				assert.Equal(t, "", cells["level"]+cells["ratio (g liquid per g powder)"])
			}
			for _, r := range wanted {
				cells := next()
				assertPowderCells(t, e, cells)
				assert.Equal(t, model.Number(r.Level), cells["level"])
				assert.Equal(t, strconv.Itoa(r.Basis.RestS), cells["rest (s)"])
				assert.Equal(t, r.Reach.String(), cells["reach"])
				assertNumber(t, r.Powder != nil,
					func() float64 { return r.Powder.Median }, cells["ratio (g liquid per g powder)"])
				assertNumber(t, r.Powder != nil, func() float64 { return r.Powder.Low }, cells["ratio low 95 %"])
				assertNumber(t, r.Next != nil, func() float64 { return r.Next.High }, cells["next dish high 95 %"])
				assertNumber(t, r.PerTsp != nil,
					func() float64 { return r.PerTsp.Median }, cells["liquid per level teaspoon (g)"])
				assertNumber(t, r.Powder == nil && r.Bound != nil && r.Bound.Low > 0,
					func() float64 { return r.Bound.Low }, cells["not reached: more than (g/g)"])
				assertNumber(t, r.Powder == nil && r.Bound != nil && !math.IsInf(r.Bound.High, 1),
					func() float64 { return r.Bound.High }, cells["not reached: less than (g/g)"])
			}
		}
		assert.Len(t, rows, row+1)
	}
}

// assertPowderCells holds the text cells of a powder against it.
func assertPowderCells(t *testing.T, e export.Powder, cells map[string]string) {
	t.Helper()
	assert.Equal(t, e.Slug, cells["file"])
	want := e.Profile.Powder.Lot
	for _, a := range awkward {
		if a.text == want {
			want = a.cell
		}
		if len(e.Profile.Trials) == 1 && e.Profile.Trials[0].Liquid == a.text {
			assert.Equal(t, a.cell, cells["liquid"])
		}
	}
	assert.Equal(t, want, cells["lot"])
	assert.Equal(t, string(e.Profile.Powder.Kind()), cells["family"])
}

// assertNumber holds a cell against a value of four digits, or nothing.
func assertNumber(t *testing.T, there bool, value func() float64, cell string) {
	t.Helper()
	if !there {
		assert.Empty(t, cell)
		return
	}
	v, err := strconv.ParseFloat(cell, 64)
	require.NoError(t, err)
	assert.InEpsilon(t, value(), v, 6e-4)
}

func TestTOMLReadsBack(t *testing.T) {
	entries, own := sampleEntries(t)
	var file struct {
		Schema int
		Powder []struct {
			Name, Lot, Slug, Family string
			KeepFromMetal           bool    `toml:"keep_from_metal"`
			GramsPerTsp             float64 `toml:"grams_per_tsp"`
			Ratio                   []struct {
				Liquid          string
				RestS           int `toml:"rest_s"`
				Level           float64
				Reach           string
				Trials          int
				LiquidPerPowder float64 `toml:"liquid_per_powder"`
				Low, High       float64
				NextLow         float64 `toml:"next_low"`
				NextHigh        float64 `toml:"next_high"`
				PerTsp          float64 `toml:"per_tsp"`
				PerTspLow       float64 `toml:"per_tsp_low"`
				PerTspHigh      float64 `toml:"per_tsp_high"`
				BoundLow        float64 `toml:"bound_low"`
				BoundHigh       float64 `toml:"bound_high"`
			}
		}
	}
	meta, err := toml.Decode(string(exportedAs(t, "toml", entries, own, 0)), &file)
	require.NoError(t, err)
	assert.Empty(t, meta.Undecoded())
	require.Len(t, file.Powder, len(entries))
	for i, e := range entries {
		have := file.Powder[i]
		assert.Equal(t, []string{e.Profile.Powder.Name, e.Profile.Powder.Lot, e.Slug},
			[]string{have.Name, have.Lot, have.Slug})
		tsp, _ := e.Profile.SpoonWeights(e.Profile.SpoonSet(), own).Teaspoon()
		assert.InDelta(t, tsp, have.GramsPerTsp, 1e-3)
		want := repeats.Table(e.Profile, own)
		require.Len(t, have.Ratio, len(want))
		for j, r := range want {
			assert.Equal(t, r.Level, have.Ratio[j].Level)
			if r.Powder != nil {
				assert.InEpsilon(t, r.Powder.Median, have.Ratio[j].LiquidPerPowder, 6e-4)
			}
		}
	}
}

func TestExportSaysWhatIsWrong(t *testing.T) {
	e := []export.Powder{{Profile: profile("Clay", "")}}
	for want, err := range map[string]error{
		`export as "xls": the format is not known; use one of: toml, csv, json, md`: export.Write(&bytes.Buffer{},
			"xls", e, nil, export.Options{}),
		"export as md: no powder was given; name at least one": export.Write(&bytes.Buffer{},
			"md", nil, nil, export.Options{}),
		"export level 6.5: there is no ratio at it": export.Write(&bytes.Buffer{},
			"md", e, nil, export.Options{Level: 6.5}),
		"export level NaN: there is no ratio at it": export.Write(&bytes.Buffer{},
			"md", e, nil, export.Options{Level: math.NaN()}),
		"export as csv: write: no room": export.Write(full{}, "csv", e,
			nil, export.Options{}),
	} {
		assert.ErrorContains(t, err, want)
	}
}

// full is a disk without room.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no room") }
