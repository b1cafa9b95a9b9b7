// Package tui is the screens of daub: the Shelf with all powders, the Trial
// with its set-up, bench and result, Compare, which sets powders side by side,
// and the Kitchen, which puts them to use. Nothing here touches the world by
// itself: the clock, the shelf on disk and the terminal come in as the
// functions of World, and are called in commands only.
package tui

import (
	"time"

	"daub.example/daub/model"
)

// World is everything that touches the world, handed in by the program.
type World struct {
	// Now is the clock.
	Now func() time.Time
	// Wait sleeps; it keeps the clock of a rest running on screen. Nil leaves
	// the clock to stand between keys.
	Wait func(time.Duration)
	// List reads the shelf.
	List func() (Listing, error)
	// Save writes a profile and gives it back as it now stands on the shelf.
	// It must not return before the profile is safely on disk.
	Save func(Item) (Item, error)
	// SaveBeside writes a profile as a new file, for when the file it came
	// from has been changed elsewhere: both survive.
	SaveBeside func(Item) (Item, error)
	// AddSamples puts the sample profiles on the shelf.
	AddSamples func() error
	// Recipes reads the recipes of the shelf.
	Recipes func() (Cookbook, error)
	// SaveRecipe writes a recipe and gives it back as it now stands on the
	// shelf; one without an ID gets a file of its own.
	SaveRecipe func(RecipeItem) (RecipeItem, error)
	// Export writes the ratios of profiles, or a picture of them, as the ending
	// of the file's name says; level 0 is for all levels.
	Export func(items []Item, level float64, f File) (path string, err error)
	// WriteFile writes a text into a file.
	WriteFile func(text string, f File) (path string, err error)
	// Copy puts a text on the terminal's clipboard.
	Copy func(text string) error
	// Bell rings when a rest is over; nil for silence.
	Bell func()
	// Drawer is the maker's own spoons, as they were last read with the shelf.
	Drawer model.Drawer
	// Place is the shelf's folder, for showing.
	Place string
	// Demo says that the shelf is a throw-away copy of the samples.
	Demo bool
	// ASCII asks for plain ASCII instead of line drawing.
	ASCII bool
}

// ChangedElsewhere is an error of Save that says so: the file is no longer what
// was read, and saving again cannot help.
type ChangedElsewhere interface {
	error
	ChangedElsewhere()
}

// Item is one profile as the interface holds it.
type Item struct {
	ID      string // its name on the shelf; "" before it is first saved
	Path    string // its file, for showing
	Profile model.Profile
	// Token is the world's own note of what it read, handed back on saving.
	Token any
}

// Listing is the shelf as read.
type Listing struct {
	Items []Item
	// Drawer is the maker's own spoons.
	Drawer model.Drawer
	// Broken says, one line each, which files could not be read and why.
	Broken []string
	// Notes says what else the maker should know, one line each.
	Notes []string
}

// File is where something is to be written. A file that exists stays as it is,
// and the error is an fs.ErrExist, unless Over says otherwise.
type File struct {
	Name string // as typed by the maker
	Over bool
}

// RecipeItem is one recipe as the interface holds it.
type RecipeItem struct {
	ID     string // its name on the shelf; "" before it is first saved
	Path   string // its file, for showing
	Recipe model.Recipe
	// Token is the world's own note of what it read, handed back on saving.
	Token any
}

// Cookbook is the recipes as read.
type Cookbook struct {
	Items []RecipeItem
	// Broken says, one line each, which files could not be read and why.
	Broken []string
}
