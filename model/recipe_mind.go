package model

import (
	"fmt"
	"math"
	"slices"
)

// Profiles are the profiles of the recipe's powders among those on the shelf,
// in the recipe's order. A powder that is not on the shelf is left out.
func (r Recipe) Profiles(shelf []Entry) []Profile {
	var out []Profile
	for _, p := range r.Powders {
		if at := p.On(shelf); at >= 0 {
			out = append(out, shelf[at].Profile)
		}
	}
	return out
}

// On is the place of the powder on the shelf, -1 where it is not there: by
// slug, or, where that is not known there, by name and lot.
func (p RecipePowder) On(shelf []Entry) int {
	if p.Slug != "" {
		at := slices.IndexFunc(shelf, func(e Entry) bool { return e.Slug == p.Slug && p.names(e.Profile.Powder) })
		if at >= 0 {
			return at
		}
	}
	return slices.IndexFunc(shelf, func(e Entry) bool { return p.names(e.Profile.Powder) })
}

// names reports whether the recipe's powder is that one.
func (p RecipePowder) names(powder Powder) bool { return p.Name == powder.Name && p.Lot == powder.Lot }

// find is the powder's profile among those at hand.
func (p RecipePowder) find(profiles []Profile) (Profile, bool) {
	i := slices.IndexFunc(profiles, func(q Profile) bool { return p.names(q.Powder) })
	if i < 0 {
		return Profile{}, false
	}
	return profiles[i], true
}

// Mind lists what has to be told beside the recipe's amounts: Cares, then
// Changes. profiles are those of its powders, as Profiles gives them.
func (r Recipe) Mind(profiles []Profile, d Drawer) []string {
	return append(r.Cares(profiles, d), r.Changes(profiles, d)...)
}

// Cares are the warnings that the recipe was saved with, a jar that is too
// small, and what rounding to spoons does.
func (r Recipe) Cares(profiles []Profile, d Drawer) []string {
	var all []string
	if len(r.Powders) > 1 && !slices.Contains(r.Warnings, mixWarning) {
		all = append(all, mixWarning)
	}
	all = append(all, r.Warnings...)
	if r.JarG > 0 && r.TotalG > r.JarG {
		all = append(all, tooMuch(r.TotalG, r.JarML, r.JarG))
	}
	if text := roundingText(r.spoonShift(profiles, d)); text != "" {
		all = append(all, text)
	}
	return all
}

// Changes say what is no longer as it was when the recipe was saved.
func (r Recipe) Changes(profiles []Profile, d Drawer) []string {
	var all []string
	for _, p := range profiles {
		if stale := r.Stale(p, d); stale != "" {
			all = append(all, stale)
		}
	}
	for _, p := range r.Powders {
		if _, ok := p.find(profiles); !ok {
			all = append(all, fmt.Sprintf("%s is not on the shelf: whether its profile has changed is not known.", p.Powder().Title()))
		}
	}
	return all
}

// spoonShift is how many levels thicker the powder by spoons makes it; 0 where
// a powder cannot be spooned.
func (r Recipe) spoonShift(profiles []Profile, d Drawer) float64 {
	a := r.Amounts()
	spooned, slope := 0.0, 0.0
	for i, p := range r.Powders {
		profile, ok := p.find(profiles)
		if !ok {
			return 0
		}
		side := profile.Side(r.basisOf(profile), r.Level, d)
		sum := spoonsOrNone(side.Scales, a.Powder.Median*r.Fraction(i), r.Spoons)
		if sum == nil {
			return 0
		}
		spooned += sum.Grams
		slope += side.Ratio.Slope * r.Fraction(i)
	}
	return slope * math.Log(spooned/a.Powder.Median)
}

// Cautions are those of all its powders, each once: as they were when the
// recipe was saved, and as the profiles at hand have them.
func (r Recipe) Cautions(profiles []Profile) []string {
	var powders []Powder
	for _, p := range r.Powders {
		powders = append(powders, p.Powder())
		if profile, ok := p.find(profiles); ok {
			powders = append(powders, profile.Powder)
		}
	}
	return CautionsOf(powders...)
}
