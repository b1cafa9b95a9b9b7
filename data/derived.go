package data

import (
	"crypto/sha256"
	"fmt"

	"daub.example/daub/data/record"
	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
	"daub.example/daub/model/repeats"
)

// derived is the ratio table that was last worked out for a profile, and what
// it was worked out from. A step at the bench changes none of that, so that
// saving it need not fit every finished trial again.
type derived struct {
	from    [sha256.Size]byte
	rows    []repeats.Row
	trusted []repeats.Row // as the file had it, where its fingerprint fitted
}

// ratios is the ratio table of p, worked out anew only where anything that it
// rests on has changed.
func (d *derived) ratios(p model.Profile, ownSpoons model.OwnSpoons, read *tomlfile.Document) []repeats.Row {
	from := restsOn(p, ownSpoons)
	switch {
	case from == d.from:
	case d.stillTrusted(from, ownSpoons, read):
		d.from, d.rows = from, d.trusted
	default:
		d.from, d.rows = from, record.RatioRows(p, ownSpoons)
	}
	d.trusted = nil
	return d.rows
}

// stillTrusted reports whether the table that was read rests on what the new one
// would. It fitted the own spoons of then, which may have changed.
func (d *derived) stillTrusted(from [sha256.Size]byte, ownSpoons model.OwnSpoons, read *tomlfile.Document) bool {
	if d.trusted == nil || read == nil {
		return false
	}
	was, _, problems := record.ReadProfile(read.Text, ownSpoons)
	return len(problems) == 0 && was.Trusted(read.Text, ownSpoons) != nil && restsOn(was.Profile, ownSpoons) == from
}

// restsOn is a fingerprint of all that a profile's ratio table is worked out
// from: the powder, its level spoons, the trials that count, the level that the
// newest trial aims at, and the maker's own spoons. It errs on the side of
// working out anew.
func restsOn(p model.Profile, d model.OwnSpoons) [sha256.Size]byte {
	used := model.Profile{Powder: p.Powder, LevelSpoons: p.LevelSpoons}
	for _, t := range p.Trials {
		if t.Used() {
			used.Trials = append(used.Trials, t)
		}
	}
	records, errRecords := record.WriteProfile(used, nil, nil, nil)
	spoons, errSpoons := record.WriteSpoons(d, nil)
	return sha256.Sum256(fmt.Appendf(nil, "%s\n%s\n%v\n%v %v", records, spoons, p.Aim(), errRecords, errSpoons))
}
