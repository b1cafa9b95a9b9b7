package tomlfile

import (
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// texts are files of every kind, good and bad.
func texts(t testing.TB) []string {
	var out []string
	for _, pattern := range []string{"../samples/*/*.toml", "../samples/*.toml", "../../testdata/files/*/*.toml"} {
		files, err := filepath.Glob(pattern)
		require.NoError(t, err)
		for _, file := range files {
			text, err := os.ReadFile(file)
			require.NoError(t, err)
			out = append(out, string(text))
		}
	}
	require.Greater(t, len(out), 40)
	return out
}

// agrees holds what is read in a plain text against the TOML library.
func agrees(t require.TestingT, text string) (plain bool) {
	got, plain := plainTree(text)
	if _, bad := unreadable([]byte(text)); bad || !plain {
		return false // the one is refused before, the other is for the library
	}
	want := map[string]any{}
	require.NoError(t, decodeTOML(text, &want), "%s", text)
	require.Equal(t, want, got, "%s", text)
	return true
}

func TestPlainTextIsReadAsTheLibraryDoes(t *testing.T) {
	plain := 0
	for _, text := range texts(t) {
		if agrees(t, text) {
			plain++
		}
	}
	assert.Greater(t, plain, 20)
	for _, text := range []string{
		"a = \"\"\nb = [ 1, 2 ] # c\n[x]\n[x.y]\nk = -0.5\n[[z]]\n[[z.w]]\nd = " +
			"2026-05-03T10:12:00Z\n[[z]]\n[z.w]\nl = [\"p#\", \"]\"]",
		"a = [true, 0, 1.0]",
	} {
		assert.True(t, agrees(t, text), text)
	}
	for _, text := range []string{
		`a = """x"""`, "a = 01", "a = 1.", "a = .5", "a = 1_000", "a.b = 1", `a = "\n"`,
		"a = 1\na = 2", "[a]\n[a]", "[[a]]\n[a]",
		"a = 1 2", "a = [1,]", "a = [[1]]", "a = {b = 1}", "a = 9999999999999999999", "a = 2026-13-03T10:12:00Z",
		"[a.b]", "a = [1 2]",
		"\"a\" = 1", "a", "= 1", "a =", "a = nan", "a = 0x1", "a = 'x'", "a = \"x\ny\"", "a = 1\r\n",
	} {
		_, ok := plainTree(text)
		assert.False(t, ok, text)
	}
}

// However a line is spoiled: what is taken as plain is read alike by the library.
func TestSpoiledTextIsReadAsTheLibraryDoes(t *testing.T) {
	all := texts(t)
	rapid.Check(t, func(t *rapid.T) {
		text := []byte(rapid.SampledFrom(all).Draw(t, "text"))
		for range rapid.IntRange(1, 3).Draw(t, "changes") {
			if len(text) == 0 {
				break
			}
			at := rapid.IntRange(0, len(text)-1).Draw(t, "at")
			text[at] = rapid.SampledFrom([]byte("[]=.\"'#,\n -+0a\\T:")).Draw(t, "by")
		}
		agrees(t, string(text))
	})
}
