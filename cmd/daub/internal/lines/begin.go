package lines

import (
	"errors"
	"fmt"
	"strings"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/typed"
)

// begin asks for the trial's set-up and records it.
func (t *Trial) begin() error {
	p := t.editor.Profile()
	kind := p.Powder.Kind()
	trial := model.Trial{Spoons: model.DefaultSpoons(), SpoonSet: t.ownSpoons.UsualSet()}.WithDefaults(kind)
	if t.method == bench.BySpoons {
		trial.ResolutionG = t.editor.SpoonWeighedHere().ResolutionG
	}
	again := false
	if t.like != nil {
		trial = t.like.Clone()
	}
	if newest := p.Newest(); newest >= 0 && t.like == nil {
		trial = p.Trials[newest].WithDefaults(kind).Again()
		trial.PotG = 0
		t.fitSpoons(&trial)
		var err error
		again, err = t.yes(fmt.Sprintf("Set it up as the last one: %s, spoons at hand %s, target level %s, "+
			"levels read to the nearest %s, rest %s?",
			trial.Liquid, orNone(trial.Spoons),
			model.LevelName(trial.Aim), page.StepWord(trial.LevelStep), model.Seconds(*trial.RestS)))
		if err != nil {
			return err
		}
	}
	t.fitSpoons(&trial)
	if !again {
		if err := t.settings(&trial); err != nil {
			return err
		}
	}
	return t.until(func() error { return t.amounts(&trial) }, func() error {
		trial.Started = t.now()
		return t.done("The trial is begun", t.editor.Begin(trial))
	})
}

// fitSpoons takes the spoons away where every addition is weighed, and gives the usual ones
// where a trial has none.
func (t *Trial) fitSpoons(trial *model.Trial) {
	switch {
	case t.method == bench.ByEach:
		trial.Spoons = nil
	case len(trial.Spoons) == 0:
		trial.Spoons = model.DefaultSpoons()
	}
}

// settings asks for everything but the amount of liquid.
func (t *Trial) settings(trial *model.Trial) error {
	var liquids []string
	for _, l := range model.Liquids() {
		liquids = append(liquids, l.Name)
	}
	type question = struct {
		text, offered string
		take          func(string) error
	}
	const atHand = 2 // the place of the question about spoons
	scale := "dish"
	if t.method == bench.ByPot {
		scale = "pot and the dish"
	}
	questions := []question{
		{"In which liquid? " + strings.Join(liquids, ", ") + ", or another.", trial.Liquid, func(v string) error {
			name, err := typed.Liquid(v)
			if err == nil && !model.SameLiquid(name, trial.Liquid) {
				trial.Liquid, trial.LiquidDensity, trial.TemperatureC = name, 0, nil
			}
			return err
		}},
		{
			"Which spoon set? us: 1 tsp is 4.93 mL; metric: 5 mL; own: spoons you measured; any not measured as in us.",
			string(trial.SpoonSet),
			func(v string) error {
				set := model.SpoonSet(strings.ToLower(v))
				if set != model.US && set != model.Metric && set != model.Own {
					return fmt.Errorf("there is no spoon set %q", v)
				}
				trial.SpoonSet = set
				return nil
			},
		},
		{
			"Which spoons are at hand? Commas between; type none if you only weigh.", orNone(trial.Spoons),
			func(v string) error {
				trial.Spoons = nil
				if strings.EqualFold(v, "none") {
					return nil
				}
				var err error
				trial.Spoons, err = typed.SpoonsOf(t.ownSpoons, t.editor.Profile()).List(v)
				return err
			},
		},
		{scaleReads(scale), model.Number(trial.ResolutionG), func(v string) error {
			return t.scale(v, &trial.ResolutionG)
		}},
		{
			"Which target level? 1 to 6 in halves; 5 spread is a paste that keeps a drawn line.",
			model.Number(trial.Aim), func(v string) error {
				aim, err := typed.Target(v)
				trial.Aim = aim
				return err
			},
		},
		{"Are levels read to the nearest 1 or 0.5?", model.Number(trial.LevelStep), func(v string) error {
			step, err := typed.Step(v)
			trial.LevelStep = step
			return err
		}},
		{
			"How long is the rest between stirring and looking? The same every time, as 30 s or 2 min.",
			model.Seconds(*trial.RestS), func(v string) error {
				rest, err := typed.Rest(v)
				trial.RestS = &rest
				return err
			},
		},
	}
	for i, q := range questions {
		// the reference dish gives liquid, target, level step and rest
		if trial.Match != nil && (i == 0 || i > 3) || t.method == bench.ByEach && i == atHand {
			continue
		}
		if err := t.ask(q.text, q.offered, q.take); err != nil {
			return err
		}
	}
	return nil
}

func orNone(spoons []string) string {
	if len(spoons) == 0 {
		return "none"
	}
	return strings.Join(spoons, ", ")
}

// amounts asks what is weighed before the first step.
func (t *Trial) amounts(trial *model.Trial) error {
	if err := t.potAmount(trial); err != nil {
		return err
	}
	return t.liquidAmount(trial)
}

// potAmount asks what the pot of powder weighs, if it is to be weighed.
func (t *Trial) potAmount(trial *model.Trial) error {
	if t.method != bench.ByPot {
		trial.PotG = 0
		return nil
	}
	offered := ""
	if trial.PotG > 0 {
		offered = model.Number(trial.PotG) + " g"
	}
	return t.ask("What does the scale show for the open pot of powder, without taring? As 152.4 g; none where it is "+
		"not weighed after all.", offered,
		func(answer string) error {
			if strings.EqualFold(answer, "none") {
				trial.PotG = 0
				return nil
			}
			grams, err := typed.Mass(answer, "152.4 g")
			if err == nil && grams == 0 {
				err = errors.New("a pot weighs something: type what the scale shows, or none")
			}
			trial.PotG = grams
			return err
		})
}

// liquidAmount asks how much liquid is in the dish.
func (t *Trial) liquidAmount(trial *model.Trial) error {
	offered := model.Number(bench.PlannedLiquidG(t.editor.Profile(), *trial, t.ownSpoons)) + " g"
	if trial.LiquidG > 0 && trial.LiquidBy == model.ByWeight {
		offered = model.Number(trial.LiquidG) + " g"
	}
	question := fmt.Sprintf("How much %s is in the dish? Weighed, as 20 g; by the spoon, as 4 x 1 tsp; none yet, 0.",
		trial.Liquid)
	return t.ask(question, offered, func(answer string) error {
		amount, err := typed.SpoonsOf(t.ownSpoons).Amount(answer, "20 g or 4 x 1 tsp")
		if err != nil {
			return err
		}
		if _, _, ok := amount.OneSize(); ok {
			if _, known := trial.Density(); !known {
				if err := t.density(trial); err != nil {
					return err
				}
			}
		}
		return amount.StartLiquid(trial, t.ownSpoons)
	})
}

// density asks what a millilitre of the liquid weighs.
func (t *Trial) density(trial *model.Trial) error {
	t.tell("What does %s weigh, in g/mL? A spoon of it has no weight without; Enter alone goes back.", trial.Liquid)
	answer, err := t.read()
	if err != nil {
		return err
	}
	d, err := typed.Density(answer)
	if err != nil {
		return fmt.Errorf("%w; or weigh the liquid, and type it like 20 g", err)
	}
	trial.LiquidDensity = d
	return nil
}
