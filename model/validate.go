package model

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"
)

// MaxRestS is the longest wait before a look that a file may hold, s.
const MaxRestS = 7 * 24 * 3600

// Outside these limits a number is a slip of the hand or of the unit (chosen).
const (
	MaxGrams      = 100000.0
	maxDensity    = 25.0
	maxSpoonEach  = 1000
	MaxCount      = 1000
	maxTolerance  = 2.0
	minTemp       = -20.0
	maxTemp       = 120.0
	MaxNameLength = 200
	maxTextLength = 100000 // characters, of any other text
	maxSteps      = 5000   // of one trial
	maxSpoons     = 200    // of one list
	maxAllergens  = 50     // of one powder
	maxListed     = 200    // texts in a list of a recipe
)

// checker gathers problems, each with its path in the file.
type checker struct {
	ownSpoons OwnSpoons
	weighed   []string
	problems  []Problem
}

// add notes a problem at a path, with how to mend it.
func (c *checker) add(path, fix, format string, args ...any) {
	c.problems = append(c.problems, Problem{Path: path, What: fmt.Sprintf(format, args...), Fix: fix})
}

// least is below whatever is weighed or measured at a bench, in any unit used here. A
// smaller number is a slip, and dividing by it could overflow.
const least = 1e-9

// Tiny reports whether a number is not 0 and yet less than 1e-9 of any unit. A bench cannot
// weigh or measure so little, so it is refused.
func Tiny(v float64) bool { return v != 0 && math.Abs(v) < least }

// number complains about a value that is not finite, tiny or outside [low, high], and
// reports whether it passes.
func (c *checker) number(path, what, unit string, v, low, high float64) bool {
	if v >= low && v <= high && !Tiny(v) {
		return true
	}
	if unit != "" {
		unit = " " + unit
	}
	if Tiny(v) {
		c.add(path, "give 0, or what a bench can weigh or measure", "%s of %s%s is too small", what, Number(v), unit)
		return false
	}
	c.add(path, fmt.Sprintf("give a number from %s to %s%s", Number(low), Number(high), unit),
		"%s of %s%s is not possible", what, Number(v), unit)
	return false
}

// optional is like number, for a value whose 0 means "not given".
func (c *checker) optional(path, what, unit string, v, high float64) {
	if v != 0 && !(v >= least && v <= high) {
		c.add(path, fmt.Sprintf("give a number above 0 and up to %s %s, or leave it out", Number(high), unit),
			"%s of %s %s is not possible", what, Number(v), unit)
	}
}

// text complains about a text that is too long or holds control characters, which would
// steer a terminal. With notes, line ends and tabs may stand in it.
func (c *checker) text(path, what, s string, notes bool) {
	if len(s) > maxTextLength && utf8.RuneCountInString(s) > maxTextLength {
		c.add(path, fmt.Sprintf("keep it within %d characters", maxTextLength), "%s is too long", what)
		return
	}
	bad := func(r rune) bool {
		return unicode.IsControl(r) && !(notes && (r == '\n' || r == '\r' || r == '\t'))
	}
	if at := strings.IndexFunc(s, bad); at >= 0 {
		c.add(path, "type it again without it", "%s holds a control character after %q", what, s[:at])
	}
}

// choice complains about a word that is none of the allowed ones; "" passes.
func choice[T ~string](c *checker, path, what string, v T, allowed ...T) {
	if v == "" || slices.Contains(allowed, v) {
		return
	}
	words := make([]string, len(allowed))
	for i, a := range allowed {
		words[i] = string(a)
	}
	c.add(path, "use one of: "+strings.Join(words, ", "), "%s %q is not known", what, string(v))
}

// spoon complains about a spoon with neither a known size nor a weighing.
func (c *checker) spoon(path string, set SpoonSet, name string) {
	if _, ok := c.ownSpoons.Spoon(cmp.Or(set, US), name); ok || slices.Contains(c.weighed, name) {
		return
	}
	c.add(path, fmt.Sprintf("use one of %s, or list it in spoons.toml", strings.Join(c.ownSpoons.Names(), ", ")),
		"the spoon %q is not known", name)
}

