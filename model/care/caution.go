// Package care holds what a maker should take care of: cautions at the moment each is for,
// and whether an answer can be true. It makes sentences; it has no screen, no file and no
// clock.
package care

import (
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/model/measure"
)

// Deferral goes with every list of cautions.
const Deferral = "Local rules, the supplier's safety data sheet and licensed practice come first; this is no " +
	"medical or regulatory advice."

// Moment is the point in the work before which a caution is given.
type Moment string

// The moments, in the order in which they come.
const (
	BeforeDust  Moment = "weighing and adding"
	BeforeMetal Moment = "bowl and spoon"
	BeforeWet   Moment = "stirring the wet paste"
	BeforeAcid  Moment = "adding acid"
	BeforeJar   Moment = "keeping it"
	BeforeSkin  Moment = "on the skin"
)

// Moments lists the moments in their order.
func Moments() []Moment {
	return []Moment{BeforeDust, BeforeMetal, BeforeWet, BeforeAcid, BeforeJar, BeforeSkin}
}

// Caution is a usual caution and the moment it is given before.
type Caution struct {
	Before Moment
	Text   string
}

// microbes is the caution for everything with water in it.
const microbes = "Microbes grow in anything wet: use it the same day, or within a day chilled, unless it is " +
	"preserved properly and tested. Boiled or distilled water, clean cups or jars, the date on them. What is left " +
	"goes into the bin, not down the drain."

// PatchTest is the caution for everything that goes on the skin.
const PatchTest = "List the ingredients; patch test on the inner arm for 24 to 48 h; nothing on infants or broken skin."

// Wet reports whether a paste of the liquid and extras has water in it, in which microbes
// grow; oil alone has none.
func Wet(liquid string, extras []model.Extra) bool {
	wet := func(e model.Extra) bool { return e.Kind() == model.CountsLiquid }
	return wet(model.Extra{Name: liquid}) || slices.ContainsFunc(extras, wet)
}

// OfPaste lists the cautions of powders in a liquid with extras, moment by moment, each
// once; allergens come last.
func OfPaste(liquid string, extras []model.Extra, powders ...model.Powder) []string {
	texts := Of(powders...)
	if !Wet(liquid, extras) {
		texts = slices.DeleteFunc(texts, func(t string) bool { return t == microbes })
	}
	return append(texts, Allergens(liquid, extras, powders...)...)
}

// Cautions lists the usual cautions for a powder, moment by moment. They are general: show
// Deferral with them.
func Cautions(p model.Powder) []Caution {
	kind := p.Kind()
	all := []Caution{{
		BeforeDust,
		"Fine dust: keep the spoon close to the bowl, no fan; an FFP2 or N95 mask or better for fine minerals.",
	}}
	if p.KeepFromMetal {
		all = append(all, Caution{
			BeforeMetal,
			"Keep from metal: bowl and spoon of glass, plastic or silicone; wood is porous and hard to clean. Short " +
				"contact with stainless steel is widely held to be harmless; aluminium, copper and iron never.",
		})
	}
	switch kind {
	case model.SwellingClay:
		all = append(all, Caution{
			BeforeWet,
			"A swelling clay paste is alkaline (about " + figure(
				measure.SwellingClayPH,
			) + "): keep it from eyes and broken skin; spatula " +
				"or glove, not a bare finger.",
		})
	case model.Mineral:
		all = append(all, Caution{
			BeforeWet,
			"Chalk and its like make alkaline pastes (about " + figure(
				measure.ChalkPH,
			) + "): keep them from eyes and broken skin; " +
				"spatula or glove, not a bare finger.",
		})
	}
	if p.Fizzes != nil && *p.Fizzes {
		all = append(all, Caution{
			BeforeAcid,
			"It foams with acid: an open bowl with room to rise, a little at a time, until the bubbles stop; its pH " +
				"climbs back, so read it again after ten minutes.",
		}, Caution{
			BeforeJar,
			"It gives off gas with vinegar, citrus or any other acid: never the two in a closed jar.",
		})
	}
	all = append(all, Caution{BeforeJar, microbes})
	return append(all, onSkin(kind)...)
}

// onSkin lists a family's cautions for a paste on the skin.
func onSkin(kind model.Family) []Caution {
	var text string
	switch kind {
	case model.PlainClay, model.SwellingClay, model.Mineral:
		text = "Clays and ground minerals may hold crystalline silica (in breathed air at most " +
			amount(measure.SilicaDust) + "), lead (on the skin at most " + amount(measure.SkinLead) +
			" is advised) and arsenic: ask for the lot's analysis."
	case model.Starch, model.Flour:
		text = "Flours and starches can set off allergies (grain, nut, pulse), and raw flour is not sterile: say " +
			"what is in it."
	case model.Botanical, model.Gum:
		text = "Plant powders can sensitise, dye or stain: say what is in it."
	}
	all := []Caution{{BeforeSkin, PatchTest}}
	if text != "" {
		all = append(all, Caution{BeforeSkin, text})
	}
	return all
}

// Before lists the cautions of several powders for one moment, each once.
func Before(m Moment, powders ...model.Powder) []string {
	var texts []string
	for _, p := range powders {
		for _, c := range Cautions(p) {
			if c.Before == m && !slices.Contains(texts, c.Text) {
				texts = append(texts, c.Text)
			}
		}
	}
	return texts
}

// Of lists the cautions of several powders, moment by moment, each once.
func Of(powders ...model.Powder) []string {
	var all []string
	for _, m := range Moments() {
		all = append(all, Before(m, powders...)...)
	}
	return all
}

// Words gives a powder's cautions in one word each, for a line on the shelf.
func Words(p model.Powder) string {
	words := "dust"
	switch p.Kind() {
	case model.SwellingClay:
		words = "dust, alkaline"
	case model.Starch, model.Flour, model.Botanical, model.Gum:
		words = "dust, allergy"
	}
	if p.KeepFromMetal {
		words = "no metal, " + words
	}
	return words
}
