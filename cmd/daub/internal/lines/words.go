package lines

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/model"
	"daub.example/daub/model/handling"
	"daub.example/daub/model/typed"
)

// command is a word that works at any question of the bench; the early ones work
// before it too. Help is made from the same list.
type command struct {
	word, argument, help string
	do                   func(t *Trial, argument string) error
}

// early are the words that work once a powder is chosen.
var early = []string{"undo", "redo", "weigh", "weighing", "later", "calibrate", "set", "acid", "ph"}

// commands lists the words in the order of the help.
func commands() []command {
	return []command{
		{"undo", "", "undoes the last change", (*Trial).undo},
		{"redo", "", "redoes what was undone", (*Trial).redo},
		{
			"mark", "NAME, NAME", "notes a behaviour with the last step: " + strings.Join(model.Marks(), ", "),
			(*Trial).mark,
		},
		{"note", "TEXT", "writes a note to the last step", (*Trial).note},
		{
			"pot", "GRAMS", "records what the scale shows for the open pot of powder; pot 0 deletes that, set " +
				"pot=152.4 mends the first weighing",
			(*Trial).potNow,
		},
		{
			"weigh", "GRAMS",
			"records the weighing of a level spoon; for another than the first name it, as weigh 1/2 tsp: 1.15; " +
				"tapped or packed before the grams says how it was filled",
			(*Trial).weigh,
		},
		{"stirred", "LEVEL", "notes the level just after stirring with the last look", (*Trial).stirred},
		{"later", "LEVEL …", laterHelp, (*Trial).later},
		{
			"calibrate", "SPOON: GRAMS …",
			"finds what a level spoon holds from the water of three fills or more, as calibrate " +
				typed.SpoonCheckExample, (*Trial).calibrate,
		},
		{
			"mend", "N LEVEL or AMOUNT", "mends step N, as mend 3 level 4, mend 3 pot 145.1, mend 3 reading 61 " +
				"or mend 3 2 x 1/4 tsp",
			(*Trial).mend,
		},
		{"insert", "N AMOUNT", "puts an addition before step N", (*Trial).insert},
		{"delete", "N", "deletes step N", (*Trial).deleteStep},
		{"set", "KEY=VALUE", "changes the powder or the trial, as set lot=2026-04 or set rest=2 min; set alone " +
			"says all there is", (*Trial).set},
		{
			"weighing", "N GRAMS",
			"mends a weighing by its number; for another spoon than the first name it, as weighing 1/2 tsp: 1 1.15; " +
				"weighing N none deletes it, weighing alone lists them, weighing tapped says how they were filled",
			(*Trial).weighing,
		},
		{"leave", "N", "keeps the look of step N out of the answer; it is shown all the same", (*Trial).leave},
		{"use", "N", "lets the look of step N count again", (*Trial).use},
		{"scale", "", "says what the levels are", (*Trial).levels},
		{"steps", "", "says every step so far", (*Trial).steps},
		{"answer", "", "says the answer so far", (*Trial).sayAnswer},
		{
			"reading", "NUMBER", "records what was measured after the last step, in mm, s or blows; " +
				"set reading=spread 15 mL says once what it is", (*Trial).reading,
		},
		{"level", "N", "records the level of the last step beside what was measured", (*Trial).level},
		{
			"acid",
			"NAME, GRAMS",
			"begins an acid test of the dish as it stands, as acid " + typed.AcidExample +
				"; acid alone says it, acid delete takes it out",
			(*Trial).acid,
		},
		{
			"ph", "NUMBER", "records a pH, as ph 7 after 5 drops, wait 10 min, level 4, lumps; ph target 5.5; " +
				"ph mend 2 7.5 after 5 drops; ph delete 2", (*Trial).ph,
		},
		{"care", "", "lists every caution for this powder", (*Trial).allCare},
		{"finish", "", "ends the trial; it counts for the powder from then on", (*Trial).finish},
		{"aside", "REASON", "ends the trial and keeps it out of use", (*Trial).aside},
		{
			"quit", "", "leaves it unfinished; it goes on next time",
			func(*Trial, string) error { return errQuit },
		},
		{"save", "", "saves again, where that failed", (*Trial).saveAgain},
		{"copy", "", "saves in a file of its own, where the file was changed elsewhere", (*Trial).copy},
		{"help", "", "says this", (*Trial).help},
	}
}

// word runs the command that a text begins with; done is false if there is none.
func (t *Trial) word(text string) (done bool, err error) {
	first, argument, _ := strings.Cut(text, " ")
	if first == "?" {
		first = "help"
	}
	for _, w := range commands() {
		if strings.EqualFold(first, w.word) {
			return true, w.do(t, strings.TrimSpace(argument))
		}
	}
	return false, nil
}

