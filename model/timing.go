package model

// Timing is how the wait before a look stands to the trial's rest.
type Timing string

// The timings. A look whose wait was not recorded is taken as in time.
const (
	InTime Timing = ""
	Early  Timing = "early" // before half the rest was up
	Late   Timing = "late"  // after more than three times the rest
)

// Timing is how the look's wait stands to a rest, s.
func (s Step) Timing(restS int) Timing {
	switch {
	case !s.Looked || s.RestedS == nil || restS <= 0:
		return InTime
	case 2**s.RestedS < restS:
		return Early
	case *s.RestedS > 3*restS:
		return Late
	default:
		return InTime
	}
}
