package data

import (
	"fmt"
	"slices"
	"time"

	"daub.example/daub/model"
)

// Schema is the version of the file format that is written, and the newest
// that is read.
const Schema = 1

// schemaField is the version of a file. It is written as it is now, whatever a
// file had.
func schemaField[T any](at func(*T) *int) Field[T] {
	return Whole("schema", "schema = 1", at).Required().Rule(func(w *walker, path string, t map[string]any, _ *T) {
		if n, ok := t["schema"].(int64); ok && n < Schema {
			w.add("schema", "write schema = 1", "schema %d was never in use", n)
		}
	})
}

// ProfileFile is the file of one powder and lot.
type ProfileFile struct {
	model.Profile
	Ratios []model.RatioRow // derived from the trials, for recipes and other programs
	schema int
}

// profileFields is that file, in the order it is written.
var profileFields = []Field[ProfileFile]{
	schemaField(func(f *ProfileFile) *int { return &f.schema }),
	Table("powder", "[powder]", func(f *ProfileFile) *model.Powder { return &f.Powder }, powderFields).Required(),
	Tables("level_spoon", "[[level_spoon]]", func(f *ProfileFile) *[]model.LevelSpoon { return &f.LevelSpoons }, levelSpoonFields),
	Kept("packing", func(f *ProfileFile) *map[string]any { return &f.Reserved }),
	Tables("trial", "[[trial]]", func(f *ProfileFile) *[]model.Trial { return &f.Trials }, trialFields),
	Tables("ratio", "[[ratio]]", func(f *ProfileFile) *[]model.RatioRow { return &f.Ratios }, ratioFields),
}

var powderFields = []Field[model.Powder]{
	Text("name", `name = "Fine oat flour"`, func(p *model.Powder) *string { return &p.Name }).Required(),
	Text("lot", `lot = "2026-04"`, func(p *model.Powder) *string { return &p.Lot }),
	Text("family", `family = "flour"`, func(p *model.Powder) *model.Family { return &p.Family }),
	Decimal("solid_density", "solid_density = 1.5", func(p *model.Powder) *float64 { return &p.SolidDensity }).NotZero(),
	Flag("keep_from_metal", "keep_from_metal = false", func(p *model.Powder) *bool { return &p.KeepFromMetal }),
	Text("notes", `notes = "from the back shelf"`, func(p *model.Powder) *string { return &p.Notes }),
}

var levelSpoonFields = []Field[model.LevelSpoon]{
	Text("spoon", `spoon = "1 tsp"`, func(l *model.LevelSpoon) *string { return &l.Spoon }).Identity(),
	Decimals("grams", "grams = [2.31, 2.27]", func(l *model.LevelSpoon) *[]float64 { return &l.Grams }),
	Whole("spoons_each", "spoons_each = 1", func(l *model.LevelSpoon) *int { return &l.SpoonsEach }).NotZero(),
	Decimal("resolution_g", "resolution_g = 0.01", func(l *model.LevelSpoon) *float64 { return &l.ResolutionG }).NotZero(),
	Decimal("volume_ml", "volume_ml = 4.92892", func(l *model.LevelSpoon) *float64 { return &l.VolumeML }).NotZero(),
	Text("how", `how = "struck off level"`, func(l *model.LevelSpoon) *string { return &l.How }),
}

