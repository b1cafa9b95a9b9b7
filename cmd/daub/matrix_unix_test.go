//go:build !windows

package main

import (
	"flag"
	"io/fs"
	"net"
	"os"
	"path/filepath"
	"strings"
	"syscall"
	"testing"

	"daub.example/daub/data/tomlfile"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// hostileTexts are texts that are no profile, or an unsound one.
func hostileTexts(sound string) map[string]string {
	trial := "schema = 1\n[powder]\nname = \"x\"\n[[trial]]\nstarted = 2026-05-03T10:12:00Z\nliquid_g = "
	step := "20.0\n[[trial.step]]\nadd = \"powder\"\nlevel = 3.0\ngrams = "
	texts := map[string]string{
		"empty":             "",
		"blank":             " \n\t\n",
		"zero":              "schema = 1\n\x00",
		"mark":              string(tomlfile.ByteOrderMark) + sound,
		"crlf":              strings.ReplaceAll(sound, "\n", "\r\n"),
		"cr":                strings.ReplaceAll(sound, "\n", "\r"),
		"utf-16":            "\xff\xfes\x00c\x00h\x00e\x00m\x00a\x00",
		"utf-16-be":         "\xfe\xff\x00s\x00c\x00h\x00e\x00m\x00a",
		"latin-1":           "schema = 1\n[powder]\nname = \"gr\xfcn\"\n",
		"surrogate":         "schema = 1\n[powder]\nname = \"\xed\xa0\x80\"\n",
		"deep list":         "a = " + strings.Repeat("[", 1<<20),
		"deep table":        "a = " + strings.Repeat("{a=", 1<<20),
		"deep key":          strings.Repeat("a.", 1<<20) + "a = 1",
		"deep header":       "[" + strings.Repeat("a.", 1<<20) + "a]",
		"key twice":         "schema = 1\nschema = 1\n",
		"table twice":       "schema = 1\n[powder]\nname = \"x\"\n[powder]\nname = \"y\"\n",
		"table for list":    "schema = 1\npowder = [1]\ntrial = { a = 1 }\n",
		"another schema":    "schema = 99\n[powder]\nname = \"x\"\n",
		"no schema":         "[powder]\nname = \"x\"\n",
		"huge schema":       "schema = 9223372036854775807\n",
		"beyond 64 bits":    "schema = 99999999999999999999999\n",
		"long name":         "schema = 1\n[powder]\nname = \"" + strings.Repeat("x", 5_000_000) + "\"\n",
		"long key":          strings.Repeat("x", 5_000_000) + " = 1\n",
		"controls":          "schema = 1\n[powder]\nname = \"\\u001b[31m\\u202e\\u009b\"\n",
		"date that is none": strings.Replace(trial, "05-03", "13-45", 1) + step + "1.0\n",
		"merge marks":       "<<<<<<< ours\n" + sound + "=======\n" + sound + ">>>>>>> theirs\n",
		"cut off":           sound[:len(sound)/2],
		"binary":            "\x7fELF\x02\x01\x01" + strings.Repeat("\x00\xff", 1000),
		"web page":          "<!doctype html><title>Sign in</title>",
		"one long line":     strings.Repeat("x", tomlfile.MaxFileSize),
		"too large":         strings.Repeat("#\n", tomlfile.MaxFileSize),
	}
	for name, number := range map[string]string{
		"inf": "inf", "-inf": "-inf", "nan": "nan", "largest": "1.7976931348623157e308", "beyond": "1e999",
		"smallest": "5e-324", "minus zero": "-0.0", "minus": "-1.0", "whole": "9223372036854775807", "text": "\"1\"",
	} {
		texts["grams "+name] = trial + step + number + "\n"
		texts["liquid "+name] = strings.Replace(trial+step+"1.0\n", "20.0", number, 1)
		texts["level "+name] = strings.Replace(trial+step+"1.0\n", "3.0", number, 1)
	}
	return texts
}

// hostileNames are names that a file may have and nobody would choose.
var hostileNames = []string{
	"\x1b[31mred", "two\nlines", "tab\there", "\u202eright", "\u2028", "\u009b2J", "\xff\xfe",
	"-rf", "--json", "~", "$HOME",
	"a b", "CON", "..", ".hidden", strings.Repeat("n", 250), "'\"", "*", "名前", "x.toml", "<script>",
}

// matrixShelf is a shelf with the powders a and b and the recipe mask, and every
// kind of hostile file. slugs are the names of those among the powders.
func matrixShelf(t *testing.T) (h host, slugs []string) {
	h = testHost(t)
	clay := read(t, lightClay)
	for _, slug := range []string{"a", "b"} {
		shelve(t, h, slug, strings.ReplaceAll(clay, "Light white clay", slug))
	}
	require.Zero(t, daub(h, "batch", "a", "--total", "120", "--save", "mask").code)
	for _, folder := range []string{"powders", "recipes"} {
		dir := filepath.Join(h.shelf, folder)
		require.NoError(t, os.MkdirAll(dir, 0o755))
		file := func(name string) string {
			if folder == "powders" {
				slugs = append(slugs, name)
			}
			return filepath.Join(dir, name+".toml")
		}
		for name, text := range hostileTexts(clay) {
			require.NoError(t, os.WriteFile(file(name), []byte(text), 0o644))
		}
		for _, name := range hostileNames {
			require.NoError(t, os.WriteFile(file(name), []byte("evil = \"\\u001b\"\n"), 0o644))
		}
		require.NoError(t, syscall.Mkfifo(file("pipe"), 0o644))
		require.NoError(t, os.Mkdir(file("folder"), 0o755))
		require.NoError(t, os.Symlink("/dev/zero", file("zeroes")))
		require.NoError(t, os.Symlink("/dev/tty", file("terminal")))
		require.NoError(t, os.Symlink(file("loop two"), file("loop one")))
		require.NoError(t, os.Symlink(file("loop one"), file("loop two")))
		require.NoError(t, os.Symlink("nowhere", file("link to nowhere")))
		require.NoError(t, os.Symlink("..", file("link to a folder")))
		require.NoError(t, os.WriteFile(file("locked"), []byte(clay), 0))
		short, err := os.MkdirTemp("", "s") // the name of a socket may have no more than a hundred bytes
		require.NoError(t, err)
		socket, err := net.Listen("unix", filepath.Join(short, "s"))
		require.NoError(t, err)
		require.NoError(t, os.Rename(filepath.Join(short, "s"), filepath.Join(dir, "socket.toml")))
		t.Cleanup(func() { _ = socket.Close(); _ = os.RemoveAll(short) })
		slugs = append(slugs, "socket")
	}
	return h, slugs
}

// listing returns every name below a folder, with the kind of file and the text of
// plain ones.
func listing(t *testing.T, dir string) map[string]string {
	out := map[string]string{}
	require.NoError(t, filepath.WalkDir(dir, func(path string, d fs.DirEntry, err error) error {
		require.NoError(t, err)
		if out[path] = d.Type().String(); d.Type().IsRegular() {
			text, err := os.ReadFile(path)
			if err == nil {
				out[path] += string(text)
			}
		}
		return nil
	}))
	return out
}

var matrix = flag.Bool("matrix", false, "run every command on the hostile shelf, and four on each of its files")

// TestEveryCommandOnAHostileShelf runs commands on a shelf with everything that may
// lie there. None hangs, panics or takes all memory; nothing printed steers a
// terminal; the exit codes are the promised ones. Sound files work, and no hostile
// file is touched. With -matrix it runs every command, in a minute or two.
func TestEveryCommandOnAHostileShelf(t *testing.T) {
	if testing.Short() {
		t.Skip("reads hundreds of hostile files")
	}
	h, slugs := matrixShelf(t)
	before := listing(t, h.shelf)
	run := func(args ...string) said {
		h.in = strings.NewReader("quit\n")
		got := frugally(t, h, 2<<30, args...) // two hundred files
		what := strings.Join(args, " ")
		requireHarmless(t, what[:min(len(what), 60)], got.out, got.err)
		require.Contains(t, []int{exitAnswered, exitBadData, exitMisused, exitCannot}, got.code, "%.60s", what)
		require.NotEmpty(t, got.out+got.err, "%.60s", what)
		return got
	}
	commands := [][]string{{"list"}, {"show", "a"}, {"batch", "a", "--total", "100"}, {"recipe", "list"}}
	if *matrix {
		commands = everyCommand(filepath.Join(h.shelf, "powders", "a.toml"))
	}
	for _, args := range commands {
		got := run(args...)
		if args[0] == "show" && args[1] == "a" || args[0] == "batch" {
			require.Zero(t, got.code, "%v: %s", args, got.err)
		}
	}
	for _, slug := range slugs {
		file := filepath.Join(h.shelf, "powders", slug+".toml")
		run("check", file)
		for _, args := range [][]string{{"check", file, "--json"}, {"fit", file}, {"show", "--", slug}} {
			if *matrix {
				run(args...)
			}
		}
	}
	after := listing(t, h.shelf)
	for path, was := range before {
		if filepath.Base(path) != "a.toml" { // which two of the commands change
			assert.Equal(t, was, after[path], "%q", path)
		}
	}
}
