package model

import (
	"slices"
	"strings"
)

// Behaviour is something that may be seen at a look besides the level.
type Behaviour struct {
	Name   string // as in files
	Letter string // the key it is chosen with
	Means  string // half a line for whoever chooses it
	Advice string // what to do about it when a batch is made; "" nothing
	When   Doing  // what the advice is for
}

// Doing is a part of making a paste.
type Doing int

// The parts, in the order in which they come.
const (
	Weighing Doing = iota
	Sprinkling
	Stirring
	AddingMore
	Filling // and using it
)

// Of puts the behaviour of a powder into a sentence: "Hill clay gels", "Hill clay is
// gritty".
func (b Behaviour) Of(powder string) string {
	switch b.Name {
	case "slow to wet", "gritty", "stringy":
		return powder + " is " + b.Name
	case "lumps":
		return powder + " forms lumps"
	default:
		return powder + " " + b.Name
	}
}

// Heeds lists the advice on what was seen with a powder, for one part of making a paste.
func Heeds(powder string, all []Seen, when Doing) []string {
	var texts []string
	for _, s := range all {
		if s.When == when && s.Advice != "" {
			texts = append(texts, s.Of(powder)+": "+s.Advice+".")
		}
	}
	return texts
}

// Behaviours lists everything that may be noted with a step, in the order shown.
func Behaviours() []Behaviour {
	return []Behaviour{
		{"sinks", "s", "goes to the bottom", "stir up from the bottom", Stirring},
		{"floats", "f", "stays on top", "strew thinly, fold under what stays on top", Sprinkling},
		{"rafts", "r", "swims as one dry sheet", "strew slowly, let it sink", Sprinkling},
		{"lumps", "l", "dry lumps stay", "let lumps soak, then press them; do not chase them", Stirring},
		{"holds bubbles", "b", "air stays in it", "stir slowly, let it stand, tap the bowl", Stirring},
		{"slow to wet", "w", "water goes in slowly", "give it its whole rest before you add more", AddingMore},
		{"gritty", "g", "grains are felt", "sieve it first", Weighing},
		{"stringy", "y", "pulls long threads", "", Weighing},
		{"slips", "p", "slides off in one piece", "", Weighing},
		{"gels", "j", "sets like jelly at rest", "stir again before use", Filling},
		{"hardens when stirred", "h", "then relaxes", "stir slowly", Stirring},
		{"settles", "t", "liquid stands on top", "stir up before use", Filling},
	}
}

// Seen is a behaviour, and whether it was seen at first only.
type Seen struct {
	Behaviour
	AtFirst bool // only while the dish was still thin, in the first half of the steps
}

// Seen lists the behaviour in trials that are not set aside, each once, in the order shown.
func (p Profile) Seen() []Seen {
	var out []Seen
	for _, b := range Behaviours() {
		seen, late := false, false
		has := func(marks []string) bool { return slices.Contains(marks, b.Name) }
		for _, t := range p.Trials {
			if t.SetAside != "" {
				continue
			}
			for i, s := range t.Steps {
				seen = seen || has(s.Marks)
				late = late || has(s.Marks) && 2*i >= len(t.Steps)
			}
			for _, l := range t.Later {
				seen, late = seen || has(l.Marks), late || has(l.Marks)
			}
		}
		if seen {
			out = append(out, Seen{b, !late})
		}
	}
	return out
}

// SeenText lists what was seen: "rafts at first, slow to wet, gels"; "" without any.
func SeenText(all []Seen) string {
	var texts []string
	for _, s := range all {
		texts = append(texts, s.Text())
	}
	return strings.Join(texts, ", ")
}

// SeenNames lists the names of what was seen, as files write them.
func SeenNames(all []Seen) []string {
	names := []string{}
	for _, s := range all {
		names = append(names, s.Name)
	}
	return names
}

// Text names the behaviour and when it was seen: "rafts at first".
func (s Seen) Text() string {
	if s.AtFirst {
		return s.Name + " at first"
	}
	return s.Name
}

// SeenAdvice joins the advice on what was seen into one sentence; "" without any.
func SeenAdvice(all []Seen) string {
	var texts []string
	for _, s := range all {
		if s.Advice != "" {
			texts = append(texts, s.Advice)
		}
	}
	if len(texts) == 0 {
		return ""
	}
	return Capital(strings.Join(texts, "; ") + ".")
}

// Marks lists the names of all behaviours, in the order shown.
func Marks() []string {
	var names []string
	for _, b := range Behaviours() {
		names = append(names, b.Name)
	}
	return names
}

// WithMark adds a name to the marks, or takes it out where it is among them, in the order
// of Marks.
func WithMark(marks []string, name string) []string {
	var out []string
	for _, n := range Marks() {
		if had := slices.Contains(marks, n); had != (n == name) {
			out = append(out, n)
		}
	}
	return out
}
