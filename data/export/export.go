package export

import (
	"bytes"
	"cmp"
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

// Options says which parts of the profiles are exported.
type Options struct {
	// Level is the only level wanted, 1 to 6 in halves; 0 means all levels of each
	// powder's ratio table, 1 to 6 and its target.
	Level float64
	// On is the liquid and rest wanted; the zero value takes all of them, and in
	// Markdown the main one.
	On model.Choice
	// EveryLevel gives Markdown all levels too; without it a powder has one row.
	EveryLevel bool
	// Looks writes every step of every trial instead of the ratios.
	Looks bool
	// Separator and Decimal are the signs in a CSV; 0 means a comma and a point.
	Separator, Decimal rune
	// Mark begins a CSV with a byte order mark, for a file that a spreadsheet
	// opens by itself.
	Mark bool
}

// Check refuses options that cannot be meant.
func (o Options) Check() error {
	sep, decimal := o.separator(), cmp.Or(o.Decimal, '.')
	switch {
	case o.Level != 0 && !model.IsAskable(o.Level):
		return fmt.Errorf("export level %s: there is no ratio at it; give a whole or half level from 1 to 6",
			model.Number(o.Level))
	case decimal != '.' && decimal != ',':
		return fmt.Errorf("export with %q before the decimals: give . or ,", decimal)
	case !strings.ContainsRune(",;\t|", sep):
		return fmt.Errorf("export with %q between cells: give , ; | or a tabulator", sep)
	case sep == decimal:
		return fmt.Errorf("export with %q between cells and before the decimals: they must differ; give another "+
			"separator, as in ;", sep)
	}
	return nil
}

func (o Options) separator() rune { return cmp.Or(o.Separator, ',') }

// Powder is one powder of an export.
type Powder struct {
	Slug    string // its file's name; "" without
	Profile model.Profile
}

// exporters write the gathered powders, or their steps, in one format each.
var exporters = []struct {
	format string
	write  func(*bytes.Buffer, []sheet, Options) error
	looks  func(*bytes.Buffer, []look, Options) error
}{
	{"toml", exportTOML, looksTOML},
	{"csv", exportCSV, looksCSV},
	{"json", exportJSON, looksJSON},
	{"md", exportMarkdown, looksMarkdown},
}

// Formats lists the formats of Write.
func Formats() []string {
	var names []string
	for _, e := range exporters {
		names = append(names, e.format)
	}
	return names
}

// Write writes the ratios of profiles, in the order given, in one of
// ExportFormats; own spoons come from own.
//
//	toml  ratios only, to copy from: [[powder]] with [[powder.ratio]]
//	csv   a row for each powder, basis and level, for a spreadsheet
//	json  the same and the cautions, for programs
//	md    a table to paste, a row for each powder, with the cautions
//
// What the trials do not say is left out, an empty cell or null. Numbers have
// four significant digits, as in [[ratio]]. The same profiles give the same
// bytes. Nothing is written when something fails on the way.
func Write(w io.Writer, format string, powders []Powder, own model.OwnSpoons, o Options) error {
	i := slices.Index(Formats(), format)
	switch {
	case i < 0:
		return fmt.Errorf("export as %q: the format is not known; use one of: %s", format,
			strings.Join(Formats(), ", "))
	case len(powders) == 0:
		return fmt.Errorf("export as %s: no powder was given; name at least one", format)
	}
	if err := o.Check(); err != nil {
		return err
	}
	var text bytes.Buffer
	if err := write(&text, i, powders, own, o); err != nil {
		return fmt.Errorf("export as %s: %w", format, err)
	}
	if _, err := w.Write(text.Bytes()); err != nil {
		return fmt.Errorf("export as %s: write: %w; check that there is room and the file may be written", format, err)
	}
	return nil
}

// write writes ratios or looks by exporter i.
func write(text *bytes.Buffer, i int, powders []Powder, own model.OwnSpoons, o Options) error {
	if o.Looks {
		var looks []look
		for _, of := range parallel.Map(powders, func(p Powder) []look { return looksOf(p, own, o.On) }) {
			looks = append(looks, of...)
		}
		return exporters[i].looks(text, looks, o)
	}
	every := o.EveryLevel || exporters[i].format != "md"
	return exporters[i].write(text, parallel.Map(powders, func(p Powder) sheet { return sheetOf(p, own, o, every) }), o)
}

// sheet is one powder made ready for any format.
type sheet struct {
	slug   string
	powder model.Powder
	tspG   float64 // g per level teaspoon; 0 if no spoon was weighed
	marks  []string
	last   time.Time // start of the newest trial that counts; zero if none does
	beside bool      // every finished trial is beside a dish of another powder
	ratios []repeats.Ratio
	rows   []repeats.Row // the same, as other programs get them
}

// exportSchema is the version of the exports that programs read.
const exportSchema = 1

// numbers are the named numbers of one ratio: 0 if the trials do not say.
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

// sheetOf reads one powder. At one level it has every basis, with all levels (level
// 0) the rows of [[ratio]]. Without every it has the main basis at the level or the
// target.
func sheetOf(e Powder, own model.OwnSpoons, o Options, every bool) sheet {
	p := e.Profile
	s := sheet{slug: e.Slug, powder: p.Powder, last: p.LastTrial(), beside: p.OnlySideBySide()}
	s.powder.Family = p.Powder.Kind()
	if tsp, ok := p.SpoonWeights(p.SpoonSet(), own).Teaspoon(); ok && finite(tsp) {
		s.tspG = model.RoundSignificant(tsp, repeats.RatioDigits)
	}
	s.marks = model.SeenNames(p.Seen())
	bases := o.On.Among(p.Bases())
	switch level := cmp.Or(o.Level, p.Aim()); {
	case len(bases) == 0:
	case !every:
		s.ratios = repeats.Ratios(p, bases[0], []float64{level}, own)
	case o.Level == 0:
		s.ratios = slices.DeleteFunc(repeats.Table(p, own),
			func(r repeats.Ratio) bool { return !slices.Contains(bases, r.Basis) })
	default:
		for _, b := range bases {
			s.ratios = append(s.ratios, repeats.Ratios(p, b, []float64{level}, own)...)
		}
	}
	for _, r := range s.ratios {
		s.rows = append(s.rows, r.Row())
	}
	return s
}

func finite(v float64) bool { return !math.IsNaN(v) && !math.IsInf(v, 0) }
