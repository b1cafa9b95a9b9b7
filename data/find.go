package data

import (
	"errors"
	"fmt"
	"io/fs"
	"strings"
)

// Kind is what a file on the shelf is about.
type Kind string

// The kinds. Own spoons lie in one file of their own.
const (
	PowderKind Kind = "powder"
	RecipeKind Kind = "recipe"
)

// UnknownError says that nothing of a kind on the shelf goes by a name.
type UnknownError struct {
	Kind   Kind
	Name   string
	Near   []string // what may have been meant
	Broken int      // files on the shelf that cannot be read; it may be one of them
}

func (e *UnknownError) Error() string {
	fix := "daub list shows what is there"
	if e.Kind == RecipeKind {
		fix = "the shelf's folder " + recipesFolder + " shows what is there"
	}
	if len(e.Near) > 0 {
		fix = "did you mean " + strings.Join(e.Near, ", ") + "?"
	}
	if e.Broken > 0 {
		fix += fmt.Sprintf(" (%d unreadable on the shelf: daub check says why)", e.Broken)
	}
	return fmt.Sprintf("find %q: no such %s on the shelf; %s", e.Name, e.Kind, fix)
}

// AmbiguousError says that a name fits several entries.
type AmbiguousError struct {
	Kind    Kind
	Name    string
	Choices []string // their slugs
}

func (e *AmbiguousError) Error() string {
	return fmt.Sprintf("find %q: the name fits %d %ss; use one of: %s", e.Name, len(e.Choices), e.Kind, strings.Join(e.Choices, ", "))
}

// Find reads the entry that powder names: a slug, a name that only one entry
// has, or name@lot. Case does not count in names and lots. The error is an
// *UnknownError, an *AmbiguousError, or what is wrong with the file.
func (s *Shelf) Find(powder string) (Entry, error) {
	powder = strings.TrimSpace(powder)
	slugs, err := s.slugs(powdersFolder)
	if err != nil {
		return Entry{}, err
	}
	for _, slug := range slugs {
		if slug == powder {
			return s.Load(slug)
		}
	}
	entries, errs := s.List()
	name, lot, withLot := cutLast(powder, "@")
	var byName, byLot []Entry
	for _, e := range entries {
		p := e.Profile.Powder
		if strings.EqualFold(strings.TrimSpace(p.Name), powder) {
			byName = append(byName, e)
		}
		if withLot && strings.EqualFold(strings.TrimSpace(p.Name), name) && strings.EqualFold(strings.TrimSpace(p.Lot), lot) {
			byLot = append(byLot, e)
		}
	}
	found := append(byName, byLot...)
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
		var known []string
		for _, e := range entries {
			known = append(known, e.Profile.Powder.Name)
		}
		return Entry{}, unknown(PowderKind, powder, append(known, slugs...), errs)
	default:
		choices := make([]string, len(found))
		for i, e := range found {
			choices[i] = e.Slug
		}
		return Entry{}, &AmbiguousError{PowderKind, powder, choices}
	}
}

// unknown says what there is instead, of the names and slugs known. A shelf
// that cannot be listed is the error itself.
func unknown(kind Kind, name string, known []string, errs []error) error {
	e := &UnknownError{Kind: kind, Name: name}
	seen := map[string]bool{}
	for _, near := range nearest(name, known) {
		if !seen[near] {
			seen[near] = true
			e.Near = append(e.Near, near)
		}
	}
	for _, err := range errs {
		var file *FileError
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

// cutLast cuts text at the last sep.
func cutLast(text, sep string) (before, after string, found bool) {
	i := strings.LastIndex(text, sep)
	if i < 0 {
		return text, "", false
	}
	return strings.TrimSpace(text[:i]), strings.TrimSpace(text[i+len(sep):]), true
}
