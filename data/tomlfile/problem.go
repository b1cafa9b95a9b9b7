package tomlfile

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
)

// Problem is one thing wrong in a file, in the maker's words.
type Problem struct {
	Line int // from 1; 0 if it is about the whole file
	What string
	Fix  string
}

// Error is a file that was refused, with all its problems. The file is left as it
// is.
type Error struct {
	File     string
	Problems []Problem // in the order of their lines, at least one
}

// Error prints one line a problem: "file:line: what; fix".
func (e *Error) Error() string {
	lines := make([]string, len(e.Problems))
	for i, p := range e.Problems {
		lines[i] = p.In(e.File)
	}
	return strings.Join(lines, "\n")
}

// In gives the problem on one line, "file:line: what; fix".
func (p Problem) In(file string) string {
	if p.Line == 0 {
		return fmt.Sprintf("%s: %s; %s", file, p.What, p.Fix)
	}
	return fmt.Sprintf("%s:%d: %s; %s", file, p.Line, p.What, p.Fix)
}

// Refuse makes the FileError of some problems, nil if there are none.
func Refuse(file string, problems []Problem) error {
	if len(problems) == 0 {
		return nil
	}
	return &Error{File: file, Problems: problems}
}

// mostTold is the most problems of one file that are listed.
const mostTold = 20

// inOrder sorts problems by line. If there are too many to read it keeps the first
// ten and says how many more there are; more counts problems that were not even
// kept.
func inOrder(problems []Problem, more int) []Problem {
	slices.SortStableFunc(problems, func(a, b Problem) int { return cmp.Compare(a.Line, b.Line) })
	if len(problems)+more <= mostTold {
		return problems
	}
	const told = mostTold / 2
	rest := Problem{
		problems[told].Line, fmt.Sprintf("%d more problems follow", len(problems)-told+more),
		"mend those above first, then check again",
	}
	return append(problems[:told:told], rest)
}
