package reply

import (
	"math"
	"time"

	"daub.example/daub/data/export"
	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/handling"
)

// Handling holds what was seen in a trial besides its ratio.
type Handling struct {
	Covered  bool    `json:"covered"`   // the dish is kept covered for later looks
	Later    []Later `json:"later"`     // in order of time
	ContactS *int    `json:"contact_s"` // wait of the first powder, if much longer than the rest; else null
}

// Later is a look at the covered dish.
type Later struct {
	At           time.Time `json:"at"`
	Level        *float64  `json:"level"`         // as it stands; null when not read
	StirredLevel *float64  `json:"stirred_level"` // after ten turns; null when not read
	Marks        []string  `json:"marks"`
	Note         string    `json:"note"`
	Change       *Change   `json:"change"` // since the last look; null if unknown
}

// Change is the thickening of a dish since its last look, in levels, with its 95 %
// interval; an open end is null.
type Change struct {
	Levels float64  `json:"levels"`
	Low    *float64 `json:"low"`
	High   *float64 `json:"high"`
}

// HandlingOf gives the later looks, contact time and behaviour of one trial.
func HandlingOf(r bench.Reading) Handling {
	t := r.Trial
	out := Handling{Covered: t.Covered, Later: []Later{}}
	course, _ := handling.CourseOf(r)
	added, _ := t.LastAdded()
	for _, l := range t.Later {
		one := Later{At: l.At, Level: l.Level, StirredLevel: l.Stirred, Marks: Filled(l.Marks), Note: l.Note}
		for _, c := range course.Changes {
			if l.Level != nil && c.Minutes == l.At.Sub(added).Minutes() {
				one.Change = &Change{c.Delta, finite(c.Low), finite(c.High)}
			}
		}
		out.Later = append(out.Later, one)
	}
	if c, ok := handling.ContactOf(t, r.Profile.Powder.Kind()); ok {
		seconds := int(c.Stood.Seconds())
		out.ContactS = &seconds
	}
	return out
}

func finite(v float64) *float64 {
	if math.IsInf(v, 0) {
		return nil
	}
	return export.Number(v)
}

// Size is the volume of a level spoon.
type Size struct {
	VolumeML *float64   `json:"volume_ml"` // null if unknown
	Checked  *time.Time `json:"checked"`   // when it was checked with water; null if it was not
}

// SizeOf gives a spoon's volume and when it was checked.
func SizeOf(s model.Spoon) Size { return Size{export.Positive(s.VolumeML), Moment(s.Measured)} }

// Packing is a level spoon filled loose and tapped.
type Packing struct {
	Spoon   string           `json:"spoon"`
	LooseG  []float64        `json:"loose_g"`
	TappedG []float64        `json:"tapped_g"`
	Hausner *export.Interval `json:"hausner"`  // tapped over loose; null if the two seem swapped
	Flow    *string          `json:"flow"`     // the class of USP <1174>; null likewise
	InGrams bool             `json:"in_grams"` // recipes should give it in grams
}

// PackingsOf gives the packing of every spoon weighed both loose and tapped.
func PackingsOf(p model.Powder) []Packing {
	out := []Packing{}
	for _, one := range p.Packings {
		j := Packing{Spoon: one.Spoon, LooseG: one.LooseG, TappedG: one.TappedG}
		if m, ok := handling.PackingOf(one); ok {
			j.Hausner, j.Flow, j.InGrams = export.IntervalOf(&m.Hausner), OrNull(string(m.Flow)), m.InGrams
		}
		out = append(out, j)
	}
	return out
}