// setUpWord is word for the questions before the bench.
func (t *Trial) setUpWord(text string) (done bool, err error) {
	first, argument, _ := strings.Cut(text, " ")
	first = strings.ToLower(first)
	switch {
	case first == "?", strings.EqualFold(text, "help"):
		return true, t.setUpHelp()
	case t.editor == nil || !slices.Contains(early, first):
		return false, nil
	case first == "undo":
		done, err = t.undoDish()
	case first == "redo":
		done, err = t.redoDish()
	}
	if done {
		return true, err
	}
	return t.word(first + " " + strings.TrimSpace(argument))
}

// setUpHelp lists the words that work before the bench.
func (t *Trial) setUpHelp() error {
	t.tell("Type the answer; Enter alone takes what is offered. How a trial goes: powder by the spoon into a little " +
		"liquid, after each addition the level that it has. These words serve here too:")
	for _, w := range commands() {
		if t.editor != nil && slices.Contains(early, w.word) {
			t.tell("%s: %s.", strings.TrimSpace(w.word+" "+w.argument), w.help)
		}
	}
	t.tell("quit: leaves; what was saved stays.")
	t.tell("help: says this.")
	return nil
}

func (t *Trial) help(string) error {
	t.tell("When asked what was added: Enter takes the advice; spoons as 2 x 1/4 tsp or 1 tsp + 1/2 tsp; grams as " +
		"1.5 g; = 25.3 is what the scale shows for all in the dish, tared with it empty; liquid before an amount is " +
		"liquid; removed 3 g is paste taken out; again looks at the same dish again.")
	if t.editor.Trial().Match == nil {
		t.tell("When asked for the level: 0 to 7, or none to go on without a look.")
	} else {
		t.tell("When asked how it stands beside the reference dish: 1 much thinner, 2 thinner, 3 the same, 4 " +
			"thicker, 5 much thicker, or none to go on without a look. mend 3 thicker mends the look of step 3.")
	}
	for _, w := range commands() {
		t.tell("%s: %s.", strings.TrimSpace(w.word+" "+w.argument), w.help)
	}
	return nil
}

func (t *Trial) mark(text string) error {
	var marks []string
	if last := t.editor.Last(); last != nil {
		marks = last.Marks
	}
	added := len(marks)
	for name := range strings.SplitSeq(text, ",") {
		name = strings.ToLower(strings.Join(strings.Fields(name), " "))
		if !slices.Contains(model.Marks(), name) {
			return fmt.Errorf("there is no behaviour %q; they are %s", name, strings.Join(model.Marks(), ", "))
		}
		marks = append(marks, name)
	}
	what := fmt.Sprintf("Behaviour at step %d: %s", t.last()+1, strings.Join(marks[added:], ", "))
	return t.done(what, t.editor.SetMarks(t.last(), marks))
}

func (t *Trial) note(text string) error {
	if text == "" && t.last() >= 0 {
		return errors.New("the note says nothing: type it after the word, as note smells of hay")
	}
	return t.done(fmt.Sprintf("Note to step %d", t.last()+1), t.editor.Note(t.last(), text))
}

// potNow records the pot's weight and the powder in the dish by it.
func (t *Trial) potNow(text string) error {
	return t.weighPot(text, "pot 145.1", "The pot", t.editor.Pot)
}

// potStart mends the pot's weight before the first spoon.
func (t *Trial) potStart(text string) error {
	return t.weighPot(text, "set pot=152.4", "The pot before the first spoon", t.editor.PotStart)
}

// potAt mends the pot's weight after a step, counted from 1.
func (t *Trial) potAt(n int, text string) error {
	return t.weighPot(text, fmt.Sprintf("mend %d pot 145.1", n), fmt.Sprintf("The pot after step %d", n),
		func(grams float64) error { return t.editor.PotAt(n-1, grams) })
}

// weighPot records a weighing of the pot and the powder in the dish by it; 0
// deletes it.
func (t *Trial) weighPot(text, example, name string, record func(grams float64) error) error {
	grams, err := typed.Mass(text, example)
	if err != nil {
		return err
	}
	t.advised = -1
	what := fmt.Sprintf("%s: %s g", name, model.Number(grams))
	if grams == 0 {
		what = name + ": its weight is deleted"
	}
	if err := t.done(what, record(grams)); err != nil {
		return err
	}
	if t.last() < 0 {
		return nil
	}
	t.sayDish()
	weights := t.editor.Outcome().Reading.SpoonWeights
	if text := weights.TeaspoonText(); text != "" {
		t.tell("%s.", model.Capital(text))
	}
	for _, w := range weights.Weighed() {
		if w.Pot > 0 {
			t.tell("%s.", model.Capital(w.Text()))
		}
	}
	return t.sayAnswer("")
}

