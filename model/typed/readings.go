package typed

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/measure"
)

// measuredExample shows the forms of a measured reading.
const measuredExample = "spread 15 mL density 1.4 wanted 60; slump 50 mm; cone; drain; blows; none"

// Measured reads what is measured beside looks, with its geometry: "spread 15 mL density
// 1.4 wanted 60", "slump 50 mm", "cone"; nil for "none".
func Measured(text string) (*model.Measured, error) {
	words := strings.Fields(strings.ToLower(strings.ReplaceAll(text, ",", " ")))
	if len(words) == 0 || words[0] == "none" {
		return nil, nil
	}
	m := model.Measured{Kind: measure.Kind(words[0])}
	wrong := refuse(text, "is no way of measuring", measuredExample)
	if !m.Kind.Known() {
		return nil, wrong
	}
	for i := 1; i+1 < len(words); i += 2 {
		a, b := words[i], words[i+1]
		var err error
		switch {
		case a == "density":
			m.PasteDensity, err = number(text, b, "a density", measuredExample)
		case a == "wanted":
			m.Wanted, err = number(text, b, "a reading", measuredExample)
		case b == "ml" && m.Kind == measure.Spread:
			m.VolumeML, err = number(text, a, "a volume", measuredExample)
		case b == "mm" && m.Kind == measure.Slump:
			m.HeightMM, err = number(text, a, "a height", measuredExample)
		default:
			err = wrong
		}
		if err != nil {
			return nil, err
		}
	}
	if len(words)%2 == 0 {
		return nil, wrong
	}
	if problems := m.Validate(); len(problems) > 0 {
		return nil, fmt.Errorf("%s; %s", problems[0].What, problems[0].Fix)
	}
	return &m, nil
}

// MeasuredText writes a way of measuring as Measured reads it.
func MeasuredText(m *model.Measured) string {
	if m == nil {
		return "none"
	}
	text := string(m.Kind)
	if m.VolumeML > 0 {
		text += " " + model.Number(m.VolumeML) + " mL"
	}
	if m.HeightMM > 0 {
		text += " " + model.Number(m.HeightMM) + " mm"
	}
	if m.PasteDensity > 0 {
		text += " density " + model.Number(m.PasteDensity)
	}
	if m.Wanted > 0 {
		text += " wanted " + model.Number(m.Wanted)
	}
	return text
}

// MeasuredReading reads a reading in the unit of what is measured: "61", "61 mm".
func MeasuredReading(text string, m model.Measured) (float64, error) {
	example := "61 " + m.Kind.Unit()
	n, err := number(text, strings.TrimSpace(strings.TrimSuffix(tidy(text), m.Kind.Unit())), "a reading", example)
	if err == nil && !(n > 0 && n <= model.MaxReading) {
		err = refuse(text, "is not a reading above 0", example)
	}
	return n, err
}

// Height reads millimetres: "50", "50 mm".
func Height(text string) (float64, error) {
	const example = "50 mm"
	n, err := number(text, strings.TrimSpace(strings.TrimSuffix(tidy(text), "mm")), "a height", example)
	if err == nil && !(n > 0) {
		err = refuse(text, "is not a height above 0", example)
	}
	return n, err
}

// AcidExample shows the form of a new acid test.
const AcidExample = "citric acid 10 %, 30 g, strip 0.5, drop 0.05 g"

// AcidTest reads the acid, the mass of paste, and how pH is read: "citric acid 10 %, 30 g,
// strip 0.5, drop 0.05 g". The calibration of a meter may follow it: "meter 0.1 set at 4
// and 7".
func AcidTest(text string) (model.AcidTest, error) {
	var a model.AcidTest
	parts := strings.Split(text, ", ")
	a.Acid, a.By = strings.TrimSpace(parts[0]), model.ByStrip
	for _, part := range parts[1:] {
		first, rest, _ := strings.Cut(strings.TrimSpace(part), " ")
		var err error
		switch by := model.PHBy(strings.ToLower(first)); {
		case by == model.ByStrip || by == model.ByMeter:
			err = PHBy(&a, part)
		case strings.EqualFold(first, "drop"):
			a.DropG, err = Mass(rest, AcidExample)
		case strings.EqualFold(first, "density"):
			a.GramsPerML, err = Density(rest)
		case strings.EqualFold(first, "target"):
			a.TargetPH, err = PH(rest)
		default:
			a.PasteG, err = Mass(part, AcidExample)
		}
		if err != nil {
			return a, err
		}
	}
	if a.Acid == "" || a.PasteG == 0 {
		return a, errors.New("name the acid and the grams of paste it goes into, as " + AcidExample)
	}
	if problems := a.Validate(); len(problems) > 0 {
		return a, fmt.Errorf("%s; %s", problems[0].What, problems[0].Fix)
	}
	return a, nil
}

// PHByExample shows the forms of a way of reading pH.
const PHByExample = "strip 0.5, or meter 0.1 set at 4 and 7"

