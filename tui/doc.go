// Package tui is the interface of daub: the frame with its status, keys and
// help, the saving of what is worked on, and which place is shown. What the
// places ask of each other comes here as requests, which it turns into screens.
//
// It never touches the outside itself: the clock, the shelf on disk and the
// terminal come in as the functions of Deps. It may import its places and
// model/…, and is imported by the command alone.
package tui
