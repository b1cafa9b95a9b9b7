// Package picture draws the curves of powders for paper and screen, as SVG, PNG and
// PDF. The same profiles give the same bytes.
//
// It never opens a file; the curves come from model. It imports parallel, drawing
// and model.
package picture
