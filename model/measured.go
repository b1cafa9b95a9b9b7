package model

import (
	"fmt"
	"slices"

	"daub.example/daub/model/measure"
)

// Measured says what a trial reads by ruler, cone or watch, beside or instead of levels. It
// is asked once a trial.
type Measured struct {
	Kind         measure.Kind
	VolumeML     float64 // spread: the volume put down; 0 unknown
	HeightMM     float64 // slump: of the cylinder; 0 unknown
	PasteDensity float64 // g/mL; 0 unknown
	Wanted       float64 // the reading that is aimed at, in the kind's unit; 0: the last one
}

// MaxReading is the largest reading, in its unit; a larger one is a slip (chosen).
const MaxReading = 10000.0

// Validate lists the problems of measured readings, by the keys of their table.
func (m Measured) Validate() []Problem {
	c := &checker{}
	if !m.Kind.Known() {
		c.add(
			"kind",
			"use one of: spread, slump, cone, drain, blows",
			"the kind of reading %q is not known",
			string(m.Kind),
		)
	}
	c.optional("volume_ml", "a volume", "mL", m.VolumeML, 10000)
	c.optional("height_mm", "a height", "mm", m.HeightMM, 10000)
	c.optional("paste_density", "a paste's density", "g/mL", m.PasteDensity, maxDensity)
	c.optional("wanted", "a reading", m.Kind.Unit(), m.Wanted, MaxReading)
	return c.problems
}

// Stress gives the yield stress, Pa, at a reading. ok is false where the kind has none or
// the volume, the height or the density is not known.
func (m Measured) Stress(reading float64) (pa float64, ok bool) {
	switch m.Kind {
	case measure.Spread:
		return measure.SpreadStress(m.PasteDensity, m.VolumeML, reading)
	case measure.Slump:
		return measure.SlumpStress(m.PasteDensity, m.HeightMM, reading)
	default:
		return 0, false
	}
}

// Text writes a reading with its unit: "61 mm".
func (m Measured) Text(reading float64) string { return Number(reading) + " " + m.Kind.Unit() }

// Words names the scale: "spread of 15 mL".
func (m Measured) Words() string {
	switch {
	case m.Kind == measure.Spread && m.VolumeML > 0:
		return fmt.Sprintf("spread of %s mL", Number(m.VolumeML))
	case m.Kind == measure.Slump && m.HeightMM > 0:
		return fmt.Sprintf("slump of a cylinder %s mm high", Number(m.HeightMM))
	default:
		return string(m.Kind)
	}
}

// Like reports whether readings of both are on one scale.
func (m Measured) Like(other Measured) bool {
	return m.Kind == other.Kind && m.VolumeML == other.VolumeML && m.HeightMM == other.HeightMM
}

// WasRead reports whether the trial has any look or reading.
func (t Trial) WasRead() bool { return t.Looks() > 0 || t.HasReading() }

// ReadBy says how much of the trial was read, and how: "5 looks", "5 looks side by side",
// "5 looks, measured by spread", "measured by spread".
func (t Trial) ReadBy() string {
	text := Plural(t.Looks(), "look")
	if t.Match != nil {
		text += " side by side"
	}
	switch by := "measured by "; {
	case !t.HasReading():
		return text
	case t.Looks() == 0:
		return by + string(t.Measured.Kind)
	default:
		return text + ", " + by + string(t.Measured.Kind)
	}
}

// HasReading reports whether the trial has a measured reading.
func (t Trial) HasReading() bool {
	return slices.ContainsFunc(t.Steps, func(s Step) bool { return s.Reading > 0 })
}
