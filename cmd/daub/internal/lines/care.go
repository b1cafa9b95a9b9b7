package lines

import (
	"daub.example/daub/model"
	"daub.example/daub/model/care"
)

// sayCare gives the one-line cautions for these moments, if there are any.
func (t *Trial) sayCare(moments ...care.Moment) {
	said := "Take care."
	for _, m := range moments {
		if text := care.Line(m, t.editor.Powder()); text != "" {
			said += " " + text
		}
	}
	if said != "Take care." {
		t.tell("%s", said)
	}
}

// allCare gives every caution for the powder.
func (t *Trial) allCare(string) error {
	t.page.Cautions(care.Of(t.editor.Powder()))
	return nil
}

// sayCareAfter says whether the answer is plausible, and gives the cautions for the
// paste.
func (t *Trial) sayCareAfter() {
	o := t.editor.Outcome()
	trial, powder := t.editor.Trial(), t.editor.Powder()
	basis := model.Basis{Liquid: trial.Liquid, RestS: *trial.RestS}
	shelf := t.shelf.Visit()
	doubt := care.Doubt{
		Liquid: trial.Liquid, Level: trial.Aim, Ratio: o.Answer(trial.Aim).Dish,
		Lots: care.Lots(powder, shelf.Lots(powder.Name), basis, trial.Aim, t.ownSpoons),
	}
	if tsp, ok := o.Reading.SpoonWeights.Teaspoon(); ok {
		doubt.GramsPerML = tsp / trial.SpoonSet.TeaspoonML()
	}
	t.page.List("Plausible?", care.Plausibility(powder, doubt)...)
	t.page.Gap()
	t.sayCare(care.BeforeJar, care.BeforeSkin)
}
