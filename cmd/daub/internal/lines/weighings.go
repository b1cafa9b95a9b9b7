package lines

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/handling"
	"daub.example/daub/model/typed"
)

// weighings asks what is weighed of the powder and, for level spoons, what they
// weigh. The first weighing puts a new powder on the shelf, so that none is lost.
func (t *Trial) weighings() error {
	l := t.editor.SpoonWeighedHere()
	said := t.editor.Revision()
	if err := t.whatIsWeighed(&l); err != nil || t.method != bench.BySpoons {
		return err
	}
	switch {
	case len(l.Grams) == 0:
		if err := t.howWeighed(&l); err != nil {
			return err
		}
	case t.editor.Revision() == said: // a weighing typed there has told it
		t.tell("%s.", weighed(l))
	}
	question := fmt.Sprintf("Grams of %s: tare, break up lumps, fill loosely, strike off. If it is "+
		"tapped or packed, type that word first, as tapped 2.9. Enter alone goes on; undo deletes the "+
		"last; ? helps.", model.LevelSpoons(l.Each(), l.Spoon))
	for {
		more := false
		err := t.ask(question, "", func(answer string) (err error) {
			more, err = t.moreWeighings(l, answer)
			return err
		})
		if err != nil || !more {
			return err
		}
	}
}

// moreWeighings records the grams of a level spoon; more is false for an empty answer.
func (t *Trial) moreWeighings(l model.LevelSpoon, answer string) (more bool, err error) {
	filled, grams, err := typed.Weighings(answer, "2.3 g")
	if err != nil || len(grams) == 0 {
		return false, err
	}
	l.How = cmp.Or(filled, l.How)
	return true, t.sayWeighings(l.Spoon, len(grams), t.editor.Weigh(l, grams...))
}

// whatIsWeighed asks how the powder is known by mass. The name of a level spoon is an
// answer too, and so are grams: one more weighing of a spoon weighed before.
func (t *Trial) whatIsWeighed(l *model.LevelSpoon) error {
	t.tell("pot (recommended): the open jar of powder, before the first spoon and again later.")
	t.tell("spoons: a few level spoonfuls, before the trial.")
	t.tell("each: every addition, in the dish.")
	offered := map[bench.Method]string{bench.ByPot: "pot", bench.BySpoons: "spoons", bench.ByEach: "each"}
	usual := bench.MethodOf(t.editor.Profile())
	return t.ask("What do you weigh: pot, spoons or each?", offered[usual], func(answer string) error {
		for m, word := range offered {
			if strings.EqualFold(answer, word) {
				t.method = m
				if m == bench.BySpoons && len(l.Grams) == 0 {
					return t.whichSpoon(l)
				}
				return nil
			}
		}
		if len(l.Grams) > 0 && isBareNumber(answer) {
			t.method = bench.BySpoons
			_, err := t.moreWeighings(*l, answer)
			return err
		}
		spoon, err := typed.SpoonsOf(t.ownSpoons, t.editor.Profile()).Name(answer)
		if err != nil {
			return fmt.Errorf("%q is neither pot, spoons nor each, nor a level spoon as 1 tsp", answer)
		}
		t.method, *l = bench.BySpoons, t.editor.SpoonWeighed(spoon)
		return nil
	})
}

// whichSpoon asks which level spoon is weighed.
func (t *Trial) whichSpoon(l *model.LevelSpoon) error {
	return t.ask("Which level spoon do you weigh? The largest that you will use is best.", l.Spoon,
		func(name string) error {
			spoon, err := typed.SpoonsOf(t.ownSpoons, t.editor.Profile()).Name(name)
			if err == nil {
				*l = t.editor.SpoonWeighed(spoon)
			}
			return err
		})
}

// scaleReads asks how finely the scale reads on which so much is weighed.
func scaleReads(what string) string {
	return fmt.Sprintf("What is the smallest step of the scale for the %s, in grams? As 0.01 or 0.1.", what)
}

// howWeighed asks how many level spoons a weighing has, and how finely the scale reads.
func (t *Trial) howWeighed(l *model.LevelSpoon) error {
	err := t.ask("How many level spoons together in a weighing? Ten for a scale that reads whole grams.", "1",
		func(answer string) error {
			n, err := typed.Count(answer, "10")
			l.SpoonsEach = n
			return err
		})
	if err != nil {
		return err
	}
	return t.ask(scaleReads("spoons"), model.Number(l.ResolutionG), func(answer string) error {
		return t.scale(answer, &l.ResolutionG)
	})
}

// scale reads how finely a scale reads, g; it asks about an unusual one that differs from
// what was known.
func (t *Trial) scale(answer string, readsG *float64) error {
	g, err := typed.Resolution(answer)
	if err != nil {
		return err
	}
	if question := typed.OddScale(g); question != "" && g != *readsG {
		if err := t.insists(question); err != nil {
			return err
		}
	}
	*readsG = g
	return nil
}

