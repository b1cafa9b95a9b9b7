package lines

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/care"
	"daub.example/daub/model/readings"
	"daub.example/daub/model/typed"
)

// turn asks one question at the bench: what was added, or its level. Errors other
// than errQuit and errEnded are refusals.
func (t *Trial) turn() error {
	if t.editor.AwaitsLook() && t.skipped != len(t.editor.Trial().Steps) {
		return t.look()
	}
	return t.add()
}

// add says what to add next and reads what was added.
func (t *Trial) add() error {
	advice := t.editor.Outcome().Advice
	if n := len(t.editor.Trial().Steps); advice != nil && t.advised != n {
		t.advised = n
		t.tell("Next: %s", model.Ended(page.Advice(*advice)))
	}
	switch {
	case advice != nil && advice.Action == bench.ActStop:
		if t.editor.Trial().PotOpen() {
			t.tell("Powder was taken since the pot was weighed last: weigh it once more, as pot 145.1.")
		}
		t.tell("Enter finishes the trial. Or type what was added, to go on.")
	case advice != nil && advice.Pot:
		t.tell("Type what the scale shows, as pot 145.1; or what was added.")
	case !t.told:
		t.told = true
		t.tell("What was added? Enter takes the advice. Or type 2 x 1/4 tsp, 1.5 g, = 25.3 (what the scale " +
			"shows), liquid 2 g, removed 3 g, or again to look again. help lists the other words.")
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

// accept follows the advice.
func (t *Trial) accept(advice *bench.Advice) error {
	if advice == nil {
		return errors.New("there is no advice to take: type what was added, as 1.5 g or liquid 20 g")
	}
	step, adds := advice.Step()
	switch {
	case advice.Action == bench.ActStop:
		return t.finish("")
	case advice.Pot:
		return errors.New("weigh the open pot of powder, and type what the scale shows as pot 145.1; or add more " +
			"all the same")
	case advice.Action == bench.ActLook:
		return t.again()
	case !adds:
		l := t.editor.SpoonWeighedHere()
		return fmt.Errorf("weigh %s, and type the grams as weigh 2.3; or add more all the same",
			model.LevelSpoons(l.Each(), l.Spoon))
	case step.Weighed():
		return fmt.Errorf("add about %s g of %s, then type what it really was, as %s%s g", model.Number(step.Grams),
			step.Add, liquidWord(step.Add), model.Number(step.Grams))
	}
	return t.record([]model.Step{step})
}

// liquidWord returns the word before an amount that is not powder.
func liquidWord(add model.Add) string {
	if add == model.AddLiquid {
		return "liquid "
	}
	return ""
}

var errNothing = errors.New("0 g is nothing: type what was added")

// isBareNumber reports whether an amount is a number without a unit.
func isBareNumber(amount string) bool {
	return amount != "" && strings.Trim(amount, "0123456789.,") == ""
}

// addition reads what was added. Each size of spoon becomes a step.
func (t *Trial) addition(text string) ([]model.Step, error) {
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
	if isBareNumber(amount) && what == model.AddPowder {
		return nil, fmt.Errorf("%s of what? type %s g for grams; a level is asked for once something was added",
			amount, amount)
	}
	if what == model.Removed {
		grams, err := typed.Mass(amount, "removed 3 g")
		if err == nil && grams == 0 {
			err = errNothing
		}
		return []model.Step{{Add: what, Grams: grams}}, err
	}
	read, err := typed.SpoonsOf(t.ownSpoons, t.editor.Profile()).Amount(amount,
		"2 x 1/4 tsp, or 1.5 g; help lists the words")
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

// shown reads what the scale, tared with the empty dish, shows now.
func (t *Trial) shown(what model.Add, text string) ([]model.Step, error) {
	grams, err := typed.Mass(text, "= 25 g")
	if err != nil {
		return nil, err
	}
	added, err := t.editor.ByScale(grams)
	return []model.Step{{Add: what, Grams: added}}, err
}

// record puts steps into the trial.
func (t *Trial) record(steps []model.Step) error {
	return t.recorded(steps, t.editor.Add(t.now(), steps...))
}

// again adds a look at the same dish.
func (t *Trial) again() error {
	return t.recorded([]model.Step{{Add: model.AddNone}}, t.editor.LookAgain(t.now()))
}

// recorded saves added steps, then names them and the dish.
func (t *Trial) recorded(steps []model.Step, refused error) error {
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
func (t *Trial) sayDish() {
	r := t.editor.Outcome().Reading
	d := r.Dish()
	text := fmt.Sprintf("In the dish: %s g %s, %s", model.Grams(d.LiquidG), r.Trial.Liquid, d.PowderText())
	if d.Guess {
		text += ", guessed until the pot is weighed"
	} else if d.Mixed() {
		text += ": " + model.PerPowder(model.RatioText(d.Ratio()), r.Trial.Liquid)
	}
	t.tell("%s.", text)
}

// look asks for the level after an addition.
func (t *Trial) look() error {
	trial := t.editor.Trial()
	if !trial.WasRead() && !t.wet {
		t.wet = true
		t.sayCare(care.BeforeWet)
	}
	if trial.Match != nil {
		return t.lookBeside(trial)
	}
	question := fmt.Sprintf("Stir ten turns, rest %s, do not stir again, test, scrape everything back. Which "+
		"level, 0 to 7?", model.Seconds(*trial.RestS))
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
	if answer == "" {
		return errors.New("look first: type the level you see, 0 to 7, or none")
	}
	level, err := typed.Reading(answer, trial.LevelStep)
	if _, half := typed.Reading(answer, 0.5); err != nil && half == nil {
		return fmt.Errorf("%w, or say set levels=0.5 to read halves from now on", err)
	}
	if err != nil {
		return fmt.Errorf("%w, or none to go on without a look", err)
	}
	return t.recordLevel(level)
}

// recordLevel records the level of the last step.
func (t *Trial) recordLevel(level float64) error {
	waited, err := t.waited(model.LevelName(level))
	if err != nil {
		return err
	}
	if err := t.done("Level "+model.LevelName(level), t.editor.LookAfter(level, waited)); err != nil {
		return err
	}
	return t.sayRead()
}

// waited returns the wait before the last step's look or reading, s; nil if
// unknown. Before half the rest has passed it asks, once a step, whether to keep
// what was read.
func (t *Trial) waited(read string) (restedS *int, err error) {
	last := t.editor.Last()
	if last == nil {
		return nil, nil
	}
	restedS = last.Rested(t.now())
	step, restS := t.last()+1, *t.editor.Trial().RestS
	if restedS == nil || 2**restedS >= restS || t.hurried == step {
		return restedS, nil
	}
	t.hurried = step
	keep, err := t.yes(fmt.Sprintf("Only %s of the rest of %s are up. Keep %s, as an early look (no: wait "+
		"and look again)?", model.Seconds(*restedS), model.Seconds(restS), read))
	if err == nil && !keep {
		err = errors.New("it was not kept: wait for the rest without stirring, then type it")
	}
	return restedS, err
}

// lookBeside asks how the dish compares with the reference dish.
func (t *Trial) lookBeside(trial model.Trial) error {
	t.tell("Stir both dishes ten turns, rest %s, test one after the other, scrape everything back. Beside %s it is: "+
		"1 much thinner, 2 thinner, 3 the same, 4 thicker, 5 much thicker? scale says what they are; none goes on "+
		"without a look.", model.Seconds(*trial.RestS), trial.Match.Dish())
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
	b, err := model.BesideOf(answer)
	if err != nil {
		return fmt.Errorf("%w, or none to go on without a look", err)
	}
	waited, err := t.waited(b.Words())
	if err != nil {
		return err
	}
	if err := t.done("It looks "+b.Words(), t.editor.LookBeside(b, waited)); err != nil {
		return err
	}
	return t.sayRead()
}

// sayAnswer gives the dish's answer so far.
func (t *Trial) sayAnswer(string) error {
	o, trial := t.editor.Outcome(), t.editor.Trial()
	if _, measured := readings.Alone(o.Reading); measured {
		t.sayReadings()
	} else {
		t.tell("%s", o.Answer(trial.Aim).Sentence(trial.Liquid))
	}
	return nil
}

// sayRead says the answer after a look, and what is unusual about the look; that it was
// early was asked about.
func (t *Trial) sayRead() error {
	err := t.sayAnswer("")
	o := t.editor.Outcome()
	if slices.Contains(o.Reading.Late(), t.last()) {
		t.tell("%s. It counts; leave %d leaves it out.", o.Reading.TimingText(t.last()), t.last()+1)
	}
	if slices.Contains(o.FarOut, t.last()) {
		t.tell("This look is far from where the others put it. It is kept; undo deletes it if it was a slip.")
	}
	return err
}
