package paper

import (
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/handling"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/readings"
)

// tips describe shortly how the powders at hand behave. The steps say what to do about it.
func (l layout) tips() []string {
	var all []string
	for _, p := range l.recipe.Powders {
		profile, ok := l.profile(p)
		if !ok {
			continue
		}
		if seen := model.SeenText(profile.Seen()); seen != "" {
			all = append(all, printable.Words(p.Name+": "+seen+"."))
		}
		if weigh := handling.InGrams(profile.Powder); weigh != "" {
			all = append(all, printable.Words(weigh))
		}
		for _, text := range handling.Stood(profile, l.recipe.Liquid, l.ownSpoons) {
			all = append(all, printable.Words(p.Name+": "+text))
		}
		if len(l.recipe.Powders) > 1 {
			continue
		}
		for _, q := range readings.Pools(profile, l.ownSpoons) {
			if model.SameLiquid(q.Basis.Liquid, l.recipe.Liquid) {
				all = append(all, printable.Words(q.Tip()))
			}
		}
		if !kitchen.HasAcid(l.recipe.Liquid, l.recipe.Extras) {
			if o, ok := readings.OfferOf(profile, l.recipe.Liquid, l.recipe.TotalG, l.ownSpoons); ok {
				all = append(all, printable.Words(o.Sentence()))
			}
		}
	}
	return all
}

// heed gives advice on the powders' behaviour in some parts of the making, as sentences to
// follow a step; "" without any.
func (l layout) heed(parts ...model.Doing) string {
	text := ""
	for _, when := range parts {
		for _, p := range l.recipe.Powders {
			if profile, ok := l.profile(p); ok {
				for _, one := range model.Heeds(p.Name, profile.Seen(), when) {
					text += " " + printable.Words(one)
				}
			}
		}
	}
	return text
}

// slowly reports whether one of the powders at hand wants to be stirred slowly.
func (l layout) slowly() bool { return strings.Contains(l.heed(model.Stirring), "stir slowly") }

// floats reports whether one of the powders at hand stays on top instead of sinking.
func (l layout) floats() bool { return strings.Contains(l.heed(model.Sprinkling), " floats: ") }

// later says how much thinner or thicker to mix a paste that changes while it stands, as
// sentences to follow a step; "" for one that does not.
func (l layout) later() string {
	text := ""
	for i, p := range l.recipe.Powders {
		profile, ok := l.profile(p)
		if !ok {
			continue
		}
		if c, ok := handling.CourseOfPowder(profile, l.recipe.Liquid, l.ownSpoons); ok {
			if advice := c.Advice(l.recipe.Level, l.grams(i)); advice != "" {
				text += " " + printable.Words(advice)
			}
		}
	}
	return text
}

// soaks gives the longest time that a powder which soaks for hours soaked in its trial, "40
// min"; "" where none does.
func (l layout) soaks() string {
	var longest handling.Contact
	for _, p := range l.recipe.Powders {
		if profile, ok := l.profile(p); ok {
			if c, ok := handling.ContactOfPowder(profile); ok && c.Stood > longest.Stood {
				longest = c
			}
		}
	}
	if longest.Stood == 0 {
		return ""
	}
	return longest.Wait()
}