// sayWeighings saves n weighings of a level spoon and gives its new weight.
func (t *Trial) sayWeighings(spoon string, n int, refused error) error {
	what := "Weighing recorded" // how many there are stands in the next line
	if n > 1 {
		what = model.Plural(n, "weighing") + " recorded"
	}
	return t.sayWeighed(spoon, what, refused)
}

// sayWeighed saves a change of weighings and gives the spoon's new weight.
func (t *Trial) sayWeighed(spoon, what string, refused error) error {
	isNew := t.entry.Slug == ""
	if err := t.done(what, refused); err != nil {
		return err
	}
	p := t.editor.Profile()
	if isNew && len(p.Trials) == 0 && !t.unsaved() {
		t.tell("The powder is on the shelf: %s", t.entry.Path)
	}
	for _, l := range p.LevelSpoons {
		if l.Spoon == spoon {
			t.tell("%s.", weighed(l))
		}
	}
	if packs := handling.SpoonPacks(p.Powder, spoon); packs != "" {
		t.tell("%s", packs)
	}
	return nil
}

// weighed says what a level spoon weighs.
func weighed(l model.LevelSpoon) string {
	text, ok := page.SpoonWeight(l)
	if !ok {
		return "No level " + l.Spoon + " weighed yet"
	}
	return "A" + text[1:]
}

func (t *Trial) weigh(text string) error {
	l, _, text, err := t.spoonNamed(text)
	if err != nil {
		return err
	}
	filled, grams, err := typed.Weighings(text, "2.3")
	if err == nil && len(grams) == 0 {
		err = errors.New("type the grams after the word, as weigh 2.3 or weigh 1/2 tsp: 1.15")
	}
	if err != nil {
		return err
	}
	t.advised = -1
	l.How = cmp.Or(filled, l.How)
	return t.sayWeighings(l.Spoon, len(grams), t.editor.Weigh(l, grams...))
}

// spoonNamed is the level spoon that is named before a colon, and the rest of the text;
// without one, the spoon that is weighed here.
func (t *Trial) spoonNamed(text string) (l model.LevelSpoon, named bool, rest string, err error) {
	name, rest, named := strings.Cut(text, ":")
	if !named {
		return t.editor.SpoonWeighedHere(), false, text, nil
	}
	spoon, err := typed.SpoonsOf(t.ownSpoons, t.editor.Profile()).Name(name)
	return t.editor.SpoonWeighed(spoon), true, strings.TrimSpace(rest), err
}

// weighing lists, mends or deletes weighings of a level spoon.
func (t *Trial) weighing(text string) error {
	l, named, text, err := t.spoonNamed(text)
	switch {
	case err != nil:
		return err
	case text == "" && named:
		t.listWeighings(l)
		return nil
	case text == "":
		t.listAllWeighings()
		return nil
	}
	first, amount, _ := strings.Cut(text, " ")
	if how := strings.ToLower(first); slices.Contains(model.Fillings(), how) {
		t.advised = -1
		return t.sayWeighed(l.Spoon, "The weighings were filled "+how, t.editor.Fill(l.Spoon, how))
	}
	n, err := typed.Count(first, "weighing 2 2.3")
	if err != nil {
		return err
	}
	t.advised = -1
	if strings.EqualFold(strings.TrimSpace(amount), "none") {
		return t.sayWeighed(l.Spoon, fmt.Sprintf("Weighing %d deleted", n), t.editor.DeleteWeighing(l.Spoon, n-1))
	}
	grams, err := typed.Mass(amount, fmt.Sprintf("weighing %d 2.3", n))
	if err != nil {
		return err
	}
	return t.sayWeighed(l.Spoon, fmt.Sprintf("Weighing %d mended", n), t.editor.MendWeighing(l.Spoon, n-1, grams))
}

// listAllWeighings lists the weighings of every size of spoon.
func (t *Trial) listAllWeighings() {
	none := true
	for _, l := range t.editor.Profile().LevelSpoons {
		if l.How != model.ByPot {
			t.listWeighings(l)
			none = false
		}
	}
	if none {
		t.listWeighings(t.editor.SpoonWeighedHere())
	}
}

// listWeighings lists the weighings of a level spoon.
func (t *Trial) listWeighings(l model.LevelSpoon) {
	for i, g := range l.Grams {
		t.tell("Weighing %d of %s: %s g.", i+1, model.LevelSpoons(l.Each(), l.Spoon), model.Number(g))
	}
	if len(l.Grams) == 0 {
		t.tell("%s.", weighed(l))
	}
}
