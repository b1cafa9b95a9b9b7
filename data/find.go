package data

import (
	"errors"
	"fmt"
	"io/fs"
	"strings"

	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
)

// Kind is the kind of entry that a file on the shelf holds.
type Kind string

// The kinds. Own spoons lie in one file of their own.
const (
	PowderKind Kind = "powder"
	RecipeKind Kind = "recipe"
)

// UnknownError says that nothing of this kind on the shelf has the name.
type UnknownError struct {
	Kind   Kind
	Name   string
	Near   []string // similar names
	Broken int      // files on the shelf that cannot be read; one of them may have the name
}

func (e *UnknownError) Error() string {
	fix := "daub list shows what is there"
	if e.Kind == RecipeKind {
		fix = "daub recipe list shows what is there"
	}
	if len(e.Near) > 0 {
		fix = "did you mean " + strings.Join(e.Near, ", ") + "?"
	}
	if e.Broken > 0 {
		fix += fmt.Sprintf(" (%d unreadable on the shelf: daub check says why)", e.Broken)
	}
	return fmt.Sprintf("there is no %s %q on the shelf; %s", e.Kind, e.Name, fix)
}

// AmbiguousError says that a name fits several entries.
type AmbiguousError struct {
	Kind    Kind
	Name    string
	Choices []string // their slugs
}

func (e *AmbiguousError) Error() string {
	return fmt.Sprintf("%q fits %d %ss; use one of: %s", e.Name, len(e.Choices), e.Kind,
		strings.Join(e.Choices, ", "))
}

// unknown makes the error for a name nobody has, with similar names, or if there
// are none similar slugs. If the shelf cannot be listed, that is the error.
func unknown(kind Kind, name string, names, slugs []string, errs []error) error {
	e := &UnknownError{Kind: kind, Name: name}
	found := model.Suggest(name, names)
	if len(found) == 0 {
		found = model.Suggest(name, slugs)
	}
	seen := map[string]bool{}
	for _, near := range found {
		if !seen[near] {
			seen[near] = true
			e.Near = append(e.Near, near)
		}
	}
	for _, err := range errs {
		var file *tomlfile.Error
		var system *fs.PathError
		switch {
		case errors.As(err, &file), errors.As(err, &system):
			e.Broken++
		default:
			return err
		}
	}
	return e
}
