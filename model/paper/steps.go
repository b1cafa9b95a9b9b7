package paper

import (
	"fmt"
	"math"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/care"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/printable"
)

// steps lists what is to be done, each amount in the step that uses it and each
// caution before it.
func (l layout) steps() *stepList {
	s := &stepList{layout: l}
	if own := l.ownSteps(); own != nil {
		s.own(own)
	} else {
		s.usual()
	}
	s.soak()
	s.do("%s", s.look())
	s.do("%s", s.tooThick())
	s.do("%s", s.tooThin())
	s.finish()
	return s
}

// stepList gathers steps, and remembers what has gone in.
type stepList struct {
	layout
	all       []Step
	cups      []string // what the steps use beside the bowl, as "a dry cup for the powder"
	dry, wet  bool     // powder weighed, liquid in the bowl
	filled    bool     // there is something in the bowl
	sprinkled bool
	unrested  bool // something went in after the last rest
}

// largeG is the batch, g, from which on a few turns of a spatula no longer reach all of
// it (chosen).
const largeG = 400

// large reports whether it is more than a few turns of a spatula reach.
func (l layout) large() bool { return l.amounts.MadeG > largeG }

// stir says how to stir the bowl.
func (l layout) stir() string {
	switch {
	case l.large() && l.slowly():
		return "stir slowly until it is even to the bottom"
	case l.large():
		return "stir until it is even to the bottom"
	case l.slowly():
		return "stir ten slow turns"
	default:
		return "stir ten turns"
	}
}

// bowl names the bowl for all of it. A large batch gets room to stir: half as many mL again
// as it has grams (a paste is no lighter than water).
func (l layout) bowl() string {
	if !l.large() {
		return "a clean bowl"
	}
	return fmt.Sprintf("a clean bowl of %s L or more", model.Number(math.Ceil(1.5*l.amounts.MadeG/500)/2))
}

// do adds a step, with cautions that go before it.
func (s *stepList) do(format string, args ...any) {
	s.all = append(s.all, Step{Do: fmt.Sprintf(format, args...)})
}

// needs notes a cup that a step uses, once.
func (s *stepList) needs(cup string) {
	if !slices.Contains(s.cups, cup) {
		s.cups = append(s.cups, cup)
	}
}

// caution gives the last step the cautions of a moment.
func (s *stepList) caution(m care.Moment) {
	last := &s.all[len(s.all)-1]
	cautions := care.OfPaste(s.recipe.Liquid, s.recipe.Extras, s.powders...)
	for _, c := range care.Before(m, s.powders...) {
		if slices.Contains(cautions, c) {
			last.Cautions = append(last.Cautions, c)
		}
	}
}

// own adds the steps that the maker wrote, after one for the liquid kept back.
func (s *stepList) own(texts []string) {
	a, liquid := s.amounts, printable.Words(s.recipe.Liquid)
	s.do("Of the %s g %s weigh %s g for the start; keep %s g back.%s", model.Grams(a.Liquid.Median), liquid,
		model.Grams(a.StartG), a.KeptBack(), s.heed(model.Weighing, model.Sprinkling, model.Stirring))
	s.caution(care.BeforeDust)
	s.caution(care.BeforeMetal)
	s.caution(care.BeforeWet)
	for _, text := range texts {
		s.do("%s", printable.Words(text))
	}
}

// usual adds the steps of every paste, in the recipe's order of addition.
func (s *stepList) usual() {
	all := phases(s.items())
	for i, phase := range all {
		switch phase[0].role {
		case model.WithPowders:
			s.powderPhase(phase)
		case model.WithLiquid:
			if !slices.ContainsFunc(phase, func(it item) bool { return it.liquid }) {
				s.stirIn(phase)
				break
			}
			s.waterPhase(phase)
		default:
			s.stirIn(phase)
		}
		if s.dry && s.wet && !s.sprinkled {
			s.sprinkle(i == len(all)-1)
		}
	}
	if s.unrested {
		last := &s.all[len(s.all)-1]
		last.Do += " " + model.Capital(s.stir())
		if s.soaks() == "" {
			last.Do += " and let it rest " + model.Seconds(s.recipe.RestS)
		}
		last.Do += "."
	}
}

