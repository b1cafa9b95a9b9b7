package model

import "slices"

// PotSpan holds the additions between two weighings of the pot of powder.
type PotSpan struct {
	From, To int // its steps, From ≤ i < To, counted from 0
	LossG    float64
	WeighedG float64 // of the loss, what was weighed when it was added, g
	// Scoops are the level spoons taken from the pot, one entry a size.
	Scoops []SpoonCount
}

// SpoonedG returns how much went in by the spoon, g; 0 or less where the pot gained.
func (s PotSpan) SpoonedG() float64 { return s.LossG - s.WeighedG }

// Closed reports whether the span says what its spoonfuls weighed.
func (s PotSpan) Closed() bool { return len(s.Scoops) > 0 && s.SpoonedG() > 0 }

// single is the weighing of level spoons that a span of one size is.
func (s PotSpan) single() (spoon string, w weighing, ok bool) {
	if !s.Closed() || len(s.Scoops) > 1 {
		return "", weighing{}, false
	}
	n := float64(s.Scoops[0].Count)
	return s.Scoops[0].Spoon, weighing{each: s.SpoonedG() / n, scoops: n}, true
}

// PotSpans are the spans between one weighing of the pot and the next, in the
// order of the steps.
func (t Trial) PotSpans() []PotSpan {
	var spans []PotSpan
	before := t.PotG
	span := PotSpan{}
	for i, s := range t.Steps {
		if s.Add == AddPowder {
			span = span.with(s)
		}
		if s.PotG <= 0 {
			continue
		}
		span.To = i + 1
		if before > 0 {
			span.LossG = before - s.PotG
			spans = append(spans, span)
		}
		before, span = s.PotG, PotSpan{From: i + 1}
	}
	return spans
}

// with is the span with one more addition of powder.
func (s PotSpan) with(step Step) PotSpan {
	if step.Weighed() {
		s.WeighedG += step.Grams
		return s
	}
	i := slices.IndexFunc(s.Scoops, func(c SpoonCount) bool { return c.Spoon == step.Spoon })
	if i < 0 {
		i = len(s.Scoops)
		s.Scoops = append(s.Scoops, SpoonCount{Spoon: step.Spoon})
	}
	s.Scoops[i].Count += step.Spoons()
	return s
}

// PotWeighed reports whether the pot of powder was weighed at any time.
func (t Trial) PotWeighed() bool {
	return t.PotG > 0 || slices.ContainsFunc(t.Steps, func(s Step) bool { return s.PotG > 0 })
}

// PotOpen reports whether spoonfuls wait for the pot to be weighed again.
func (t Trial) PotOpen() bool {
	weighed, spooned := t.PotG > 0, false
	for _, s := range t.Steps {
		spooned = spooned || weighed && s.Add == AddPowder && !s.Weighed()
		if s.PotG > 0 {
			weighed, spooned = true, false
		}
	}
	return spooned
}
