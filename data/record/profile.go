package record

import (
	"fmt"
	"slices"
	"time"

	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/repeats"
)

// Schema is the version of the file format that is written, and the newest one
// read.
const Schema = 1

// schemaField is the version of a file. The present version is always written.
func schemaField[T any](at func(*T) *int) tomlfile.Field[T] {
	return tomlfile.Whole("schema", "schema = 1", at).Required().Rule(func(w *tomlfile.Walker, path string,
		t map[string]any, _ *T,
	) {
		if n, ok := t["schema"].(int64); ok && n < Schema {
			w.Add("schema", "write schema = 1", "schema %d was never in use", n)
		}
	})
}

// ProfileFile is the file of one powder and lot.
type ProfileFile struct {
	model.Profile
	Ratios []RatioRow // derived from the trials, for recipes and other programs
	schema int
}

// profileFields are the fields of a profile's file, in the order they are written.
var profileFields = []tomlfile.Field[ProfileFile]{
	schemaField(func(f *ProfileFile) *int { return &f.schema }),
	tomlfile.Table("powder", "[powder]",
		func(f *ProfileFile) *model.Powder { return &f.Powder }, powderFields).Required(),
	tomlfile.Tables("level_spoon", "[[level_spoon]]",
		func(f *ProfileFile) *[]model.LevelSpoon { return &f.LevelSpoons }, levelSpoonFields),
	tomlfile.OrKept(tomlfile.Tables("packing", "[[packing]]",
		func(f *ProfileFile) *[]model.Packing { return &f.Powder.Packings }, packingFields),
		func(f *ProfileFile) *map[string]any { return &f.Reserved }),
	tomlfile.Tables("trial", "[[trial]]", func(f *ProfileFile) *[]model.Trial { return &f.Trials }, trialFields),
	tomlfile.Tables("ratio", "[[ratio]]", func(f *ProfileFile) *[]RatioRow { return &f.Ratios }, ratioFields),
}

var powderFields = []tomlfile.Field[model.Powder]{
	tomlfile.Text("name", `name = "Fine oat flour"`, func(p *model.Powder) *string { return &p.Name }).Required(),
	tomlfile.Text("lot", `lot = "2026-04"`, func(p *model.Powder) *string { return &p.Lot }),
	tomlfile.Text("family", `family = "flour"`, func(p *model.Powder) *model.Family { return &p.Family }),
	tomlfile.Decimal("solid_density", "solid_density = 1.5",
		func(p *model.Powder) *float64 { return &p.SolidDensity }).NotZero(),
	tomlfile.Flag("keep_from_metal", "keep_from_metal = false",
		func(p *model.Powder) *bool { return &p.KeepFromMetal }),
	tomlfile.MaybeFlag("fizzes", "fizzes = true", func(p *model.Powder) **bool { return &p.Fizzes }),
	tomlfile.Texts("allergens", `allergens = ["gluten"]`, func(p *model.Powder) *[]string { return &p.Allergens }),
	tomlfile.Flag("archived", "archived = false", func(p *model.Powder) *bool { return &p.Archived }),
	tomlfile.Text("notes", `notes = "from the back shelf"`, func(p *model.Powder) *string { return &p.Notes }),
}

var levelSpoonFields = []tomlfile.Field[model.LevelSpoon]{
	tomlfile.Text("spoon", `spoon = "1 tsp"`, func(l *model.LevelSpoon) *string { return &l.Spoon }).Identity(),
	tomlfile.Decimals("grams", "grams = [2.31, 2.27]", func(l *model.LevelSpoon) *[]float64 { return &l.Grams }),
	tomlfile.Whole("spoons_each", "spoons_each = 1", func(l *model.LevelSpoon) *int { return &l.SpoonsEach }).NotZero(),
	tomlfile.Decimal("resolution_g", "resolution_g = 0.01",
		func(l *model.LevelSpoon) *float64 { return &l.ResolutionG }).NotZero(),
	tomlfile.Decimal("volume_ml", "volume_ml = 4.92892",
		func(l *model.LevelSpoon) *float64 { return &l.VolumeML }).NotZero(),
	tomlfile.Text("how", `how = "loose"`, func(l *model.LevelSpoon) *string { return &l.How }),
}

