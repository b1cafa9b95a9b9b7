package care

import (
	"daub.example/daub/model"
	"daub.example/daub/model/measure"
)

// figure writes a range of pH.
func figure(f measure.Figure) string {
	return "pH " + model.Number(f.Low) + " to " + model.Number(f.High)
}

// amount writes a number of a caution with its unit.
func amount(f measure.Figure) string { return model.Number(f.High) + " " + f.Unit }

// Line gives the caution for one moment in one line, to be shown once right before it; ""
// where the powder asks for none. Cautions has the rest.
func Line(m Moment, p model.Powder) string {
	kind := p.Kind()
	switch m {
	case BeforeDust:
		if kind == model.PlainClay || kind == model.SwellingClay || kind == model.Mineral {
			return "Fine dust: spoon close to the bowl, no fan, FFP2 or N95 mask."
		}
		return "Fine dust: keep the spoon close to the bowl, no fan."
	case BeforeMetal:
		if p.KeepFromMetal {
			return "Keep from metal: glass, plastic or silicone."
		}
	case BeforeWet:
		switch kind {
		case model.SwellingClay:
			return "Alkaline paste, " + figure(measure.SwellingClayPH) + ": spatula or glove; mind the eyes."
		case model.Mineral:
			return "The paste may be alkaline, " + figure(measure.ChalkPH) + ": spatula or glove; mind the eyes."
		}
	case BeforeAcid:
		switch p.Fizzing() {
		case model.Fizzes:
			return "It fizzes: open bowl, a drop at a time; never a closed jar."
		case model.FizzUntested:
			return "Not tested for fizzing: a drop of vinegar first; if it bubbles, never a closed jar."
		}
	case BeforeJar:
		return "Wet paste: same day, or a day chilled, unless preserved and tested."
	case BeforeSkin:
		return "Patch test 24 to 48 h on the inner arm; nothing on infants or broken skin."
	}
	return ""
}
