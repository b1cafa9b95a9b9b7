package main

import (
	"encoding/json"
	"errors"
	"image/png"
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"daub.example/daub/cmd/daub/internal/outfile"
	"daub.example/daub/data/export"
	"daub.example/daub/data/picture"
	"github.com/stretchr/testify/require"
)

func TestExportToEveryFormat(t *testing.T) {
	h := kitchenShelf(t)
	begins := map[string]string{"toml": "schema = 1\n", "csv": "file,powder,", "json": "{", "md": "| powder |"}
	for _, format := range export.Formats() {
		got := daub(h, "export", "light-white-clay", "heavy-swelling-clay", "--to", format)
		require.Zero(t, got.code, got.err)
		require.Empty(t, got.err)
		require.True(t, strings.HasPrefix(got.out, begins[format]), "%s: %.40q", format, got.out)
		require.Contains(t, got.out, "Light white clay")
		require.Contains(t, got.out, "0.62", format)
		require.Less(t, len(daub(h, "export", "light-white-clay", "--to", format, "--level", "5").out), len(got.out))

		file := filepath.Join(h.temp, "out."+format)
		wrote := decode[fileJSON](t, daub(h, "export", "light-white-clay", "heavy-swelling-clay", "-o", file, "--json"))
		want := got.out
		if format == "csv" {
			want = "\ufeff" + want // in a file only: in a pipe it does harm
		}
		require.Equal(t, fileJSON{file, format, len(want), []string{"light-white-clay", "heavy-swelling-clay"}}, wrote)
		require.Equal(t, want, read(t, file), "the file and standard output are the same")
	}
	require.True(t, json.Valid([]byte(daub(h, "export", "--all", "--json").out)))
	require.Contains(t, daub(h, "export", "--all", "--to", "csv").out, "New flour")
}

// An export for a spreadsheet with decimal commas.
func TestExportForASpreadsheetWithCommas(t *testing.T) {
	h := kitchenShelf(t)
	got := daub(h, "export", "light-white-clay", "--to", "csv", "--sep", ";", "--decimal", ",")
	require.Zero(t, got.code, got.err)
	require.Contains(t, got.out,
		"light-white-clay;Light white clay;;plain-clay;;2026-01-10;1,42;water;30;5;spread;bracketed;1;0,62")
	require.NotContains(t, got.out, "0.62")
	for args, want := range map[string]string{
		"--decimal|,":          "they must differ",
		"--sep|;;":             "give one sign",
		"--sep|x":              "between cells",
		"--to|md|--sep|;":      "for --to csv",
		"--sep|tab|--decimal|": "give one sign",
	} {
		got := daub(h, append([]string{"export", "light-white-clay", "--to", "csv"}, spaced(args)...)...)
		require.Equal(t, exitMisused, got.code, args)
		require.Contains(t, got.err, want, args)
	}
}

// One row for each step: the light clay's trial begins with 5 g of water and
// a half teaspoon of 0.71 g.
func TestExportOfLooks(t *testing.T) {
	h := kitchenShelf(t)
	csv := daub(h, "export", "light-white-clay", "--looks", "--to", "csv").out
	steps := strings.Count(read(t, lightClay), "[[trial.step]]")
	lines := strings.Split(strings.TrimSpace(csv), "\r\n")
	require.Len(t, lines, 1+steps)
	require.Equal(t, "file,powder,lot,trial,begun,state,liquid,rest (s),step,added,spoons,grams,powder (g),liquid "+
		"(g),level,beside,level stirred,reading,reading of,rested (s),use,pot (g),behaviour,note", lines[0])
	require.Equal(t, "light-white-clay,Light white clay,,1,2026-01-10,done,water,30,1,powder,1 x 1/2 "+
		"tsp,0.71,0.71,5,0,,,,,,yes,,,", lines[1])
	var found struct {
		Looks []struct {
			Trial, Step int
			Grams       float64
			Level       *float64
		}
	}
	require.NoError(t, json.Unmarshal([]byte(daub(h, "export", "--all", "--looks", "--json").out), &found))
	require.Greater(t, len(found.Looks), 12)
	require.Contains(t, daub(h, "export", "light-white-clay", "--looks", "--to", "toml").out, "[[look]]")
	require.Contains(t, daub(h, "export", "light-white-clay", "--looks", "--to", "md").out,
		"| light-white-clay | Light white clay |  | 1 |")
}

