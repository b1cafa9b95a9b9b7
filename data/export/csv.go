package export

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"strings"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/repeats"
)

// csvColumns are the columns that say what a row is about; the numbers follow.
var csvColumns = []string{
	"file", "powder", "lot", "family", "marks", "newest trial", "level teaspoon (g)",
	"liquid", "rest (s)", "level", "level word", "reach", "trials",
}

// exportCSV writes RFC 4180: commas, CRLF, a header row. A powder of which
// nothing is known has one row all the same.
//
// The text begins with a byte order mark. Without it a common spreadsheet
// takes the file for its system's old code page and spoils every umlaut; with
// it all read UTF-8. Programs that stumble over it have the JSON.
func exportCSV(out *bytes.Buffer, sheets []sheet) error {
	out.WriteString("\ufeff")
	w := csv.NewWriter(out)
	w.UseCRLF = true
	header := append([]string(nil), csvColumns...)
	for _, n := range numbers {
		header = append(header, n.title)
	}
	rows := [][]string{header}
	for _, s := range sheets {
		about := s.csvCells()
		if len(s.rows) == 0 {
			row := make([]string, len(header))
			copy(row, about)
			rows = append(rows, row)
		}
		for _, r := range s.rows {
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

func csvRatio(r repeats.Row) []string {
	cells := []string{
		textCell(r.Liquid), fmt.Sprint(r.RestS), model.Number(r.Level), model.LevelWord(r.Level), r.Reach, fmt.Sprint(r.Trials),
	}
	for _, n := range numbers {
		cell := ""
		if v := *n.of(&r); v > 0 {
			cell = model.Number(v)
		}
		cells = append(cells, cell)
	}
	return cells
}

// textCell is a text that no spreadsheet takes for a formula: an apostrophe
// goes before the characters that begin one. Line ends become plain ones.
func textCell(s string) string {
	s = printable.Text(s)
	if s != "" && strings.ContainsRune("=+-@\t\r\n", rune(s[0])) {
		s = "'" + s
	}
	return strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(s)
}
