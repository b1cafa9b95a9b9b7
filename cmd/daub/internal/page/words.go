package page

import (
	"fmt"
	"math"
	"strings"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/repeats"
)

// Day is the layout of a date.
const Day = "2006-01-02"

// Date gives a day, "-" for none.
func Date(t time.Time) string {
	if t.IsZero() {
		return "-"
	}
	return t.Format(Day)
}

// OrDash gives text, "-" for none.
func OrDash(text string) string {
	if text == "" {
		return "-"
	}
	return text
}

// Handle gives a powder as a command takes it: name@lot.
func Handle(p model.Powder) string {
	if p.Lot == "" {
		return p.Name
	}
	return p.Name + "@" + p.Lot
}

// SpoonWeight gives the weight of a level spoon; ok is false before a weighing.
func SpoonWeight(l model.LevelSpoon) (text string, ok bool) {
	w, ok := l.Weight()
	return model.Weighed{Spoon: l.Spoon, Weight: w, Filled: l.Unusual()}.Text(), ok
}

// State says whether a trial counts.
func State(t model.Trial) string {
	switch {
	case t.SetAside != "":
		return "set aside (" + t.SetAside + ")"
	case t.State == model.Done && t.Match != nil:
		return "done, side by side"
	case t.State == model.Done:
		return "done"
	default:
		return "unfinished"
	}
}

// StepWord gives the step of the looks in words.
func StepWord(levelStep float64) string {
	if levelStep == 0.5 {
		return "half level"
	}
	return "level"
}

// Marked is a level's cell, with a sign at the level asked for.
func Marked(level, asked float64) string {
	if level == asked {
		return "> " + model.LevelName(level)
	}
	return "  " + model.LevelName(level)
}

// Ratio is a ratio's cell with its interval; if it is not reached, with what is
// known instead.
func Ratio(iv *fit.Interval, b *fit.Bound) string {
	switch {
	case iv != nil:
		return bench.IntervalText(*iv)
	case b != nil:
		return bench.BoundText(*b)
	default:
		return "-"
	}
}

// RatioOf is Ratio for a powder, which may have been tried only beside dishes.
func RatioOf(r repeats.Ratio) string {
	if r.OnlySideBySide {
		return model.BesideOnly
	}
	r = r.Rounded()
	return Ratio(r.Powder, r.Bound)
}

// BothSides explains the column "tested from" below a table.
const BothSides = "both sides: one look thinner and one thicker; a look at the level counts as both"

// Advice gives an advice in sentences, without the last full stop.
func Advice(a bench.Advice) string {
	switch a.Action {
	case bench.ActLook:
		return a.Text()
	case bench.ActStop, bench.ActWeigh:
		if do := string(a.Action); !strings.HasPrefix(a.Text(), do) {
			return do + ": " + a.Text()
		}
		return a.Text()
	default:
		return fmt.Sprintf("add %s, %s", a.Action, a.Text())
	}
}

// Budget says where the interval at a level comes from, and what would shrink each
// part, and to what.
func (p *Page) Budget(level float64, iv fit.Interval, terms []bench.Term) {
	if len(terms) == 0 {
		return
	}
	wide := "doubt" // no upper limit
	if half := iv.HalfWidth(); !math.IsInf(half, 1) {
		wide = bench.PlusMinus(half)
	}
	p.Gap()
	p.Line("Where the %s at %s comes from, in parts of 100, rounded:", wide, model.LevelName(level))
	for _, t := range terms {
		p.Hang(fmt.Sprintf("%5.0f  ", 100*t.Share), "       ", t.Text())
	}
}