// powderPhase weighs the powders dry, or sprinkles in what comes after the first powders.
func (s *stepList) powderPhase(phase []item) {
	then := " and break up its lumps"
	if len(phase) > 1 {
		then = ", break up the lumps and mix them dry"
	}
	if s.sprinkled {
		s.do("Sprinkle in %s.", listed(phase))
		s.unrested = true
		return
	}
	s.do("Weigh %s into a dry %s%s.%s", listed(phase), vessel(phase), then, s.heed(model.Weighing))
	s.needs("a dry " + vessel(phase) + " for the powder")
	s.caution(care.BeforeDust)
	s.dry = true
}

// vessel names what a powder is weighed into: a cup as long as it fits, at half a gram a mL
// or more.
func vessel(phase []item) string {
	const cupG = 120
	grams := 0.0
	for _, it := range phase {
		grams += it.grams
	}
	if grams > cupG {
		return "container"
	}
	return "cup"
}

// waterPhase weighs the liquid into the bowl, with what goes in beside it.
func (s *stepList) waterPhase(phase []item) {
	var texts []string
	var rest []item
	for _, it := range phase {
		if !it.liquid {
			rest = append(rest, it)
			continue
		}
		texts = append(texts, s.liquidText(printable.Words(it.name)))
	}
	if len(rest) > 0 {
		texts = append(texts, fmt.Sprintf("Stir in %s.", listed(rest)))
	}
	s.do("%s", strings.Join(texts, " "))
	s.wet, s.filled = true, true
	s.caution(care.BeforeMetal)
}

// liquidText weighs the liquid without what is kept back.
func (s *stepList) liquidText(name string) string {
	a := s.amounts
	bowl := s.bowl()
	if s.filled {
		bowl = "the bowl"
	}
	kind := ""
	if model.SameLiquid(name, "water") {
		kind = " (boiled and cooled, or distilled)"
	}
	text := fmt.Sprintf("Weigh %s g of the %s%s into %s", model.Grams(a.StartG), name, kind, bowl)
	if a.StartG < 0.005 {
		text = fmt.Sprintf("Take %s; none of the %s%s goes in at first", bowl, name, kind)
	}
	return text + fmt.Sprintf("; keep the other %s g back.", a.KeptBack())
}

// sprinkle adds the step in which the powder meets the liquid; where it is the last before
// a soak, that is its rest.
func (s *stepList) sprinkle(last bool) {
	what, it := "the powder", "it"
	if len(s.recipe.Powders) > 1 {
		what, it = "the powders", "them"
	}
	how := ""
	if s.large() {
		how = " in several goes"
	}
	doing := []string{"Sprinkle " + what + " into the bowl" + how}
	if !s.floats() {
		doing = append(doing, "let "+it+" sink")
	}
	doing = append(doing, s.stir())
	if !last || s.soaks() == "" {
		doing = append(doing, "let it rest "+model.Seconds(s.recipe.RestS))
	}
	n := len(doing) - 1
	s.do("%s and %s.%s", strings.Join(doing[:n], ", "), doing[n], s.heed(model.Sprinkling, model.Stirring))
	s.caution(care.BeforeWet)
	s.sprinkled, s.unrested = true, false
}

