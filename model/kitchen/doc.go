// Package kitchen puts profiles to use: comparing powders, one in the place
// of another, batches, mixes, sums of spoons, recipes and their cards.
//
// It never writes a file and never changes a profile. It may import model,
// model/fit, model/bench, model/handling and model/repeats.
package kitchen
