package data

import (
	"bytes"
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"path/filepath"
	"slices"
	"strings"

	"daub.example/daub/data/record"
	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
	"daub.example/daub/model/repeats"
)

// Check lists everything wrong with a file. For a sound file it gives warnings,
// such as a [[ratio]] that differs from what its trials say today. The file is a
// list of spoons if called spoons.toml, a recipe if it has a [recipe] or lies in a
// folder recipes, else a profile. Own spoons come from own.
func Check(file string, own model.OwnSpoons) (problems, warnings []tomlfile.Problem) {
	src, err := readFile(file)
	var refused *tomlfile.Error
	switch {
	case errors.As(err, &refused):
		return refused.Problems, nil
	case errors.Is(err, fs.ErrNotExist):
		return []tomlfile.Problem{{What: "there is no such file", Fix: "check the path"}}, nil
	case err != nil:
		return []tomlfile.Problem{{
			What: "the file cannot be read: " + err.Error(),
			Fix:  "check that it may be read",
		}}, nil
	}
	if filepath.Base(file) == spoonsFile {
		return checkSpoons(src)
	}
	doc, problems := tomlfile.Parse(src)
	if problems != nil {
		return problems, nil
	}
	if holdsRecipe(file, doc) {
		_, problems = record.RecipeOf(doc)
		return problems, nil
	}
	f, problems := record.ProfileOf(doc, own)
	if len(problems) > 0 {
		return problems, nil
	}
	if f.Trusted(src, own) == nil { // something was changed since the table was worked out
		warnings = stale(f, record.RatioRows(f.Profile, own), doc)
	}
	return nil, byLine(slices.Concat(warnings, timings(f.Profile, doc), keptIn(f.Profile, doc)))
}

// byLine sorts warnings by line.
func byLine(warnings []tomlfile.Problem) []tomlfile.Problem {
	slices.SortStableFunc(warnings, func(a, b tomlfile.Problem) int { return cmp.Compare(a.Line, b.Line) })
	return warnings
}

// keptAt warns of values kept untouched in a table at path, because they have
// another shape than daub reads there.
func keptAt(doc *tomlfile.Document, path string, reserved map[string]any) (warnings []tomlfile.Problem) {
	for _, key := range slices.Sorted(maps.Keys(reserved)) {
		warnings = append(warnings, tomlfile.Problem{
			Line: doc.Line(path + key), What: key + " is not written as daub writes it: kept untouched, not used",
			Fix: "write it as data/FORMAT.md has it, or leave it",
		})
	}
	return warnings
}

// keptIn is keptAt for a whole profile.
func keptIn(p model.Profile, doc *tomlfile.Document) []tomlfile.Problem {
	warnings := keptAt(doc, "", p.Reserved)
	for i, t := range p.Trials {
		at := fmt.Sprintf("trial[%d].", i)
		warnings = append(warnings, keptAt(doc, at, t.Reserved)...)
		for j, s := range t.Steps {
			warnings = append(warnings, keptAt(doc, fmt.Sprintf("%sstep[%d].", at, j), s.Reserved)...)
		}
	}
	return warnings
}

// timings warns of looks far too early or too late.
func timings(p model.Profile, doc *tomlfile.Document) (warnings []tomlfile.Problem) {
	for i, t := range p.Trials {
		rest := t.Rest(p.Powder.Kind())
		for j, s := range t.Steps {
			when := s.Timing(rest)
			if when == model.InTime || s.LeftOut || t.SetAside != "" {
				continue
			}
			warnings = append(warnings, tomlfile.Problem{
				Line: doc.Line(fmt.Sprintf("trial[%d].step[%d].rested_s", i, j)),
				What: fmt.Sprintf("the look was %s: after %s of a rest of %s", when, model.Seconds(*s.RestedS),
					model.Seconds(rest)),
				Fix: "it counts; use = false leaves it out of the answer",
			})
		}
	}
	return warnings
}