// Validate lists the problems of a profile, in the order of its file; nil when it is sound.
// Spoons of the maker's own come from own.
func (p Profile) Validate(own OwnSpoons) []Problem {
	c := &checker{ownSpoons: own}
	c.powder(p.Powder)
	if n := len(p.LevelSpoons); n > maxSpoons {
		c.add("level_spoon", fmt.Sprintf("keep them within %d: leave out those no longer used", maxSpoons),
			"%d sizes of spoon are not possible", n)
	}
	for i, l := range p.LevelSpoons {
		c.levelSpoon(fmt.Sprintf("level_spoon[%d]", i), l)
	}
	c.kept("", "packing", p.Reserved, len(p.Powder.Packings) > 0)
	for i, t := range p.Trials {
		c.trial(fmt.Sprintf("trial[%d]", i), t)
	}
	return c.problems
}

// powder complains about the powder's own facts.
func (c *checker) powder(p Powder) {
	switch {
	case strings.TrimSpace(p.Name) == "":
		c.add("powder.name", `give it one, as in name = "Fine oat flour"`, "the powder has no name")
	case utf8.RuneCountInString(p.Name) > MaxNameLength:
		c.add("powder.name", fmt.Sprintf("keep it within %d characters", MaxNameLength),
			"the powder's name is too long")
	}
	c.text("powder.name", "the powder's name", p.Name, false)
	c.text("powder.lot", "the lot", p.Lot, false)
	c.text("powder.notes", "the notes", p.Notes, true)
	choice(c, "powder.family", "the family", p.Family, Families()...)
	c.optional("powder.solid_density", "a solid density", "g/mL", p.SolidDensity, maxDensity)
	c.allergens("powder.allergens", p.Allergens)
	for i, one := range p.Packings {
		c.within(fmt.Sprintf("packing[%d]", i), one.Validate())
	}
}

// allergens complains about empty allergens and too many of them.
func (c *checker) allergens(path string, all []string) {
	if n := len(all); n > maxAllergens {
		c.add(path, fmt.Sprintf("keep them within %d", maxAllergens), "%d allergens are not possible", n)
	}
	for _, a := range all {
		c.text(path, "an allergen", a, false)
		if strings.TrimSpace(a) == "" {
			c.add(path, "leave it out", "an allergen is empty")
		}
	}
}

// levelSpoon complains about the weighings of one size of level spoon.
func (c *checker) levelSpoon(path string, l LevelSpoon) {
	c.text(path+".spoon", "the spoon's name", l.Spoon, false)
	c.text(path+".how", "the manner of weighing", l.How, true)
	switch {
	case l.Spoon == "":
		c.add(path+".spoon", `say which, as in spoon = "1 tsp"`, "a level-spoon weighing does not say which spoon")
	case slices.Contains(c.weighed, l.Spoon) && l.How != ByPot:
		c.add(path+".spoon", "put all weighings of one size into one table's grams",
			"the spoon %q is weighed in two tables", l.Spoon)
	case l.VolumeML == 0 && len(l.Grams) == 0:
		c.spoon(path+".spoon", US, l.Spoon)
	}
	c.weighed = append(c.weighed, l.Spoon)
	for i, g := range l.Grams {
		if !(g >= least && g <= MaxGrams) {
			c.add(path+".grams", "give the grams of level spoons on a tared scale, above 0",
				"weighing %d of %s g is not possible", i+1, Number(g))
		}
	}
	if l.SpoonsEach < 0 || l.SpoonsEach > maxSpoonEach {
		c.add(path+".spoons_each", fmt.Sprintf("give a whole number from 1 to %d, or leave it out for 1",
			maxSpoonEach), "%d spoons in each weighing is not possible", l.SpoonsEach)
	}
	c.optional(path+".resolution_g", "a scale resolution", "g", l.ResolutionG, 100)
	c.optional(path+".volume_ml", "a spoon volume", "mL", l.VolumeML, 1000)
}

