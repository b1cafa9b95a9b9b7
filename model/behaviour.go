package model

import "slices"

// Behaviour is something that may be seen at a look besides the level.
type Behaviour struct {
	Name   string // as in files
	Letter string // the key it is chosen with
	Means  string // half a line for whoever chooses it
}

// Behaviours are all that may be noted with a step, in the order shown.
func Behaviours() []Behaviour {
	return []Behaviour{
		{"sinks", "s", "goes to the bottom"},
		{"floats", "f", "stays on top"},
		{"rafts", "r", "swims as one dry sheet"},
		{"lumps", "l", "dry lumps stay"},
		{"holds bubbles", "b", "air stays in it"},
		{"slow to wet", "w", "water goes in slowly"},
		{"gritty", "g", "grains are felt"},
		{"stringy", "y", "pulls long threads"},
		{"slips", "p", "slides off in one piece"},
		{"gels", "j", "sets like jelly at rest"},
		{"hardens when stirred", "h", "then relaxes"},
		{"settles", "t", "liquid stands on top"},
	}
}

// Marks are the names of all behaviours, in the order shown.
func Marks() []string {
	var names []string
	for _, b := range Behaviours() {
		names = append(names, b.Name)
	}
	return names
}

// WithMark is the marks with a name added, or taken out where it is among
// them, in the order of Marks.
func WithMark(marks []string, name string) []string {
	var out []string
	for _, n := range Marks() {
		if had := slices.Contains(marks, n); had != (n == name) {
			out = append(out, n)
		}
	}
	return out
}
