package data

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strings"
	"time"

	"daub.example/daub/model"
)

// csvColumns are the columns that say what a row is about; csvNumbers follow.
var csvColumns = []string{
	"file", "powder", "lot", "family", "marks", "newest trial", "level teaspoon (g)",
	"liquid", "rest (s)", "level", "level word", "reach", "trials",
}

// csvNumbers are the columns of numbers, each with the name it goes by here.
var csvNumbers = []struct{ name, title string }{
	{"liquid_per_powder", "ratio (g liquid per g powder)"},
	{"low", "ratio low 95 %"},
	{"high", "ratio high 95 %"},
	{"next_low", "next dish low 95 %"},
	{"next_high", "next dish high 95 %"},
	{"bound_low", "not reached: more than (g/g)"},
	{"bound_high", "not reached: less than (g/g)"},
	{"per_tsp", "liquid per level teaspoon (g)"},
	{"per_tsp_low", "per teaspoon low 95 % (g)"},
	{"per_tsp_high", "per teaspoon high 95 % (g)"},
}

// exportCSV writes RFC 4180: commas, CRLF, a header row. A powder of which
// nothing is known has one row all the same.
//
// The text begins with a byte order mark. Without it a common spreadsheet
// takes the file for its system's old code page and spoils every umlaut; with
// it all read UTF-8. Programs that stumble over it have the JSON.
func exportCSV(out *bytes.Buffer, sheets []sheet) error {
	out.Write(byteOrderMark)
	w := csv.NewWriter(out)
	w.UseCRLF = true
	header := append([]string(nil), csvColumns...)
	for _, n := range csvNumbers {
		header = append(header, n.title)
	}
	rows := [][]string{header}
	for _, s := range sheets {
		about := s.csvCells()
		if len(s.ratios) == 0 {
			row := make([]string, len(header))
			copy(row, about)
			rows = append(rows, row)
		}
		for _, r := range s.ratios {
			rows = append(rows, append(about[:len(about):len(about)], csvRatio(r)...))
		}
	}
	return w.WriteAll(rows)
}

// csvCells are the cells that all rows of a powder share.
func (s sheet) csvCells() []string {
	cells := []string{
		textCell(s.slug), textCell(s.powder.Name), textCell(s.powder.Lot), string(s.powder.Kind()),
		strings.Join(s.marks, ", "), "", "",
	}
	if !s.last.IsZero() {
		cells[5] = s.last.Format(time.DateOnly)
	}
	if s.tspG > 0 {
		cells[6] = model.Number(s.tspG)
	}
	return cells
}

func csvRatio(r model.PowderRatio) []string {
	cells := []string{
		textCell(r.Basis.Liquid), fmt.Sprint(r.Basis.RestS), model.Number(r.Level), model.LevelWord(r.Level), r.Reach.String(), fmt.Sprint(r.Trials),
	}
	values := map[string]string{}
	for _, v := range numbers(r) {
		values[v.name] = model.Number(v.value)
	}
	for _, n := range csvNumbers {
		cells = append(cells, values[n.name])
	}
	return cells
}

// textCell is a text that no spreadsheet takes for a formula: an apostrophe
// goes before the characters that begin one. Line ends become plain ones.
func textCell(s string) string {
	s = printable(s)
	if s != "" && strings.ContainsRune("=+-@\t\r\n", rune(s[0])) {
		s = "'" + s
	}
	return strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(s)
}
