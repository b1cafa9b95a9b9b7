package data

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"time"
	"unicode"

	"daub.example/daub/model"
)

// ExportOptions says what of the profiles is exported.
type ExportOptions struct {
	// Level is the one level wanted, 1 to 6 in halves; 0 means all levels of
	// each powder's ratio table, 1 to 6 and its aim.
	Level float64
}

// exporters write the gathered powders in one format each.
var exporters = []struct {
	format string
	write  func(*bytes.Buffer, []sheet) error
}{
	{"toml", exportTOML}, {"csv", exportCSV}, {"json", exportJSON}, {"md", exportMarkdown},
}

// ExportFormats lists what Export writes.
func ExportFormats() []string {
	var names []string
	for _, e := range exporters {
		names = append(names, e.format)
	}
	return names
}

// Export writes the ratios of profiles, in the order given, in one of
// ExportFormats; own spoons come from d.
//
//	toml  ratios only, to copy from: [[powder]] with [[powder.ratio]]
//	csv   a row for each powder, basis and level, for a spreadsheet
//	json  the same and the cautions, for programs
//	md    a table to paste, with the cautions
//
// What the trials do not say is left out, an empty cell or null. Numbers have
// four significant digits, as in [[ratio]]. The same profiles give the same
// bytes. Nothing is written when something fails on the way.
func Export(w io.Writer, format string, entries []Entry, d model.Drawer, o ExportOptions) error {
	i := slices.Index(ExportFormats(), format)
	switch {
	case i < 0:
		return fmt.Errorf("export as %q: the format is not known; use one of: %s", format, strings.Join(ExportFormats(), ", "))
	case len(entries) == 0:
		return fmt.Errorf("export as %s: no powder was given; name at least one", format)
	case o.Level != 0 && !askable(o.Level):
		return fmt.Errorf("export level %s: there is no ratio at it; give a whole or half level from 1 to 6", model.Number(o.Level))
	}
	sheets := make([]sheet, len(entries))
	spread(len(entries), func(i int) { sheets[i] = sheetOf(entries[i], d, o.Level) })
	var text bytes.Buffer
	if err := exporters[i].write(&text, sheets); err != nil {
		return fmt.Errorf("export as %s: %w", format, err)
	}
	if _, err := w.Write(text.Bytes()); err != nil {
		return fmt.Errorf("export as %s: write: %w; check that there is room and the file may be written", format, err)
	}
	return nil
}

// askable reports whether a ratio can be asked for at the level.
func askable(level float64) bool {
	return level >= model.MinAim && level <= model.MaxAim && 2*level == math.Trunc(2*level)
}

// sheet is one powder made ready for any format.
type sheet struct {
	slug   string
	powder model.Powder
	tspG   float64 // g per level teaspoon; 0 without a weighed spoon
	marks  []string
	last   time.Time // start of the newest trial that counts; zero without
	ratios []model.PowderRatio
}

// sheetOf reads one powder: at one level every basis, at all of them (level 0)
// what [[ratio]] has.
func sheetOf(e Entry, d model.Drawer, level float64) sheet {
	p := e.Profile
	s := sheet{slug: e.Slug, powder: p.Powder, last: p.LastTrial()}
	if tsp, ok := p.Scales(model.US, d).Teaspoon(); ok && finite(tsp) {
		s.tspG = model.RoundSignificant(tsp, ratioDigits)
	}
	var seen model.Trial
	for _, t := range p.Trials {
		if t.Used() {
			seen.Steps = append(seen.Steps, t.Steps...)
		}
	}
	s.marks = seen.MarksSeen()
	if level == 0 {
		s.ratios = ratios(p, d)
		return s
	}
	for _, b := range p.Bases() {
		s.ratios = append(s.ratios, p.Ratios(b, []float64{level}, d)...)
	}
	return s
}

// numbers are those of one ratio by name: those of [[ratio]], and per_tsp,
// per_tsp_low and per_tsp_high, g liquid per level teaspoon.
func numbers(r model.PowderRatio) []named {
	out := ratioValues(r)
	if per := r.PerTsp; per != nil {
		for _, v := range []named{{"per_tsp", per.Median}, {"per_tsp_low", per.Low}, {"per_tsp_high", per.High}} {
			out = append(out, named{v.name, model.RoundSignificant(v.value, ratioDigits)})
		}
	}
	return slices.DeleteFunc(out, func(v named) bool { return !finite(v.value) })
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }

// printable is a text without the characters that no page can show; tabs and
// line ends stay.
func printable(s string) string {
	return strings.Map(func(r rune) rune {
		switch {
		case r == '\t', r == '\n', r == '\r':
			return r
		case unicode.IsControl(r), r == '\u2028', r == '\u2029', r == 0xfffe, r == 0xffff:
			return -1
		}
		return r
	}, strings.ToValidUTF8(s, "�"))
}

// oneLine is a text on one line.
func oneLine(s string) string { return strings.Join(strings.Fields(printable(s)), " ") }