// PHBy reads the way pH is read, with a meter's calibration after it: "strip 0.5", "strip
// 1", "meter 0.1 set at 4 and 7".
func PHBy(a *model.AcidTest, text string) error {
	first, rest, _ := strings.Cut(strings.TrimSpace(text), " ")
	by := model.PHBy(strings.ToLower(first))
	if by != model.ByStrip && by != model.ByMeter {
		return refuse(text, "is no way to read a pH", PHByExample)
	}
	step, note, _ := strings.Cut(strings.TrimSpace(rest), " ")
	var nearest float64
	if step != "" {
		n, err := number(text, step, "what pH is read to", PHByExample)
		if err != nil {
			return err
		}
		if !(n > 0 && n <= 2) {
			return refuse(text, "is not what pH is read to the nearest of", PHByExample)
		}
		nearest = n
	}
	a.By, a.PHStep, a.Note = by, nearest, strings.TrimSpace(note)
	return nil
}

// PH reads a pH from 0 to 14: "5.5", "pH 5.5".
func PH(text string) (float64, error) {
	const example = "5.5"
	n, err := number(text, strings.TrimSpace(strings.TrimPrefix(tidy(text), "ph")), "a pH", example)
	if err == nil && !(n >= 0 && n <= 14) {
		err = refuse(text, "is not a pH from 0 to 14", example)
	}
	return n, err
}

// ShowAcidStep writes a pH as AcidStep reads it.
func ShowAcidStep(a model.AcidStep) string {
	text := model.Number(a.PH)
	if a.Adds() {
		text += " after " + a.Text()
	}
	if a.WaitedS != nil {
		text += " wait " + model.Seconds(*a.WaitedS)
	}
	if a.Level != nil {
		text += " level " + model.Number(*a.Level)
	}
	for _, m := range a.Marks {
		text += ", " + m
	}
	if a.Note != "" {
		text += ", note " + a.Note
	}
	return text
}

// AcidStepExample shows the forms of a pH.
const AcidStepExample = "8.5; 7 after 5 drops; 6.5 after 0.25 g, wait 10 min; 6 after 1/8 tsp, level 4, lumps, note " +
	"thinner"

// AcidStep reads a pH and the acid added before it: "8.5", "7 after 5 drops". After commas
// may follow the wait, the level that the paste has now, behaviour, and a note at the end:
// "6.5 after 0.25 g, wait 10 min, level 4, lumps, note thinner".
func (s Spoons) AcidStep(text string) (a model.AcidStep, err error) {
	parts := strings.Split(text, ", ")
	rest := parts[0]
	for i, part := range parts[1:] {
		part = strings.TrimSpace(part)
		first, behind, _ := strings.Cut(part, " ")
		switch name := strings.ToLower(part); {
		case slices.Contains(model.Marks(), name):
			a.Marks = append(a.Marks, name)
			continue
		case strings.EqualFold(first, "note"):
			a.Note = strings.TrimSpace(strings.Join(append([]string{behind}, parts[i+2:]...), ", "))
		default:
			rest += " " + part
			continue
		}
		break
	}
	cut := func(word string) (value string) {
		if at := strings.LastIndex(strings.ToLower(rest), " "+word+" "); at >= 0 {
			value, rest = strings.TrimSpace(rest[at+len(word)+2:]), rest[:at]
		}
		return value
	}
	if level := cut("level"); level != "" {
		l, err := Reading(level, 0.5)
		if err != nil {
			return a, err
		}
		a.Level = &l
	}
	if wait := cut("wait"); wait != "" {
		seconds, err := Rest(wait)
		if err != nil {
			return a, err
		}
		a.WaitedS = &seconds
	}
	added := cut("after")
	if a.PH, err = PH(rest); err != nil {
		return a, fmt.Errorf("%w; the whole is typed as %s", err, AcidStepExample)
	}
	if added == "" {
		return a, nil
	}
	err = s.acidAdded(&a, added)
	return a, err
}

// acidAdded reads the acid added: drops, grams, or spoons of one size.
func (s Spoons) acidAdded(a *model.AcidStep, text string) (err error) {
	if drops, ok := strings.CutSuffix(strings.TrimSuffix(tidy(text), "s"), " drop"); ok {
		a.Drops, err = Count(drops, "5 drops")
		return err
	}
	amount, err := s.Amount(text, "0.25 g, 5 drops or 1/8 tsp")
	if err != nil {
		return err
	}
	if amount.Spoons == nil {
		if a.Grams = amount.Grams; a.Grams == 0 {
			return errors.New("0 g is nothing: leave it out for a pH without more acid")
		}
		return nil
	}
	spoon, count, one := amount.OneSize()
	if !one {
		return errors.New("spoons of one size at a time, as 2 x 1/8 tsp")
	}
	a.Spoon, a.Count = spoon, count
	return nil
}
