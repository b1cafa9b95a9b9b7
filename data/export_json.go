package data

import (
	"bytes"
	"encoding/json"
	"time"

	"daub.example/daub/model"
)

// exportedJSON is the answer of an export as JSON. Its keys stay.
type exportedJSON struct {
	Schema   int          `json:"schema"`
	Powders  []powderJSON `json:"powders"`
	Deferral string       `json:"deferral"` // goes with the cautions
}

type powderJSON struct {
	Slug          string      `json:"slug"`
	Powder        string      `json:"powder"`
	Lot           string      `json:"lot"`
	Family        string      `json:"family"`
	SolidDensity  *float64    `json:"solid_density"` // g/mL; null when not given
	KeepFromMetal bool        `json:"keep_from_metal"`
	GramsPerTsp   *float64    `json:"grams_per_tsp"` // of a level teaspoon; null when none was weighed
	LastTrial     *time.Time  `json:"last_trial"`    // start of the newest that counts; null without
	Marks         []string    `json:"marks"`
	Cautions      []string    `json:"cautions"`
	Ratios        []ratioJSON `json:"ratios"` // by basis, then level; empty when no trial counts
}

// ratioJSON is one level on one basis, g liquid per g powder.
type ratioJSON struct {
	Liquid    string        `json:"liquid"`
	RestS     int           `json:"rest_s"`
	Level     float64       `json:"level"`
	LevelWord string        `json:"level_word"`
	Reach     string        `json:"reach"`
	Trials    int           `json:"trials"`
	Ratio     *intervalJSON `json:"ratio"`   // this powder; null when not reached
	Next      *rangeJSON    `json:"next"`    // the next dish
	PerTsp    *intervalJSON `json:"per_tsp"` // g liquid per level teaspoon; null when none was weighed
	Bound     *rangeJSON    `json:"bound"`   // when not reached; null without a look
}

type intervalJSON struct {
	Median float64 `json:"median"`
	Low    float64 `json:"low"`
	High   float64 `json:"high"`
}

// rangeJSON is a range; an end that is open is null.
type rangeJSON struct {
	Low  *float64 `json:"low"`
	High *float64 `json:"high"`
}

func exportJSON(out *bytes.Buffer, sheets []sheet) error {
	all := exportedJSON{Schema: Schema, Deferral: model.Deferral}
	for _, s := range sheets {
		all.Powders = append(all.Powders, s.json())
	}
	e := json.NewEncoder(out)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	return e.Encode(all)
}

func (s sheet) json() powderJSON {
	p := powderJSON{
		Slug: s.slug, Powder: s.powder.Name, Lot: s.powder.Lot, Family: string(s.powder.Kind()), KeepFromMetal: s.powder.KeepFromMetal,
		Marks: append([]string{}, s.marks...), Cautions: s.powder.Cautions(), Ratios: []ratioJSON{},
	}
	if v := s.powder.SolidDensity; v > 0 && finite(v) {
		p.SolidDensity = &v
	}
	if s.tspG > 0 {
		p.GramsPerTsp = &s.tspG
	}
	if !s.last.IsZero() {
		p.LastTrial = &s.last
	}
	for _, r := range s.ratios {
		values := map[string]*float64{}
		for _, v := range numbers(r) {
			values[v.name] = &v.value
		}
		p.Ratios = append(p.Ratios, ratioJSON{
			Liquid: r.Basis.Liquid, RestS: r.Basis.RestS, Level: r.Level, LevelWord: model.LevelWord(r.Level), Reach: r.Reach.String(), Trials: r.Trials,
			Ratio: toInterval(values["liquid_per_powder"], values["low"], values["high"]), Next: toRange(values["next_low"], values["next_high"]),
			PerTsp: toInterval(values["per_tsp"], values["per_tsp_low"], values["per_tsp_high"]), Bound: toRange(values["bound_low"], values["bound_high"]),
		})
	}
	return p
}

// toInterval is null unless all three are there.
func toInterval(median, low, high *float64) *intervalJSON {
	if median == nil || low == nil || high == nil {
		return nil
	}
	return &intervalJSON{*median, *low, *high}
}

// toRange is null unless one of the two is there.
func toRange(low, high *float64) *rangeJSON {
	if low == nil && high == nil {
		return nil
	}
	return &rangeJSON{low, high}
}
