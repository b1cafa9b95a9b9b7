// Package readings is what a trial says beside its looks: the ratio at a wanted
// reading of a ruler, cone or watch, each in its own scale and never mixed with
// levels, and the acid for a wanted pH. It has no screen, no file and no clock.
package readings
