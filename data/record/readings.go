package record

import (
	"time"

	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
	"daub.example/daub/model/measure"
)

var measuredFields = []tomlfile.Field[model.Measured]{
	tomlfile.Text("kind", `kind = "spread"`, func(m *model.Measured) *measure.Kind { return &m.Kind }).Required().
		Rule(asSound(model.Measured.Validate)),
	tomlfile.Decimal("volume_ml", "volume_ml = 15.0",
		func(m *model.Measured) *float64 { return &m.VolumeML }).NotZero(),
	tomlfile.Decimal("height_mm", "height_mm = 50.0",
		func(m *model.Measured) *float64 { return &m.HeightMM }).NotZero(),
	tomlfile.Decimal("paste_density", "paste_density = 1.4",
		func(m *model.Measured) *float64 { return &m.PasteDensity }).NotZero(),
	tomlfile.Decimal("wanted", "wanted = 60.0", func(m *model.Measured) *float64 { return &m.Wanted }).NotZero(),
}

var acidFields = []tomlfile.Field[model.AcidTest]{
	tomlfile.Text("acid", `acid = "citric acid 10 %"`, func(a *model.AcidTest) *string { return &a.Acid }).Required().
		Rule(asSound(model.AcidTest.Validate)),
	tomlfile.Decimal("grams_per_ml", "grams_per_ml = 1.04",
		func(a *model.AcidTest) *float64 { return &a.GramsPerML }).NotZero(),
	tomlfile.Decimal("drop_g", "drop_g = 0.05", func(a *model.AcidTest) *float64 { return &a.DropG }).NotZero(),
	tomlfile.Text("by", `by = "strip"`, func(a *model.AcidTest) *model.PHBy { return &a.By }),
	tomlfile.Text("note", `note = "calibrated at 4 and 7"`, func(a *model.AcidTest) *string { return &a.Note }),
	tomlfile.Decimal("ph_step", "ph_step = 0.5", func(a *model.AcidTest) *float64 { return &a.PHStep }).NotZero(),
	tomlfile.Decimal("paste_g", "paste_g = 30.0", func(a *model.AcidTest) *float64 { return &a.PasteG }).Required(),
	tomlfile.Decimal("target_ph", "target_ph = 5.5", func(a *model.AcidTest) *float64 { return &a.TargetPH }).NotZero(),
	tomlfile.Tables("step", "[[trial.acid.step]]",
		func(a *model.AcidTest) *[]model.AcidStep { return &a.Steps }, acidStepFields),
}

var acidStepFields = []tomlfile.Field[model.AcidStep]{
	tomlfile.Moment("at", "at = 2026-05-03T11:20:00Z", func(s *model.AcidStep) *time.Time { return &s.At }).Identity(),
	tomlfile.Decimal("grams", "grams = 0.25", func(s *model.AcidStep) *float64 { return &s.Grams }).NotZero(),
	tomlfile.Whole("drops", "drops = 5", func(s *model.AcidStep) *int { return &s.Drops }).NotZero(),
	tomlfile.Text("spoon", `spoon = "1/8 tsp"`, func(s *model.AcidStep) *string { return &s.Spoon }),
	tomlfile.Whole("count", "count = 1", func(s *model.AcidStep) *int { return &s.Count }),
	tomlfile.Decimal("ph", "ph = 8.5", func(s *model.AcidStep) *float64 { return &s.PH }).Required(),
	tomlfile.MaybeWhole("waited_s", "waited_s = 60", func(s *model.AcidStep) **int { return &s.WaitedS }),
	tomlfile.MaybeDecimal("level", "level = 4.0", func(s *model.AcidStep) **float64 { return &s.Level }),
	tomlfile.Texts("marks", `marks = ["lumps"]`, func(s *model.AcidStep) *[]string { return &s.Marks }),
	tomlfile.Text("note", `note = "a coloured paste"`, func(s *model.AcidStep) *string { return &s.Note }),
}
