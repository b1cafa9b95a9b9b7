package export

import (
	"bytes"

	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
	"daub.example/daub/model/repeats"
)

// ratiosFile is an export as TOML.
type ratiosFile struct {
	schema  int
	powders []sheet
}

var ratiosFields = []tomlfile.Field[ratiosFile]{
	tomlfile.Whole("schema", "", func(f *ratiosFile) *int { return &f.schema }),
	tomlfile.Tables("powder", "", func(f *ratiosFile) *[]sheet { return &f.powders }, sheetFields),
}

var sheetFields = []tomlfile.Field[sheet]{
	tomlfile.Text("name", "", func(s *sheet) *string { return &s.powder.Name }).Always(),
	tomlfile.Text("lot", "", func(s *sheet) *string { return &s.powder.Lot }),
	tomlfile.Text("slug", "", func(s *sheet) *string { return &s.slug }),
	tomlfile.Text("family", "", func(s *sheet) *model.Family { return &s.powder.Family }),
	tomlfile.Flag("keep_from_metal", "", func(s *sheet) *bool { return &s.powder.KeepFromMetal }),
	tomlfile.Decimal("grams_per_tsp", "", func(s *sheet) *float64 { return &s.tspG }),
	tomlfile.Tables("ratio", "", func(s *sheet) *[]repeats.Row { return &s.rows }, rowFields()),
}

// rowFields lists the columns of a row: what a ratio is for, then its numbers.
func rowFields() []tomlfile.Field[repeats.Row] {
	fields := []tomlfile.Field[repeats.Row]{
		tomlfile.Text("liquid", "", func(r *repeats.Row) *string { return &r.Liquid }).Always(),
		tomlfile.Whole("rest_s", "", func(r *repeats.Row) *int { return &r.RestS }).Always(),
		tomlfile.Decimal("level", "", func(r *repeats.Row) *float64 { return &r.Level }).Always(),
		tomlfile.Text("reach", "", func(r *repeats.Row) *string { return &r.Reach }),
		tomlfile.Whole("trials", "", func(r *repeats.Row) *int { return &r.Trials }),
	}
	for _, n := range numbers {
		fields = append(fields, tomlfile.Decimal(n.name, "", n.of))
	}
	return fields
}

func exportTOML(out *bytes.Buffer, sheets []sheet, _ Options) error {
	text, err := tomlfile.Write(ratiosFields, &ratiosFile{exportSchema, sheets}, nil)
	out.Write(text)
	return err
}
