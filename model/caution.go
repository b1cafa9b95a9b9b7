package model

import "slices"

// Moment is what a maker is about to do when a caution is to be said.
type Moment string

// The moments, in the order in which they come.
const (
	BeforeDust  Moment = "weighing and adding"
	BeforeMetal Moment = "bowl and spoon"
	BeforeWet   Moment = "stirring the wet paste"
	BeforeJar   Moment = "keeping it"
	BeforeSkin  Moment = "on the skin"
)

// Moments lists them in their order.
func Moments() []Moment { return []Moment{BeforeDust, BeforeMetal, BeforeWet, BeforeJar, BeforeSkin} }

// Caution is a usual caution and the moment it is said before.
type Caution struct {
	Before Moment
	Text   string
}

// microbes is the caution for all that has water in it.
const microbes = "Microbes grow in anything wet: use it the same day, or within a day chilled, unless it is " +
	"preserved properly and tested. What is left goes into the bin, not down the drain."

// Wet reports whether a paste of the liquid and extras has water in it, in
// which microbes grow: oil alone has not.
func Wet(liquid string, extras []Extra) bool {
	wet := func(e Extra) bool { return e.Kind() == CountsLiquid }
	return wet(Extra{Name: liquid}) || slices.ContainsFunc(extras, wet)
}

// CautionsOfPaste are the cautions of powders in a liquid with extras, moment by
// moment, each once.
func CautionsOfPaste(liquid string, extras []Extra, powders ...Powder) []string {
	texts := CautionsOf(powders...)
	if !Wet(liquid, extras) {
		texts = slices.DeleteFunc(texts, func(t string) bool { return t == microbes })
	}
	return texts
}

// Cautious are the usual cautions for a powder, moment by moment. They are
// general: Deferral belongs beside them.
func (p Powder) Cautious() []Caution {
	kind := p.Kind()
	all := []Caution{{
		BeforeDust,
		"Fine dust: keep the spoon close to the bowl, no fan; an FFP2 or N95 mask or better for fine minerals.",
	}}
	if p.KeepFromMetal {
		all = append(all, Caution{
			BeforeMetal,
			"Keep from metal: bowl and spoon of glass, plastic or silicone; wood is porous and hard to clean.",
		})
	}
	switch kind {
	case SwellingClay:
		all = append(all, Caution{
			BeforeWet,
			"A swelling clay paste is alkaline (about pH 9.5 to 10.5): keep it from eyes and broken skin; spatula " +
				"or glove, not a bare finger.",
		})
	case Mineral:
		all = append(all, Caution{
			BeforeWet,
			"Chalk and its like make alkaline pastes (about pH 8 to 10): keep them from eyes and broken skin; " +
				"spatula or glove, not a bare finger.",
		})
	}
	if p.Fizzes != nil && *p.Fizzes {
		all = append(all, Caution{
			BeforeJar,
			"It gives off gas with vinegar, citrus or any other acid: never the two in a closed jar.",
		})
	}
	all = append(all, Caution{BeforeJar, microbes})
	return append(all, onSkin(kind)...)
}

// onSkin are the cautions of a family for what goes on the skin.
func onSkin(kind Family) []Caution {
	var text string
	switch kind {
	case PlainClay, SwellingClay, Mineral:
		text = "Clays and ground minerals may hold crystalline silica, lead and arsenic: ask for the lot's analysis."
	case Starch, Flour:
		text = "Flours and starches can set off allergies (grain, nut, pulse), and raw flour is not sterile: say " +
			"what is in it."
	case Botanical, Gum:
		text = "Plant powders can sensitise, dye or stain: say what is in it."
	}
	all := []Caution{{
		BeforeSkin,
		"List the ingredients; patch test on the inner arm for 24 to 48 h; nothing on infants or broken skin.",
	}}
	if text != "" {
		all = append(all, Caution{BeforeSkin, text})
	}
	return all
}

// Cautions are the texts of Cautious.
func (p Powder) Cautions() []string { return CautionsOf(p) }

// CautionsBefore are the cautions of several powders for one moment, each once.
func CautionsBefore(m Moment, powders ...Powder) []string {
	var texts []string
	for _, p := range powders {
		for _, c := range p.Cautious() {
			if c.Before == m && !slices.Contains(texts, c.Text) {
				texts = append(texts, c.Text)
			}
		}
	}
	return texts
}

// CautionsOf are the cautions of several powders, moment by moment, each once.
func CautionsOf(powders ...Powder) []string {
	var all []string
	for _, m := range Moments() {
		all = append(all, CautionsBefore(m, powders...)...)
	}
	return all
}
