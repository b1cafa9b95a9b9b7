//go:build !long

package fit

// long asks for every situation that a check is held against; without it a few
// stand for them.
const long = false
