package data

import (
	"os"
	"path/filepath"
	"testing"

	"daub.example/daub/data/record"
	"daub.example/daub/data/tomlfile"
	"github.com/stretchr/testify/require"
)

// seed gives a fuzz test the files that fit the patterns.
func seed(f *testing.F, patterns ...string) {
	for _, pattern := range patterns {
		files, _ := filepath.Glob(pattern)
		for _, file := range files {
			if src, err := os.ReadFile(file); err == nil {
				f.Add(src)
			}
		}
	}
}

// Whatever decodes is written so that it reads back the same.
func FuzzDecode(f *testing.F) {
	seed(f, filesFolder+"/good/*.toml", filesFolder+"/bad/*.toml", "samples/powders/*.toml")
	f.Fuzz(func(t *testing.T, src []byte) {
		p, err := record.Decode("f.toml", src, nil)
		if err != nil {
			require.NotEmpty(t, err.Error())
			return
		}
		once, err := record.Encode(p, nil, src)
		require.NoError(t, err)
		q, err := record.Decode("f.toml", once, nil)
		require.NoError(t, err, "%s", once)
		twice, err := record.Encode(q, nil, once)
		require.NoError(t, err)
		require.Equal(t, string(once), string(twice))
		r, err := record.Decode("f.toml", twice, nil)
		require.NoError(t, err)
		require.Equal(t, canon(q), canon(r))
		if !manyDigits(src) { // those are rounded on purpose
			require.Equal(t, canon(p), canon(q))
		}
		assertComments(t, src, once)
	})
}

// Whatever reads as a recipe is written so that it reads back the same.
func FuzzRecipe(f *testing.F) {
	seed(f, recipeFiles+"/good/*.toml", recipeFiles+"/bad/*.toml", "samples/recipes/*.toml")
	f.Fuzz(func(t *testing.T, src []byte) {
		r, doc, problems := record.ReadRecipe(src)
		if len(problems) > 0 {
			require.NotEmpty(t, tomlfile.Refuse("f.toml", problems).Error())
			return
		}
		once, err := record.WriteRecipe(r, doc)
		require.NoError(t, err)
		again, doc, problems := record.ReadRecipe(once)
		require.Empty(t, problems, "%s", once)
		twice, err := record.WriteRecipe(again, doc)
		require.NoError(t, err)
		require.Equal(t, string(once), string(twice))
		assertComments(t, src, once)
	})
}

// Whatever reads as a list of own spoons is written so that it reads back the
// same.
func FuzzSpoons(f *testing.F) {
	f.Add([]byte("[[spoon]]\nname = \"blue scoop\"\nvolume_ml = 8.0\nstandard_uncertainty_ml = 0.1 # on the scale\n"))
	f.Add([]byte("spoon = [{name = \"1 tsp\", volume_ml = 5}, {name = 'cap', volume_ml = 4.5}]\n"))
	f.Fuzz(func(t *testing.T, src []byte) {
		spoons, doc, problems := record.ReadSpoons(src)
		if len(problems) > 0 {
			require.NotEmpty(t, tomlfile.Refuse("f.toml", problems).Error())
			return
		}
		once, err := record.WriteSpoons(spoons, doc)
		require.NoError(t, err)
		again, doc, problems := record.ReadSpoons(once)
		require.Empty(t, problems, "%s", once)
		require.Len(t, again, len(spoons))
		twice, err := record.WriteSpoons(again, doc)
		require.NoError(t, err)
		require.Equal(t, string(once), string(twice))
	})
}

// manyDigits reports whether a text may hold a number of more digits than
// anybody types, an exponent included.
func manyDigits(src []byte) bool {
	run := 0
	for _, c := range src {
		switch {
		case c >= '0' && c <= '9' || c == '.' || c == '_' || c == '+' || c == '-' || c == 'e' || c == 'E':
			if run++; run > 15 {
				return true
			}
		default:
			run = 0
		}
	}
	return false
}
