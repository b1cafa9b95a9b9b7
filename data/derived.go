package data

import (
	"crypto/sha256"
	"fmt"

	"daub.example/daub/data/record"
	"daub.example/daub/model"
	"daub.example/daub/model/repeats"
)

// derived is the ratio table that was last worked out for a profile, and what
// it was worked out from. A step at the bench changes none of that, so that
// saving it need not fit every finished trial again.
type derived struct {
	from [sha256.Size]byte
	rows []repeats.Row
}

// ratios is the ratio table of p, worked out anew only where anything that it
// rests on has changed.
func (d *derived) ratios(p model.Profile, drawer model.Drawer) []repeats.Row {
	if from := restsOn(p, drawer); from != d.from {
		d.from, d.rows = from, record.RatioRows(p, drawer)
	}
	return d.rows
}

// restsOn is a fingerprint of all that a profile's ratio table is worked out
// from: the powder, its level spoons, the trials that count, the level that the
// newest trial aims at, and the maker's own spoons. It errs on the side of
// working out anew.
func restsOn(p model.Profile, d model.Drawer) [sha256.Size]byte {
	used := model.Profile{Powder: p.Powder, LevelSpoons: p.LevelSpoons}
	for _, t := range p.Trials {
		if t.Used() {
			used.Trials = append(used.Trials, t)
		}
	}
	records, errRecords := record.WriteProfile(used, nil, nil)
	spoons, errSpoons := record.WriteSpoons(d, nil)
	return sha256.Sum256(fmt.Appendf(nil, "%s\n%s\n%v\n%v %v", records, spoons, p.Aim(), errRecords, errSpoons))
}
