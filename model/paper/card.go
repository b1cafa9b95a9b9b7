// Package paper lays out what people carry away from the bench: the card of a
// recipe and the page of a powder, as facts and sentences in their order. It
// knows Markdown and no other markup; files, pictures and HTML are data's. It
// may import model/….
package paper

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/care"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/handling"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/repeats"
)

// Card is a recipe laid out for the person who makes it. Every text is one line
// without control characters.
type Card struct {
	Title string
	Size  string   // how much it makes, and how thick
	Notes []string // the maker's own, line by line
	// Missing says why the recipe is not ready to make; the rest is then empty.
	Missing     []string
	First       []string // to be known before anything is weighed; first, who must not have it
	Ready       string   // what to have at hand
	Made, UseBy string   // days; "" is a blank to fill in
	Ingredients []Ingredient
	Spoons      string // which spoons are meant; "" without any
	Steps       []Step
	Tips        []string // how its powders behave, and what to do about it
	BasedOn     []string
	Cautions    []string // those that no step has said
	Deferral    string
}

// Ingredient is one line of what goes in.
type Ingredient struct {
	What   string
	Grams  string
	Spoons string // level spoons that hold about as much; "" where it is to be weighed
	Note   string
}

// Step is one thing to do.
type Step struct {
	Cautions []string // the cautions it is to be done with
	Do       string
}

// Options say what a card is made for.
type Options struct {
	Made string // the day it is made, as in 2026-05-04; "" as the recipe has it, else a blank
}

// CardOf lays out a recipe. Profiles of its powders give the amounts in spoons and tell
// whether they have changed; other profiles do no harm. A recipe that is not sound gives a
// card that says why.
func CardOf(r model.Recipe, profiles []model.Profile, own model.OwnSpoons, o Options) Card {
	c := Card{Title: printable.Words(r.Name)}
	if problems := r.Validate(); len(problems) > 0 {
		for _, p := range problems {
			c.Missing = append(c.Missing, fmt.Sprintf("%s: %s", p.PathWords(), printable.Words(p.Fix)))
		}
		return c
	}
	l := layout{recipe: r, amounts: kitchen.RecipeAmounts(r), profiles: profiles, ownSpoons: own}
	for _, p := range r.Powders {
		l.powders = append(l.powders, l.powderOf(p))
	}
	c.Size, c.Notes = l.size(), notes(r.Notes)
	if len(c.Notes) > 0 {
		c.Notes[0] = "Note: " + c.Notes[0]
	}
	c.First = l.first(kitchen.Notices(r, profiles, own))
	c.Made, c.UseBy = l.days(o.Made)
	c.Ingredients = l.ingredients()
	c.Spoons = l.spoonSets()
	steps := l.steps()
	c.Steps = steps.all
	c.Ready = l.ready(steps.cups)
	c.Tips = l.tips()
	c.BasedOn = l.basedOn()
	c.Cautions = slices.DeleteFunc(care.Before(care.BeforeSkin, l.powders...),
		func(text string) bool { return text == care.PatchTest }) // it is among the first
	c.Deferral = care.Deferral
	return c
}

// The cautions before a paste goes on the skin. A patch test takes a day or two, a fresh
// paste is for the same day: ahead says how both fit.
const (
	patchTest = "Nothing on infants or broken skin; patch test on the inner arm for 24 to 48 h."
	ahead     = "Nothing on infants or broken skin; patch test ahead: make a little a day or two before and test it " +
		"for 24 to 48 h; then make this fresh."
)

// layout is a recipe together with everything its card is made from.
type layout struct {
	recipe    model.Recipe
	amounts   kitchen.Amounts
	profiles  []model.Profile
	ownSpoons model.OwnSpoons
	powders   []model.Powder // as the shelf knows them, else as they were saved
}

// profile finds the powder's profile among those at hand.
func (l layout) profile(p model.RecipePowder) (model.Profile, bool) {
	i := slices.IndexFunc(l.profiles,
		func(q model.Profile) bool { return q.Powder.Name == p.Name && q.Powder.Lot == p.Lot })
	if i < 0 {
		return model.Profile{}, false
	}
	return l.profiles[i], true
}

