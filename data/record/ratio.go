package record

import (
	"bytes"
	"crypto/sha256"
	"encoding/hex"
	"fmt"
	"slices"

	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
	"daub.example/daub/model/repeats"
)

// RatioRow is a line of the ratio table in a profile's file.
type RatioRow struct {
	repeats.Row
	// DerivedFrom is the table's fingerprint, on its first line; "" elsewhere and
	// in files that have none.
	DerivedFrom string
}

var ratioFields = []tomlfile.Field[RatioRow]{
	tomlfile.Text("liquid", `liquid = "water"`, func(r *RatioRow) *string { return &r.Liquid }).Always().Identity(),
	tomlfile.Whole("rest_s", "rest_s = 120", func(r *RatioRow) *int { return &r.RestS }).Always().Identity(),
	tomlfile.Decimal("level", "level = 5.0", func(r *RatioRow) *float64 { return &r.Level }).Always().Identity(),
	tomlfile.Text("reach", `reach = "bracketed"`, func(r *RatioRow) *string { return &r.Reach }),
	tomlfile.Whole("trials", "trials = 1", func(r *RatioRow) *int { return &r.Trials }),
	tomlfile.Decimal("liquid_per_powder", "liquid_per_powder = 1.93", func(r *RatioRow) *float64 { return &r.Median }),
	tomlfile.Decimal("low", "low = 1.61", func(r *RatioRow) *float64 { return &r.Low }),
	tomlfile.Decimal("high", "high = 2.31", func(r *RatioRow) *float64 { return &r.High }),
	tomlfile.Decimal("next_low", "next_low = 1.48", func(r *RatioRow) *float64 { return &r.NextLow }),
	tomlfile.Decimal("next_high", "next_high = 2.52", func(r *RatioRow) *float64 { return &r.NextHigh }),
	tomlfile.Decimal("bound_low", "bound_low = 1.2", func(r *RatioRow) *float64 { return &r.BoundLow }),
	tomlfile.Decimal("bound_high", "bound_high = 3.4", func(r *RatioRow) *float64 { return &r.BoundHigh }),
	tomlfile.Text("derived_from", `derived_from = "0123456789abcdef"`,
		func(r *RatioRow) *string { return &r.DerivedFrom }),
}

// RatioRows calculates the ratio table for a profile's file.
func RatioRows(p model.Profile, own model.OwnSpoons) []repeats.Row {
	var rows []repeats.Row
	for _, r := range repeats.Table(p, own) {
		rows = append(rows, r.Row())
	}
	return rows
}

// RatioDifferences returns the keys in which two lines of the ratio table differ.
func RatioDifferences(a, b repeats.Row) []string {
	return tomlfile.Differences(ratioFields, &RatioRow{Row: a}, &RatioRow{Row: b}, repeats.RatioDigits)
}

// Trusted returns a file's ratio table if its fingerprint fits, else nil. A fitting
// one says that this version, with these records and own spoons, gave the table.
// src is the file's text.
func (f ProfileFile) Trusted(src []byte, own model.OwnSpoons) []repeats.Row {
	if len(f.Ratios) == 0 || f.Ratios[0].DerivedFrom == "" {
		return nil
	}
	if is := f.Ratios[0].DerivedFrom; fingerprint(src, is, own) != is {
		return nil
	}
	rows := make([]repeats.Row, len(f.Ratios))
	for i, r := range f.Ratios {
		rows[i] = r.Row
	}
	return rows
}

// unsigned stands for the fingerprint until it is calculated.
const unsigned = "0000000000000000"

// fingerprint tells whether a file's ratio table still follows from its records. It
// covers the text without its own line, the maker's own spoons and the version of
// the arithmetic. The kind of line end makes no difference.
func fingerprint(text []byte, now string, own model.OwnSpoons) string {
	sum := sha256.New()
	_, _ = fmt.Fprintf(sum, "method %d\n", repeats.Method)
	for _, s := range own {
		_, _ = fmt.Fprintf(sum, "%q %v %v\n", s.Name, s.VolumeML, s.UncertaintyML)
		if s.BeforeML > 0 {
			_, _ = fmt.Fprintf(sum, "%v %v until %v\n", s.BeforeML, s.BeforeUncertaintyML, s.Measured.UTC())
		}
	}
	sum.Write(unixLines(withoutLine(text, []byte(`"`+now+`"`))))
	return hex.EncodeToString(sum.Sum(nil)[:8])
}

// withoutLine returns text without the first line that holds part.
func withoutLine(text, part []byte) []byte {
	at := bytes.Index(text, part)
	if at < 0 {
		return text
	}
	begin := bytes.LastIndexByte(text[:at], '\n') + 1
	end := len(text)
	if i := bytes.IndexByte(text[at:], '\n'); i >= 0 {
		end = at + i + 1
	}
	return slices.Concat(text[:begin], text[end:])
}

func unixLines(text []byte) []byte {
	if bytes.IndexByte(text, '\r') < 0 {
		return text
	}
	return bytes.ReplaceAll(text, []byte("\r\n"), []byte("\n"))
}
