package paper

import (
	"fmt"
	"math"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/care"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/printable"
)

// several puts the words for vessels into the plural.
var several = strings.NewReplacer("clean cup", "clean cups", "clean jar", "clean jars")

// vessels names the cups or jars to share it among, "" where it stays in the bowl.
func (l layout) vessels() string {
	cup := "clean cup"
	if l.inJar() {
		cup = fmt.Sprintf("clean jar of %s mL", model.Number(l.recipe.JarML))
	}
	switch {
	case l.recipe.Portions > 1:
		return fmt.Sprintf("%d %s", l.recipe.Portions, several.Replace(cup))
	case l.recipe.Portions == 1 || l.inJar():
		return "a " + cup
	default:
		return ""
	}
}

// ready lists what to have at hand, with what may be needed besides. cups are those that
// the steps use on the way to the bowl.
func (l layout) ready(cups []string) string {
	r, a := l.recipe, l.amounts
	sum := func(name string, g, more float64, when string) string {
		return fmt.Sprintf("%s g %s (%s g, and %s g in case it is too %s)", kitchen.Together(g, more),
			printable.Words(name), model.Grams(g), model.Grams(more), when)
	}
	var texts []string
	for i, p := range r.Powders {
		texts = append(texts, sum(p.Powder().Title(), l.grams(i), a.SparePowderG*r.Fraction(i), "thin"))
	}
	texts = append(texts, sum(r.Liquid+l.kind(), a.Liquid.Median, a.SpareG, "thick"))
	for i, e := range r.Extras {
		texts = append(texts, fmt.Sprintf("%s g %s", model.Grams(a.ExtrasG[i]), printable.Words(e.Name)))
	}
	texts = append(append(texts, l.bowl()), cups...)
	if into := l.vessels(); into != "" {
		texts = append(texts, into)
	}
	return "Have ready: " + strings.Join(texts, "; ") + "."
}

// kind says which water to take.
func (l layout) kind() string {
	if model.SameLiquid(l.recipe.Liquid, "water") {
		return ", boiled and cooled, or distilled"
	}
	return ""
}

// each gives the amount for one portion, g, as a part of what is in the bowl. The bowl may
// hold less of the liquid than planned, or more of the liquid or powder.
func (l layout) each() string {
	a, n := l.amounts, float64(l.recipe.Portions)
	step := 1.0
	if l.portion() < 10 {
		step = 0.1
	}
	less := math.Floor((a.TotalG-a.HoldBackG)/n/step) * step
	more := math.Ceil((a.TotalG+max(a.SpareG, a.SparePowderG))/n/step) * step
	text := fmt.Sprintf("about %s g", round(l.portion()))
	if n > 1 {
		text += " each"
	}
	text += fmt.Sprintf(" (%s to %s g, by how much went in)", model.Number(model.RoundSignificant(less, 4)),
		model.Number(model.RoundSignificant(more, 4)))
	if l.inJar() && l.recipe.JarG > 0 && more > l.recipe.JarG {
		text += fmt.Sprintf(", no more than %s g", model.Number(math.Floor(l.recipe.JarG/step)*step))
	}
	return text
}

// finish adds the steps that share it out, label it and say how it keeps.
func (s *stepList) finish() {
	const touched = "what a person has touched does not go back."
	into, before, after := s.vessels(), "", s.heed(model.Filling)
	if after != "" {
		before = "Stir it up. "
		if s.slowly() {
			before = "Stir it up slowly. "
		}
	}
	switch {
	case s.recipe.Portions > 1:
		s.do("%sShare it evenly among %s, one for each person: %s; %s%s", before, into, s.each(), touched, after)
	case s.recipe.Portions == 1:
		s.do("%sFill it into %s: %s; %s%s", before, into, s.each(), touched, after)
	case into != "":
		s.do("%sFill it into %s. Take out what one person uses with a clean spatula; nothing goes back.%s", before,
			into, after)
	default:
		s.do("%sTake out what one person uses into a cup of its own with a clean spatula; nothing goes back.%s", before,
			after)
	}
	s.do("%s", strings.TrimSpace("Label it: name, ingredients, allergens, made, use by. "+s.keep()))
	s.caution(care.BeforeJar)
}