var trialFields = []Field[model.Trial]{
	Moment("started", "started = 2026-05-03T10:12:00Z", func(t *model.Trial) *time.Time { return &t.Started }).Required().Identity(),
	Text("state", `state = "done"`, func(t *model.Trial) *model.State { return &t.State }),
	Text("set_aside", `set_aside = "spilled"`, func(t *model.Trial) *string { return &t.SetAside }),
	Text("liquid", `liquid = "water"`, func(t *model.Trial) *string { return &t.Liquid }),
	Decimal("liquid_g", "liquid_g = 20.00", func(t *model.Trial) *float64 { return &t.LiquidG }).Required(),
	Text("liquid_by", `liquid_by = "weight"`, func(t *model.Trial) *model.By { return &t.LiquidBy }),
	Text("liquid_spoon", `liquid_spoon = "1 tbsp"`, func(t *model.Trial) *string { return &t.LiquidSpoon }),
	Whole("liquid_count", "liquid_count = 1", func(t *model.Trial) *int { return &t.LiquidCount }),
	Decimal("liquid_density", "liquid_density = 0.998", func(t *model.Trial) *float64 { return &t.LiquidDensity }).NotZero(),
	MaybeDecimal("temperature_c", "temperature_c = 21.0", func(t *model.Trial) **float64 { return &t.TemperatureC }),
	Decimal("resolution_g", "resolution_g = 0.01", func(t *model.Trial) *float64 { return &t.ResolutionG }).NotZero(),
	Text("spoon_set", `spoon_set = "us"`, func(t *model.Trial) *model.SpoonSet { return &t.SpoonSet }),
	Texts("spoons", `spoons = ["1 tsp", "1/2 tsp"]`, func(t *model.Trial) *[]string { return &t.Spoons }),
	Decimal("aim", "aim = 5.0", func(t *model.Trial) *float64 { return &t.Aim }).NotZero(),
	Decimal("level_step", "level_step = 1.0", func(t *model.Trial) *float64 { return &t.LevelStep }).NotZero(),
	Decimal("tolerance", "tolerance = 0.12", func(t *model.Trial) *float64 { return &t.Tolerance }).NotZero(),
	MaybeWhole("rest_s", "rest_s = 120", func(t *model.Trial) **int { return &t.RestS }),
	Tables("step", "[[trial.step]]", func(t *model.Trial) *[]model.Step { return &t.Steps }, stepFields),
	Kept("later", func(t *model.Trial) *map[string]any { return &t.Reserved }),
	Kept("acid", func(t *model.Trial) *map[string]any { return &t.Reserved }),
	Kept("measured", func(t *model.Trial) *map[string]any { return &t.Reserved }),
}

var stepFields = []Field[model.Step]{
	Moment("at", "at = 2026-05-03T10:13:10Z", func(s *model.Step) *time.Time { return &s.At }).Identity(),
	Text("add", `add = "powder"`, func(s *model.Step) *model.Add { return &s.Add }).Required(),
	Text("spoon", `spoon = "1/2 tsp"`, func(s *model.Step) *string { return &s.Spoon }),
	Whole("count", "count = 1", func(s *model.Step) *int { return &s.Count }).Rule(checkCount),
	Decimal("grams", "grams = 1.14", func(s *model.Step) *float64 { return &s.Grams }),
	FlaggedDecimal("level", "level = 3.0", func(s *model.Step) (*float64, *bool) { return &s.Level, &s.Looked }),
	MaybeWhole("rested_s", "rested_s = 120", func(s *model.Step) **int { return &s.RestedS }),
	Texts("marks", `marks = ["sinks"]`, func(s *model.Step) *[]string { return &s.Marks }),
	Text("note", `note = "stirred twice"`, func(s *model.Step) *string { return &s.Note }),
}

// checkCount refuses a spoon addition of no spoons: 0 would be taken for a
// count that was left out, which is 1.
func checkCount(w *walker, path string, t map[string]any, s *model.Step) {
	n, ok := t["count"].(int64)
	adds := s.Add == model.AddPowder || s.Add == model.AddLiquid
	if ok && n == 0 && adds && !s.Weighed() {
		w.add(join(path, "count"), `give the number of spoons, or add = "none"`, "count of 0 is not possible")
	}
}

