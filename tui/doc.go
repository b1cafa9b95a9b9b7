// Package tui is daub's interface: the frame with status, keys and help, saving,
// and the choice of place. Places send it requests for other places, which it turns
// into screens.
//
// It never touches the outside itself: clock, shelf on disk and terminal come in as
// the functions of Deps. It may import its places and model/…; only the command
// imports it.
package tui
