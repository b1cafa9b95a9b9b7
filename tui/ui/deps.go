package ui

import (
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/repeats"
)

// Deps connects the screens to the world: clock, shelf on disk and terminal, given
// by the caller. Except for Now, its functions are called in commands only.
type Deps struct {
	// Now reads the clock.
	Now func() time.Time
	// Wait sleeps; with it the time left of a rest runs on screen. If nil, the time
	// on screen changes only with a key.
	Wait func(time.Duration)
	// List starts reading the shelf; Listing.More reads on.
	List func() (Listing, error)
	// Save writes a profile and returns it as it is now on the shelf. It returns
	// only when the profile is safely on disk.
	Save func(model.Entry) (model.Entry, error)
	// SaveAsNew writes a profile to a new file. It is for a file that was changed
	// elsewhere: both versions stay.
	SaveAsNew func(model.Entry) (model.Entry, error)
	// SaveSpoons writes the maker's own spoons; was is the list as last read.
	SaveSpoons func(was, now model.OwnSpoons) (path string, err error)
	// Delete moves a profile to the deleted files; restore brings it back.
	Delete func(model.Entry) (restore func() (model.Entry, error), err error)
	// KeepTrial copies a trial, by its index, to the deleted files before it is
	// taken out of its profile.
	KeepTrial func(e model.Entry, trial int) (path string, err error)
	// AddSamples puts the sample profiles on the shelf.
	AddSamples func() error
	// Recipes reads the recipes of the shelf.
	Recipes func() (Cookbook, error)
	// SaveRecipe writes a recipe and returns it as it is now on the shelf; one
	// without an ID gets a new file.
	SaveRecipe func(model.RecipeEntry) (model.RecipeEntry, error)
	// DeleteRecipe moves a recipe to the deleted files; restore brings it back.
	DeleteRecipe func(model.RecipeEntry) (restore func() (model.RecipeEntry, error), err error)
	// WriteCard writes the card of a recipe; the file's ending says in which
	// format. profiles are those of its powders that are on the shelf.
	WriteCard func(r model.Recipe, profiles []model.Profile, f File) (path string, err error)
	// Export writes the ratios of profiles, or a picture of them; the file's ending
	// says which. Level 0 means all levels.
	Export func(items []model.Entry, level float64, f File) (path string, err error)
	// Copy puts text on the terminal's clipboard.
	Copy func(text string) error
	// Bell rings when a rest is over; nil for silence.
	Bell func()
	// OwnSpoons holds the maker's own spoons as last read.
	OwnSpoons model.OwnSpoons
	// Powders returns all powders of the shelf as last read.
	Powders func() []model.Entry
	// ShelfDir is the shelf's folder, to be shown.
	ShelfDir string
	// Demo marks a shelf that is a throw-away copy of the samples.
	Demo bool
	// Suspend says that Ctrl+Z works: there is a shell to return to.
	Suspend bool
	// ASCII asks for plain ASCII instead of line drawing.
	ASCII bool
}

// ChangedElsewhere marks an error of Save: another program changed the file since
// it was read, and saving again cannot help.
type ChangedElsewhere interface {
	error
	ChangedElsewhere()
}

// Listing is the shelf as read, or a part of it.
type Listing struct {
	Items []Listed
	// Left counts the files still to be read; More reads the next of them.
	Left int
	More func() (Listing, error)
	// OwnSpoons holds the maker's own spoons.
	OwnSpoons model.OwnSpoons
	// Broken says which files could not be read and why, one line a file.
	Broken []string
	// Notes holds other messages for the maker, one a line.
	Notes []string
}

// Listed is one powder of the shelf.
type Listed struct {
	model.Entry
	// Ratio is the powder's at the target level of its newest trial, without the
	// sentences that explain it. It is zero if no trial counts.
	Ratio repeats.Ratio
	// Place is the sort key of the shelf; equal keys keep their order.
	SortKey string
}

// File says where to write. An existing file stays as it is, and the error is an
// fs.ErrExist, unless Over is set.
type File struct {
	Name string // as typed by the maker
	Over bool
}

// Cookbook holds the recipes as read.
type Cookbook struct {
	Items []model.RecipeEntry
	// Broken says which files could not be read and why, one line a file.
	Broken []string
}
