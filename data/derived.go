package data

import (
	"crypto/sha256"
	"fmt"

	"daub.example/daub/data/record"
	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
	"daub.example/daub/model/repeats"
)

// derived is the ratio table last calculated for a profile, with a fingerprint of
// its inputs. A step at the bench changes none of these, so saving it need not fit
// every finished trial again.
type derived struct {
	from    [sha256.Size]byte
	rows    []repeats.Row
	trusted []repeats.Row // as the file had it, where its fingerprint fitted
}

// ratios returns the ratio table of p, calculated again only if one of its inputs
// has changed.
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

// stillTrusted reports whether the table that was read has the same inputs as a new
// one. It fitted the own spoons of then, which may have changed.
func (d *derived) stillTrusted(from [sha256.Size]byte, ownSpoons model.OwnSpoons, read *tomlfile.Document) bool {
	if d.trusted == nil || read == nil {
		return false
	}
	was, _, problems := record.ReadProfile(read.Text, ownSpoons)
	return len(problems) == 0 && was.Trusted(read.Text, ownSpoons) != nil && restsOn(was.Profile, ownSpoons) == from
}

// restsOn is a fingerprint of the inputs of a profile's ratio table. They are the
// powder, its level spoons, the trials that count, the newest trial's target level,
// and the maker's own spoons. If in doubt it differs, and the table is calculated
// again.
func restsOn(p model.Profile, own model.OwnSpoons) [sha256.Size]byte {
	used := model.Profile{Powder: p.Powder, LevelSpoons: p.LevelSpoons}
	for _, t := range p.Trials {
		if t.Used() {
			used.Trials = append(used.Trials, t)
		}
	}
	records, errRecords := record.WriteProfile(used, nil, nil, nil)
	spoons, errSpoons := record.WriteSpoons(own, nil)
	return sha256.Sum256(fmt.Appendf(nil, "%s\n%s\n%v\n%v %v", records, spoons, p.Aim(), errRecords, errSpoons))
}
