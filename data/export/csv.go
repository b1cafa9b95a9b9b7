package export

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"slices"
	"strings"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/repeats"
)

// csvColumns say what a row is about; the numbers follow.
var csvColumns = []string{
	"file", "powder", "lot", "family", "marks", "newest trial", "level teaspoon (g)",
	"liquid", "rest (s)", "level", "level word", "reach", "trials",
}

// exportCSV writes a header row, then a row for each ratio. A powder without a
// ratio has one row all the same.
func exportCSV(out *bytes.Buffer, sheets []sheet, o Options) error {
	header := append([]string(nil), csvColumns...)
	for _, n := range numbers {
		header = append(header, n.title)
	}
	rows := [][]string{header}
	for _, s := range sheets {
		about := s.csvCells(o)
		if len(s.rows) == 0 {
			row := make([]string, len(header))
			copy(row, about)
			if s.beside {
				row[slices.Index(header, "reach")] = model.BesideOnly
			}
			rows = append(rows, row)
		}
		for _, r := range s.rows {
			rows = append(rows, append(about[:len(about):len(about)], csvRatio(r, o)...))
		}
	}
	return writeCSV(out, rows, o)
}

// writeCSV writes rows by RFC 4180, with CRLF. A file needs a byte order mark:
// without it a common spreadsheet reads the system's old code page and spoils every
// umlaut; with it all read UTF-8. In a pipe it would only do harm.
func writeCSV(out *bytes.Buffer, rows [][]string, o Options) error {
	if o.Mark {
		out.WriteString("\ufeff")
	}
	w := csv.NewWriter(out)
	w.Comma, w.UseCRLF = o.separator(), true
	return w.WriteAll(rows)
}

// number writes a number as the CSV has it.
func (o Options) number(v float64) string {
	if o.Decimal == 0 {
		return model.Number(v)
	}
	return strings.ReplaceAll(model.Number(v), ".", string(o.Decimal))
}

// csvCells returns the cells that all rows of a powder share.
func (s sheet) csvCells(o Options) []string {
	cells := []string{
		textCell(s.slug), textCell(s.powder.Name), textCell(s.powder.Lot), string(s.powder.Kind()),
		strings.Join(s.marks, ", "), "", "",
	}
	if !s.last.IsZero() {
		cells[5] = s.last.Format(time.DateOnly)
	}
	if s.tspG > 0 {
		cells[6] = o.number(s.tspG)
	}
	return cells
}

func csvRatio(r repeats.Row, o Options) []string {
	cells := []string{
		textCell(r.Liquid), fmt.Sprint(r.RestS), o.number(r.Level), model.LevelWord(r.Level), r.Reach,
		fmt.Sprint(r.Trials),
	}
	for _, n := range numbers {
		cell := ""
		if v := *n.of(&r); v > 0 {
			cell = o.number(v)
		}
		cells = append(cells, cell)
	}
	return cells
}

// textCell makes text that no spreadsheet takes for a formula: an apostrophe goes
// before the characters that begin one. Line ends become plain ones.
func textCell(s string) string {
	s = printable.Text(s)
	if s != "" && strings.ContainsRune("=+-@\t\r\n", rune(s[0])) {
		s = "'" + s
	}
	return strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(s)
}
