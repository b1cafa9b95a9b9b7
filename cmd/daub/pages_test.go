package main

import (
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// jsonPage is the page on JSON answers, which is held against the goldens.
const jsonPage = "JSON.md"

var (
	fenced = regexp.MustCompile("(?ms)^```[^\n]*\n(.*?)^```")
	ticked = regexp.MustCompile("`([^`\n]+)`")
	// dashed finds words with the dashes before them: --level is not the key level.
	dashed = regexp.MustCompile(`-*\w+`)
)

func TestJSONPageNamesEveryJSONKey(t *testing.T) {
	named := map[string]bool{}
	for _, code := range codeIn(read(t, jsonPage)) {
		if strings.HasPrefix(code, "daub ") { // "daub fit" is not the key fit
			continue
		}
		for _, word := range dashed.FindAllString(code, -1) {
			named[word] = true
		}
	}
	goldens, err := filepath.Glob(filepath.Join(cases, "keys-*.txt"))
	require.NoError(t, err)
	require.NotEmpty(t, goldens)
	goldens = append(goldens, "../../testdata/export/json-keys.txt")
	missing := map[string]string{} // the first golden that has the key
	for _, golden := range goldens {
		for line := range strings.Lines(read(t, golden)) {
			path, _, _ := strings.Cut(line, ": ")
			for part := range strings.SplitSeq(path, ".") { // an object has no line of its own
				key := strings.TrimRight(part, "[]")
				if key != "" && !named[key] && missing[key] == "" {
					missing[key] = filepath.Base(golden)
				}
			}
		}
	}
	assert.Empty(t, missing, "keys that JSON.md does not name, and where they occur")
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

// codeIn lists what stands in backticks, and the lines of fenced blocks.
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
	linked  = regexp.MustCompile(`\]\(([^)#]+)`)
	goFile  = regexp.MustCompile("`((?:cmd|tui|data|model)/[a-z/]+\\.go)`")
	command = regexp.MustCompile("(?m)^\\| `daub ([a-z]+)")
)

// TestPagesLeadSomewhere follows every relative link of the pages, every file
// that DEVELOPERS.md names, and every command of the README.
func TestPagesLeadSomewhere(t *testing.T) {
	root := filepath.Join("..", "..")
	for _, page := range []string{
		"README.md", "DEVELOPERS.md", "data/FORMAT.md", "cmd/daub/JSON.md",
		"model/METHOD.md",
	} {
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
	commands := command.FindAllStringSubmatch(readme, -1)
	require.NotEmpty(t, commands)
	for _, m := range commands {
		got := daub(testHost(t), m[1], "--help")
		assert.Zero(t, got.code, "daub %s: %s", m[1], got.err)
	}
}

// The README's screens are frames that are held as they are drawn.
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
