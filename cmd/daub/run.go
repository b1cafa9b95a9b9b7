package main

import (
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"strings"

	"github.com/spf13/cobra"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/data"
)

// Exit codes.
const (
	exitAnswered = 0 // also: not reached
	exitBadData  = 1
	exitMisused  = 2
)

// misuse is an error of the one who typed the command, not of the data.
type misuse struct{ error }

func (m misuse) Unwrap() error { return m.error }

// misused makes a misuse.
func misused(format string, args ...any) error { return misuse{fmt.Errorf(format, args...)} }

// errSaid ends a command whose answer has already said what is wrong.
var errSaid = errors.New("the data is bad")

// app is one run of the program.
type app struct {
	host
	shelfDir string // --shelf
	ascii    bool
	begun    bool // the command line was understood and a command is at work
}

// run does what the arguments say and returns the exit code. The answer goes
// to the host's out, everything else to its err.
func run(args []string, h host) int {
	// A program started from a file manager must run, not explain itself.
	cobra.MousetrapHelpText = ""
	a := &app{host: h}
	root := a.root()
	root.SetArgs(args)
	err := root.Execute()
	if err != nil && !errors.Is(err, errSaid) {
		a.complain(err)
	}
	return a.code(err)
}

// code is the exit code of a command's error. What goes wrong before a command
// is at work is wrong in the command line.
func (a *app) code(err error) int {
	var (
		wrong     misuse
		unknown   *data.UnknownError
		ambiguous *data.AmbiguousError
	)
	switch {
	case err == nil:
		return exitAnswered
	case !a.begun, errors.As(err, &wrong), errors.As(err, &unknown), errors.As(err, &ambiguous):
		return exitMisused
	default:
		return exitBadData
	}
}

// complain writes an error to standard error, one line for each thing wrong.
func (a *app) complain(err error) {
	for line := range strings.Lines(err.Error()) {
		a.say("%s", line)
	}
}

// say writes one message to standard error.
func (a *app) say(format string, args ...any) {
	_, _ = fmt.Fprintln(a.err, "daub: "+page.Clean(fmt.Sprintf(format, args...), a.ascii))
}

// shelf is the shelf that the command works on.
func (a *app) shelf() *data.Shelf {
	dir := a.shelfDir
	if dir == "" {
		dir = a.host.shelf
	}
	return data.Open(dir, func(text string) { a.say("%s", text) })
}

// answer is what a command found out.
type answer interface {
	json() any         // for other programs
	text(p *page.Page) // for a person
}

// answer writes an answer to standard output, in one piece: as JSON, or as the
// text that a person reads.
func (a *app) answer(found answer, asJSON bool) error {
	var out bytes.Buffer
	if asJSON {
		enc := json.NewEncoder(&out)
		enc.SetEscapeHTML(false)
		enc.SetIndent("", "  ")
		if err := enc.Encode(found.json()); err != nil {
			return fmt.Errorf("write the answer as JSON: %w", err)
		}
	} else {
		p := page.New(a.ascii)
		found.text(p)
		out.WriteString(p.Take())
	}
	if _, err := a.out.Write(out.Bytes()); err != nil {
		return fmt.Errorf("write the answer: %w", err)
	}
	return nil
}
