//go:build long

package fit

// long asks for every situation that a check is held against.
const long = true