// powderOf gives the powder as the shelf knows it, with the cautions it was saved with
// kept.
func (l layout) powderOf(p model.RecipePowder) model.Powder {
	powder := p.Powder()
	if now, ok := l.profile(p); ok {
		metal := powder.KeepFromMetal || now.Powder.KeepFromMetal
		powder = now.Powder
		powder.KeepFromMetal = metal
	}
	return powder
}

// first says who must not have the paste and how to find out, then the notices.
func (l layout) first(notices []string) []string {
	texts := care.AskFirst(l.recipe.Liquid, l.recipe.Extras, l.powders...)
	if l.wet() && !l.preserved() {
		texts = append(texts, ahead)
	} else {
		texts = append(texts, patchTest)
	}
	texts = append(texts, notices...)
	for i := range texts {
		texts[i] = printable.Words(texts[i])
	}
	return texts
}

// grams of the recipe's powder i.
func (l layout) grams(i int) float64 { return l.amounts.Powder.Median * l.recipe.Fraction(i) }

// portion gives the amount for one person, or all of it, g.
func (l layout) portion() float64 {
	r := l.recipe
	return cmp.Or(r.PortionG, r.TotalG/float64(max(r.Portions, 1)))
}

// round writes a mass that a maker chose, g, without zeros behind it.
func round(g float64) string { return model.Number(model.RoundSignificant(g, 4)) }

// inJar reports whether a portion may go into a jar and fits it.
func (l layout) inJar() bool {
	r := l.recipe
	fits := r.JarG == 0 || l.portion() <= r.JarG*(1+1e-6)
	return r.JarML > 0 && fits && kitchen.RecipeFizz(r, l.profiles) == nil
}

// size says how much it makes at which level, in how many portions or jars, and what the
// bowl takes.
func (l layout) size() string {
	r, a := l.recipe, l.amounts
	size := fmt.Sprintf("Makes %s g at %s", model.Grams(a.TotalG), model.LevelName(r.Level))
	if r.Portions > 0 {
		size += fmt.Sprintf(": %s of about %s g", model.Plural(r.Portions, "portion"), round(l.portion()))
	}
	if l.inJar() && r.Portions > 1 {
		size += fmt.Sprintf(", a jar of %s mL each", model.Number(r.JarML))
	} else if l.inJar() {
		size += fmt.Sprintf(", for a jar of %s mL", model.Number(r.JarML))
	}
	if a.MadeG > a.TotalG {
		size += fmt.Sprintf("; %s g more is weighed out for what sticks to the bowl", model.Grams(a.MadeG-a.TotalG))
	}
	return size + "."
}

// notes splits the maker's own notes into lines.
func notes(text string) []string {
	var lines []string
	for l := range strings.Lines(text) {
		if l = strings.TrimSpace(printable.Words(l)); l != "" {
			lines = append(lines, l)
		}
	}
	return lines
}

// days gives the day it was made and the day to use it by; "" where that is to be written
// by hand.
func (l layout) days(made string) (on, until string) {
	on, until = cmp.Or(made, l.recipe.Made), l.recipe.UseBy
	day, err := time.Parse(model.Day, on)
	if err == nil && until == "" && l.wet() && !l.preserved() {
		until = fmt.Sprintf("%s, chilled %s", on, day.AddDate(0, 0, 1).Format(model.Day))
	}
	return on, until
}

// keep says how long the paste keeps, where the usual caution does not.
func (l layout) keep() string {
	switch {
	case !l.wet():
		return "Without water it keeps as long as its oil: throw it away when it smells rancid, and let no water in."
	case l.preserved():
		return "Not tested with its preservative? Then it is for the same day too."
	default:
		return ""
	}
}

// wet reports whether there is water in it.
func (l layout) wet() bool { return care.Wet(l.recipe.Liquid, l.recipe.Extras) }

// preserved reports whether one of the extras is a preservative.
func (l layout) preserved() bool {
	return slices.ContainsFunc(l.recipe.Extras, func(e model.Extra) bool { return e.Role() == model.Preservative })
}

