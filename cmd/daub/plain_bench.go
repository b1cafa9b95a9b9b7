package main

import (
	"errors"
	"fmt"
	"math"
	"regexp"
	"slices"
	"strings"

	"daub.example/daub/model"
)

// turn is one question at the bench: what was added, or which level it has.
// Errors other than errQuit and errEnded are refusals.
func (t *plain) turn() error {
	if t.editor.LookOwed() && t.skipped != len(t.editor.Trial().Steps) {
		return t.look()
	}
	return t.add()
}

// add says what to add next, and takes what was added.
func (t *plain) add() error {
	advice := t.editor.Outcome().Advice
	if n := len(t.editor.Trial().Steps); advice != nil && t.advised != n {
		t.advised = n
		t.tell("Next: %s.", nextText(*advice))
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
		return t.accept(advice)
	}
	if first, _, _ := strings.Cut(answer, " "); strings.EqualFold(first, "again") {
		return t.again()
	}
	steps, err := t.addition(answer)
	if err != nil {
		return err
	}
	return t.record(steps)
}

// accept takes the advice.
func (t *plain) accept(advice *model.Advice) error {
	if advice == nil {
		return errors.New("there is no advice to take: type what was added, as 1.5 g or liquid 20 g")
	}
	step, adds := advice.Step()
	switch {
	case advice.Action == model.ActStop:
		return t.finish("")
	case !adds:
		l := t.editor.SpoonWeighedHere()
		return fmt.Errorf("weigh %d level %s, and type the grams as weigh 1.42; or add more all the same", l.Each(), l.Spoon)
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

var bareNumber = regexp.MustCompile(`^[0-9.,]+$`)

// addition reads what was added: spoons of several sizes are as many steps.
func (t *plain) addition(text string) ([]model.Step, error) {
	first, rest, _ := strings.Cut(text, " ")
	what, amount := model.AddPowder, text
	switch strings.ToLower(first) {
	case "powder":
		amount = rest
	case "liquid":
		what, amount = model.AddLiquid, rest
	case "removed":
		what, amount = model.Removed, rest
	}
	amount = strings.TrimSpace(amount)
	if shown, ok := strings.CutPrefix(amount, "="); ok && what != model.Removed {
		return t.shown(what, shown)
	}
	if bareNumber.MatchString(amount) && what == model.AddPowder {
		return nil, fmt.Errorf("%s of what? type %s g for grams; a level is asked for once something was added", amount, amount)
	}
	if grams, err := measure(amount, "g"); err == nil {
		if grams == 0 {
			return nil, errors.New("0 g is nothing: type what was added")
		}
		return []model.Step{{Add: what, Grams: grams}}, nil
	}
	if what == model.Removed {
		return nil, fmt.Errorf("%q is no amount of paste: type it as removed 3 g", amount)
	}
	spoons, err := spoonSum(amount, t.drawer, t.editor.Profile())
	if err != nil {
		return nil, fmt.Errorf("%q is neither an amount nor a word known here: type spoons as 2 x 1/4 tsp, grams as 1.5 g; help lists the words", text)
	}
	var steps []model.Step
	for _, s := range spoons {
		steps = append(steps, model.Step{Add: what, Spoon: s.Spoon, Count: s.Count})
	}
	return steps, nil
}

// shown reads what a scale, tared with the empty dish, shows now.
func (t *plain) shown(what model.Add, text string) ([]model.Step, error) {
	grams, err := measure(text, "g")
	if err != nil {
		return nil, err
	}
	added, err := t.editor.ByScale(grams)
	return []model.Step{{Add: what, Grams: added}}, err
}

// record puts steps into the trial.
func (t *plain) record(steps []model.Step) error {
	return t.recorded(steps, t.editor.Add(t.now(), steps...))
}

// again puts the same dish into the trial, to be looked at again.
func (t *plain) again() error {
	return t.recorded([]model.Step{{Add: model.AddNone}}, t.editor.LookAgain(t.now()))
}

// recorded saves steps that were added, and says them and the dish.
func (t *plain) recorded(steps []model.Step, refused error) error {
	var words []string
	for _, s := range steps {
		words = append(words, s.Text())
	}
	if err := t.done(fmt.Sprintf("Step %d: %s", t.last()+1, strings.Join(words, " and ")), refused); err != nil {
		return err
	}
	t.sayDish()
	return nil
}

// sayDish says what is in the dish.
func (t *plain) sayDish() {
	r := t.editor.Outcome().Reading
	d := r.Dish()
	text := fmt.Sprintf("In the dish: %s g %s, %s g powder", model.Grams(d.LiquidG), r.Trial.Liquid, model.Grams(d.PowderG))
	if d.Mixed() {
		text += fmt.Sprintf(", ratio %s", model.RatioText(d.Ratio()))
	}
	t.tell("%s.", text)
}

// look asks for the level of what was added.
func (t *plain) look() error {
	trial := t.editor.Trial()
	question := fmt.Sprintf("Stir ten turns, rest %s, do not stir again, test, scrape everything back. Which level, 0 to 7?", model.Seconds(*trial.RestS))
	if trial.LevelStep == 0.5 {
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
		t.skipped = len(trial.Steps)
		return nil
	}
	level, err := levelOf(answer, trial.LevelStep)
	if err != nil {
		return err
	}
	if err := t.done("Level "+model.LevelName(level), t.editor.Look(level, t.now())); err != nil {
		return err
	}
	return t.sayAnswer("")
}

// levelOf reads a level, with or without its word.
func levelOf(text string, step float64) (float64, error) {
	number, _, _ := strings.Cut(text, " ")
	level, err := measure(number, "")
	switch {
	case text == "":
		return 0, errors.New("look first: type the level you see, 0 to 7, or none")
	case err != nil || level > model.MaxLevel:
		return 0, fmt.Errorf("%q is no level: type 0 to 7, or none to go on without a look", text)
	case level != math.Trunc(level/step)*step:
		return 0, fmt.Errorf("%q is between the levels: this trial's looks are to the nearest %s", text, nearest(step))
	}
	return level, nil
}

// sayAnswer says the answer of the dish so far.
func (t *plain) sayAnswer(string) error {
	o, trial := t.editor.Outcome(), t.editor.Trial()
	t.tell("%s", o.Answer(trial.Aim).Sentence(trial.Liquid))
	if slices.Contains(o.FarOut, t.last()) {
		t.tell("This look is far from where the others put it. It is kept; undo takes it back if it was a slip.")
	}
	return nil
}
