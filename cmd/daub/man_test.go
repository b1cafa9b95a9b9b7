package main

import (
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/spf13/pflag"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// Every command and topic has a page, and every flag of the command is on it.
func TestManualPages(t *testing.T) {
	h := testHost(t)
	dir := filepath.Join(t.TempDir(), "man1")
	require.Zero(t, daub(h, "man", dir).code)
	written, err := os.ReadDir(dir)
	require.NoError(t, err)
	page := func(name string) string {
		text, err := os.ReadFile(filepath.Join(dir, name+".1"))
		require.NoError(t, err)
		return string(text)
	}
	list := page("daub-list")
	assert.True(t, strings.HasPrefix(list, `.TH "DAUB\-LIST" 1 `))
	for _, part := range []string{
		"\n.SH NAME\n", "\n.SH OPTIONS\n", `\fB\-\-level\fR \fIL\fR`,
		`\fB\-\-shelf\fR \fIDIR\fR`, "\n.SH EXAMPLES\n",
	} {
		assert.Contains(t, list, part)
	}
	assert.Contains(t, page("daub-levels"), "ribbon")
	assert.Contains(t, page("daub"), `\fBdaub\-recipe\fR(1)`)
	commands := allCommands((&app{host: h}).root())
	assert.Equal(t, len(commands), len(written), "a page for each, and no other")
	for _, cmd := range commands {
		text := page(strings.ReplaceAll(cmd.CommandPath(), " ", "-"))
		check := func(f *pflag.Flag) {
			name := `\fB\-\-` + strings.ReplaceAll(f.Name, "-", `\-`) + `\fR`
			assert.Equal(t, !f.Hidden, strings.Contains(text, name), "%s --%s", cmd.CommandPath(), f.Name)
		}
		if cmd.Runnable() {
			cmd.Flags().VisitAll(check)
			cmd.InheritedFlags().VisitAll(check)
		}
	}
	for _, p := range written {
		text := page(strings.TrimSuffix(p.Name(), ".1"))
		for line := range strings.Lines(text) {
			if strings.HasPrefix(line, ".") {
				request, _, _ := strings.Cut(strings.TrimSpace(line), " ")
				assert.Contains(t, []string{".TH", ".SH", ".TP", ".nf", ".fi"}, request, p.Name())
			}
		}
	}
	again := daub(h, "man", dir)
	assert.Zero(t, again.code, "pages are replaced")
}

func TestHelpTopics(t *testing.T) {
	h := testHost(t)
	for topic, fact := range map[string]string{
		"levels": "6", "behaviour": "rafts", "files": "powders/", "method": "next dish",
	} {
		got := daub(h, "help", topic)
		require.Zero(t, got.code, topic)
		assert.Contains(t, got.out, fact)
		for line := range strings.Lines(got.out) {
			assert.LessOrEqual(t, len([]rune(strings.TrimSuffix(line, "\n"))), 80, line)
		}
	}
	assert.Contains(t, daub(h, "--help").out, "daub levels")
}
