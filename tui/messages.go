package tui

import (
	"time"

	"daub.example/daub/model"
)

// Messages bring results, in the past tense. State never travels in them: a
// screen that leads to another returns it from its Update.

// listed brings the shelf as read.
type listed struct {
	to     *shelf // who asked
	number int    // which of its reads this is
	rows   []row
	drawer model.Drawer
	broken []string
	notes  []string
	err    error
}

// saved brings the end of one write. The state it wrote is not in it: the
// session has a newer one, or the same.
type saved struct {
	revision int
	item     Item // ID, Path and Token as they stand now
	at       time.Time
	err      error
}

// samplesAdded brings the end of copying the samples.
type samplesAdded struct{ err error }

// recipesRead brings the recipes as read.
type recipesRead struct {
	book Cookbook
	err  error
}

// recipeSaved brings the end of writing a recipe: ID, Path and Token as they
// stand now.
type recipeSaved struct {
	item RecipeItem
	err  error
}

// filed brings the end of writing a file.
type filed struct {
	name string // as typed
	path string // where it went
	err  error
}

// copied brings the end of copying a text, named in a few words.
type copied struct {
	what string
	err  error
}

// ticked comes every second while a rest runs.
type ticked struct {
	to *bench // whose rest it is
	at time.Time
}

// quitWanted asks the App to leave once everything is saved.
type quitWanted struct{}
