package main

import (
	"time"

	"daub.example/daub/cmd/daub/internal/reply"
	"daub.example/daub/data/export"
	"daub.example/daub/model/bench"
)

// besideJSON is what a trial beside a reference dish says beside its ratio.
type besideJSON struct {
	Scale string     `json:"scale"` // of its looks: levels or side-by-side
	Match *matchJSON `json:"match"` // the reference dish; null where levels are named
	// Factor is how many times as much liquid a gram takes as of the reference; null
	// without one, and where it is not reached.
	Factor *export.Interval `json:"factor"`
}

// matchJSON is the dish that a powder was brought beside, as the trial noted it.
type matchJSON struct {
	Powder          string     `json:"powder"` // slug
	Name            string     `json:"name"`   // of that powder, with its lot; "" not recorded
	Trial           int        `json:"trial"`  // from 1; 0 not recorded
	Step            int        `json:"step"`
	Made            *time.Time `json:"made"`              // when that dish was last added to; null not recorded
	PowderPerLiquid float64    `json:"powder_per_liquid"` // of that dish, g/g
	Level           float64    `json:"level"`             // at which it stood
	Half            float64    `json:"half"`              // what its masses leave open, 95 % half-width in ln R
}

func toBeside(r bench.Reading) besideJSON {
	m := r.Trial.Match
	if m == nil {
		return besideJSON{Scale: "levels"}
	}
	return besideJSON{
		Scale: "side-by-side", Factor: export.IntervalOf(r.Factor()),
		Match: &matchJSON{
			m.Powder, m.Name, m.Trial, m.Step, reply.Moment(m.Made), m.PowderPerLiquid, m.Level, m.MassesHalf(),
		},
	}
}
