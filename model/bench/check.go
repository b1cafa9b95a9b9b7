package bench

import (
	"errors"
	"fmt"
	"math"

	"daub.example/daub/model"
)

// Check lists everything that is wrong with a profile. In a profile that Validate finds
// sound it lists the dishes that cannot be calculated, so that they are found here and not
// at the bench. Own spoons come from own.
func Check(p model.Profile, own model.OwnSpoons) []model.Problem {
	if problems := p.Validate(own); len(problems) > 0 {
		return problems
	}
	var problems []model.Problem
	add := func(path, fix, format string, args ...any) {
		problems = append(problems, model.Problem{Path: path, What: fmt.Sprintf(format, args...), Fix: fix})
	}
	for i, t := range p.Trials {
		if t.SetAside != "" {
			continue
		}
		dishes, err := Dishes(t, spoonWeightsOf(p, t, own))
		var at *StepError
		if errors.As(err, &at) {
			key := "spoon"
			if t.Steps[at.Step].Add == model.Removed {
				key = "grams"
			}
			add(fmt.Sprintf("trial[%d].step[%d].%s", i, at.Step, key),
				"mend the step, or set the trial aside with a reason", "%v", at.Err)
			continue
		}
		for j, dish := range dishes {
			if math.IsInf(dish.PasteG(), 0) || dish.PasteG() > model.MaxGrams*10 {
				add(fmt.Sprintf("trial[%d].step[%d]", i, j), "check the grams and counts up to here",
					"the dish would hold %s g", model.Number(dish.PasteG()))
				break
			}
		}
	}
	return problems
}
