package data

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"time"

	"daub.example/daub/model"
)

// Schema is the version of the file format that is written, and the newest
// that is read.
const Schema = 1

// Decode reads the file of one powder and lot. Spoons of the maker's own come
// from d; file is the name complaints go by.
//
// The error is a *FileError with everything that is wrong. An unknown key, a
// key that differs only in case, a wrong type and an impossible number are all
// refused. A whole number will do where a decimal is meant, but not the other
// way round: a count of 2.0 is refused. Times need an offset from UTC.
func Decode(file string, src []byte, d model.Drawer) (model.Profile, error) {
	p, _, problems := decode(src, d)
	return p, refuse(file, problems)
}

// decode is Decode with the index of the text, nil where it is no TOML.
func decode(src []byte, d model.Drawer) (model.Profile, *index, []Problem) {
	tree, ix, problems := parse(src)
	if problems != nil {
		return model.Profile{}, nil, problems
	}
	if p, newer := future(tree); newer {
		return model.Profile{}, ix, ix.place([]model.Problem{p})
	}
	var w walker
	w.file(tree, profileKeys)
	p := toProfile(tree)
	w.checkCounts(p, tree)
	return p, ix, ix.place(append(w.problems, w.check(p, d)...))
}

// future tells a file from a newer program; nothing else in it can be judged.
func future(tree map[string]any) (model.Problem, bool) {
	n, ok := tree["schema"].(int64)
	if !ok || n <= Schema {
		return model.Problem{}, false
	}
	return model.Problem{
		Path: "schema", What: fmt.Sprintf("the file was written by a newer version (schema %d; this one reads up to %d)", n, Schema),
		Fix: "update daub; the file is left as it is",
	}, true
}

// check is what the model has against the values. What is wrong already in
// kind is not complained about twice.
func (w *walker) check(p model.Profile, d model.Drawer) []model.Problem {
	if len(w.problems) > 0 {
		// A value of the wrong kind is missing from p, so sums over it would
		// only mislead; Validate leaves them out of a powder without a name.
		p.Powder.Name = ""
		w.broken["powder.name"] = true
	}
	return w.uncovered(model.Check(p, d))
}

// checkCounts refuses a spoon addition of no spoons: 0 would be taken for a
// count that was left out, which is 1.
func (w *walker) checkCounts(p model.Profile, tree map[string]any) {
	trials, _ := tableList(tree["trial"])
	for i, t := range trials {
		steps, _ := tableList(t["step"])
		for j, s := range steps {
			n, ok := s["count"].(int64)
			step := p.Trials[i].Steps[j]
			adds := step.Add == model.AddPowder || step.Add == model.AddLiquid
			if ok && n == 0 && adds && !step.Weighed() {
				w.add(fmt.Sprintf("trial[%d].step[%d].count", i, j), `give the number of spoons, or add = "none"`, "count of 0 is not possible")
			}
		}
	}
}

// fields reads values of a table whose kinds were checked; a value of another
// kind reads as left out.
type fields map[string]any

func (f fields) text(name string) string { s, _ := f[name].(string); return s }

func (f fields) flag(name string) bool { b, _ := f[name].(bool); return b }

func (f fields) decimal(name string) float64 { v, _ := toFloat(f[name]); return v }

func (f fields) whole(name string) int { n, _ := f[name].(int64); return int(n) }

func (f fields) moment(name string) time.Time { t, _ := f[name].(time.Time); return t }

func (f fields) table(name string) fields { t, _ := f[name].(map[string]any); return t }

func (f fields) tables(name string) []map[string]any { list, _ := tableList(f[name]); return list }

// optional is a whole number that may be left out.
func (f fields) optional(name string) *int {
	n, ok := f[name].(int64)
	if !ok {
		return nil
	}
	v := int(n)
	return &v
}

func (f fields) texts(name string) []string {
	list, _ := f[name].([]any)
	var out []string
	for _, v := range list {
		s, _ := v.(string)
		out = append(out, s)
	}
	return out
}

func (f fields) decimals(name string) []float64 {
	list, _ := f[name].([]any)
	var out []float64
	for _, v := range list {
		n, _ := toFloat(v)
		out = append(out, n)
	}
	return out
}

