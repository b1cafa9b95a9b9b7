package ui

import (
	"time"

	"daub.example/daub/model"
)

// Messages say what has ended, in the past tense. State never travels in them: a
// screen that leads to another returns it from its Update.

// Saved says that one write of a session has ended. It does not carry the state
// written: the session has that or a newer one.
type Saved struct {
	revision int
	entry    model.Entry // Slug, Path and Read as they are now
	at       time.Time
	Err      error
}

// RecipeSaved says that writing a recipe has ended.
type RecipeSaved struct {
	Entry model.RecipeEntry // Slug, Path and Read as they are now
	Err   error
}

// SpoonsSaved says that writing the maker's own spoons has ended.
type SpoonsSaved struct {
	Path  string
	Own   model.OwnSpoons // the list as it is now
	Moved []model.Entry   // powders whose older trials now use the spoon
	Err   error
}

// Filed says that writing a file has ended.
type Filed struct {
	name string // as typed
	path string // the file written
	Err  error
}

// copied says that copying a text has ended; what names the text.
type copied struct {
	what string
	err  error
}
