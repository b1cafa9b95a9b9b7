// Package picture draws the curves of powders for paper and screen: SVG, PNG
// and PDF, the same profiles the same bytes.
//
// It never opens a file; what is drawn comes from model. It imports parallel
// and model.
package picture
