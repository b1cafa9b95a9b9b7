package reply

import (
	"time"

	"daub.example/daub/data/export"
	"daub.example/daub/model/bench"
)

// SideBySide holds the answer of a trial beside a reference dish.
type SideBySide struct {
	Scale string `json:"scale"` // of its looks: levels or side-by-side
	Match *Match `json:"match"` // the reference dish; null if levels are named
	// Factor is the liquid a gram takes as a multiple of the reference's; null
	// without one, or if it is not reached.
	Factor *export.Interval `json:"factor"`
}

// Match is the reference dish of a trial, as the trial noted it.
type Match struct {
	Powder          string     `json:"powder"` // slug
	Name            string     `json:"name"`   // that powder's name, with its lot; "" not recorded
	Trial           int        `json:"trial"`  // from 1; 0 not recorded
	Step            int        `json:"step"`
	Made            *time.Time `json:"made"`              // time of the last addition to that dish; null not recorded
	PowderPerLiquid float64    `json:"powder_per_liquid"` // of that dish, g/g
	Level           float64    `json:"level"`             // of that dish
	Half            float64    `json:"half"`              // uncertainty from its masses, 95 % half-width in ln R
}

// SideBySideOf gives a trial's scale, reference dish and factor.
func SideBySideOf(r bench.Reading) SideBySide {
	m := r.Trial.Match
	if m == nil {
		return SideBySide{Scale: "levels"}
	}
	return SideBySide{
		Scale: "side-by-side", Factor: export.IntervalOf(r.Factor()),
		Match: &Match{
			m.Powder, m.Name, m.Trial, m.Step, Moment(m.Made), m.PowderPerLiquid, m.Level, m.MassesHalf(),
		},
	}
}
