package ui

import (
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/repeats"
)

// Deps is all that reaches outside the program: the clock, the shelf on disk
// and the terminal, handed in by whoever runs it. The functions are called in
// commands only, except Now.
type Deps struct {
	// Now is the clock.
	Now func() time.Time
	// Wait sleeps; it keeps the clock of a rest running on screen. Nil leaves
	// the clock to stand between keys.
	Wait func(time.Duration)
	// List begins to read the shelf; Listing.More reads on.
	List func() (Listing, error)
	// Save writes a profile and gives it back as it now stands on the shelf.
	// It must not return before the profile is safely on disk.
	Save func(model.Entry) (model.Entry, error)
	// SaveBeside writes a profile as a new file, for when the file it came
	// from has been changed elsewhere: both survive.
	SaveBeside func(model.Entry) (model.Entry, error)
	// SaveSpoons writes the maker's own spoons; was is the list as it was read.
	SaveSpoons func(was, now model.OwnSpoons) (path string, err error)
	// Delete moves a profile to the deleted ones; restore brings it back.
	Delete func(model.Entry) (restore func() (model.Entry, error), err error)
	// KeepTrial keeps a trial, by its place, among the deleted files: it is about
	// to be taken out of its profile.
	KeepTrial func(e model.Entry, trial int) (path string, err error)
	// AddSamples puts the sample profiles on the shelf.
	AddSamples func() error
	// Recipes reads the recipes of the shelf.
	Recipes func() (Cookbook, error)
	// SaveRecipe writes a recipe and gives it back as it now stands on the
	// shelf; one without an ID gets a file of its own.
	SaveRecipe func(model.RecipeEntry) (model.RecipeEntry, error)
	// DeleteRecipe moves a recipe to the deleted ones; restore brings it back.
	DeleteRecipe func(model.RecipeEntry) (restore func() (model.RecipeEntry, error), err error)
	// WriteCard writes the card of a recipe, as the ending of the file's name says;
	// profiles are those of its powders that are at hand.
	WriteCard func(r model.Recipe, profiles []model.Profile, f File) (path string, err error)
	// Export writes the ratios of profiles, or a picture of them, as the ending
	// of the file's name says; level 0 is for all levels.
	Export func(items []model.Entry, level float64, f File) (path string, err error)
	// Copy puts a text on the terminal's clipboard.
	Copy func(text string) error
	// Bell rings when a rest is over; nil for silence.
	Bell func()
	// OwnSpoons are the maker's own spoons, as of the last reading of the shelf.
	OwnSpoons model.OwnSpoons
	// Powders are all powders, as of the last reading of the shelf.
	Powders func() []model.Entry
	// ShelfDir is the shelf's folder, for showing.
	ShelfDir string
	// Demo says that the shelf is a throw-away copy of the samples.
	Demo bool
	// Suspend says that Ctrl+Z has a shell to go to.
	Suspend bool
	// ASCII asks for plain ASCII instead of line drawing.
	ASCII bool
}

// ChangedElsewhere is an error of Save that says so: the file is no longer what
// was read, and saving again cannot help.
type ChangedElsewhere interface {
	error
	ChangedElsewhere()
}

// Listing is the shelf as read, or a part of it.
type Listing struct {
	Items []Listed
	// Left is how many files are still to come; More reads the next of them.
	Left int
	More func() (Listing, error)
	// OwnSpoons are the maker's own spoons.
	OwnSpoons model.OwnSpoons
	// Broken says, one line each, which files could not be read and why.
	Broken []string
	// Notes says what else the maker should know, one line each.
	Notes []string
}

// Listed is one powder of the shelf.
type Listed struct {
	model.Entry
	// Ratio is the powder's at the level that its newest trial aims at, without
	// what explains it; the zero Ratio without a trial that counts.
	Ratio repeats.Ratio
	// Place is the key that the shelf is sorted by; of equals, the first to come is first.
	Place string
}

// File is where something is to be written. A file that exists stays as it is,
// and the error is an fs.ErrExist, unless Over says otherwise.
type File struct {
	Name string // as typed by the maker
	Over bool
}

// Cookbook is the recipes as read.
type Cookbook struct {
	Items []model.RecipeEntry
	// Broken says, one line each, which files could not be read and why.
	Broken []string
}
