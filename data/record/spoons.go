package record

import (
	"bytes"
	"time"

	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
)

// spoonsList is the file of the maker's own spoons.
type spoonsList struct{ spoons []model.Spoon }

var spoonsFields = []tomlfile.Field[spoonsList]{
	tomlfile.Tables("spoon", "[[spoon]]", func(f *spoonsList) *[]model.Spoon { return &f.spoons }, spoonFields),
}

var spoonFields = []tomlfile.Field[model.Spoon]{
	tomlfile.Text("name", `name = "blue scoop"`, func(s *model.Spoon) *string { return &s.Name }).Required().Identity(),
	tomlfile.Decimal("volume_ml", "volume_ml = 2.4", func(s *model.Spoon) *float64 { return &s.VolumeML }).Required(),
	tomlfile.Decimal("standard_uncertainty_ml", "standard_uncertainty_ml = 0.05",
		func(s *model.Spoon) *float64 { return &s.UncertaintyML }),
	tomlfile.OrKept(tomlfile.Decimals("water_g", "water_g = [4.91, 4.93, 4.92]",
		func(s *model.Spoon) *[]float64 { return &s.WaterG }), keptOfSpoon),
	tomlfile.OrKept(tomlfile.MaybeDecimal("temperature_c", "temperature_c = 21.0",
		func(s *model.Spoon) **float64 { return &s.TemperatureC }), keptOfSpoon),
	tomlfile.OrKept(tomlfile.Moment("measured", "measured = 2026-05-03T10:00:00Z",
		func(s *model.Spoon) *time.Time { return &s.Measured }), keptOfSpoon),
	tomlfile.Decimal("before_ml", "before_ml = 5.0", func(s *model.Spoon) *float64 { return &s.BeforeML }).NotZero(),
	tomlfile.Decimal("before_standard_uncertainty_ml", "before_standard_uncertainty_ml = 0.1",
		func(s *model.Spoon) *float64 { return &s.BeforeUncertaintyML }),
}

func keptOfSpoon(s *model.Spoon) *map[string]any { return &s.Reserved }

// ReadSpoons reads a list of own spoons, as strictly as ReadProfile. A file without
// text is an empty list; its document is nil.
func ReadSpoons(src []byte) (model.OwnSpoons, *tomlfile.Document, []tomlfile.Problem) {
	if len(bytes.TrimSpace(bytes.TrimPrefix(src, tomlfile.ByteOrderMark))) == 0 {
		return nil, nil, nil
	}
	doc, problems := tomlfile.Parse(src)
	if problems != nil {
		return nil, nil, problems
	}
	var f spoonsList
	problems = tomlfile.Fill(doc, spoonsFields, &f,
		func(bool) []model.Problem { return model.OwnSpoons(f.spoons).Validate() })
	for i := range f.spoons {
		f.spoons[i].Own = true
	}
	return f.spoons, doc, problems
}

// WriteSpoons writes a list of own spoons, with the rules of WriteProfile.
func WriteSpoons(own model.OwnSpoons, old *tomlfile.Document) ([]byte, error) {
	return tomlfile.Write(spoonsFields, &spoonsList{own}, old)
}
