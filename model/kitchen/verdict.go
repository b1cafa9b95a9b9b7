package kitchen

import "daub.example/daub/model"

// Verdict says whether one powder can stand in for another, gram for gram.
type Verdict string

// The verdicts (METHOD, using a ratio; limits chosen). A pair that is not
// compared has none.
const (
	Close      Verdict = "close"          // within half a level, the interval within one and a half
	Adjust     Verdict = "adjust"         // none of the others
	Unsettled  Verdict = "unsettled"      // the interval spans from close to two levels off
	NotStandIn Verdict = "not a stand-in" // two levels off or more
)

// Limits of the verdicts, in levels from the one wanted.
const (
	closeLevels     = 0.5
	closeWidth      = 1.5
	notStandInLevel = 2.0
)

// Short gives the verdict for a cell of a table headed "gram for gram".
func (v Verdict) Short() string {
	switch v {
	case Close:
		return "similar"
	case Adjust:
		return "adjust"
	case NotStandIn:
		return "no"
	case Unsettled:
		return "not sure yet"
	default:
		return "not compared"
	}
}

// verdictText puts the verdict of a compared pair into a sentence that has just told the
// level at which B comes out.
func (p Pair) verdictText() string {
	switch {
	case p.Verdict == Close:
		return "similar thickness weight for weight"
	case p.Verdict == Adjust:
		return "adjust the amounts"
	case p.Verdict == Unsettled:
		return "it may or may not do"
	case p.StandsAt.Median < p.A.Ratio.Level:
		return "far too thin"
	default:
		return "far too thick"
	}
}

// GramForGram gives the verdict with the level at which B stands, "no: level 2.2" or
// "no: watery", for a cell of a table headed "gram for gram".
func (p Pair) GramForGram() string {
	if p.Verdict != Adjust && p.Verdict != NotStandIn {
		return p.Verdict.Short()
	}
	at := min(max(p.StandsAt.Median, model.MinLevel), model.MaxLevel)
	if at == model.MinLevel || at == model.MaxLevel { // the scale goes no further
		return p.Verdict.Short() + ": " + model.LevelWord(at)
	}
	return p.Verdict.Short() + ": level " + StandsAt(at)
}