// A look that the maker left out, and a weighing of the pot, are told wherever steps
// are: a program that fits the looks anew fits the same ones.
func TestLeftOutLooksAndThePotAreTold(t *testing.T) {
	h := kitchenShelf(t)
	entry := filepath.Join(h.shelf, "powders", "light-white-clay.toml")
	text := strings.Replace(read(t, entry), "level = 0.0\n", "level = 0.0\nuse = false\npot_g = 125.4\n", 1)
	require.Contains(t, text, "use = false")
	require.NoError(t, os.WriteFile(entry, []byte(text), 0o600))

	export := func(to string) string {
		got := daub(h, "export", "light-white-clay", "--looks", "--to", to)
		require.Zero(t, got.code, got.err)
		return got.out
	}
	lines := strings.Split(export("csv"), "\r\n")
	require.Contains(t, lines[1], ",no,125.4,")
	require.Contains(t, lines[2], ",yes,,")
	require.Contains(t, export("toml"), "use = false\npot_g = 125.4\n")
	var found struct {
		Looks []struct {
			Use  *bool
			PotG *float64 `json:"pot_g"`
		}
	}
	require.NoError(t, json.Unmarshal([]byte(export("json")), &found))
	require.False(t, *found.Looks[0].Use)
	require.Equal(t, 125.4, *found.Looks[0].PotG)
	require.True(t, *found.Looks[1].Use)
	require.Nil(t, found.Looks[1].PotG)

	require.Equal(t, []int{1}, decode[fitJSON](t, daub(h, "fit", entry, "--json")).LeftOut)
	require.Equal(t, []int{1}, decode[showJSON](t, daub(h, "show", "light-white-clay", "--json")).TrialList[0].LeftOut)
	require.Equal(t, []int{}, decode[fitJSON](t, daub(h, "fit", heavyClay, "--json")).LeftOut)
}

func TestMarkdownHasOneRowAPowder(t *testing.T) {
	h := kitchenShelf(t)
	rows := func(args ...string) int {
		out := daub(h, append([]string{"export", "light-white-clay", "heavy-swelling-clay", "--to", "md"},
			args...)...).out
		return strings.Count(out, "\n| ") - 1
	}
	require.Equal(t, 2, rows())
	require.Equal(t, 2, rows("--level", "4"))
	require.Equal(t, 12, rows("--every-level"))
}

func TestExportNeverWritesOverAFileUnasked(t *testing.T) {
	h := kitchenShelf(t)
	file := filepath.Join(h.temp, "out.csv")
	require.NoError(t, os.WriteFile(file, []byte("mine"), 0o600))
	got := daub(h, "export", "chalk", "-o", file)
	require.Equal(t, exitMisused, got.code)
	require.Contains(t, got.err, "--force")
	require.Equal(t, "mine", read(t, file))

	got = daub(h, "export", "chalk", "-o", file, "--force")
	require.Zero(t, got.code, got.err)
	require.Contains(t, got.out, "1 powder as csv")
	require.Contains(t, read(t, file), "Chalk")
	if runtime.GOOS != "windows" {
		info, err := os.Stat(file)
		require.NoError(t, err)
		require.Equal(t, os.FileMode(0o600), info.Mode().Perm(), "who may read it stays as it was")
	}

	// The file came into being while the text was made.
	late := outfile.Flags{File: file}
	require.ErrorContains(t, late.Write([]byte("x")), "there already")
	require.Contains(t, read(t, file), "Chalk")
	left, err := filepath.Glob(filepath.Join(h.temp, ".*.tmp"))
	require.NoError(t, err)
	require.Empty(t, left)
}

// A failure leaves no file behind, neither half nor whole.
func TestExportFailureLeavesNoFile(t *testing.T) {
	h := kitchenShelf(t)
	shelve(t, h, "broken", broken)
	file := filepath.Join(h.temp, "out.csv")
	for _, args := range [][]string{
		{"export", "chalk", "broken", "-o", file},
		{"export", "--all", "-o", file},
		{"export", "chalk", "-o", filepath.Join(h.temp, "none", "out.csv")},
		{"picture", "broken", "-o", filepath.Join(h.temp, "out.svg")},
		{"export", "chalk", "--to", "csv", "--force", "-o", h.temp},
	} {
		got := daub(h, args...)
		require.Equal(t, exitBadData, got.code, "%v: %s", args, got.err)
		require.Empty(t, got.out)
		require.NotContains(t, got.err, ".tmp")
	}
	if runtime.GOOS != "windows" && os.Getuid() != 0 {
		shut := filepath.Join(h.temp, "shut")
		require.NoError(t, os.Mkdir(shut, 0o500))
		require.Equal(t, exitBadData, daub(h, "export", "chalk", "-o", filepath.Join(shut, "out.csv")).code)
	}
	files, err := os.ReadDir(h.temp)
	require.NoError(t, err)
	for _, f := range files {
		require.Contains(t, []string{"shelf", "shut"}, f.Name())
	}
}