var ratioFields = []Field[model.RatioRow]{
	Text("liquid", `liquid = "water"`, func(r *model.RatioRow) *string { return &r.Liquid }).Always().Identity(),
	Whole("rest_s", "rest_s = 120", func(r *model.RatioRow) *int { return &r.RestS }).Always().Identity(),
	Decimal("level", "level = 5.0", func(r *model.RatioRow) *float64 { return &r.Level }).Always().Identity(),
	Text("reach", `reach = "bracketed"`, func(r *model.RatioRow) *string { return &r.Reach }),
	Whole("trials", "trials = 1", func(r *model.RatioRow) *int { return &r.Trials }),
	Decimal("liquid_per_powder", "liquid_per_powder = 1.93", func(r *model.RatioRow) *float64 { return &r.Median }),
	Decimal("low", "low = 1.61", func(r *model.RatioRow) *float64 { return &r.Low }),
	Decimal("high", "high = 2.31", func(r *model.RatioRow) *float64 { return &r.High }),
	Decimal("next_low", "next_low = 1.48", func(r *model.RatioRow) *float64 { return &r.NextLow }),
	Decimal("next_high", "next_high = 2.52", func(r *model.RatioRow) *float64 { return &r.NextHigh }),
	Decimal("bound_low", "bound_low = 1.2", func(r *model.RatioRow) *float64 { return &r.BoundLow }),
	Decimal("bound_high", "bound_high = 3.4", func(r *model.RatioRow) *float64 { return &r.BoundHigh }),
}

// RatioRows is the ratio table that belongs into a profile's file.
func RatioRows(p model.Profile, d model.Drawer) []model.RatioRow {
	var rows []model.RatioRow
	for _, r := range p.RatioTable(d) {
		rows = append(rows, r.Row())
	}
	return rows
}

// RatioDifferences are the keys in which two lines of the ratio table differ.
func RatioDifferences(a, b model.RatioRow) []string {
	return Differences(ratioFields, &a, &b, model.RatioDigits)
}

// ReadProfile reads the file of one powder and lot. Spoons of the maker's own
// come from d. The document is nil where the text is no TOML.
//
// The problems are everything that is wrong: an unknown key, a key that differs
// only in case, a wrong type and an impossible number are all refused. A whole
// number will do where a decimal is meant, but not the other way round: a count
// of 2.0 is refused. Times need an offset from UTC.
func ReadProfile(src []byte, d model.Drawer) (ProfileFile, *Document, []Problem) {
	doc, problems := Parse(src)
	if problems != nil {
		return ProfileFile{}, nil, problems
	}
	f, problems := ProfileOf(doc, d)
	return f, doc, problems
}

// ProfileOf is ReadProfile for a text that was parsed already.
func ProfileOf(doc *Document, d model.Drawer) (f ProfileFile, problems []Problem) {
	if problems = newer(doc); problems != nil {
		return f, problems
	}
	problems = Fill(doc, profileFields, &f, func(broken bool) []model.Problem {
		p := f.Profile
		if broken {
			// A value of the wrong kind is missing from p, so sums over it would
			// only mislead; Validate leaves them out of a powder without a name.
			p.Powder.Name = ""
		}
		return slices.DeleteFunc(model.Check(p, d), func(about model.Problem) bool { return broken && about.Path == "powder.name" })
	})
	return f, problems
}

// newer refuses a file of a newer program; nothing else in it can be judged.
func newer(doc *Document) []Problem {
	n, ok := doc.Tree["schema"].(int64)
	if !ok || n <= Schema {
		return nil
	}
	return []Problem{{
		Line: doc.Line("schema"), What: fmt.Sprintf("the file was written by a newer version (schema %d; this one reads up to %d)", n, Schema),
		Fix: "update daub; the file is left as it is",
	}}
}

// WriteProfile writes the file of one powder and lot, with the ratio table that
// belongs to it. old is what it has to keep the comments of, nil for a new file.
// Whether the profile makes sense is for model.Check.
func WriteProfile(p model.Profile, ratios []model.RatioRow, old *Document) ([]byte, error) {
	return Write(profileFields, &ProfileFile{Profile: p, Ratios: ratios, schema: Schema}, old)
}

// Decode is ReadProfile for a text from anywhere: file is the name complaints go
// by, and the error is a *FileError.
func Decode(file string, src []byte, d model.Drawer) (model.Profile, error) {
	f, _, problems := ReadProfile(src, d)
	return f.Profile, Refuse(file, problems)
}

// Encode is WriteProfile with [[ratio]] reckoned anew and the old file as text,
// nil for none.
func Encode(p model.Profile, d model.Drawer, old []byte) ([]byte, error) {
	var doc *Document
	if old != nil {
		_, doc, _ = ReadProfile(old, d)
	}
	return WriteProfile(p, RatioRows(p, d), doc)
}