var trialFields = []tomlfile.Field[model.Trial]{
	tomlfile.Moment("started", "started = 2026-05-03T10:12:00Z",
		func(t *model.Trial) *time.Time { return &t.Started }).Required().Identity(),
	tomlfile.Text("state", `state = "done"`, func(t *model.Trial) *model.State { return &t.State }),
	tomlfile.Text("set_aside", `set_aside = "spilled"`, func(t *model.Trial) *string { return &t.SetAside }),
	tomlfile.Text("liquid", `liquid = "water"`, func(t *model.Trial) *string { return &t.Liquid }),
	tomlfile.Decimal("liquid_g", "liquid_g = 20.00", func(t *model.Trial) *float64 { return &t.LiquidG }).Required(),
	tomlfile.Text("liquid_by", `liquid_by = "weight"`, func(t *model.Trial) *model.By { return &t.LiquidBy }),
	tomlfile.Text("liquid_spoon", `liquid_spoon = "1 tbsp"`, func(t *model.Trial) *string { return &t.LiquidSpoon }),
	tomlfile.Whole("liquid_count", "liquid_count = 1", func(t *model.Trial) *int { return &t.LiquidCount }),
	tomlfile.Decimal("liquid_density", "liquid_density = 0.998",
		func(t *model.Trial) *float64 { return &t.LiquidDensity }).NotZero(),
	tomlfile.MaybeDecimal("temperature_c", "temperature_c = 21.0",
		func(t *model.Trial) **float64 { return &t.TemperatureC }),
	tomlfile.Decimal("resolution_g", "resolution_g = 0.01",
		func(t *model.Trial) *float64 { return &t.ResolutionG }).NotZero(),
	tomlfile.Text("spoon_set", `spoon_set = "us"`, func(t *model.Trial) *model.SpoonSet { return &t.SpoonSet }),
	tomlfile.Texts("spoons", `spoons = ["1 tsp", "1/2 tsp"]`, func(t *model.Trial) *[]string { return &t.Spoons }),
	tomlfile.Decimal("aim", "aim = 5.0", func(t *model.Trial) *float64 { return &t.Aim }).NotZero(),
	tomlfile.Decimal("level_step", "level_step = 1.0", func(t *model.Trial) *float64 { return &t.LevelStep }).NotZero(),
	tomlfile.Decimal("tolerance", "tolerance = 0.12", func(t *model.Trial) *float64 { return &t.Tolerance }).NotZero(),
	tomlfile.MaybeWhole("rest_s", "rest_s = 120", func(t *model.Trial) **int { return &t.RestS }),
	tomlfile.Decimal("pot_g", "pot_g = 152.40", func(t *model.Trial) *float64 { return &t.PotG }).NotZero(),
	tomlfile.OrKept(tomlfile.MaybeTable("match", "[trial.match]",
		func(t *model.Trial) **model.Match { return &t.Match }, matchFields), keptOfTrial).Rule(keptBeside),
	tomlfile.Flag("covered", "covered = true", func(t *model.Trial) *bool { return &t.Covered }),
	tomlfile.Tables("step", "[[trial.step]]", func(t *model.Trial) *[]model.Step { return &t.Steps }, stepFields),
	tomlfile.OrKept(tomlfile.Tables("later", "[[trial.later]]",
		func(t *model.Trial) *[]model.LaterLook { return &t.Later }, laterFields), keptOfTrial),
	tomlfile.OrKept(tomlfile.MaybeTable("acid", "[trial.acid]",
		func(t *model.Trial) **model.AcidTest { return &t.Acid }, acidFields), keptOfTrial),
	tomlfile.OrKept(tomlfile.MaybeTable("measured", "[trial.measured]",
		func(t *model.Trial) **model.Measured { return &t.Measured }, measuredFields), keptOfTrial).Rule(keptReadings),
}

func keptOfTrial(t *model.Trial) *map[string]any { return &t.Reserved }

func keptOfStep(s *model.Step) *map[string]any { return &s.Reserved }

var matchFields = []tomlfile.Field[model.Match]{
	tomlfile.Text("powder", `powder = "grey-basin-clay-2026-01"`,
		func(m *model.Match) *string { return &m.Powder }).Required().Rule(asSound(model.Match.Validate)),
	tomlfile.Text("name", `name = "Grey basin clay"`, func(m *model.Match) *string { return &m.Name }),
	tomlfile.Whole("trial", "trial = 1", func(m *model.Match) *int { return &m.Trial }).NotZero(),
	tomlfile.Whole("step", "step = 8", func(m *model.Match) *int { return &m.Step }).NotZero(),
	tomlfile.Moment("made", "made = 2026-05-03T10:31:00Z", func(m *model.Match) *time.Time { return &m.Made }),
	tomlfile.Decimal("powder_per_liquid", "powder_per_liquid = 0.231",
		func(m *model.Match) *float64 { return &m.PowderPerLiquid }).Required(),
	tomlfile.Decimal("level", "level = 5.0", func(m *model.Match) *float64 { return &m.Level }).NotZero(),
	tomlfile.Decimal("half", "half = 0.03", func(m *model.Match) *float64 { return &m.Half }).NotZero(),
}