// stirIn adds a step for an oil phase, a preservative, or other extras.
func (s *stepList) stirIn(phase []item) {
	s.unrested = true
	var carriers, carried []item
	for _, it := range phase {
		if it.role == model.Solubiliser {
			carriers = append(carriers, it)
		} else {
			carried = append(carried, it)
		}
	}
	if len(carriers) > 0 && len(carried) > 0 {
		s.do("In a small cup stir %s into %s until it is even; then stir the two into %s.", listed(carried),
			listed(carriers), s.contents())
		s.needs("a small cup for the oil")
	} else if s.filled {
		s.do("Stir in %s.", listed(phase))
	} else if s.dry {
		s.do("Stir %s into %s.", listed(phase), s.contents())
	} else {
		s.do("Weigh %s into %s.", listed(phase), s.contents())
	}
	if slices.ContainsFunc(phase, func(it item) bool { return it.role == model.Preservative }) {
		last := &s.all[len(s.all)-1]
		last.Cautions = append(last.Cautions, preserving)
	}
	s.filled = s.filled || !s.dry
}

// preserving is the caution with a preservative, whichever it is.
const preserving = "Preservative: how much, at which pH and with what gloves is on its maker's sheet."

// contents names the target of stirring in: the bowl, or the weighed powder as long as the
// bowl is empty.
func (s *stepList) contents() string {
	switch {
	case s.filled:
		return "the bowl"
	case s.dry:
		return "the weighed powder"
	default:
		return s.bowl()
	}
}

// listed names amounts: "3.00 g honey and 2.00 g oil".
func listed(items []item) string {
	var texts []string
	for _, it := range items {
		text := fmt.Sprintf("%s g %s", model.Grams(it.grams), printable.Words(it.name))
		if it.note != "" {
			text += fmt.Sprintf(" (%s)", printable.Words(it.note))
		}
		texts = append(texts, text)
	}
	if n := len(texts); n > 1 {
		return strings.Join(texts[:n-1], ", ") + " and " + texts[n-1]
	}
	return texts[0]
}

// look says how to tell that it is as thick as wanted.
func (s *stepList) look() string {
	level := s.recipe.Level
	lower, upper := model.Scale()[int(math.Floor(level))], model.Scale()[int(math.Ceil(level))]
	if lower == upper {
		return fmt.Sprintf("Look before you stir it again: at %s it %s.%s", model.LevelName(level), lower.Test,
			s.later())
	}
	return fmt.Sprintf("Look before you stir it again: at %s it lies between %s (%s) and %s (%s).%s",
		model.LevelName(level), lower.Word, lower.Test, upper.Word, upper.Test, s.later())
}

// tooThick says what to stir in when it is too thick, and how much may be needed.
func (s *stepList) tooThick() string {
	a, liquid := s.amounts, printable.Words(s.recipe.Liquid)
	return fmt.Sprintf("Too thick? Stir in some of the %s g %s kept back, a little at a time; %s, "+
		"rest %s, look again. You may need all of that, and up to %s g more.%s",
		a.KeptBack(), liquid, s.stir(), model.Seconds(s.recipe.RestS), model.Grams(a.SpareG), s.heed(model.AddingMore))
}

// tooThin says how much more powder may be needed.
func (s *stepList) tooThin() string {
	r, more := s.recipe, s.amounts.SparePowderG
	what := "powder"
	if len(r.Powders) > 1 {
		var parts []string
		for i, p := range r.Powders {
			parts = append(parts, fmt.Sprintf("%s g %s", model.Grams(more*r.Fraction(i)), printable.Words(p.Name)))
		}
		what = "of the powders mixed dry (" + strings.Join(parts, ", ") + ")"
	}
	return fmt.Sprintf("Too thin? Sprinkle in more powder, a little at a time; %s, rest %s, look again. You may need "+
		"up to %s g more %s.", s.stir(), model.Seconds(r.RestS), model.Grams(more), what)
}

// soak adds the wait for a powder that soaks for hours: until then its looks say nothing.
func (s *stepList) soak() {
	if long := s.soaks(); long != "" {
		s.do("Let it soak about %s: until then it looks too thin. Then %s and let it rest %s.", long, s.stir(),
			model.Seconds(s.recipe.RestS))
	}
}

// ownSteps gives the steps that the maker wrote; nil for the usual ones.
func (l layout) ownSteps() []string {
	if kitchen.UsualSteps(l.recipe) {
		return nil
	}
	return l.recipe.Steps
}
