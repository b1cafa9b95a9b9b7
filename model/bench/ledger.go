package bench

import "daub.example/daub/model"

// ledger records how the powder of a trial went into its dish, one entry a step. Between
// two weighings of the pot its loss gives the mass; the spoons then only give its shares in
// the steps (METHOD, the pot).
type ledger struct {
	entries []entry
	spans   []span
	uScale  float64 // standard uncertainty of a reading of the scale, g
}

// entry holds how one step changed the powder in the dish.
type entry struct {
	weighed float64 // g on the scale
	spoon   string  // or count level spoons of this size
	scoop   model.Scoop
	count   float64
	keep    float64 // of what was in the dish before: below 1 where paste was taken out
	span    int     // the closed span of the pot that it belongs to; none for -1
	factor  float64 // by which its spoonfuls are corrected
}

// nominal returns the weight of the spoonfuls by the spoon weights, g.
func (e entry) nominal() float64 { return e.scoop.Grams * e.count }

// span lies between two weighings of the pot: first is the index of the earlier one among
// all of them, the later follows it.
type span struct {
	first   int
	nominal float64 // of its spoonfuls by the weights, g
}

// newLedger records the powder of a trial, and corrects spoonfuls by the pot.
func newLedger(t model.Trial, s model.SpoonWeights) *ledger {
	l := &ledger{uScale: uScale(t), entries: make([]entry, len(t.Steps))}
	for i, step := range t.Steps {
		l.entries[i] = newEntry(step, s)
	}
	guessed := 1.0 // what the pot said of a guess so far
	next := 0
	for k, pot := range t.PotSpans() {
		l.correct(next, pot.From, guessed)
		next = pot.To
		nominal := 0.0
		for _, e := range l.entries[pot.From:pot.To] {
			nominal += e.nominal()
		}
		if !pot.Closed() || !(nominal > 0) {
			l.correct(pot.From, pot.To, guessed)
			continue
		}
		factor := pot.SpoonedG() / nominal
		for i := pot.From; i < pot.To; i++ {
			e := &l.entries[i]
			if e.scoop.Guess {
				guessed = factor
			}
			e.span, e.factor = len(l.spans), factor
		}
		l.spans = append(l.spans, span{k, nominal})
	}
	l.correct(next, len(l.entries), guessed)
	return l
}

// newEntry records the powder of one step, before any correction.
func newEntry(step model.Step, s model.SpoonWeights) entry {
	e := entry{keep: 1, span: -1, factor: 1}
	switch {
	case step.Add != model.AddPowder:
	case step.Weighed():
		e.weighed = step.Grams
	default:
		if scoop, err := s.Scoop(step.Spoon); err == nil {
			e.spoon, e.scoop, e.count = step.Spoon, scoop, float64(step.Spoons())
		}
	}
	return e
}

// correct multiplies the guessed spoonfuls of some entries by a factor.
func (l *ledger) correct(from, to int, guessed float64) {
	for i := from; i < to; i++ {
		if l.entries[i].scoop.Guess {
			l.entries[i].factor = guessed
		}
	}
}

// grams gives the powder that a step added, g, and whether that is a guess.
func (l *ledger) grams(step int) (grams float64, guess bool) {
	e := l.entries[step]
	return e.weighed + e.nominal()*e.factor, e.scoop.Guess && e.span < 0
}

// sincePot reports whether spoons were taken after the last weighing of a pot that gave
// earlier ones their weight.
func (l *ledger) sincePot(steps int) bool {
	weighed, since := false, false
	for _, e := range l.entries[:steps] {
		if e.spoon != "" {
			weighed, since = weighed || e.span >= 0, e.span < 0
		}
	}
	return weighed && since
}

// kept gives the share of each entry's powder that is still in the dish after so many
// steps; 0 for those that come later.
func (l *ledger) kept(steps int) []float64 {
	kept := make([]float64, len(l.entries))
	keep := 1.0
	for i := steps - 1; i >= 0; i-- {
		kept[i] = keep
		keep *= l.entries[i].keep
	}
	return kept
}

// unsure holds the uncertainty of the powder in a dish, by cause.
type unsure struct {
	weights, sizes parts   // shares of the powder
	scoops, scale  float64 // variances, g²
}

// unsure adds up the uncertainty of the powder after so many steps. In a closed span of the
// pot only the sum of the spoonfuls is known. So each counts with its share still in the
// dish, less that of the span as a whole.
func (l *ledger) unsure(steps int, powderG float64) (u unsure) {
	kept := l.kept(steps)
	inDish := make([]float64, len(l.spans)) // share of the span's spoonfuls
	for i, e := range l.entries {
		if e.span >= 0 {
			inDish[e.span] += kept[i] * e.nominal() / l.spans[e.span].nominal
		}
	}
	for i, e := range l.entries {
		share := kept[i]
		if e.span >= 0 {
			share -= inDish[e.span]
		}
		switch {
		case e.weighed > 0:
			u.scale += square(share * l.uScale)
			continue
		case e.count == 0 || share == 0:
			continue
		}
		grams := share * e.nominal() * e.factor
		u.sizes.of(e.spoon, e.scoop.SizeHalf()).share += grams / powderG
		u.scoops += square(grams*e.scoop.Weight.RelSD) / e.count
		if e.span < 0 {
			u.weights.of(e.scoop.Source, e.scoop.WeightHalf()).share += grams / powderG
		}
	}
	u.scale += l.potVariance(inDish)
	return u
}

// potVariance gives the variance, g², that the readings of the pot leave in the dish: one
// between two closed spans cancels.
func (l *ledger) potVariance(inDish []float64) (variance float64) {
	open, last := 0.0, -1 // the later reading of the span before, and its place
	for k, s := range l.spans {
		if s.first != last {
			variance += square(open)
			open = 0
		}
		variance += square(open - inDish[k])
		open, last = inDish[k], s.first+1
	}
	return (variance + square(open)) * square(l.uScale)
}
