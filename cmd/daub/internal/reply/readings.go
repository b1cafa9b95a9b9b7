package reply

import (
	"daub.example/daub/data/export"
	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/readings"
)

// Measured holds the answer of one dish's readings, in their own scale.
type Measured struct {
	Kind     string           `json:"kind"`
	Unit     string           `json:"unit"`
	Readings int              `json:"readings"`
	Wanted   float64          `json:"wanted"`
	Status   string           `json:"status"`
	Median   *float64         `json:"median"`
	Ratio    *export.Interval `json:"ratio"`
	G        *float64         `json:"g"`
	StressPa *float64         `json:"yield_stress_pa"`
}

// MeasuredOf is nil for a trial without a reading.
func MeasuredOf(r bench.Reading) *Measured {
	m, ok := readings.Of(r)
	if !ok {
		return nil
	}
	out := &Measured{
		Kind: string(m.Kind), Unit: m.Kind.Unit(), Readings: m.N, Wanted: m.Wanted, Status: string(m.Status),
		G: export.Number(m.G),
	}
	if m.Ratio.Median > 0 {
		out.Median = export.Number(m.Ratio.Median)
	}
	if m.Ratio.High > 0 {
		out.Ratio = export.IntervalOf(&m.Ratio)
	}
	if m.StressPa > 0 {
		out.StressPa = export.Number(m.StressPa)
	}
	return out
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
	Notes      []string      `json:"notes"`
}

// AcidOf is nil for a trial without an acid test.
func AcidOf(r bench.Reading, own model.OwnSpoons) *Acid {
	a, ok := readings.AcidOf(r, readings.SkinPH, own)
	if !ok {
		return nil
	}
	out := &Acid{
		Acid: a.Acid, By: string(a.By), PHStep: a.Step(), PasteG: a.PasteG, Target: a.Target, Reach: string(a.Reach),
		OutOfOrder: a.OutOfOrder, Notes: Filled(a.Notes(r.Profile.Powder)),
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
