package data

import (
	"bytes"

	"daub.example/daub/model"
)

// spoonsList is the file of the maker's own spoons.
type spoonsList struct{ spoons []model.Spoon }

var spoonsFields = []Field[spoonsList]{
	Tables("spoon", "[[spoon]]", func(f *spoonsList) *[]model.Spoon { return &f.spoons }, spoonFields),
}

var spoonFields = []Field[model.Spoon]{
	Text("name", `name = "blue scoop"`, func(s *model.Spoon) *string { return &s.Name }).Required().Identity(),
	Decimal("volume_ml", "volume_ml = 2.4", func(s *model.Spoon) *float64 { return &s.VolumeML }).Required(),
	Decimal("standard_uncertainty_ml", "standard_uncertainty_ml = 0.05", func(s *model.Spoon) *float64 { return &s.UncertaintyML }),
}

// ReadSpoons reads a list of own spoons, as strictly as ReadProfile. A file
// without any text is an empty list, of which the document is nil.
func ReadSpoons(src []byte) (model.Drawer, *Document, []Problem) {
	if len(bytes.TrimSpace(bytes.TrimPrefix(src, byteOrderMark))) == 0 {
		return nil, nil, nil
	}
	doc, problems := Parse(src)
	if problems != nil {
		return nil, nil, problems
	}
	var f spoonsList
	problems = Fill(doc, spoonsFields, &f, func(bool) []model.Problem { return model.Drawer(f.spoons).Validate() })
	for i := range f.spoons {
		f.spoons[i].Own = true
	}
	return f.spoons, doc, problems
}

// WriteSpoons writes a list of own spoons, on the terms of WriteProfile.
func WriteSpoons(d model.Drawer, old *Document) ([]byte, error) {
	return Write(spoonsFields, &spoonsList{d}, old)
}
