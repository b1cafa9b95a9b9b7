package ui

import "daub.example/daub/model"

// OpenShelf asks for the shelf.
type OpenShelf struct {
	Left  *Session // what was worked on until now, nil for nothing
	Draft Draft    // a set-up left before its trial began, nil for none
}

// Draft is a set-up that was left. The root keeps it for the next set-up, so that
// what was typed is still there.
type Draft any

// OpenSetup asks for the set-up of a trial.
type OpenSetup struct {
	Powder *model.Entry  // nil for a new powder
	Shelf  []model.Entry // all powders, to choose from; nil: as last read
	// Like is set for a trial beside a reference dish: it holds what the two trials
	// have in common. It is nil if levels are named.
	Like *model.Trial
}

// OpenTrial asks for a trial of a powder: the bench if it is unfinished, else its
// result.
type OpenTrial struct {
	Powder model.Entry
	Trial  int // its index in the profile
}

// OpenLater asks for the later looks of the session's trial.
type OpenLater struct {
	Session *Session
	Back    Screen // where Esc leads; nil for the shelf
}

// OpenAcid asks for the acid test of the session's trial.
type OpenAcid struct {
	Session *Session
	Back    Screen // where Esc leads
}

// OpenCompare asks to compare powders side by side.
type OpenCompare struct {
	Powders []model.Entry // two to six, in the order of marking
	Shelf   []model.Entry // all powders
}

// OpenKitchen asks for the kitchen.
type OpenKitchen struct {
	Powders []model.Entry // its forms start with them
	Shelf   []model.Entry // all powders
}

// OpenSwap asks for the kitchen's swap of one powder for another.
type OpenSwap struct {
	From, To model.Entry
	Level    float64
	Shelf    []model.Entry // all powders
	Back     Screen        // where Esc leads
}

// Quit asks to leave the program once everything is saved.
type Quit struct{}
