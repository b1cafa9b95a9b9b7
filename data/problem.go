package data

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
)

// Problem is one thing wrong in a file, in the maker's words.
type Problem struct {
	Line int // from 1; 0 when the whole file is meant
	What string
	Fix  string
}

// FileError is a file that was refused, with everything wrong in it. The file
// is left as it is.
type FileError struct {
	File     string
	Problems []Problem // in the order of their lines, at least one
}

// Error prints one line a problem: "file:line: what; fix".
func (e *FileError) Error() string {
	lines := make([]string, len(e.Problems))
	for i, p := range e.Problems {
		lines[i] = p.In(e.File)
	}
	return strings.Join(lines, "\n")
}

// In is the problem as one line, "file:line: what; fix".
func (p Problem) In(file string) string {
	if p.Line == 0 {
		return fmt.Sprintf("%s: %s; %s", file, p.What, p.Fix)
	}
	return fmt.Sprintf("%s:%d: %s; %s", file, p.Line, p.What, p.Fix)
}

// refuse is the FileError of some problems, nil without any.
func refuse(file string, problems []Problem) error {
	if len(problems) == 0 {
		return nil
	}
	slices.SortStableFunc(problems, func(a, b Problem) int { return cmp.Compare(a.Line, b.Line) })
	return &FileError{File: file, Problems: problems}
}

// place finds the lines of complaints that name a path.
func (ix *index) place(ps []model.Problem) []Problem {
	out := make([]Problem, len(ps))
	for i, p := range ps {
		out[i] = Problem{Line: ix.line(p.Path), What: p.What, Fix: p.Fix}
	}
	return out
}