// trial complains about a trial and everything in it.
func (c *checker) trial(path string, t Trial) {
	if t.Started.IsZero() {
		c.add(path+".started", "give the date and time, as in started = 2026-05-03T10:12:00Z",
			"the trial does not say when it was started")
	}
	c.text(path+".set_aside", "the reason", t.SetAside, true)
	c.text(path+".liquid", "the liquid's name", t.Liquid, false)
	choice(c, path+".state", "the state", t.State, Open, Done)
	choice(c, path+".liquid_by", "the way of measuring", t.LiquidBy, ByWeight, BySpoon)
	choice(c, path+".spoon_set", "the spoon set", t.SpoonSet, SpoonSets()...)
	c.number(path+".liquid_g", "liquid", "g", t.LiquidG, 0, MaxGrams)
	if t.LiquidBy == BySpoon && t.LiquidSpoon != "" {
		c.spoon(path+".liquid_spoon", t.SpoonSet, t.LiquidSpoon)
	}
	c.count(path+".liquid_count", t.LiquidCount)
	c.optional(path+".liquid_density", "a liquid density", "g/mL", t.LiquidDensity, maxDensity)
	if t.TemperatureC != nil {
		c.number(path+".temperature_c", "a temperature", "°C", *t.TemperatureC, minTemp, maxTemp)
	}
	c.optional(path+".resolution_g", "a scale resolution", "g", t.ResolutionG, 100)
	for _, name := range t.Spoons {
		c.spoon(path+".spoons", t.SpoonSet, name)
	}
	if t.Aim != 0 && c.number(path+".aim", "an aim", "", t.Aim, MinAim, MaxAim) && !isHalfStep(t.Aim, 0.5) {
		c.add(path+".aim", "aim at a whole or half level, as in aim = 4.5", "an aim of %s is between the half levels",
			Number(t.Aim))
	}
	if t.LevelStep != 0 && t.LevelStep != 1 && t.LevelStep != 0.5 {
		c.add(path+".level_step", "use 1.0 or 0.5", "levels read to the nearest %s are not possible",
			Number(t.LevelStep))
	}
	c.optional(path+".tolerance", "a tolerance", "in ln R", t.Tolerance, maxTolerance)
	if t.RestS != nil {
		c.number(path+".rest_s", "a rest", "s", float64(*t.RestS), 0, MaxRestS)
	}
	c.optional(path+".pot_g", "a pot", "g", t.PotG, MaxGrams)
	if t.Match != nil {
		c.within(path+".match", t.Match.Validate())
	}
	c.kept(path, "match", t.Reserved, t.Match != nil)
	c.kept(path, "later", t.Reserved, len(t.Later) > 0)
	c.kept(path, "measured", t.Reserved, t.Measured != nil)
	c.kept(path, "acid", t.Reserved, t.Acid != nil)
	if n := len(t.Steps); n > maxSteps {
		c.add(path+".step", fmt.Sprintf("keep a trial within %d steps: go on in a new one", maxSteps),
			"a trial of %d steps is not possible", n)
		return
	}
	if t.Measured != nil {
		c.within(path+".measured", t.Measured.Validate())
	}
	if t.Acid != nil {
		c.within(path+".acid", t.Acid.Validate())
	}
	for i, l := range t.Later {
		c.within(fmt.Sprintf("%s.later[%d]", path, i), l.Validate())
	}
	for i, s := range t.Steps {
		c.step(fmt.Sprintf("%s.step[%d]", path, i), t, s)
	}
}

// count complains about an impossible number of spoons.
func (c *checker) count(path string, n int) {
	if n < 0 || n > MaxCount {
		c.add(path, fmt.Sprintf("give a whole number from 1 to %d", MaxCount), "a count of %d spoons is not possible",
			n)
	}
}

