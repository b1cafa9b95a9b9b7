package handling

import (
	"strings"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
)

// adviceG is the powder, g, that advice is worked out for where no batch says how much
// there is.
const adviceG = 10.0

// OfTrial describes a trial beside its ratio, one sentence each: changes after the last
// look, what stirring does, how long it soaked. It leaves out later looks without a level
// to compare them with.
func OfTrial(r bench.Reading) []string {
	c, _ := CourseOf(r)
	return ofTrial(r, c.Lines())
}

// ofTrial adds advice, stirring and soaking to the given lines about later looks.
func ofTrial(r bench.Reading, later []string) []string {
	texts := later
	if c, ok := CourseOf(r); ok {
		if advice := c.Advice(r.Trial.Aim, adviceG); advice != "" {
			texts = append(texts, advice)
		}
	}
	if text := Regains(r.Trial); text != "" {
		texts = append(texts, text)
	}
	if c, ok := ContactOf(r.Trial, r.Profile.Powder.Kind()); ok {
		texts = append(texts, c.Sentence())
	}
	return texts
}

// WithResult gives OfTrial with every later look, and the behaviour of the powder with its
// advice.
func WithResult(r bench.Reading) []string {
	texts := ofTrial(r, laterLines(r))
	seen := r.Profile.Seen()
	if text := model.SeenText(seen); text != "" {
		texts = append(texts, strings.TrimSpace("Seen with this powder: "+text+". "+model.SeenAdvice(seen)))
	}
	return texts
}

// OfPowder describes a powder in a liquid beside its ratio, one sentence each.
func OfPowder(p model.Profile, liquid string, own model.OwnSpoons) []string {
	var texts []string
	if seen := model.SeenText(p.Seen()); seen != "" {
		texts = append(texts, "Seen: "+seen+".")
	}
	texts = append(texts, Stood(p, liquid, own)...)
	for _, one := range p.Powder.Packings {
		texts = append(texts, PackingSentence(one))
	}
	return append(texts, advice(p, liquid, p.Aim(), adviceG, own)...)
}

// Stood says how a dish of the powder changed while it stood, and what stirring did.
func Stood(p model.Profile, liquid string, own model.OwnSpoons) (texts []string) {
	if r, ok := seenLater(p, liquid, own); ok {
		texts = laterLines(r)
	}
	if text := regainsOfPowder(p); text != "" {
		texts = append(texts, text)
	}
	return texts
}

// regainsOfPowder gives Regains of the newest finished trial that has it.
func regainsOfPowder(p model.Profile) (text string) {
	var newest time.Time
	for _, t := range p.Trials {
		if one := Regains(t); one != "" && t.Finished() && !t.Started.Before(newest) {
			text, newest = one, t.Started
		}
	}
	return text
}

// advice lists what to allow for in a batch of powderG grams at a level, one sentence each.
func advice(p model.Profile, liquid string, level, powderG float64, own model.OwnSpoons) []string {
	var texts []string
	add := func(text string) {
		if text != "" {
			texts = append(texts, text)
		}
	}
	add(model.SeenAdvice(p.Seen()))
	if c, ok := CourseOfPowder(p, liquid, own); ok {
		add(c.Advice(level, powderG))
	}
	if c, ok := ContactOfPowder(p); ok {
		add(c.Advice())
	}
	return texts
}
