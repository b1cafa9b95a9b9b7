package main

import (
	"io/fs"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

var (
	indented  = regexp.MustCompile(`(?m)^    (.+)`)
	comment   = regexp.MustCompile(`\s+# .*|\s{3,}.*`) // the remark beside an example
	tableRow  = regexp.MustCompile("(?m)^\\| `(daub[^|]*)\\|(.*)\\|")
	flagName  = regexp.MustCompile(`^--([a-z][a-z-]*)`)
	testNamed = regexp.MustCompile(`\b(Test|Benchmark|Fuzz)[A-Z]\w*`)
	goLine    = regexp.MustCompile("\\bgo (?:test|run|install) [^`\n]*")
	goFlag    = regexp.MustCompile(` -([a-z]+)`)
	goTags    = regexp.MustCompile(` -tags (\w+)`)
	testFlag  = regexp.MustCompile(`= flag\.\w+\("(\w+)"`)
	buildTag  = regexp.MustCompile(`(?m)^//go:build (\w+)$`)
	goFolder  = regexp.MustCompile(` \./([a-z/]+)`)
	testFunc  = regexp.MustCompile(`(?m)^func ((?:Test|Benchmark|Fuzz)[A-Z]\w*)\(`)
)

// goFlags are the flags of the go command that the pages use.
const goFlags = "bench coverpkg coverprofile fuzz fuzzminimizetime fuzztime run short tags timeout v"

// allCommands returns a command and every visible one below it, also the help
// topics.
func allCommands(cmd *cobra.Command) []*cobra.Command {
	cmd.InitDefaultHelpFlag()
	all := []*cobra.Command{cmd}
	for _, c := range cmd.Commands() {
		if !c.Hidden && c.Name() != "help" {
			all = append(all, allCommands(c)...)
		}
	}
	return all
}

// wrongIn says what is wrong with a command line that starts with daub: no such
// command, or no such flag. It returns "" if nothing is.
func wrongIn(root *cobra.Command, line string) string {
	line, _, _ = strings.Cut(line, " | ")
	words := strings.Fields(line)[1:]
	if len(words) > 0 && words[0] == "help" { // daub help levels
		words = words[1:]
	}
	cmd, rest, err := root.Find(words)
	if err != nil {
		return err.Error()
	}
	named := len(words) > 0 && !strings.HasPrefix(words[0], "-")
	if cmd == root && named {
		return "there is no command " + words[0]
	}
	if len(rest) > 0 && cmd != root && cmd.HasSubCommands() && !strings.HasPrefix(rest[0], "-") {
		return "there is no " + cmd.CommandPath() + " " + rest[0]
	}
	for _, word := range words {
		if m := flagName.FindStringSubmatch(word); m != nil && cmd.Flag(m[1]) == nil {
			return cmd.CommandPath() + " takes no " + word
		}
	}
	return ""
}

// TestPagesNameCommandsThatThereAre checks every command line and flag on the
// pages, and in the examples of help, against the commands.
func TestPagesNameCommandsThatThereAre(t *testing.T) {
	root := (&app{host: testHost(t)}).root()
	commands := allCommands(root)
	flags := map[string]bool{}
	for _, cmd := range commands {
		cmd.NonInheritedFlags().VisitAll(func(f *pflag.Flag) { flags[f.Name] = true })
	}
	lines := 0
	hold := func(where, code string) {
		line := strings.TrimSpace(comment.ReplaceAllString(strings.TrimSpace(code), ""))
		line = strings.Replace(line, "go run ./cmd/daub", "daub", 1)
		if line == "daub" || strings.HasPrefix(line, "daub ") {
			lines++
			assert.Empty(t, wrongIn(root, line), "%s: %s", where, line)
		}
		if m := flagName.FindStringSubmatch(line); m != nil {
			assert.True(t, flags[m[1]], "%s: no command takes %s", where, line)
		}
	}
	for _, page := range pages {
		text := read(t, filepath.Join("..", "..", page))
		for _, code := range codeIn(text) {
			if code != "--infilter" { // of the program that reads spreadsheets
				hold(page, code)
			}
		}
		for _, m := range indented.FindAllStringSubmatch(text, -1) {
			if strings.HasPrefix(m[1], "go ") {
				hold(page, m[1])
			}
		}
	}
	require.Greater(t, lines, 50)
	for _, cmd := range commands {
		for line := range strings.Lines(cmd.Example) {
			hold("help of "+cmd.CommandPath(), line)
		}
	}
}

// The README's table has every command, and every one below recipe.
func TestTheREADMEListsEveryCommand(t *testing.T) {
	rows := tableRow.FindAllStringSubmatch(read(t, filepath.Join("..", "..", "README.md")), -1)
	require.NotEmpty(t, rows)
	listed := map[string]string{} // what the row says
	for _, row := range rows {
		for i, span := range ticked.FindAllStringSubmatch("`"+row[1], -1) {
			name := strings.TrimPrefix(strings.TrimPrefix(span[1], "daub "), "help ")
			if i == 0 {
				name, _, _ = strings.Cut(name, " --")
			}
			listed[name] = row[2]
		}
	}
	root := (&app{host: testHost(t)}).root()
	for name := range listed {
		if name != "daub" {
			assert.Empty(t, wrongIn(root, "daub "+name))
		}
	}
	for _, cmd := range root.Commands() {
		if cmd.Hidden || cmd.Name() == "help" {
			continue
		}
		says, ok := listed[cmd.Name()]
		assert.True(t, ok, "the README does not list daub %s", cmd.Name())
		if cmd.Name() == "recipe" {
			for _, below := range cmd.Commands() {
				assert.Regexp(t, `\b`+below.Name()+`\b`, says)
			}
		}
	}
}

// Every test, benchmark and fuzz target named on the pages exists, alone or as the
// beginning of several names. So does every folder, tag and flag given to the go
// command.
func TestPagesNameTestsThatThereAre(t *testing.T) {
	root := filepath.Join("..", "..")
	var funcs []string
	tags, flags := map[string]bool{}, map[string]bool{}
	for flag := range strings.FieldsSeq(goFlags) {
		flags[flag] = true
	}
	require.NoError(t, filepath.WalkDir(root, func(path string, _ fs.DirEntry, err error) error {
		if err == nil && strings.HasSuffix(path, "_test.go") {
			text := read(t, path)
			for _, m := range testFunc.FindAllStringSubmatch(text, -1) {
				funcs = append(funcs, m[1])
			}
			for _, m := range testFlag.FindAllStringSubmatch(text, -1) {
				flags[m[1]] = true
			}
			for _, m := range buildTag.FindAllStringSubmatch(text, -1) {
				tags[m[1]] = true
			}
		}
		return err
	}))
	there := "\n" + strings.Join(funcs, "\n")
	named := 0
	for _, page := range pages {
		text := read(t, filepath.Join(root, page))
		for _, name := range testNamed.FindAllString(text, -1) {
			named++
			assert.True(t, strings.Contains(there, "\n"+name), "%s: %s", page, name)
		}
		for _, line := range goLine.FindAllString(text, -1) {
			if strings.Contains(line, "go test") {
				line, _, _ = strings.Cut(line, " && ")
				for _, m := range goFlag.FindAllStringSubmatch(line, -1) {
					assert.True(t, flags[m[1]], "%s: no test has the flag -%s", page, m[1])
				}
				for _, m := range goTags.FindAllStringSubmatch(line, -1) {
					assert.True(t, tags[m[1]], "%s: no file has the tag %s", page, m[1])
				}
			}
			for _, folder := range goFolder.FindAllStringSubmatch(line, -1) {
				assert.DirExists(t, filepath.Join(root, folder[1]), page)
			}
		}
	}
	require.NotZero(t, named)
}