func checkSpoons(src []byte) (problems, warnings []tomlfile.Problem) {
	own, doc, problems := record.ReadSpoons(src)
	if len(problems) > 0 {
		return problems, nil
	}
	for i, s := range own {
		warnings = append(warnings, keptAt(doc, fmt.Sprintf("spoon[%d].", i), s.Reserved)...)
		if model.IsStandardSpoon(s.Name) {
			warnings = append(warnings, tomlfile.Problem{
				Line: doc.Line(fmt.Sprintf("spoon[%d].name", i)), What: fmt.Sprintf("%q is a standard name", s.Name),
				Fix: `this size counts only in trials with spoon_set = "own"; ` +
					"give it another name to use it everywhere",
			})
		}
	}
	return nil, byLine(warnings)
}

const saveAgain = "daub check --renew writes the table anew"

// stale compares the [[ratio]] tables of a file with those that would be written.
func stale(f record.ProfileFile, want []repeats.Row, doc *tomlfile.Document) []tomlfile.Problem {
	have := f.Ratios
	var out []tomlfile.Problem
	for i := range max(len(have), len(want)) {
		line := doc.Line(fmt.Sprintf("ratio[%d]", i))
		switch {
		case i >= len(want):
			out = append(out, tomlfile.Problem{
				Line: line,
				What: "[[ratio]] is stale: nothing in the trials stands behind this one", Fix: saveAgain,
			})
		case i >= len(have):
			line = 1
			if len(have) > 0 {
				line = doc.Line(fmt.Sprintf("ratio[%d]", len(have)-1))
			}
			out = append(out, tomlfile.Problem{
				Line: line,
				What: fmt.Sprintf("[[ratio]] is stale: %d of %d are missing", len(want)-len(have),
					len(want)), Fix: saveAgain,
			})
			return out
		default:
			if keys := record.RatioDifferences(have[i].Row, want[i]); len(keys) > 0 {
				out = append(out, tomlfile.Problem{
					Line: doc.Line(fmt.Sprintf("ratio[%d].%s", i, keys[0])),
					What: fmt.Sprintf("[[ratio]] is stale: the trials now give another %s",
						strings.Join(keys, ", ")), Fix: saveAgain,
				})
			}
		}
	}
	return out
}

// ReadPowder reads a profile from a file that need not be on a shelf. A missing
// file is an fs.ErrNotExist, a refused one a *FileError.
func ReadPowder(file string, own model.OwnSpoons) (model.Profile, error) {
	src, err := readFile(file)
	if err != nil {
		return model.Profile{}, err
	}
	if doc, problems := tomlfile.Parse(src); problems == nil && holdsRecipe(file, doc) {
		return model.Profile{}, fmt.Errorf("%s: this is a recipe, not a powder; daub recipe show %s shows it", file,
			strings.TrimSuffix(filepath.Base(file), extension))
	}
	return record.Decode(file, src, own)
}

// Renew writes a profile's ratio table and its fingerprint again. changed says that
// the file was different before; a file that is no profile stays as it is. The
// error says what is wrong with the file, or is ErrChanged.
func Renew(file string, own model.OwnSpoons) (changed bool, err error) {
	src, err := readFile(file)
	if err != nil {
		return false, err
	}
	if isProfile, err := holdsProfile(file, src); err != nil || !isProfile {
		return false, err
	}
	f, doc, problems := record.ReadProfile(src, own)
	if err := tomlfile.Refuse(file, problems); err != nil {
		return false, err
	}
	text, err := record.WriteProfile(f.Profile, record.RatioRows(f.Profile, own), own, doc)
	if err != nil {
		return false, fmt.Errorf("renew %s: %w", file, err)
	}
	if bytes.Equal(text, src) {
		return false, nil
	}
	folder := filepath.Dir(file)
	if filepath.Base(folder) != powdersFolder { // not on a shelf: there is no lock
		return true, Open(folder, nil).replace(file, text, src)
	}
	err = Open(filepath.Dir(folder), nil).rewrite(file, text, doc)
	return true, err
}

// holdsProfile tells a profile from a recipe and a list of spoons.
func holdsProfile(file string, src []byte) (bool, error) {
	doc, problems := tomlfile.Parse(src)
	if err := tomlfile.Refuse(file, problems); err != nil {
		return false, err
	}
	return filepath.Base(file) != spoonsFile && !holdsRecipe(file, doc), nil
}

func holdsRecipe(file string, doc *tomlfile.Document) bool {
	_, ok := doc.Tree["recipe"]
	return ok || filepath.Base(filepath.Dir(file)) == recipesFolder
}
