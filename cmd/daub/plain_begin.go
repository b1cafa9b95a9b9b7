package main

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"daub.example/daub/model"
)

// begin asks how the trial is set up, and records it.
func (t *plain) begin() error {
	p := t.editor.Profile()
	kind := p.Powder.Kind()
	trial := model.Trial{Spoons: model.DefaultSpoons()}.WithDefaults(kind)
	again := false
	if newest := p.Newest(); newest >= 0 {
		b := p.Trials[newest].WithDefaults(kind)
		var err error
		again, err = t.yes(fmt.Sprintf("Set it up as the last one: %s, spoons %s, aim %s, looks to the nearest %s, rest %s?",
			b.Liquid, orDash(strings.Join(b.Spoons, ", ")), model.LevelName(b.Aim), nearest(b.LevelStep), model.Seconds(*b.RestS)))
		if err != nil {
			return err
		}
		trial = b.Again()
	}
	if !again {
		if err := t.settings(&trial); err != nil {
			return err
		}
	}
	return t.until(func() error { return t.liquidAmount(&trial) }, func() error {
		trial.Started = t.now()
		return t.done("The trial is begun", t.editor.Begin(trial))
	})
}

// settings asks what belongs to the trial beside the amount of liquid.
func (t *plain) settings(trial *model.Trial) error {
	var liquids []string
	for _, l := range model.Liquids() {
		liquids = append(liquids, l.Name)
	}
	questions := []struct {
		text, offered string
		take          func(string) error
	}{
		{"In which liquid? " + strings.Join(liquids, ", ") + ", or another.", trial.Liquid, func(v string) error {
			if !model.SameLiquid(v, trial.Liquid) {
				trial.Liquid, trial.LiquidDensity, trial.TemperatureC = v, 0, nil
			}
			return nil
		}},
		{"Which spoon set? us: 1 tsp is 4.93 mL; metric: 5 mL; own: your spoons.toml first.", string(trial.SpoonSet), func(v string) error {
			set := model.SpoonSet(strings.ToLower(v))
			if set != model.US && set != model.Metric && set != model.Own {
				return fmt.Errorf("there is no spoon set %q", v)
			}
			trial.SpoonSet = set
			return nil
		}},
		{"Which spoons are at hand? Commas between; none to add by weight only.", orNone(trial.Spoons), func(v string) error {
			trial.Spoons = nil
			if strings.EqualFold(v, "none") {
				return nil
			}
			var err error
			trial.Spoons, err = atHand(strings.Split(v, ","), t.drawer, t.editor.Profile())
			return err
		}},
		{"To how many grams does the scale at the dish read?", model.Number(trial.ResolutionG), func(v string) error {
			g, err := measure(v, "g")
			if err == nil && (g == 0 || g > 100) {
				err = fmt.Errorf("%q is no scale resolution: type it as 0.01", v)
			}
			trial.ResolutionG = g
			return err
		}},
		{"Which level is the aim? 1 to 6 in halves; 5 spread is a paste that keeps a drawn line.", model.Number(trial.Aim), func(v string) error {
			var level levelFlag
			if level.Set(v) != nil {
				return fmt.Errorf("%q is no aim: type 1 to 6 in halves, as in 4.5", v)
			}
			trial.Aim = float64(level)
			return nil
		}},
		{"Are looks to the nearest 1 or 0.5 of a level?", model.Number(trial.LevelStep), func(v string) error {
			step, err := measure(v, "")
			if err != nil || step != 1 && step != 0.5 {
				return fmt.Errorf("%q is neither 1 nor 0.5", v)
			}
			trial.LevelStep = step
			return nil
		}},
		{"How many seconds rest between stirring and looking? The same every time.", strconv.Itoa(*trial.RestS), func(v string) error {
			seconds, err := measure(v, "s")
			if err != nil || seconds > model.MaxRestS {
				return fmt.Errorf("%q is no rest: type seconds, as in 30", v)
			}
			rest := int(math.Round(seconds))
			trial.RestS = &rest
			return nil
		}},
	}
	for _, q := range questions {
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

// liquidAmount asks how much liquid is in the dish.
func (t *plain) liquidAmount(trial *model.Trial) error {
	offered := model.Number(t.editor.Profile().PlannedLiquidG(*trial, t.drawer)) + " g"
	if trial.LiquidG > 0 && trial.LiquidBy == model.ByWeight {
		offered = model.Number(trial.LiquidG) + " g"
	}
	question := fmt.Sprintf("How much %s is in the dish? Weighed, as 20 g; by the spoon, as 4 x 1 tsp; none yet, 0.", trial.Liquid)
	return t.ask(question, offered, func(answer string) error {
		grams, notGrams := measure(answer, "g")
		if notGrams == nil {
			trial.LiquidG, trial.LiquidBy, trial.LiquidSpoon, trial.LiquidCount = grams, model.ByWeight, "", 0
			return nil
		}
		spoons, err := spoonCounts(answer, t.drawer, model.Profile{})
		if err != nil || len(spoons) != 1 {
			return fmt.Errorf("%q is no amount: type grams as 20 g, or spoons of one size as 4 x 1 tsp", answer)
		}
		if _, known := trial.Density(); !known {
			if err := t.density(trial); err != nil {
				return err
			}
		}
		each, err := trial.LiquidSpoonG(spoons[0].Spoon, t.drawer)
		if err != nil {
			return err
		}
		trial.LiquidBy, trial.LiquidSpoon, trial.LiquidCount = model.BySpoon, spoons[0].Spoon, spoons[0].Count
		trial.LiquidG = math.Round(each*float64(spoons[0].Count)*100) / 100
		return nil
	})
}

// density asks what a millilitre of the liquid weighs.
func (t *plain) density(trial *model.Trial) error {
	t.tell("What does %s weigh, in g/mL? A spoon of it has no weight without; Enter alone goes back.", trial.Liquid)
	answer, err := t.read()
	if err != nil {
		return err
	}
	d, err := measure(answer, "g/mL")
	if err != nil || d == 0 {
		return errors.New("weigh the liquid, and type it as 20 g")
	}
	trial.LiquidDensity = d
	return nil
}