var stepFields = []tomlfile.Field[model.Step]{
	tomlfile.Moment("at", "at = 2026-05-03T10:13:10Z", func(s *model.Step) *time.Time { return &s.At }).Identity(),
	tomlfile.Text("add", `add = "powder"`, func(s *model.Step) *model.Add { return &s.Add }).Required(),
	tomlfile.Text("spoon", `spoon = "1/2 tsp"`, func(s *model.Step) *string { return &s.Spoon }),
	tomlfile.Whole("count", "count = 1", func(s *model.Step) *int { return &s.Count }).Rule(checkCount),
	tomlfile.Decimal("grams", "grams = 1.14", func(s *model.Step) *float64 { return &s.Grams }),
	tomlfile.FlaggedDecimal("level", "level = 3.0",
		func(s *model.Step) (*float64, *bool) { return &s.Level, named(s) }),
	tomlfile.OrKept(tomlfile.Text("beside", `beside = "thicker"`,
		func(s *model.Step) *model.Beside { return &s.Beside }).Rule(besideLook), keptOfStep),
	tomlfile.OrKept(tomlfile.MaybeDecimal("level_stirred", "level_stirred = 4.0",
		func(s *model.Step) **float64 { return &s.LevelStirred }), keptOfStep),
	tomlfile.OrKept(tomlfile.Decimal("reading", "reading = 61.0",
		func(s *model.Step) *float64 { return &s.Reading }).NotZero(), keptOfStep),
	tomlfile.MaybeWhole("rested_s", "rested_s = 120", func(s *model.Step) **int { return &s.RestedS }),
	tomlfile.Unless("use", "use = false", func(s *model.Step) *bool { return &s.LeftOut }),
	tomlfile.Decimal("pot_g", "pot_g = 145.12", func(s *model.Step) *float64 { return &s.PotG }).NotZero(),
	tomlfile.Texts("marks", `marks = ["sinks"]`, func(s *model.Step) *[]string { return &s.Marks }),
	tomlfile.Text("note", `note = "stirred twice"`, func(s *model.Step) *string { return &s.Note }),
}

// named reports whether a look named a level; a look beside a dish names none.
func named(s *model.Step) *bool {
	if s.Beside != "" {
		return new(bool)
	}
	return &s.Looked
}

// besideLook reads a look beside a dish and refuses one that also names a level.
func besideLook(w *tomlfile.Walker, path string, t map[string]any, s *model.Step) {
	if s.Beside == "" {
		return
	}
	if _, both := t["level"]; both {
		w.Add(tomlfile.Join(path, "beside"), "keep the one that was read",
			"the step has a level and a look beside a dish")
	}
	s.Looked = true
}

// keptBeside keeps the looks beside a dish whose table has another shape: the dish
// is then unknown.
func keptBeside(w *tomlfile.Walker, path string, _ map[string]any, t *model.Trial) {
	if t.Reserved["match"] == nil {
		return
	}
	for i := range t.Steps {
		if s := &t.Steps[i]; s.Beside != "" {
			w.Keep(fmt.Sprintf("%s.step[%d].beside", path, i), "beside", string(s.Beside), &s.Reserved)
			s.Beside, s.Looked = "", false
		}
	}
}

// keptReadings keeps the readings of a measurement whose table has another shape.
func keptReadings(w *tomlfile.Walker, path string, _ map[string]any, t *model.Trial) {
	if t.Reserved["measured"] == nil {
		return
	}
	for i := range t.Steps {
		if s := &t.Steps[i]; s.Reading != 0 {
			w.Keep(fmt.Sprintf("%s.step[%d].reading", path, i), "reading", s.Reading, &s.Reserved)
			s.Reading = 0
		}
	}
}

var laterFields = []tomlfile.Field[model.LaterLook]{
	tomlfile.Moment("at", "at = 2026-05-03T11:10:00Z",
		func(l *model.LaterLook) *time.Time { return &l.At }).Required().Identity().
		Rule(asSound(model.LaterLook.Validate)),
	tomlfile.MaybeDecimal("level", "level = 6.0", func(l *model.LaterLook) **float64 { return &l.Level }),
	tomlfile.MaybeDecimal("stirred_level", "stirred_level = 5.0",
		func(l *model.LaterLook) **float64 { return &l.Stirred }),
	tomlfile.Texts("marks", `marks = ["gels"]`, func(l *model.LaterLook) *[]string { return &l.Marks }),
	tomlfile.Text("note", `note = "a skin on top"`, func(l *model.LaterLook) *string { return &l.Note }),
}

var packingFields = []tomlfile.Field[model.Packing]{
	tomlfile.Text("spoon", `spoon = "1 tsp"`,
		func(p *model.Packing) *string { return &p.Spoon }).Required().Identity().Rule(asSound(model.Packing.Validate)),
	tomlfile.Decimals("loose_g", "loose_g = [2.41, 2.44]",
		func(p *model.Packing) *[]float64 { return &p.LooseG }).Required(),
	tomlfile.Decimals("tapped_g", "tapped_g = [3.02, 3.05]",
		func(p *model.Packing) *[]float64 { return &p.TappedG }).Required(),
	tomlfile.Moment("at", "at = 2026-05-03T10:00:00Z", func(p *model.Packing) *time.Time { return &p.At }),
}

