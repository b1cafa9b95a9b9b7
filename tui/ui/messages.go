package ui

import (
	"time"

	"daub.example/daub/model"
)

// Messages bring results, in the past tense. State never travels in them: a
// screen that leads to another returns it from its Update.

// Saved brings the end of one write of a session. The state it wrote is not in
// it: the session has a newer one, or the same.
type Saved struct {
	revision int
	entry    model.Entry // Slug, Path and Read as they stand now
	at       time.Time
	Err      error
}

// RecipeSaved brings the end of writing a recipe.
type RecipeSaved struct {
	Entry model.RecipeEntry // Slug, Path and Read as they stand now
	Err   error
}

// SpoonsSaved brings the end of writing the maker's own spoons.
type SpoonsSaved struct {
	Path  string
	Own   model.OwnSpoons // the list as it stands now
	Moved []model.Entry   // powders whose older trials go by it, as they stand now
	Err   error
}

// Filed brings the end of writing a file.
type Filed struct {
	name string // as typed
	path string // where it went
	Err  error
}

// copied brings the end of copying a text, named in a few words.
type copied struct {
	what string
	err  error
}