func (t *Trial) leave(text string) error { return t.useLook(text, false) }

func (t *Trial) use(text string) error { return t.useLook(text, true) }

// useLook uses or leaves out the look of a step, counted from 1.
func (t *Trial) useLook(text string, use bool) error {
	n, err := typed.Count(text, "leave 3")
	if err != nil {
		return err
	}
	what := fmt.Sprintf("The look of step %d is left out of the answer", n)
	if use {
		what = fmt.Sprintf("The look of step %d counts", n)
	}
	if err := t.done(what, t.editor.UseLook(n-1, use)); err != nil {
		return err
	}
	t.advised = -1
	return t.sayAnswer("")
}

func (t *Trial) levels(string) error {
	if t.editor.Trial().Match != nil {
		for i, l := range model.BesideLooks() {
			t.tell("%d %s: %s.", i+1, l.Beside, l.Test)
		}
		return nil
	}
	for _, c := range model.Scale() {
		t.tell("%s: %s.", model.LevelName(c.Level), c.Test)
	}
	return nil
}

func (t *Trial) steps(string) error {
	r := t.editor.Outcome().Reading
	if len(r.Trial.Steps) == 0 {
		t.tell("Nothing added yet.")
	}
	if r.Trial.PotG > 0 {
		t.tell("The pot before the first spoon: %s g.", model.Number(r.Trial.PotG))
	}
	for i, s := range r.Trial.Steps {
		text := fmt.Sprintf("Step %d: %s", i+1, s.Text())
		if i < len(r.Dishes) && r.Dishes[i].HasRatio() {
			text += ", " + model.PerPowder(model.RatioText(r.Dishes[i].Ratio()), r.Trial.Liquid)
		}
		if s.Looked {
			text += ", " + s.LookText()
			if s.LevelStirred != nil {
				text += " (" + model.Number(*s.LevelStirred) + " just stirred)"
			}
		} else {
			text += ", no look"
		}
		if s.Reading > 0 {
			text += ", reading " + r.Trial.Measured.Text(s.Reading)
		}
		if s.LeftOut {
			text += ", left out of the answer"
		}
		if when := s.Timing(*r.Trial.RestS); when != model.InTime {
			text += fmt.Sprintf(", %s: after %s", when, model.Seconds(*s.RestedS))
		}
		if s.PotG > 0 {
			text += fmt.Sprintf(", then the pot %s g", model.Number(s.PotG))
		}
		for _, m := range s.Marks {
			text += ", " + m
		}
		if s.Note != "" {
			text += fmt.Sprintf(", note: %s", s.Note)
		}
		t.tell("%s.", text)
	}
	t.sayDish()
	return nil
}

// finish ends the trial and gives its answer.
func (t *Trial) finish(string) error {
	if err := t.editor.Finish(); err != nil {
		return fmt.Errorf("%w; quit leaves the trial unfinished", err)
	}
	t.store("The trial is finished", t.shelf.Save)
	o := t.editor.Outcome()
	t.page.Gap()
	t.page.Dish(page.Dish{
		Profile: t.editor.Profile(), Trial: t.editor.Index(), Reading: o.Reading, Answer: o.Answer(o.Reading.Trial.Aim),
		OwnSpoons: t.ownSpoons,
	})
	t.page.Gap()
	for _, text := range handling.WithResult(o.Reading) {
		t.tell("%s", text)
	}
	t.sayCareAfter()
	return errEnded
}

func (t *Trial) aside(reason string) error {
	if reason == "" {
		return errors.New("say why after the word, as aside spilled some")
	}
	if err := t.done("Set aside: the trial is kept and shown, not used", t.editor.SetAside(reason)); err != nil {
		return err
	}
	return errEnded
}

func (t *Trial) saveAgain(string) error {
	t.store("All that was recorded", t.shelf.Save)
	return nil
}

// copy saves what is unsaved to a new file.
func (t *Trial) copy(string) error {
	if !t.unsaved() {
		return errors.New("all is saved already")
	}
	t.store("All that was recorded", t.shelf.SaveAsNew)
	if !t.unsaved() {
		t.tell("The file is %s", t.entry.Path)
	}
	return nil
}
