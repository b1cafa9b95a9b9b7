package data

import (
	"cmp"
	"slices"
	"strings"

	"daub.example/daub/data/record"
	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
)

// RecipeEntry is one recipe on the shelf.
type RecipeEntry = model.RecipeEntry

// recipeEntry is a file of the shelf with its recipe.
func recipeEntry(f File, r model.Recipe) RecipeEntry {
	return RecipeEntry{Slug: f.Slug, Path: f.Path, Recipe: r, Read: f.kept()}
}

// recipes is the folder of recipes.
var recipes = folder[model.Recipe]{
	name: recipesFolder, kind: RecipeKind,
	title: func(r model.Recipe) string { return r.Name },
	goes:  func(r model.Recipe, by string) bool { return strings.EqualFold(strings.TrimSpace(r.Name), by) },
	slug:  func(r model.Recipe) string { return RecipeSlug(r.Name) },
	read: func(src []byte, _ model.OwnSpoons) (content[model.Recipe], []tomlfile.Problem) {
		r, doc, problems := record.ReadRecipe(src)
		return content[model.Recipe]{value: r, doc: doc}, problems
	},
	check: func(r model.Recipe, _ model.OwnSpoons) []model.Problem { return r.Validate() },
	write: func(r model.Recipe, _ model.OwnSpoons, file *File) ([]byte, error) {
		return record.WriteRecipe(r, file.read)
	},
}

// Recipes reads all recipes of the shelf. It returns the readable ones by name, and
// an error for each other file. A shelf without recipes has none.
func (s *Shelf) Recipes() ([]RecipeEntry, []error) {
	found, errs := recipes.list(s, nil)
	var entries []RecipeEntry
	for _, f := range found {
		entries = append(entries, recipeEntry(f.File, f.value))
	}
	slices.SortStableFunc(entries, func(a, b RecipeEntry) int {
		return cmp.Or(
			cmp.Compare(strings.ToLower(a.Recipe.Name), strings.ToLower(b.Recipe.Name)),
			cmp.Compare(a.Slug, b.Slug),
		)
	})
	return entries, errs
}

// LoadRecipe reads one recipe by its slug. An unknown slug is an *UnknownError, a
// refused file a *FileError.
func (s *Shelf) LoadRecipe(slug string) (RecipeEntry, error) {
	f, err := recipes.loadNamed(s, slug, nil)
	return recipeEntry(f.File, f.value), err
}

// FindRecipe reads the recipe with a slug, or with a name that only one has; case
// does not count in names. The error is an *UnknownError, an *AmbiguousError, or
// that of the file.
func (s *Shelf) FindRecipe(recipe string) (RecipeEntry, error) {
	f, err := recipes.find(s, recipe, nil)
	return recipeEntry(f.File, f.value), err
}

// SaveRecipe writes a recipe with the rules of Save and returns it as it now is on
// the shelf. A new one gets a slug of its name, which it keeps for good. An old one
// is written only over the content it was read with, else the error is ErrChanged.
// A recipe that could not be read again is a *FileError and not written.
func (s *Shelf) SaveRecipe(e RecipeEntry) (RecipeEntry, error) {
	file, err := recipes.save(s, fileOf(e.Slug, e.Path, e.Read), e.Recipe, nil)
	return recipeEntry(file, e.Recipe), err
}
