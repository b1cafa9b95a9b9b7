package main

import (
	"regexp"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// With any command line, a command ends with one of the four exit codes, says why
// if it is not 0, and writes nothing that steers a terminal. Arguments are parted
// by line ends.
func FuzzArguments(f *testing.F) {
	for _, line := range []string{
		"list\n--json", "show\nlight-white-clay\n--level\n4.5", "swap\nlight\nheavy\n--powder\n20",
		"spoons\n2.28 g\n--of\nlight", "batch\nlight\n--jar\n60\n--extra\nhoney 3 %",
		"mix\nlight:60\nheavy:40\n--json", "fit\nnone.toml", "check\n\x1b[31m.toml",
		"picture\n--all\n--size\n1e300x1mm\n-o\n-", "export\n--all\n--to\ncsv", "edit\nlight\nlot=\u202e7",
		"recipe\nshow\nx",
		"compare\nlight\nheavy\n--level\n5e-324", "__complete\nshow\nl", "help\nshelf", "page\nlight\n-o\n-",
	} {
		f.Add(line)
	}
	home := clays(f)
	f.Fuzz(func(t *testing.T, line string) {
		args := strings.Split(line, "\n")
		if len(args) > 12 || reachesOut(args) {
			return
		}
		got := daub(home, args...)
		require.Contains(t, []int{exitAnswered, exitBadData, exitMisused, exitCannot}, got.code, "%q", args)
		require.NotEmpty(t, got.out+got.err, "%q", args)
	})
}

// fileFlag is a flag that names a file to write, or another shelf.
var fileFlag = regexp.MustCompile(`^-[a-zA-Z]*o|^--(o|sh)`)

// reachesOut reports whether a command line would write files or read outside the
// shelf; a fuzz test leaves those out.
func reachesOut(args []string) bool {
	for i, arg := range args {
		toStandard := arg == "-o" && i+1 < len(args) && args[i+1] == "-"
		if arg == "man" || strings.ContainsAny(arg, "/\\~") || fileFlag.MatchString(arg) && !toStandard {
			return true
		}
	}
	return false
}
