package handling

import (
	"fmt"
	"slices"
	"time"

	"daub.example/daub/model"
)

// soaking lists the families whose powders take up liquid for hours.
var soaking = []model.Family{model.SwellingClay, model.Gum, model.Botanical}

// muchLonger is the number of rests above which a contact time is worth telling. Rests
// further apart are not compared either (chosen).
const muchLonger = 3

// Contact tells how long the first powder of a trial stood in the liquid.
type Contact struct {
	Stood time.Duration // from the first powder to the last look or reading
	RestS int
}

// ContactOf gives the contact time of a trial of a powder that soaks for hours. ok is false
// for other powders, for a contact no longer than three rests, and where times were not
// recorded.
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

// ContactOfPowder gives the contact time of the newest finished trial that has one.
func ContactOfPowder(p model.Profile) (c Contact, ok bool) {
	var newest time.Time
	for _, t := range p.Trials {
		if one, long := ContactOf(t, p.Powder.Kind()); long && t.Finished() && !t.Started.Before(newest) {
			c, ok, newest = one, true, t.Started
		}
	}
	return c, ok
}

// Sentence says in a result that the powder soaked long.
func (c Contact) Sentence() string {
	return fmt.Sprintf("The first powder stood %s before the last look, and each look rested %s: such powders soak "+
		"for hours.", after(c.Stood.Minutes()), model.Seconds(c.RestS))
}

// Advice says in a batch how long to wait before more powder is added.
func (c Contact) Advice() string {
	return fmt.Sprintf("The ratio is of powder added bit by bit, each time with a rest of %s. Stirred in all at once "+
		"it looks too thin at first: wait about %s before you add more.", model.Seconds(c.RestS), c.Wait())
}

// Wait gives the time a batch needs to soak as long as the trial did, "40 min".
func (c Contact) Wait() string { return after(c.Stood.Minutes()) }
