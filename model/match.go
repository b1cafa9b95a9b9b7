package model

import (
	"cmp"
	"fmt"
	"slices"
	"strings"
	"time"
)

// Match says that a trial brings its powder to the thickness of a reference dish (METHOD,
// side by side). The facts about that dish are kept here, so that they stay when its own
// record changes.
type Match struct {
	Powder          string    // slug of the reference dish's powder
	Name            string    // of that powder, with its lot; "" not recorded
	Trial, Step     int       // which of its trials, and after which step; both from 1, 0 not recorded
	Made            time.Time // when that dish was last added to; zero not recorded
	PowderPerLiquid float64   // of that dish, g/g
	Level           float64   // at which it stood, 1 to 6; 0 the trial's aim
	Half            float64   // 95 % half-width for its masses, in ln R; 0 not recorded
}

// UsualMatchHalf stands for a Half that is not recorded: about as much as for a spoon never
// weighed (chosen).
const UsualMatchHalf = 0.1

// MassesHalf gives the half-width for the reference dish's masses, 95 % in ln R.
func (m Match) MassesHalf() float64 {
	if m.Half > 0 {
		return m.Half
	}
	return UsualMatchHalf
}

// Title gives the name of the reference dish's powder with its lot.
func (m Match) Title() string { return cmp.Or(m.Name, m.Powder) }

// Dish names the reference dish: "trial 2 of Grey basin clay".
func (m Match) Dish() string { return m.Of(m.Title()) }

// Of gives Dish with another name for the powder.
func (m Match) Of(powder string) string {
	if m.Trial == 0 {
		return "the dish of " + powder
	}
	return fmt.Sprintf("trial %d of %s", m.Trial, powder)
}

// BesideOnly says shortly that a powder was only tried beside dishes of others.
const BesideOnly = "side by side only"

// OnlySideBySide reports whether every finished trial of a powder is beside a dish of another,
// so that it has no ratio by levels.
func (p Profile) OnlySideBySide() bool {
	return p.NewestWhere(Trial.Finished) >= 0 && p.NewestWhere(Trial.Used) < 0
}

// FinishedTrials counts the trials finished and not set aside, those side by side too.
// newest is the start of the newest; zero without.
func (p Profile) FinishedTrials() (n int, newest time.Time) {
	for _, t := range p.Trials {
		if t.Finished() {
			n++
		}
	}
	if at := p.NewestWhere(Trial.Finished); at >= 0 {
		newest = p.Trials[at].Started
	}
	return n, newest
}

// Beside is the result of a look beside a reference dish; "" where no such look was made.
type Beside string

// The looks beside a reference dish, thinnest first.
const (
	MuchThinner Beside = "much thinner"
	Thinner     Beside = "thinner"
	AsThick     Beside = "same"
	Thicker     Beside = "thicker"
	MuchThicker Beside = "much thicker"
)

// BesideLook is a look beside a reference dish: its word, and what is seen.
type BesideLook struct {
	Beside Beside
	Test   string
	Short  string // the test in at most 32 letters
}

// BesideLooks lists the looks beside a reference dish, thinnest first.
func BesideLooks() []BesideLook {
	return []BesideLook{
		{MuchThinner, "a level or two thinner: nobody would take one for the other", "nobody would mix them up"},
		{Thinner, "a little thinner, when both are tested one after the other", "a little thinner, one by one"},
		{AsThick, "you could not say which is which with your eyes closed", "you could not say which is which"},
		{Thicker, "a little thicker, when both are tested one after the other", "a little thicker, one by one"},
		{MuchThicker, "a level or two thicker: nobody would take one for the other", "nobody would mix them up"},
	}
}

// Besides lists the words of BesideLooks.
func Besides() []Beside {
	var words []Beside
	for _, l := range BesideLooks() {
		words = append(words, l.Beside)
	}
	return words
}

// Number numbers the look from 1, thinnest first, to 5; 0 for none of them.
func (b Beside) Number() int { return slices.Index(Besides(), b) + 1 }

// Words puts the look into a sentence: "much thinner", "the same".
func (b Beside) Words() string {
	if b == AsThick {
		return "the same"
	}
	return string(b)
}

// BesideOf reads a look from its number, 1 to 5, or its word.
func BesideOf(text string) (Beside, error) {
	text = strings.TrimPrefix(strings.ToLower(strings.Join(strings.Fields(text), " ")), "the ")
	for i, b := range Besides() {
		if text == string(b) || text == fmt.Sprint(i+1) {
			return b, nil
		}
	}
	return "", fmt.Errorf("%q is no look beside a dish: type 1 much thinner, 2 thinner, 3 same, 4 thicker or "+
		"5 much thicker", text)
}

// LookText puts a look into words: "level 5 spread", or "thicker than the reference dish";
// "" without a look.
func (s Step) LookText() string {
	switch {
	case !s.Looked:
		return ""
	case s.Beside == AsThick:
		return "as thick as the reference dish"
	case s.Beside != "":
		return string(s.Beside) + " than the reference dish"
	default:
		return "level " + LevelName(s.Level)
	}
}

// ShortLook gives LookText in the fewest words: "level 5", or "thicker".
func (s Step) ShortLook() string {
	if s.Looked && s.Beside == "" {
		return "level " + Number(s.Level)
	}
	return s.Beside.Words()
}

// Unlook removes the look from a step.
func (s *Step) Unlook() { s.Looked, s.Level, s.Beside, s.RestedS = false, 0, "", nil }

// Validate lists the problems of a match, by the keys of its table.
func (m Match) Validate() []Problem {
	c := &checker{}
	if strings.TrimSpace(m.Powder) == "" {
		c.add("powder", `say which, as in powder = "grey-basin-clay-2026-01"`,
			"the reference dish does not say of which powder it is")
	}
	c.text("powder", "the powder of the reference dish", m.Powder, false)
	c.text("name", "the name of the reference dish's powder", m.Name, false)
	c.number("powder_per_liquid", "a reference dish", "g powder per g liquid", m.PowderPerLiquid, 1e-4, 1e4)
	if m.Level != 0 && !IsAskable(m.Level) {
		c.add("level", "give the level at which it stood, 1 to 6 in halves, as in level = 5.0",
			"a reference dish at level %s is not possible", Number(m.Level))
	}
	for i, n := range []int{m.Trial, m.Step} {
		if n < 0 {
			c.add([]string{"trial", "step"}[i], "count from 1, or leave it out", "number %d is not possible", n)
		}
	}
	c.optional("half", "a half-width", "in ln R", m.Half, maxTolerance)
	return c.problems
}

// beside complains about a look beside a dish.
func (c *checker) beside(path string, t Trial, s Step) {
	choice(c, path+".beside", "the look", s.Beside, Besides()...)
	switch {
	case s.Beside != "" && t.Match == nil:
		c.add(path+".beside", "give the trial its [trial.match], or the level instead",
			"a look beside a dish, but the trial has no reference dish")
	case s.Looked && s.Beside == "" && t.Match != nil:
		c.add(path+".level", `say how it stands beside the reference dish, as in beside = "thicker"`,
			"a level, but this trial is read beside a reference dish")
	}
}