func TestExportAndPictureMisuse(t *testing.T) {
	h := kitchenShelf(t)
	tests := []struct{ args, err string }{
		{"export", "or --all"},
		{"export|chalk", "--to with one of: toml, csv, json, md"},
		{"export|chalk|--to|xls", `no export to "xls"`},
		{"export|chalk|-o|out.xls", "does not say"},
		{"export|chalk|-o|", "names no file"},
		{"export|chalk|--to|csv|--json", "--to json"},
		{"export|chalk|--to|csv|--force", "-o FILE"},
		{"export|chalk|--all|--to|csv", "leave out"},
		{"export|chalk|--to|csv|--level|9", "1 to 6 in halves"},
		{"picture|chalk", "-o FILE"},
		{"picture|chalk|-o|out.gif", "svg, png, pdf"},
		{"picture|chalk|-o|out", "svg, png, pdf"},
		{"picture|-o|out.svg", "one to six powders"},
		{"picture|chalk|-o|out.svg|--dpi|200", "--dpi is for png"},
		{"picture|chalk|-o|out.png|--dpi|0", "--dpi 0: a picture of no dots; give 50 to 1200"},
		{"picture|chalk|-o|out.png|--dpi|2", "give 50 to 1200"},
		{"picture|chalk|-o|out.png|--dpi|-1", "give 50 to 1200"},
		{"picture|chalk|-o|out.png|--dpi|1200|--size|1000x1000mm", "million dots"},
		{"picture|chalk|-o|out.svg|--size|16", "a width and a height"},
		{"picture|chalk|-o|out.svg|--size|0x100mm", "has no size"},
		{"picture|chalk|-o|out.svg|--size|16x10mm", "give 60 to 1000 mm"},
		{"trial", "--plain"},
		{"trial|chalk", "--plain"},
		{"trial|--plain|a|b", "one powder at most"},
	}
	for _, tt := range tests {
		got := daub(h, spaced(tt.args)...)
		require.Equal(t, exitMisused, got.code, "%s: %s", tt.args, got.err)
		require.Contains(t, got.err, tt.err, tt.args)
		require.Empty(t, got.out, tt.args)
	}
	empty := daub(testHost(t), "export", "--all", "--to", "csv")
	require.Equal(t, exitBadData, empty.code)
	require.Contains(t, empty.err, "is empty")
}

// full is a writer that is always full.
type full struct{}

func (full) Write([]byte) (int, error) { return 0, errors.New("no room") }

func TestExportSaysWhenItCannotBeWritten(t *testing.T) {
	h := kitchenShelf(t)
	h.out, h.err = full{}, full{}
	require.Equal(t, exitBadData, run([]string{"export", "chalk", "--to", "csv"}, h))
}

func TestPictures(t *testing.T) {
	h := kitchenShelf(t)
	magic := map[string]string{"svg": "<?xml", "png": "\x89PNG\r\n\x1a\n", "pdf": "%PDF-"}
	for _, format := range picture.Formats() {
		for name, powders := range map[string][]string{
			"one": {"light-white-clay"},
			"two": {"light-white-clay", "chalk"},
		} {
			file := filepath.Join(h.temp, name+"."+strings.ToUpper(format))
			got := daub(h, append([]string{"picture", "-o", file, "--json"}, powders...)...)
			require.Zero(t, got.code, got.err)
			require.Equal(t, powders, decode[fileJSON](t, got).Powders)
			image := read(t, file)
			require.True(t, strings.HasPrefix(image, magic[format]), "%.20q", image)
			require.Len(t, image, decode[fileJSON](t, got).Bytes)
			require.Equal(t, exitMisused, daub(h, "picture", "chalk", "-o", file).code, "not written over")
			require.Equal(t, image, read(t, file))
		}
	}
	file := filepath.Join(h.temp, "small.png")
	got := daub(h, "picture", "chalk", "-o", file, "--size", "12 x 8 cm", "--dpi", "127", "--no-bands", "--title",
		"Small")
	require.Zero(t, got.code, got.err)
	image, err := png.DecodeConfig(strings.NewReader(read(t, file)))
	require.NoError(t, err)
	require.Equal(t, []int{600, 400}, []int{image.Width, image.Height}, "12 by 8 cm at 50 dots a centimetre")

	apart := daub(h, "picture", "light-white-clay", "clay-in-milk", "-o", filepath.Join(h.temp, "apart.svg"))
	require.Equal(t, exitBadData, apart.code)
	require.NoFileExists(t, filepath.Join(h.temp, "apart.svg"))
}

// A picture and a page of the trials in one liquid or with one rest.
func TestPictureAndPageOfOneLiquid(t *testing.T) {
	h := kitchenShelf(t)
	light := read(t, filepath.Join(h.shelf, "powders", "light-white-clay.toml"))
	_, trial, _ := strings.Cut(light, "[[trial]]")
	shelve(t, h, "both", strings.Replace(light, "Light white clay", "Both", 1)+
		"\n[[trial]]"+strings.Replace(trial, "liquid_g = 5.0", "liquid = \"milk\"\nliquid_g = 5.0", 1))
	for _, file := range []string{"both.svg", "both.html"} {
		command := map[string]string{"both.svg": "picture", "both.html": "page"}[file]
		path := filepath.Join(h.temp, file)
		got := daub(h, command, "both", "--in", "milk", "-o", path)
		require.Zero(t, got.code, got.err)
		require.Contains(t, read(t, path), "milk")
		require.NotContains(t, read(t, path), "g water per g")
		none := daub(h, "picture", "both", "--in", "cola", "-o", filepath.Join(h.temp, "none.svg"))
		require.Equal(t, exitBadData, none.code)
	}
}
