package export

import (
	"bytes"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"
	"time"

	"daub.example/daub/data/parallel"
	"daub.example/daub/model"
	"daub.example/daub/model/repeats"
)

// Options says what of the profiles is exported.
type Options struct {
	// Level is the one level wanted, 1 to 6 in halves; 0 means all levels of
	// each powder's ratio table, 1 to 6 and its aim.
	Level float64
}

// Powder is one powder of an export.
type Powder struct {
	Slug    string // its file's name; "" without
	Profile model.Profile
}

// exporters write the gathered powders in one format each.
var exporters = []struct {
	format string
	write  func(*bytes.Buffer, []sheet) error
}{
	{"toml", exportTOML}, {"csv", exportCSV}, {"json", exportJSON}, {"md", exportMarkdown},
}

// Formats lists what Export writes.
func Formats() []string {
	var names []string
	for _, e := range exporters {
		names = append(names, e.format)
	}
	return names
}

// Write writes the ratios of profiles, in the order given, in one of
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
func Write(w io.Writer, format string, powders []Powder, d model.Drawer, o Options) error {
	i := slices.Index(Formats(), format)
	switch {
	case i < 0:
		return fmt.Errorf("export as %q: the format is not known; use one of: %s", format, strings.Join(Formats(), ", "))
	case len(powders) == 0:
		return fmt.Errorf("export as %s: no powder was given; name at least one", format)
	case o.Level != 0 && !model.IsAskable(o.Level):
		return fmt.Errorf("export level %s: there is no ratio at it; give a whole or half level from 1 to 6", model.Number(o.Level))
	}
	sheets := parallel.Map(powders, func(p Powder) sheet { return sheetOf(p, d, o.Level) })
	var text bytes.Buffer
	if err := exporters[i].write(&text, sheets); err != nil {
		return fmt.Errorf("export as %s: %w", format, err)
	}
	if _, err := w.Write(text.Bytes()); err != nil {
		return fmt.Errorf("export as %s: write: %w; check that there is room and the file may be written", format, err)
	}
	return nil
}

// sheet is one powder made ready for any format.
type sheet struct {
	slug   string
	powder model.Powder
	tspG   float64 // g per level teaspoon; 0 without a weighed spoon
	marks  []string
	last   time.Time // start of the newest trial that counts; zero without
	ratios []repeats.Ratio
	rows   []repeats.Row // the same, as other programs get them
}

// exportSchema is the version of the exports that programs read.
const exportSchema = 1

// numbers are those of one ratio, each by its name: 0 where the trials do not
// say.
var numbers = []struct {
	name, title string
	of          func(*repeats.Row) *float64
}{
	{"liquid_per_powder", "ratio (g liquid per g powder)", func(r *repeats.Row) *float64 { return &r.Median }},
	{"low", "ratio low 95 %", func(r *repeats.Row) *float64 { return &r.Low }},
	{"high", "ratio high 95 %", func(r *repeats.Row) *float64 { return &r.High }},
	{"next_low", "next dish low 95 %", func(r *repeats.Row) *float64 { return &r.NextLow }},
	{"next_high", "next dish high 95 %", func(r *repeats.Row) *float64 { return &r.NextHigh }},
	{"bound_low", "not reached: more than (g/g)", func(r *repeats.Row) *float64 { return &r.BoundLow }},
	{"bound_high", "not reached: less than (g/g)", func(r *repeats.Row) *float64 { return &r.BoundHigh }},
	{"per_tsp", "liquid per level teaspoon (g)", func(r *repeats.Row) *float64 { return &r.PerTsp }},
	{"per_tsp_low", "per teaspoon low 95 % (g)", func(r *repeats.Row) *float64 { return &r.PerTspLow }},
	{"per_tsp_high", "per teaspoon high 95 % (g)", func(r *repeats.Row) *float64 { return &r.PerTspHigh }},
}

// sheetOf reads one powder: at one level every basis, at all of them (level 0)
// what [[ratio]] has.
func sheetOf(e Powder, d model.Drawer, level float64) sheet {
	p := e.Profile
	s := sheet{slug: e.Slug, powder: p.Powder, last: p.LastTrial()}
	s.powder.Family = p.Powder.Kind()
	if tsp, ok := p.Scales(model.US, d).Teaspoon(); ok && finite(tsp) {
		s.tspG = model.RoundSignificant(tsp, repeats.RatioDigits)
	}
	var seen model.Trial
	for _, t := range p.Trials {
		if t.Used() {
			seen.Steps = append(seen.Steps, t.Steps...)
		}
	}
	s.marks = seen.MarksSeen()
	if level == 0 {
		s.ratios = repeats.Table(p, d)
	} else {
		for _, b := range p.Bases() {
			s.ratios = append(s.ratios, repeats.Ratios(p, b, []float64{level}, d)...)
		}
	}
	for _, r := range s.ratios {
		s.rows = append(s.rows, r.Row())
	}
	return s
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
