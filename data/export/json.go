package export

import (
	"bytes"
	"encoding/json"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/care"
	"daub.example/daub/model/printable"
)

// exportedJSON is the answer of an export as JSON. Its keys never change.
type exportedJSON struct {
	Schema   int          `json:"schema"`
	Powders  []powderJSON `json:"powders"`
	Deferral string       `json:"deferral"` // shown with the cautions
}

type powderJSON struct {
	Slug          string      `json:"slug"`
	Powder        string      `json:"powder"`
	Lot           string      `json:"lot"`
	Family        string      `json:"family"`
	SolidDensity  *float64    `json:"solid_density"` // g/mL; null when not given
	KeepFromMetal bool        `json:"keep_from_metal"`
	GramsPerTsp   *float64    `json:"grams_per_tsp"` // of a level teaspoon; null when none was weighed
	LastTrial     *time.Time  `json:"last_trial"`    // start of the newest that counts; null if none does
	Marks         []string    `json:"marks"`
	Cautions      []string    `json:"cautions"`
	Ratios        []ratioJSON `json:"ratios"` // by basis, then level; empty when no trial counts
}

// ratioJSON is one level on one basis, g liquid per g powder.
type ratioJSON struct {
	Liquid    string    `json:"liquid"`
	RestS     int       `json:"rest_s"`
	Level     float64   `json:"level"`
	LevelWord string    `json:"level_word"`
	Reach     string    `json:"reach"`
	Trials    int       `json:"trials"`
	Ratio     *Interval `json:"ratio"`   // this powder; null when not reached
	Next      *Range    `json:"next"`    // the next dish
	PerTsp    *Interval `json:"per_tsp"` // g liquid per level teaspoon; null when none was weighed
	Bound     *Range    `json:"bound"`   // when not reached; null without a look
}

func exportJSON(out *bytes.Buffer, sheets []sheet, _ Options) error {
	all := exportedJSON{Schema: exportSchema, Deferral: care.Deferral}
	for _, s := range sheets {
		all.Powders = append(all.Powders, s.json())
	}
	return Encode(out, all)
}

// Encode writes a value as JSON without any character that steers a terminal.
func Encode(out *bytes.Buffer, v any) error {
	var text bytes.Buffer
	e := json.NewEncoder(&text)
	e.SetEscapeHTML(false)
	e.SetIndent("", "  ")
	if err := e.Encode(v); err != nil {
		return err
	}
	out.Write(printable.JSON(text.Bytes()))
	return nil
}

func (s sheet) json() powderJSON {
	p := powderJSON{
		Slug: s.slug, Powder: s.powder.Name, Lot: s.powder.Lot, Family: string(s.powder.Kind()),
		KeepFromMetal: s.powder.KeepFromMetal,
		Marks:         append([]string{}, s.marks...), Cautions: care.Of(s.powder), Ratios: []ratioJSON{},
	}
	p.SolidDensity, p.GramsPerTsp = Positive(s.powder.SolidDensity), Positive(s.tspG)
	if !s.last.IsZero() {
		p.LastTrial = &s.last
	}
	for _, r := range s.ratios {
		p.Ratios = append(p.Ratios, ratioJSON{
			Liquid: r.Basis.Liquid, RestS: r.Basis.RestS, Level: r.Level, LevelWord: model.LevelWord(r.Level),
			Reach: r.Reach.String(), Trials: r.Trials,
			Ratio: IntervalOf(r.Powder), Next: RangeOf(r.Next), PerTsp: IntervalOf(r.PerTsp), Bound: BoundOf(r.Bound),
		})
	}
	return p
}
