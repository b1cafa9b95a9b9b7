package main

import (
	"errors"
	"fmt"
	"regexp"
	"slices"
	"strings"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/model"
	"daub.example/daub/model/typed"
)

// turn is one question at the bench: what was added, or which level it has.
// Errors other than errQuit and errEnded are refusals.
func (t *plain) turn() error {
	r := t.reading()
	last := t.last()
	if last != nil && !last.Looked && r.Dish().Mixed() && t.skipped != len(r.Trial.Steps) {
		return t.look(r)
	}
	return t.add(r)
}

// add says what to add next, and takes what was added.
func (t *plain) add(r model.Reading) error {
	advice, advised := r.Advice()
	if n := len(r.Trial.Steps); advised && t.advised != n {
		t.advised = n
		t.tell("Next: %s.", page.Advice(advice))
	}
	switch {
	case !t.told:
		t.told = true
		t.tell("What was added? Enter takes the advice. Or type 2 x 1/4 tsp, 1.5 g, = 25.3 (what the scale shows), liquid 2 g, removed 3 g, or again to look again. help lists the other words.")
	default:
		t.tell("What was added?")
	}
	answer, err := t.read()
	if err != nil {
		return err
	}
	if done, err := t.word(answer); done {
		return err
	}
	if answer == "" {
		return t.accept(advice, advised)
	}
	steps, err := t.addition(r, answer)
	if err != nil {
		return err
	}
	return t.record(steps)
}

// accept takes the advice.
func (t *plain) accept(advice model.Advice, advised bool) error {
	step, adds := advice.Step()
	switch {
	case !advised:
		return errors.New("there is no advice to take: type what was added, as 1.5 g or liquid 20 g")
	case advice.Action == model.ActStop:
		return t.finish("")
	case !adds:
		l := t.weighedSpoon()
		return fmt.Errorf("weigh %d level %s, and type the grams as weigh 2.3; or add more all the same", l.Each(), l.Spoon)
	case step.Weighed():
		return fmt.Errorf("add about %s g of %s, then type what it really was, as %s%s g", model.Number(step.Grams), step.Add, liquidWord(step.Add), model.Number(step.Grams))
	}
	return t.record([]model.Step{step})
}

// liquidWord is the word before an amount that is not powder.
func liquidWord(add model.Add) string {
	if add == model.AddLiquid {
		return "liquid "
	}
	return ""
}

var errNothing = errors.New("0 g is nothing: type what was added")

var bareNumber = regexp.MustCompile(`^[0-9.,]+$`)

// addition reads what was added: spoons of several sizes are as many steps.
func (t *plain) addition(r model.Reading, text string) ([]model.Step, error) {
	if shown, ok := strings.CutPrefix(text, "="); ok {
		return t.shown(r, shown)
	}
	first, rest, _ := strings.Cut(text, " ")
	what, amount := model.AddPowder, text
	switch strings.ToLower(first) {
	case "again":
		if !r.Dish().Mixed() {
			return nil, errors.New("nothing to look at yet: the dish needs both powder and liquid")
		}
		return []model.Step{{Add: model.AddNone}}, nil
	case "powder":
		amount = rest
	case "liquid":
		what, amount = model.AddLiquid, rest
	case "removed":
		what, amount = model.Removed, rest
	}
	amount = strings.TrimSpace(amount)
	if bareNumber.MatchString(amount) && what == model.AddPowder {
		return nil, fmt.Errorf("%s of what? type %s g for grams; a level is asked for once something was added", amount, amount)
	}
	if what == model.Removed {
		grams, err := typed.Mass(amount, "removed 3 g")
		if err == nil && grams == 0 {
			err = errNothing
		}
		return []model.Step{{Add: what, Grams: grams}}, err
	}
	read, err := typed.SpoonsOf(t.drawer, t.entry.Profile).Amount(amount, "2 x 1/4 tsp, or 1.5 g; help lists the words")
	if err != nil {
		return nil, err
	}
	if read.Spoons == nil {
		if read.Grams == 0 {
			err = errNothing
		}
		return []model.Step{{Add: what, Grams: read.Grams}}, err
	}
	var steps []model.Step
	for _, s := range read.Spoons {
		steps = append(steps, model.Step{Add: what, Spoon: s.Spoon, Count: s.Count})
	}
	return steps, nil
}

