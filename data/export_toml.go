package data

import (
	"bytes"

	"daub.example/daub/model"
)

// ratiosFile is an export as TOML.
type ratiosFile struct {
	schema  int
	powders []sheet
}

var ratiosFields = []Field[ratiosFile]{
	Whole("schema", "", func(f *ratiosFile) *int { return &f.schema }),
	Tables("powder", "", func(f *ratiosFile) *[]sheet { return &f.powders }, sheetFields),
}

var sheetFields = []Field[sheet]{
	Text("name", "", func(s *sheet) *string { return &s.powder.Name }).Always(),
	Text("lot", "", func(s *sheet) *string { return &s.powder.Lot }),
	Text("slug", "", func(s *sheet) *string { return &s.slug }),
	Text("family", "", func(s *sheet) *model.Family { return &s.powder.Family }),
	Flag("keep_from_metal", "", func(s *sheet) *bool { return &s.powder.KeepFromMetal }),
	Decimal("grams_per_tsp", "", func(s *sheet) *float64 { return &s.tspG }),
	Tables("ratio", "", func(s *sheet) *[]model.RatioRow { return &s.rows }, rowFields()),
}

// rowFields are what a ratio is for, then its numbers.
func rowFields() []Field[model.RatioRow] {
	fields := []Field[model.RatioRow]{
		Text("liquid", "", func(r *model.RatioRow) *string { return &r.Liquid }).Always(),
		Whole("rest_s", "", func(r *model.RatioRow) *int { return &r.RestS }).Always(),
		Decimal("level", "", func(r *model.RatioRow) *float64 { return &r.Level }).Always(),
		Text("reach", "", func(r *model.RatioRow) *string { return &r.Reach }),
		Whole("trials", "", func(r *model.RatioRow) *int { return &r.Trials }),
	}
	for _, n := range numbers {
		fields = append(fields, Decimal(n.name, "", n.of))
	}
	return fields
}

func exportTOML(out *bytes.Buffer, sheets []sheet) error {
	text, err := Write(ratiosFields, &ratiosFile{exportSchema, sheets}, nil)
	out.Write(text)
	return err
}
