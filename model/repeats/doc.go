// Package repeats pools several trials of one powder: the ratio
// of the powder, that of the next dish, and the curve they share.
//
// It never weighs one trial's steps itself: package bench does. It may import
// model, model/fit and model/bench.
package repeats