// shown reads what a scale, tared with the empty dish, shows now.
func (t *plain) shown(r model.Reading, text string) ([]model.Step, error) {
	grams, err := typed.Mass(text, "= 25 g")
	if err != nil {
		return nil, err
	}
	held := r.Dish().PasteG()
	if grams <= held {
		return nil, fmt.Errorf("the scale shows no more than the dish held (%s g)", model.Grams(held))
	}
	return []model.Step{{Add: model.AddPowder, Grams: model.RoundSignificant(grams-held, 6)}}, nil
}

// record puts steps into the trial.
func (t *plain) record(steps []model.Step) error {
	var words []string
	for i := range steps {
		steps[i].At = t.now()
		words = append(words, stepText(steps[i]))
	}
	what := fmt.Sprintf("Step %d: %s", len(t.current().Steps)+len(steps), strings.Join(words, " and "))
	if err := t.edit(what, func(trial *model.Trial) { trial.Steps = append(trial.Steps, steps...) }); err != nil {
		return err
	}
	t.sayDish()
	return nil
}

// sayDish says what is in the dish.
func (t *plain) sayDish() {
	r := t.reading()
	d := r.Dish()
	text := fmt.Sprintf("In the dish: %s g %s, %s g powder", model.Grams(d.LiquidG), r.Trial.Liquid, model.Grams(d.PowderG))
	if d.Mixed() {
		text += fmt.Sprintf(", ratio %s", model.RatioText(d.Ratio()))
	}
	t.tell("%s.", text)
}

// stepText says what a step did to the dish.
func stepText(s model.Step) string {
	switch s.Add {
	case model.AddLiquid:
		return s.Amount() + " of liquid"
	case model.Removed:
		return s.Amount() + " of paste taken out"
	case model.AddNone:
		return "the same dish again"
	default:
		return s.Amount() + " of powder"
	}
}

// look asks for the level of what was added.
func (t *plain) look(r model.Reading) error {
	question := fmt.Sprintf("Stir ten turns, rest %s, do not stir again, test, scrape everything back. Which level, 0 to 7?", model.Seconds(*r.Trial.RestS))
	if r.Trial.LevelStep == 0.5 {
		question += " Halves as 4.5."
	}
	t.tell("%s scale says what they are; none goes on without a look.", question)
	answer, err := t.read()
	if err != nil {
		return err
	}
	if done, err := t.word(answer); done {
		return err
	}
	if strings.EqualFold(answer, "none") {
		t.skipped = len(r.Trial.Steps)
		return nil
	}
	if answer == "" {
		return errors.New("look first: type the level you see, 0 to 7, or none")
	}
	level, err := typed.Reading(answer, r.Trial.LevelStep)
	if err != nil {
		return fmt.Errorf("%w, or none to go on without a look", err)
	}
	rested := t.last().Rested(t.now())
	err = t.edit("Level "+model.LevelName(level), func(trial *model.Trial) {
		s := &trial.Steps[len(trial.Steps)-1]
		s.Looked, s.Level, s.RestedS = true, level, rested
	})
	if err != nil {
		return err
	}
	return t.sayAnswer("")
}

// sayAnswer says the answer of the dish so far.
func (t *plain) sayAnswer(string) error {
	r := t.reading()
	t.tell("%s", r.At(r.Trial.Aim).Sentence(r.Trial.Liquid))
	if far := r.FarOut(); len(far) > 0 && slices.Contains(far, len(r.Trial.Steps)-1) {
		t.tell("This look is far from where the others put it. It is kept; undo takes it back if it was a slip.")
	}
	return nil
}
