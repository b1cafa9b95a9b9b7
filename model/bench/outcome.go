package bench

import "daub.example/daub/model"

// Outcome is what a trial says: worked out once after a change, read by all
// that show it.
type Outcome struct {
	Reading Reading
	Err     error     // the step that cannot be calculated, a *StepError; the reading holds what came before it
	Levels  []float64 // CurveLevels
	Curve   []Answer  // one a level
	FarOut  []int     // steps whose look sits far from where the others put it
	Advice  *Advice   // what to do next; nil where nothing can be said
}

// outcomeOf works out what a reading says; err is what came with it.
func outcomeOf(r Reading, err error) Outcome {
	o := Outcome{Reading: r, Err: err, Levels: model.CurveLevels()}
	o.Curve = r.Answers(o.Levels)
	o.FarOut = r.FarOut()
	if advice, ok := r.Advice(); ok && err == nil {
		o.Advice = &advice
	}
	return o
}

// Dish is what is in the dish now.
func (o Outcome) Dish() Dish { return o.Reading.Dish() }

// Answer is what the trial says of a level from 1 to 6.
func (o Outcome) Answer(level float64) Answer {
	for i, l := range o.Levels {
		if l == level {
			return o.Curve[i]
		}
	}
	return o.Reading.At(level)
}
