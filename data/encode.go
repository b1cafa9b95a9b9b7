package data

import (
	"bytes"
	"fmt"
	"math"
	"strings"

	"daub.example/daub/model"
)

// Encode writes the file of one powder and lot: keys in a fixed order, what
// was left out left out, [[ratio]] reckoned anew with the maker's own spoons
// from d. Comments in old, the file's text so far (nil for a new file), are
// kept: those above a header or key and those behind one stay with it, those
// whose place is gone come at the end. Encoding again changes nothing.
//
// What the maker typed is written to the digit; a number of more than 15
// digits, which only arithmetic makes, is rounded to 10.
//
// The error is a value that TOML cannot hold. Whether the profile makes sense
// is for model.Profile.Validate.
func Encode(p model.Profile, d model.Drawer, old []byte) ([]byte, error) {
	var w writer
	w.line("schema", fmt.Sprint(Schema))
	w.plainReserved(p.Reserved)
	w.powder(p.Powder)
	for _, l := range p.LevelSpoons {
		w.levelSpoon(l)
	}
	w.tablesReserved("", 0, p.Reserved)
	for _, t := range p.Trials {
		w.trial(t)
	}
	for _, r := range ratios(p, d) {
		w.ratio(r)
	}
	if w.err != nil {
		return nil, w.err
	}
	return finish(w.String(), old), nil
}

// finish gives a fresh text what it keeps of the old one: the comments and the
// kind of line ends.
func finish(fresh string, old []byte) []byte {
	text := strings.TrimPrefix(string(old), string(byteOrderMark))
	if ix, err := scan(text); err == nil && len(ix.comments) > 0 {
		fresh = keepComments(ix, fresh, movesBetween(text, fresh))
	}
	if line, _, found := bytes.Cut(old, []byte("\n")); found && bytes.HasSuffix(line, []byte("\r")) {
		fresh = strings.ReplaceAll(fresh, "\n", "\r\n")
	}
	return []byte(fresh)
}

func (w *writer) powder(p model.Powder) {
	w.header(0, "[powder]")
	w.line("name", quote(p.Name))
	w.text("lot", p.Lot)
	w.text("family", string(p.Family))
	w.decimal("solid_density", p.SolidDensity)
	w.flag("keep_from_metal", p.KeepFromMetal)
	w.text("notes", p.Notes)
}

func (w *writer) levelSpoon(l model.LevelSpoon) {
	w.header(0, "[[level_spoon]]")
	w.text("spoon", l.Spoon)
	w.decimals("grams", l.Grams)
	w.whole("spoons_each", l.SpoonsEach)
	w.decimal("resolution_g", l.ResolutionG)
	w.decimal("volume_ml", l.VolumeML)
	w.text("how", l.How)
}

func (w *writer) trial(t model.Trial) {
	w.header(0, "[[trial]]")
	w.moment("started", t.Started)
	w.text("state", string(t.State))
	w.text("set_aside", t.SetAside)
	w.text("liquid", t.Liquid)
	w.number("liquid_g", t.LiquidG)
	w.text("liquid_by", string(t.LiquidBy))
	w.text("liquid_spoon", t.LiquidSpoon)
	w.whole("liquid_count", t.LiquidCount)
	w.decimal("liquid_density", t.LiquidDensity)
	if t.TemperatureC != nil {
		w.number("temperature_c", *t.TemperatureC)
	}
	w.decimal("resolution_g", t.ResolutionG)
	w.text("spoon_set", string(t.SpoonSet))
	w.texts("spoons", t.Spoons)
	w.decimal("aim", t.Aim)
	w.decimal("level_step", t.LevelStep)
	w.decimal("tolerance", t.Tolerance)
	w.optional("rest_s", t.RestS)
	w.plainReserved(t.Reserved)
	for _, s := range t.Steps {
		w.step(s)
	}
	w.tablesReserved("trial.", 1, t.Reserved)
}

func (w *writer) step(s model.Step) {
	w.header(1, "[[trial.step]]")
	w.moment("at", s.At)
	w.text("add", string(s.Add))
	w.text("spoon", s.Spoon)
	w.whole("count", s.Count)
	w.decimal("grams", s.Grams)
	if s.Looked {
		w.number("level", s.Level)
	}
	w.optional("rested_s", s.RestedS)
	w.texts("marks", s.Marks)
	w.text("note", s.Note)
}

// ratio writes one line of the powder's ratio table.
func (w *writer) ratio(r model.PowderRatio) {
	w.header(0, "[[ratio]]")
	w.line("liquid", quote(r.Basis.Liquid))
	w.line("rest_s", fmt.Sprint(r.Basis.RestS))
	w.number("level", r.Level)
	w.text("reach", r.Reach.String())
	w.whole("trials", r.Trials)
	for _, v := range ratioValues(r) {
		w.number(v.name, v.value)
	}
}

// named is a number under its key.
type named struct {
	name  string
	value float64
}

// ratioDigits is the precision of [[ratio]], in significant digits.
const ratioDigits = 4

// ratioValues are the numbers of one ratio or bound, rounded. A limit that is
// not finite is left out.
func ratioValues(r model.PowderRatio) []named {
	var out []named
	add := func(name string, v float64) {
		if math.IsInf(v, 0) {
			return
		}
		out = append(out, named{name, model.RoundSignificant(v, ratioDigits)})
	}
	switch {
	case r.Powder != nil:
		add("liquid_per_powder", r.Powder.Median)
		add("low", r.Powder.Low)
		add("high", r.Powder.High)
		if r.Next != nil {
			add("next_low", r.Next.Low)
			add("next_high", r.Next.High)
		}
	case r.Bound != nil:
		if r.Bound.Low > 0 {
			add("bound_low", r.Bound.Low)
		}
		add("bound_high", r.Bound.High)
	}
	return out
}

// ratios is the ratio table of a profile: each basis at level 1 to 6 and the
// aim. Levels of which the trials say nothing are left out.
func ratios(p model.Profile, d model.Drawer) []model.PowderRatio {
	var out []model.PowderRatio
	for _, b := range p.Bases() {
		for _, r := range p.Ratios(b, model.TableLevels(p.Aim()), d) {
			if len(ratioValues(r)) > 0 {
				out = append(out, r)
			}
		}
	}
	return out
}
