package reply

import (
	"daub.example/daub/data/export"
	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/readings"
)

// Measured holds the answer of one dish's readings, in their own unit.
type Measured struct {
	Kind     string           `json:"kind"`
	Unit     string           `json:"unit"`
	Scale    string           `json:"scale"` // in words: "at 60 mm, spread of 15 mL"
	Readings int              `json:"readings"`
	Wanted   float64          `json:"wanted"`
	Status   string           `json:"status"`
	Median   *float64         `json:"median"`
	Ratio    *export.Interval `json:"ratio"` // by the readings alone
	Dish     *export.Interval `json:"dish"`  // with the uncertainty of the masses
	G        *float64         `json:"g"`
	StressPa *float64         `json:"yield_stress_pa"`
}

// MeasuredOf gives a trial's answer by readings; nil without one.
func MeasuredOf(r bench.Reading) *Measured {
	m, ok := readings.Of(r)
	if !ok {
		return nil
	}
	out := &Measured{
		Kind: string(m.Kind), Unit: m.Kind.Unit(), Scale: m.Scale(), Readings: m.N, Wanted: m.Wanted,
		Status: string(m.Status),
		G:      export.Number(m.G),
	}
	if m.Ratio.Median > 0 {
		out.Median = export.Number(m.Ratio.Median)
	}
	if m.Ratio.High > 0 {
		out.Ratio, out.Dish = export.IntervalOf(&m.Ratio), export.IntervalOf(&m.Dish)
	}
	if m.StressPa > 0 {
		out.StressPa = export.Number(m.StressPa)
	}
	return out
}

// ByReading holds a powder's answer at one reading, from all trials on its scale.
type ByReading struct {
	Kind   string  `json:"kind"`
	Unit   string  `json:"unit"`
	Scale  string  `json:"scale"`
	Wanted float64 `json:"wanted"`
	Basis
	Trials        int              `json:"trials"`
	Ratio         *export.Interval `json:"ratio"` // of this powder
	Next          *export.Range    `json:"next"`  // of the next dish
	BetweenTrials *float64         `json:"between_trials"`
}

// ByReadingOf lists a powder's answers, one for each scale.
func ByReadingOf(all []readings.Powder) []ByReading {
	out := make([]ByReading, len(all))
	for i, p := range all {
		out[i] = ByReading{
			Kind: string(p.Kind), Unit: p.Kind.Unit(), Scale: p.Scale(), Wanted: p.Wanted, Basis: BasisOf(p.Basis),
			Trials: p.Trials, Ratio: export.IntervalOf(&p.Ratio), Next: export.RangeOf(&p.Next),
			BetweenTrials: export.Number(p.BetweenTrials),
		}
	}
	return out
}

// AtReading compares one powder with another at an equal reading.
type AtReading struct {
	Kind   string           `json:"kind"`
	Unit   string           `json:"unit"`
	Scale  string           `json:"scale"`
	Wanted float64          `json:"wanted"`
	Factor *export.Interval `json:"factor"` // times as much liquid a gram
}

// AtReadingOf lists pairs at an equal reading, one for each scale that both have.
func AtReadingOf(pairs []readings.Pair) []AtReading {
	out := make([]AtReading, len(pairs))
	for i, p := range pairs {
		out[i] = AtReading{string(p.A.Kind), p.A.Kind.Unit(), p.A.Scale(), p.A.Wanted, export.IntervalOf(&p.Factor)}
	}
	return out
}

// AcidOffer is the acid for so much paste.
type AcidOffer struct {
	Acid   string        `json:"acid"`
	Target float64       `json:"target"`
	Trial  int           `json:"trial"` // the trial whose acid test it is, from 1
	Grams  *float64      `json:"grams"`
	Range  *export.Range `json:"grams_range"`
	Share  *float64      `json:"share"` // of the paste
	Text   string        `json:"sentence"`
}

// OfferOf gives the acid on offer; null without an acid test that reached its
// target.
func OfferOf(o readings.Offer, ok bool) *AcidOffer {
	if !ok {
		return nil
	}
	return &AcidOffer{
		Acid: o.Test.Acid, Target: o.Test.Target(), Trial: o.Trial + 1, Grams: export.Number(o.Grams.Median),
		Range: export.RangeOf(&o.Grams), Share: export.Number(o.Share), Text: o.Sentence(),
	}
}

// Acid holds the amount of acid that brings one dish to a target pH.
type Acid struct {
	Acid       string        `json:"acid"`
	By         string        `json:"by"`
	PHStep     float64       `json:"ph_step"`
	PasteG     float64       `json:"paste_g"`
	Before     float64       `json:"ph_before"`
	After      float64       `json:"ph_after"`
	Target     float64       `json:"target"`
	Reach      string        `json:"target_reach"`
	Per100G    *float64      `json:"grams_per_100_g"`
	Range      *export.Range `json:"grams_per_100_g_range"`
	OutOfOrder bool          `json:"out_of_order"`
	Readings   []PH          `json:"readings"`        // those that count, with the acid added by then
	WithAcid   *float64      `json:"ratio_with_acid"` // g/g at the target, with the acid counted as liquid
	Level      *float64      `json:"level_before"`
	LevelAfter *float64      `json:"level_after"`
	Notes      []string      `json:"notes"`
}

// PH is one pH and the acid in the paste by then.
type PH struct {
	Grams *float64 `json:"grams"`
	PH    float64  `json:"ph"`
}

// AcidOf gives a trial's acid test; nil without one.
func AcidOf(r bench.Reading, own model.OwnSpoons) *Acid {
	a, ok := readings.AcidOf(r, own)
	if !ok {
		return nil
	}
	out := &Acid{
		Acid: a.Acid, By: string(a.By), PHStep: a.Step(), PasteG: a.PasteG, Target: a.Target(), Reach: string(a.Reach),
		OutOfOrder: a.OutOfOrder, Notes: Filled(a.Notes(r.Profile.Powder)), Readings: []PH{},
		WithAcid: export.Positive(a.ThinnedTo), Level: a.Before, LevelAfter: a.After,
	}
	for _, p := range a.Readings {
		out.Readings = append(out.Readings, PH{export.Number(p.Grams), p.PH})
	}
	out.Before, out.After = a.PHRange()
	if a.Per100G.Median > 0 {
		out.Per100G = export.Number(a.Per100G.Median)
	}
	if a.Per100G.High > 0 {
		out.Range = export.RangeOf(&a.Per100G)
	}
	return out
}
