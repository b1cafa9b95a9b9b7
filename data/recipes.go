package data

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"daub.example/daub/model"
)

// RecipeEntry is one recipe on the shelf.
type RecipeEntry = model.RecipeEntry

// Recipes reads all recipes of the shelf: every readable one, by name, and an
// error for each file that is not. A shelf without any has none.
func (s *Shelf) Recipes() ([]RecipeEntry, []error) {
	slugs, err := s.slugs(recipesFolder)
	if err != nil {
		return nil, []error{err}
	}
	var entries []RecipeEntry
	var errs []error
	for _, slug := range slugs {
		e, err := s.loadRecipe(slug)
		switch {
		case err == nil:
			entries = append(entries, e)
		case !errors.Is(err, fs.ErrNotExist): // taken away since the folder was read
			errs = append(errs, err)
		}
	}
	slices.SortStableFunc(entries, func(a, b RecipeEntry) int {
		return cmp.Or(
			cmp.Compare(strings.ToLower(a.Recipe.Name), strings.ToLower(b.Recipe.Name)),
			cmp.Compare(a.Slug, b.Slug),
		)
	})
	return entries, errs
}

// LoadRecipe reads one recipe by its slug. An unknown slug gives an
// *UnknownError, a file that is refused a *FileError.
func (s *Shelf) LoadRecipe(slug string) (RecipeEntry, error) {
	if !isSlug(slug) {
		return RecipeEntry{}, &UnknownError{Kind: RecipeKind, Name: slug}
	}
	e, err := s.loadRecipe(slug)
	if errors.Is(err, fs.ErrNotExist) {
		slugs, _ := s.slugs(recipesFolder)
		return RecipeEntry{}, unknown(RecipeKind, slug, slugs, nil)
	}
	return e, err
}

func (s *Shelf) loadRecipe(slug string) (RecipeEntry, error) {
	path := s.file(recipesFolder, slug)
	src, err := readFile(path)
	if err != nil {
		return RecipeEntry{}, err
	}
	r, err := DecodeRecipe(path, src)
	if err != nil {
		return RecipeEntry{}, err
	}
	return RecipeEntry{Slug: slug, Path: path, Recipe: r, Read: src}, nil
}

// FindRecipe reads the recipe of that slug, or of that name where only one has
// it; case does not count in names. The error is an *UnknownError, an
// *AmbiguousError, or what is wrong with the file.
func (s *Shelf) FindRecipe(recipe string) (RecipeEntry, error) {
	recipe = strings.TrimSpace(recipe)
	slugs, err := s.slugs(recipesFolder)
	if err != nil {
		return RecipeEntry{}, err
	}
	if slices.Contains(slugs, recipe) {
		return s.LoadRecipe(recipe)
	}
	entries, errs := s.Recipes()
	var found []RecipeEntry
	var choices, known []string
	for _, e := range entries {
		known = append(known, e.Recipe.Name)
		if strings.EqualFold(strings.TrimSpace(e.Recipe.Name), recipe) {
			found, choices = append(found, e), append(choices, e.Slug)
		}
	}
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
		return RecipeEntry{}, unknown(RecipeKind, recipe, append(known, slugs...), errs)
	default:
		return RecipeEntry{}, &AmbiguousError{RecipeKind, recipe, choices}
	}
}

// SaveRecipe writes a recipe and gives it back as it now is on the shelf, on
// the terms of Save: a new one gets a slug of its name, which it keeps for
// good; one that was read is written only over the content it was read with,
// else the error is ErrChanged. A recipe that could not be read again is a
// *FileError and not written.
func (s *Shelf) SaveRecipe(e RecipeEntry) (RecipeEntry, error) {
	if e.Slug == "" {
		return s.SaveRecipeBeside(e)
	}
	e.Path = s.file(recipesFolder, e.Slug)
	text, err := soundRecipe(e.Path, e.Recipe, e.Read)
	if err != nil {
		return e, err
	}
	e.Recreated, err = s.rewrite(e.Path, text, e.Read)
	if isNew(err) {
		e.Read = text
	}
	return e, err
}

// SaveRecipeBeside writes a recipe as a new file under the next free slug, so
// that it and what is on the shelf both survive.
func (s *Shelf) SaveRecipeBeside(e RecipeEntry) (RecipeEntry, error) {
	slug := RecipeSlug(e.Recipe.Name)
	text, err := soundRecipe(s.file(recipesFolder, slug), e.Recipe, e.Read)
	if err != nil {
		return e, err
	}
	slug, err = s.writeNew(recipesFolder, slug, text)
	if !isNew(err) {
		return e, err
	}
	return RecipeEntry{Slug: slug, Path: s.file(recipesFolder, slug), Recipe: e.Recipe, Read: text}, err
}

// soundRecipe is the text of a recipe that can be read again.
func soundRecipe(path string, r model.Recipe, old []byte) ([]byte, error) {
	if problems := r.Validate(); len(problems) > 0 {
		return nil, fmt.Errorf("save: %w", &FileError{path, unplaced(problems)})
	}
	text, err := EncodeRecipe(r, old)
	if err != nil {
		return nil, fmt.Errorf("save %s: %w", path, err)
	}
	if _, err := DecodeRecipe(path, text); err != nil {
		return nil, fmt.Errorf("save: %w", err)
	}
	return text, nil
}