// asSound is a rule for a table that earlier versions kept whatever it held: if the
// model finds it wrong, it counts as another shape.
func asSound[T any](validate func(T) []model.Problem) func(*tomlfile.Walker, string, map[string]any, *T) {
	return func(w *tomlfile.Walker, path string, _ map[string]any, t *T) {
		for _, p := range validate(*t) {
			w.Add(tomlfile.Join(path, p.Path), p.Fix, "%s", p.What)
		}
	}
}

// checkCount refuses an addition of 0 spoons: 0 would be read as a count left out,
// which is 1.
func checkCount(w *tomlfile.Walker, path string, t map[string]any, s *model.Step) {
	n, ok := t["count"].(int64)
	adds := s.Add == model.AddPowder || s.Add == model.AddLiquid
	if ok && n == 0 && adds && !s.Weighed() {
		w.Add(tomlfile.Join(path, "count"), `give the number of spoons, or add = "none"`, "count of 0 is not possible")
	}
}

// ReadProfile reads the file of one powder and lot. The maker's own spoons come
// from own. The document is nil if the text is not TOML.
//
// The problems are everything that is wrong: an unknown key, a key that differs
// only in case, a wrong type and an impossible number are all refused. A whole
// number will do for a decimal, but a count of 2.0 is refused. Times need an offset
// from UTC.
func ReadProfile(src []byte, own model.OwnSpoons) (ProfileFile, *tomlfile.Document, []tomlfile.Problem) {
	doc, problems := tomlfile.Parse(src)
	if problems != nil {
		return ProfileFile{}, nil, problems
	}
	f, problems := ProfileOf(doc, own)
	return f, doc, problems
}

// ProfileOf is ReadProfile for text parsed already.
func ProfileOf(doc *tomlfile.Document, own model.OwnSpoons) (f ProfileFile, problems []tomlfile.Problem) {
	if problems = newer(doc); problems != nil {
		return f, problems
	}
	problems = tomlfile.Fill(doc, profileFields, &f, func(broken bool) []model.Problem {
		p := f.Profile
		if broken {
			// A value of the wrong kind is missing from p, so sums over it would
			// mislead; Validate makes none for a powder without a name.
			p.Powder.Name = ""
		}
		return slices.DeleteFunc(bench.Check(p, own),
			func(about model.Problem) bool { return broken && about.Path == "powder.name" })
	})
	return f, problems
}

// newer refuses a file of a newer program; nothing else in it can be judged.
func newer(doc *tomlfile.Document) []tomlfile.Problem {
	n, ok := doc.Tree["schema"].(int64)
	if !ok || n <= Schema {
		return nil
	}
	return []tomlfile.Problem{{
		Line: doc.Line("schema"), What: fmt.Sprintf("the file was written by a newer version (schema %d; this one "+
			"reads up to %d)", n, Schema),
		Fix: "update daub; the file is left as it is",
	}}
}

// WriteProfile writes the file of one powder and lot, with its ratio table and the
// table's fingerprint. The maker's own spoons are in own. The comments of old are
// kept; it is nil for a new file. Whether the profile makes sense is for
// model.Check.
func WriteProfile(p model.Profile, ratios []repeats.Row, own model.OwnSpoons, old *tomlfile.Document) ([]byte, error) {
	f := ProfileFile{Profile: p, schema: Schema}
	for _, r := range ratios {
		f.Ratios = append(f.Ratios, RatioRow{Row: r})
	}
	if len(ratios) == 0 {
		return tomlfile.Write(profileFields, &f, old)
	}
	f.Ratios[0].DerivedFrom = unsigned // the line must be there: comments may belong to it
	text, err := tomlfile.Write(profileFields, &f, old)
	if err != nil {
		return nil, err
	}
	f.Ratios[0].DerivedFrom = fingerprint(text, unsigned, own)
	return tomlfile.Write(profileFields, &f, old)
}

// Decode is ReadProfile for text from anywhere. Problems name it as file, and the
// error is a *FileError.
func Decode(file string, src []byte, own model.OwnSpoons) (model.Profile, error) {
	f, _, problems := ReadProfile(src, own)
	return f.Profile, tomlfile.Refuse(file, problems)
}

// Encode is WriteProfile with [[ratio]] calculated again, and the old file as text,
// nil for none.
func Encode(p model.Profile, own model.OwnSpoons, old []byte) ([]byte, error) {
	var doc *tomlfile.Document
	if old != nil {
		_, doc, _ = ReadProfile(old, own)
	}
	return WriteProfile(p, RatioRows(p, own), own, doc)
}