// reserved picks what is kept for later work; nil without any.
func (f fields) reserved(keys []key) map[string]any {
	var out map[string]any
	for _, k := range keys {
		if v, ok := f[k.name]; ok && k.kind == kindReserved {
			if out == nil {
				out = map[string]any{}
			}
			out[k.name] = v
		}
	}
	return out
}

func toProfile(tree map[string]any) model.Profile {
	f := fields(tree)
	p := model.Profile{Powder: toPowder(f.table("powder")), Reserved: f.reserved(profileKeys)}
	for _, t := range f.tables("level_spoon") {
		p.LevelSpoons = append(p.LevelSpoons, toLevelSpoon(t))
	}
	for _, t := range f.tables("trial") {
		p.Trials = append(p.Trials, toTrial(t))
	}
	return p
}

func toPowder(f fields) model.Powder {
	return model.Powder{
		Name:          f.text("name"),
		Lot:           f.text("lot"),
		Family:        model.Family(f.text("family")),
		SolidDensity:  f.decimal("solid_density"),
		KeepFromMetal: f.flag("keep_from_metal"),
		Notes:         f.text("notes"),
	}
}

func toLevelSpoon(f fields) model.LevelSpoon {
	return model.LevelSpoon{
		Spoon:       f.text("spoon"),
		Grams:       f.decimals("grams"),
		SpoonsEach:  f.whole("spoons_each"),
		ResolutionG: f.decimal("resolution_g"),
		VolumeML:    f.decimal("volume_ml"),
		How:         f.text("how"),
	}
}

func toTrial(f fields) model.Trial {
	t := model.Trial{
		Started:       f.moment("started"),
		State:         model.State(f.text("state")),
		SetAside:      f.text("set_aside"),
		Liquid:        f.text("liquid"),
		LiquidG:       f.decimal("liquid_g"),
		LiquidBy:      model.By(f.text("liquid_by")),
		LiquidSpoon:   f.text("liquid_spoon"),
		LiquidCount:   f.whole("liquid_count"),
		LiquidDensity: f.decimal("liquid_density"),
		ResolutionG:   f.decimal("resolution_g"),
		SpoonSet:      model.SpoonSet(f.text("spoon_set")),
		Spoons:        f.texts("spoons"),
		Aim:           f.decimal("aim"),
		LevelStep:     f.decimal("level_step"),
		Tolerance:     f.decimal("tolerance"),
		RestS:         f.optional("rest_s"),
	}
	if c, ok := toFloat(f["temperature_c"]); ok {
		t.TemperatureC = &c
	}
	trialKeys, _ := findKey(profileKeys, "trial")
	t.Reserved = f.reserved(trialKeys.keys)
	for _, s := range f.tables("step") {
		t.Steps = append(t.Steps, toStep(s))
	}
	return t
}

func toStep(f fields) model.Step {
	s := model.Step{
		At:      f.moment("at"),
		Add:     model.Add(f.text("add")),
		Spoon:   f.text("spoon"),
		Count:   f.whole("count"),
		Grams:   f.decimal("grams"),
		RestedS: f.optional("rested_s"),
		Marks:   f.texts("marks"),
		Note:    f.text("note"),
	}
	s.Level, s.Looked = toFloat(f["level"])
	return s
}

// readFile reads a file for Decode; a missing one is fs.ErrNotExist.
func readFile(path string) ([]byte, error) {
	info, err := os.Stat(path)
	if err == nil && info.IsDir() {
		return nil, &FileError{path, []Problem{{0, "this is a folder, not a file", "give a file"}}}
	}
	if err == nil && info.Size() > maxFileSize {
		return nil, &FileError{path, []Problem{tooLarge}}
	}
	src, err := os.ReadFile(path)
	if errors.Is(err, fs.ErrNotExist) {
		if _, link := os.Lstat(path); link == nil {
			return nil, &FileError{path, []Problem{{0, "the link leads nowhere", "mend it, or take it away"}}}
		}
		return nil, err
	}
	if err != nil {
		return nil, fmt.Errorf("read %s: %w; check that it may be read", path, err)
	}
	return src, nil
}
