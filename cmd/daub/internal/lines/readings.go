package lines

import (
	"errors"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/care"
	"daub.example/daub/model/readings"
	"daub.example/daub/model/typed"
)

// reading records what was measured after the last step.
func (t *Trial) reading(text string) error {
	m := t.editor.Trial().Measured
	if m == nil {
		return errors.New("say once what is measured, as set reading=spread 15 mL wanted 60")
	}
	v, err := typed.MeasuredReading(text, *m)
	if err != nil {
		return err
	}
	if err := t.done("Reading "+m.Text(v), t.editor.Measure(v)); err != nil {
		return err
	}
	t.sayReadings()
	return nil
}

// sayReadings says what the readings give, in their own scale.
func (t *Trial) sayReadings() {
	if m, ok := readings.Of(t.editor.Outcome().Reading); ok {
		t.tell("Measured: %s", m.Sentence())
	}
}

// acid begins an acid test.
func (t *Trial) acid(text string) error {
	a, err := typed.AcidTest(text)
	if err != nil {
		return err
	}
	t.sayCare(care.BeforeAcid)
	begun := "Acid test: " + a.Acid + " into " + model.Number(a.PasteG) + " g of paste"
	if err := t.done(begun, t.editor.BeginAcid(a)); err != nil {
		return err
	}
	t.tell("Stir, wait, read; for a coloured paste the back of the strip. Type ph 8.5 before the first drop, then " +
		"ph 7 after 5 drops, and ph 6 target for the amount.")
	return nil
}

// ph records a pH, or says the amount for one.
func (t *Trial) ph(text string) error {
	if target, ok := strings.CutSuffix(strings.TrimSpace(text), " target"); ok {
		step, err := typed.SpoonsOf(t.ownSpoons).AcidStep(target)
		if err != nil {
			return err
		}
		return t.sayAcid(step.PH)
	}
	step, err := typed.SpoonsOf(t.ownSpoons, t.editor.Profile()).AcidStep(text)
	if err != nil {
		return err
	}
	step.At = t.now()
	if err := t.done("pH "+model.Number(step.PH)+" after "+step.Text(), t.editor.AddAcid(step)); err != nil {
		return err
	}
	return t.sayAcid(readings.SkinPH)
}

// sayAcid says the acid for a pH.
func (t *Trial) sayAcid(target float64) error {
	a, ok := readings.AcidOf(t.editor.Outcome().Reading, target, t.ownSpoons)
	if !ok {
		return errors.New("no pH is recorded yet: acid " + typed.AcidExample + ", then ph 8.5")
	}
	t.tell("%s", a.Sentence())
	for _, note := range a.Notes(t.editor.Powder()) {
		t.tell("%s", note)
	}
	return nil
}
