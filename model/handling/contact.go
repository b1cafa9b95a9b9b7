package handling

import (
	"fmt"
	"slices"
	"time"

	"daub.example/daub/model"
)

// soaking are the families whose powders go on drinking for hours.
var soaking = []model.Family{model.SwellingClay, model.Gum, model.Botanical}

// muchLonger is how many rests the first powder must have stood in the liquid
// before that is told (chosen: as far as rests may lie apart and still be
// compared).
const muchLonger = 3

// Contact is how long the first powder of a trial stood in the liquid.
type Contact struct {
	Stood time.Duration // from the first powder to the last look or reading
	RestS int
}

// ContactOf is the contact time of a trial of a powder that soaks for hours,
// where it was much longer than the rest; ok is false elsewhere, and where times
// were not recorded.
func ContactOf(t model.Trial, f model.Family) (c Contact, ok bool) {
	if !slices.Contains(soaking, f) {
		return Contact{}, false
	}
	var first, last time.Time
	for _, s := range t.Steps {
		if s.At.IsZero() {
			continue
		}
		if first.IsZero() && s.Add == model.AddPowder {
			first = s.At
		}
		if (s.Looked || s.Reading > 0) && !s.LeftOut && !first.IsZero() {
			last = s.At
			if s.RestedS != nil {
				last = last.Add(time.Duration(*s.RestedS) * time.Second)
			}
		}
	}
	c = Contact{last.Sub(first), t.Rest(f)}
	rest := time.Duration(c.RestS) * time.Second
	return c, !first.IsZero() && !last.IsZero() && c.Stood > muchLonger*rest
}

// ContactOfPowder is that of the newest trial that counts and has one.
func ContactOfPowder(p model.Profile) (c Contact, ok bool) {
	var newest time.Time
	for _, t := range p.Trials {
		if one, long := ContactOf(t, p.Powder.Kind()); long && t.Finished() && !t.Started.Before(newest) {
			c, ok, newest = one, true, t.Started
		}
	}
	return c, ok
}

// Sentence tells it with a result.
func (c Contact) Sentence() string {
	return fmt.Sprintf("The first powder stood %s before the last look, and each look rested %s: such powders soak "+
		"for hours.", after(c.Stood.Minutes()), model.Seconds(c.RestS))
}

// Advice tells it with a batch.
func (c Contact) Advice() string {
	return fmt.Sprintf("Stirred in all at once it looks too thin at first: give it about %s before you add more "+
		"powder.", c.Wait())
}

// Wait is how long a batch soaks to have soaked as long, "40 min".
func (c Contact) Wait() string { return after(c.Stood.Minutes()) }
