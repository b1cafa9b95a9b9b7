// Package tui is the screens of daub: the Shelf with all powders, and the
// Trial with its set-up, bench and result. Nothing here touches the world by
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
	// Bell rings when a rest is over; nil for silence.
	Bell func()
	// Drawer is the maker's own spoons.
	Drawer model.Drawer
	// Place is the shelf's folder, for showing.
	Place string
	// Demo says that the shelf is a throw-away copy of the samples.
	Demo bool
	// ASCII asks for plain ASCII instead of line drawing.
	ASCII bool
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
	// Broken says, one line each, which files could not be read and why.
	Broken []string
	// Notes says what else the maker should know, one line each.
	Notes []string
}
