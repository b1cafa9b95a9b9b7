package main

import (
	"io/fs"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// jsonPage is the page on JSON answers.
const jsonPage = "JSON.md"

// pages are all pages, from the top of the module.
var pages = []string{"README.md", "DEVELOPERS.md", "data/FORMAT.md", "cmd/daub/JSON.md", "model/METHOD.md"}

var (
	fenced = regexp.MustCompile("(?ms)^```[^\n]*\n(.*?)^```")
	ticked = regexp.MustCompile("`([^`\n]+)`")
	// dashed finds words with the dashes before them: --level is not the key level.
	dashed  = regexp.MustCompile(`-*\w+`)
	numeral = regexp.MustCompile(`^\d+$`)
	jsonTag = regexp.MustCompile(`json:"([^",]+)`)
)

// TestJSONPageNamesTheKeysThatAreWritten holds the page against the tags of what
// is written as JSON: each is named, and what is named is one.
func TestJSONPageNamesTheKeysThatAreWritten(t *testing.T) {
	named := map[string]bool{}
	for _, code := range codeIn(read(t, jsonPage)) {
		if strings.HasPrefix(code, "daub ") || strings.HasPrefix(code, `"`) && !strings.Contains(code, `": `) {
			continue // a command, or what a text may say
		}
		for _, word := range dashed.FindAllString(code, -1) {
			isKey := !strings.HasPrefix(word, "-") && !strings.HasPrefix(code, "-") && !strings.HasPrefix(code, ".")
			if isKey && word != "null" && !numeral.MatchString(word) {
				named[word] = true
			}
		}
	}
	written := map[string]bool{}
	require.NoError(t, filepath.WalkDir("../..", func(path string, _ fs.DirEntry, err error) error {
		if err == nil && strings.HasSuffix(path, ".go") && !strings.HasSuffix(path, "_test.go") {
			for _, tag := range jsonTag.FindAllStringSubmatch(read(t, path), -1) {
				written[tag[1]] = true
			}
		}
		return err
	}))
	assert.Greater(t, len(written), 200)
	for key := range written {
		assert.True(t, named[key], "JSON.md does not name the key %s", key)
	}
	for word := range named {
		assert.True(t, written[word], "JSON.md names %s, which no answer has", word)
	}
}

func TestJSONPageNamesEveryCommandWithJSON(t *testing.T) {
	section := codeIn(read(t, jsonPage))
	found := 0
	var look func(cmd *cobra.Command)
	look = func(cmd *cobra.Command) {
		for _, child := range cmd.Commands() {
			look(child)
		}
		if cmd.Flags().Lookup("json") == nil {
			return
		}
		found++
		name := cmd.CommandPath()
		for _, code := range section {
			if strings.HasPrefix(code+" ", name+" ") {
				return
			}
		}
		assert.Failf(t, "not in JSON.md", "%s --json", name)
	}
	look((&app{host: testHost(t)}).root())
	require.NotZero(t, found)
}

// codeIn lists the texts in backticks and the lines of fenced blocks.
func codeIn(markdown string) []string {
	var out []string
	for _, block := range fenced.FindAllStringSubmatch(markdown, -1) {
		for line := range strings.Lines(block[1]) {
			out = append(out, strings.TrimSpace(line))
		}
	}
	for _, span := range ticked.FindAllStringSubmatch(fenced.ReplaceAllString(markdown, ""), -1) {
		out = append(out, span[1])
	}
	return out
}

var (
	linked = regexp.MustCompile(`\]\(([^)#]+)`)
	goFile = regexp.MustCompile("`((?:cmd|tui|data|model)/[a-z0-9_/]+\\.go)`")
)

// TestPagesLeadSomewhere follows every relative link of the pages and every file
// that they name.
func TestPagesLeadSomewhere(t *testing.T) {
	root := filepath.Join("..", "..")
	for _, page := range pages {
		text := read(t, filepath.Join(root, page))
		for _, m := range linked.FindAllStringSubmatch(text, -1) {
			assert.FileExists(t, filepath.Join(root, filepath.Dir(page), m[1]), page)
		}
		for _, m := range goFile.FindAllStringSubmatch(text, -1) {
			assert.FileExists(t, filepath.Join(root, m[1]), page)
		}
	}
	readme := read(t, filepath.Join(root, "README.md"))
	assert.LessOrEqual(t, strings.Count(readme, "\n"), 250, "what a newcomer does not need stands beside the code")
}

// The README's screens equal the golden frames.
func TestTheREADMEShowsScreensAsTheyAre(t *testing.T) {
	readme := read(t, filepath.Join("..", "..", "README.md"))
	frames, err := filepath.Glob(filepath.Join("..", "..", "testdata", "frames", "*-80x24.txt"))
	require.NoError(t, err)
	var known []string
	for _, file := range frames {
		known = append(known, strings.TrimSpace(read(t, file)))
	}
	shown := 0
	for _, block := range regexp.MustCompile(`(?m)^    daub  (?:.*\n(?:    |\n    ))+.*`).FindAllString(readme, -1) {
		frame := strings.TrimSpace(strings.ReplaceAll("\n"+block, "\n    ", "\n"))
		require.Contains(t, known, frame, "copy the frame from testdata/frames")
		shown++
	}
	require.Equal(t, 3, shown)
}
