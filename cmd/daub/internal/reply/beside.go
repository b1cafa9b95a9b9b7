package reply

import (
	"time"

	"daub.example/daub/data/export"
	"daub.example/daub/model/bench"
)

// Beside is what a trial beside a reference dish says beside its ratio.
type Beside struct {
	Scale string `json:"scale"` // of its looks: levels or side-by-side
	Match *Match `json:"match"` // the reference dish; null where levels are named
	// Factor is how many times as much liquid a gram takes as of the reference; null
	// without one, and where it is not reached.
	Factor *export.Interval `json:"factor"`
}

// Match is the dish that a powder was brought beside, as the trial noted it.
type Match struct {
	Powder          string     `json:"powder"` // slug
	Name            string     `json:"name"`   // of that powder, with its lot; "" not recorded
	Trial           int        `json:"trial"`  // from 1; 0 not recorded
	Step            int        `json:"step"`
	Made            *time.Time `json:"made"`              // when that dish was last added to; null not recorded
	PowderPerLiquid float64    `json:"powder_per_liquid"` // of that dish, g/g
	Level           float64    `json:"level"`             // at which it stood
	Half            float64    `json:"half"`              // what its masses leave open, 95 % half-width in ln R
}

// BesideOf is a trial's scale, reference dish and factor.
func BesideOf(r bench.Reading) Beside {
	m := r.Trial.Match
	if m == nil {
		return Beside{Scale: "levels"}
	}
	return Beside{
		Scale: "side-by-side", Factor: export.IntervalOf(r.Factor()),
		Match: &Match{
			m.Powder, m.Name, m.Trial, m.Step, Moment(m.Made), m.PowderPerLiquid, m.Level, m.MassesHalf(),
		},
	}
}
