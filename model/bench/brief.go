package bench

import (
	"fmt"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// Brief is the answer of this dish on one line, the longest first and shorter
// ones for where there is little room.
func (a Answer) Brief(liquid string) []string {
	at, short := "at "+model.LevelName(a.Level), "at "+model.Number(a.Level)
	per := fmt.Sprintf(" g %s per g powder", liquid)
	switch {
	case a.Dish != nil && a.Reach == fit.Bracketed:
		iv := IntervalText(*a.Dish)
		return []string{at + ": " + iv + per, short + ": " + iv}
	case a.Dish != nil:
		iv := "about " + IntervalText(*a.Dish)
		return []string{
			at + ": " + iv + per + ", " + a.side(), at + ": " + iv + ", " + a.side(),
			short + ": " + iv + ", one side only", short + ": " + iv,
		}
	case a.Bound != nil:
		bound := BoundText(*a.Bound)
		return []string{at + ": " + bound + per + " so far", short + ": " + bound + " so far"}
	case a.PotOwed:
		return []string{"none before the pot is weighed again (p)", "weigh the pot again (p)"}
	default:
		return []string{"none before the first level", "no level yet"}
	}
}

// side says from which side the level was tested.
func (a Answer) side() string {
	if a.Missing == fit.MissingThinner {
		return "tested from the thick side only"
	}
	return "tested from the thin side only"
}
