// Package bench is one trial being made: what the dish holds after each step,
// what its looks say, what to add next, and an editor with undo.
//
// It knows no terminal, no file and no clock, and never looks at a second trial
// of the powder: package repeats does. It may import model and model/fit.
package bench