// ingredients lists what goes in, in the order of the steps.
func (l layout) ingredients() []Ingredient {
	var all []Ingredient
	for _, it := range l.items() {
		line := Ingredient{What: printable.Words(it.name), Grams: model.Grams(it.grams), Note: printable.Words(it.note)}
		if it.of >= 0 {
			if sum := l.spoons(it.of); sum != nil {
				line.Spoons = fmt.Sprintf("%s (%s g)", sum, model.Grams(sum.Grams))
			}
		}
		all = append(all, line)
	}
	return all
}

// spoons gives the recipe's powder i in level spoons, nil where it is to be weighed.
func (l layout) spoons(i int) *kitchen.SpoonSum {
	profile, ok := l.profile(l.recipe.Powders[i])
	if !ok || handling.InGrams(profile.Powder) != "" {
		return nil
	}
	sum, err := kitchen.SpoonsFor(profile.SpoonWeights(profile.SpoonSet(), l.ownSpoons), l.grams(i), l.recipe.Spoons)
	if err != nil || sum.Count() > kitchen.MostScoops {
		return nil
	}
	return &sum
}

// spoonSets names the sets of spoons that the card's sums are for.
func (l layout) spoonSets() string {
	var sets []string
	var sums []*kitchen.SpoonSum
	how := "" // the spoons that are not filled as usual
	for i, p := range l.recipe.Powders {
		sum := l.spoons(i)
		if sum == nil {
			continue
		}
		sums = append(sums, sum)
		profile, _ := l.profile(p)
		if name := setName(profile.SpoonSet()); !slices.Contains(sets, name) {
			sets = append(sets, name)
		}
		if filled := profile.SpoonWeights(profile.SpoonSet(), l.ownSpoons).Filled(); filled != "" {
			how += fmt.Sprintf(" Spoons of %s are %s first.", printable.Words(p.Name), filled)
		}
	}
	if len(sets) == 0 {
		return ""
	}
	if checked := kitchen.Checked(sums...); checked != "" {
		sets = append(sets, printable.Words(checked))
	}
	return fmt.Sprintf("Grams come first. Spoons are level, struck off flat: %s.%s", strings.Join(sets, "; "), how)
}

// setName describes a set of spoons by its teaspoon.
func setName(s model.SpoonSet) string {
	switch s {
	case model.Own:
		return "the maker's own set"
	case model.Metric:
		return "metric, 1 tsp = 5 mL"
	default:
		return "US, 1 tsp = 4.93 mL"
	}
}

// sameRatio is the largest difference, as a share, at which a powder's ratio stands for the
// middle of the next dish that was saved. The way the two are worked out differs by less
// (chosen).
const sameRatio = 0.002

// ratio gives the recipe's ratio as its powders' own pages say it. still is false where a
// powder has changed since the recipe was saved: the ratio then is what they said at the
// time.
func (l layout) ratio() (ratio fit.Interval, still bool) {
	r := l.recipe
	ratio, still = r.Ratio, !slices.ContainsFunc(l.profiles, func(p model.Profile) bool {
		return kitchen.Stale(r, p, l.ownSpoons) != ""
	})
	said := ratio.Median
	if len(r.Powders) == 1 {
		said = r.Powders[0].Ratio
	}
	paste, ok := kitchen.RecipePaste(r, l.profiles, l.ownSpoons)
	if ok && still {
		said = paste.Powder.Median
	}
	if math.Abs(said/ratio.Median-1) < sameRatio {
		ratio.Median = said
		return ratio, still
	}
	return ratio, !ok
}

// basedOn says where the ratio comes from.
func (l layout) basedOn() []string {
	r, saved, then := l.recipe, "", ""
	if !r.Saved.IsZero() {
		saved = ", recipe saved " + day(r.Saved)
	}
	ratio, still := l.ratio()
	if !still {
		then = ", as it was when this recipe was saved"
	}
	return []string{
		fmt.Sprintf("%s for the next dish, at %s, read after %s%s.",
			model.PerPowder(bench.IntervalText(repeats.RoundedInterval(ratio)), printable.Words(r.Liquid)),
			model.LevelName(r.Level),
			model.Seconds(r.RestS), then),
		fmt.Sprintf("Newest trial %s%s.", day(r.Trial), saved),
	}
}

// day writes a date, "not recorded" for the zero time.
func day(t time.Time) string {
	if t.IsZero() {
		return "not recorded"
	}
	return t.Format(model.Day)
}