// step complains about one step of a trial t.
func (c *checker) step(path string, t Trial, s Step) {
	if s.Add == "" {
		c.add(path+".add", "use one of: powder, liquid, removed, none", "the step does not say what was added")
	}
	choice(c, path+".add", "the addition", s.Add, AddPowder, AddLiquid, Removed, AddNone)
	c.optional(path+".grams", "an addition", "g", s.Grams, MaxGrams)
	c.count(path+".count", s.Count)
	adds := s.Add == AddPowder || s.Add == AddLiquid
	if s.Spoon != "" && s.Grams == 0 && adds {
		c.spoon(path+".spoon", t.SpoonSet, s.Spoon)
	}
	if adds && s.Spoon == "" && s.Grams == 0 {
		c.add(path+".add", `give the spoon, as in spoon = "1/2 tsp", or the grams`, "%v", ErrNothingGiven(s.Add))
	}
	c.beside(path, t, s)
	if s.Looked && s.Beside == "" {
		step := cmp.Or(t.LevelStep, 1)
		if c.number(path+".level", "a level", "", s.Level, MinLevel, MaxLevel) && (step == 1 || step == 0.5) &&
			!isHalfStep(s.Level, step) {
			c.add(path+".level",
				"round it, or set the trial's level_step to 0.5 if levels were read in halves",
				"level %s, but this trial reads levels to the nearest %s", Number(s.Level), Number(step))
		}
	}
	if s.LevelStirred != nil {
		c.number(path+".level_stirred", "a level", "", *s.LevelStirred, MinLevel, MaxLevel)
	}
	c.optional(path+".reading", "a reading", "", s.Reading, MaxReading)
	if s.Reading != 0 && t.Measured == nil {
		c.add(path+".reading", `say what is measured, as in [trial.measured] with kind = "spread"`,
			"a reading of %s, but the trial does not say of what", Number(s.Reading))
	}
	if s.RestedS != nil {
		c.number(path+".rested_s", "a rest", "s", float64(*s.RestedS), 0, MaxRestS)
	}
	c.optional(path+".pot_g", "a pot", "g", s.PotG, MaxGrams)
	c.kept(path, "beside", s.Reserved, s.Beside != "")
	c.kept(path, "level_stirred", s.Reserved, s.LevelStirred != nil)
	c.kept(path, "reading", s.Reserved, s.Reading != 0)
	c.seen(path, s.Marks, s.Note)
}

// seen complains about the behaviour and the note of a look. With a path of "" the keys
// stand alone.
func (c *checker) seen(path string, marks []string, note string) {
	if path != "" {
		path += "."
	}
	c.text(path+"note", "the note", note, true)
	for _, m := range marks {
		if m == "" {
			c.add(path+"marks", "leave it out", "a behaviour is empty")
		}
		choice(c, path+"marks", "the mark", m, Marks()...)
	}
}

// kept complains where a value is given for a key that the file uses for something else,
// kept untouched: the file has room for one of them.
func (c *checker) kept(path, key string, reserved map[string]any, given bool) {
	if reserved[key] == nil || !given {
		return
	}
	if path != "" {
		path += "."
	}
	c.add(path+key, "take it out there, or put it into a comment, and do this again",
		"%s holds something else in the file, which would be lost", key)
}

// within adds the problems found below path.
func (c *checker) within(path string, problems []Problem) {
	for _, p := range problems {
		p.Path = path + "." + p.Path
		c.problems = append(c.problems, p)
	}
}

// ErrNothingGiven is the error for an addition without an amount.
func ErrNothingGiven(what Add) error {
	return fmt.Errorf("%s was added, but neither a spoon nor grams are given", string(what))
}

// Problem is one thing wrong in a file, in the maker's words.
type Problem struct {
	// Path names the place as the file has it, counted from 0: "powder.name",
	// "level_spoon[0].grams", "trial[1].step[3].level".
	Path string
	What string // what is wrong
	Fix  string // how to mend it
}

// Error gives the whole complaint: where, what is wrong, how to mend it.
func (p Problem) Error() string {
	return fmt.Sprintf("%s: %s; %s", p.PathWords(), p.What, p.Fix)
}

// PathWords says where the problem is as a maker counts, from 1:
// "trial 2, step 4, level".
func (p Problem) PathWords() string {
	var words []string
	for _, part := range strings.Split(p.Path, ".") {
		name, index, _ := strings.Cut(strings.TrimSuffix(part, "]"), "[")
		name = strings.ReplaceAll(name, "_", " ")
		if n, err := strconv.Atoi(index); err == nil {
			name = fmt.Sprintf("%s %d", name, n+1)
		}
		words = append(words, name)
	}
	return strings.Join(words, ", ")
}
