package data

import (
	"errors"
	"fmt"
	"io/fs"
	"math"
	"path/filepath"
	"strings"

	"daub.example/daub/model"
)

// Check says everything that is wrong with a file, and of a sound one what
// the maker should know: a [[ratio]] that is not what its trials say today.
// The file is a list of spoons when it is called spoons.toml, a recipe when it
// has a [recipe] or lies in a folder recipes, else a profile. Own spoons come
// from d.
func Check(file string, d model.Drawer) (problems, warnings []Problem) {
	src, err := readFile(file)
	var refused *FileError
	switch {
	case errors.As(err, &refused):
		return refused.Problems, nil
	case errors.Is(err, fs.ErrNotExist):
		return []Problem{{0, "there is no such file", "check the path"}}, nil
	case err != nil:
		return []Problem{{0, "the file cannot be read: " + err.Error(), "check that it may be read"}}, nil
	}
	if filepath.Base(file) == spoonsFile {
		return checkSpoons(file, src)
	}
	tree, _, _ := parse(src)
	if _, ok := tree["recipe"]; ok || filepath.Base(filepath.Dir(file)) == recipesFolder {
		_, problems = decodeRecipe(src)
		_ = refuse(file, problems) // in the order of their lines
		return problems, nil
	}
	p, ix, problems := decode(src, d)
	if err := refuse(file, problems); err != nil {
		return problems, nil
	}
	return nil, stale(p, d, fields(tree).tables("ratio"), ix)
}

func checkSpoons(file string, src []byte) (problems, warnings []Problem) {
	d, ix, problems := decodeSpoons(src)
	if err := refuse(file, problems); err != nil {
		return problems, nil
	}
	for i, s := range d {
		if model.IsStandardSpoon(s.Name) {
			warnings = append(warnings, Problem{
				ix.line(fmt.Sprintf("spoon[%d].name", i)), fmt.Sprintf("%q is a standard name", s.Name),
				`this size counts only in trials with spoon_set = "own"; give it another name to use it everywhere`,
			})
		}
	}
	return nil, warnings
}

const saveAgain = "save the profile in daub to bring it up to date"

// stale compares the [[ratio]] tables of a file with what would be written.
func stale(p model.Profile, d model.Drawer, have []map[string]any, ix *index) []Problem {
	want := ratios(p, d)
	var out []Problem
	for i := range max(len(have), len(want)) {
		line := ix.line(fmt.Sprintf("ratio[%d]", i))
		switch {
		case i >= len(want):
			out = append(out, Problem{line, "[[ratio]] is stale: nothing in the trials stands behind this one", saveAgain})
		case i >= len(have):
			line = 1
			if len(have) > 0 {
				line = ix.line(fmt.Sprintf("ratio[%d]", len(have)-1))
			}
			out = append(out, Problem{line, fmt.Sprintf("[[ratio]] is stale: %d of %d are missing", len(want)-len(have), len(want)), saveAgain})
			return out
		default:
			if keys := differences(fields(have[i]), want[i]); len(keys) > 0 {
				out = append(out, Problem{
					ix.line(fmt.Sprintf("ratio[%d].%s", i, keys[0])),
					fmt.Sprintf("[[ratio]] is stale: the trials now give another %s", strings.Join(keys, ", ")), saveAgain,
				})
			}
		}
	}
	return out
}

// differences are the keys in which a [[ratio]] table differs from what would
// be written.
func differences(have fields, want model.PowderRatio) []string {
	var keys []string
	differs := func(key string, yes bool) {
		if yes {
			keys = append(keys, key)
		}
	}
	differs("liquid", have.text("liquid") != want.Basis.Liquid)
	differs("rest_s", have.whole("rest_s") != want.Basis.RestS)
	differs("level", have.decimal("level") != want.Level)
	differs("reach", have.text("reach") != want.Reach.String())
	differs("trials", have.whole("trials") != want.Trials)
	values := map[string]float64{}
	for _, v := range ratioValues(want) {
		values[v.name] = v.value
	}
	for _, key := range []string{"liquid_per_powder", "low", "high", "next_low", "next_high", "bound_low", "bound_high"} {
		_, written := have[key]
		v, wanted := values[key]
		differs(key, written != wanted || wanted && !sameRounded(have.decimal(key), v))
	}
	return keys
}

// sameRounded compares two numbers of ratioDigits digits. One unit in the last
// of them may differ: two kinds of processor may round a tie either way.
func sameRounded(a, b float64) bool {
	unit := math.Pow(10, math.Floor(math.Log10(math.Abs(b)))-ratioDigits+1)
	return math.Abs(a-b) < 1.5*unit
}
