package bench

import (
	"fmt"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// Brief is the answer of this dish on one line, and on a shorter one for where
// there is little room.
func (a Answer) Brief(liquid string) (line, short string) {
	at := "at " + model.LevelName(a.Level)
	per := fmt.Sprintf("g %s per g powder", liquid)
	switch {
	case a.Dish != nil && a.Reach == fit.Bracketed:
		line = fmt.Sprintf("%s: %s %s", at, IntervalText(*a.Dish), per)
	case a.Dish != nil:
		line = fmt.Sprintf("%s: about %s %s, %s", at, IntervalText(*a.Dish), per, a.side())
	case a.Bound != nil:
		line = fmt.Sprintf("%s: %s %s so far", at, BoundText(*a.Bound), per)
	default:
		return "none before the first level", "no level yet"
	}
	switch {
	case a.Dish != nil:
		short = fmt.Sprintf("at %s: %s", model.Number(a.Level), IntervalText(*a.Dish))
	default:
		short = fmt.Sprintf("at %s: %s", model.Number(a.Level), BoundText(*a.Bound))
	}
	return line, short
}

// side says from which side the level was tested.
func (a Answer) side() string {
	if a.Missing == fit.MissingThinner {
		return "tested from the thick side only"
	}
	return "tested from the thin side only"
}
