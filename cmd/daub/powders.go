package main

import (
	"errors"
	"time"

	"daub.example/daub/data"
	"daub.example/daub/model"
)

// chosen is what a command of several powders works on.
type chosen struct {
	entries []data.Entry // in the order asked
	drawer  model.Drawer
}

// choose reads the powders that were named, each of which may be named once,
// and the maker's own spoons.
func (a *app) choose(powders ...string) (chosen, error) {
	shelf := a.shelf().Visit()
	var c chosen
	var wrong []error
	seen := map[string]bool{}
	for _, name := range powders {
		e, err := shelf.Find(name)
		switch {
		case err != nil:
			wrong = append(wrong, err)
		case seen[e.Slug]:
			wrong = append(wrong, misused("%s is named twice; name each powder once", e.Profile.Powder.Title()))
		default:
			seen[e.Slug] = true
			c.entries = append(c.entries, e)
		}
	}
	if len(wrong) > 0 {
		return chosen{}, errors.Join(wrong...)
	}
	c.drawer = shelf.Drawer
	return c, shelf.Err
}

// profiles are those of the entries, in their order.
func (c chosen) profiles() []model.Profile { return profiles(c.entries) }

func profiles(entries []data.Entry) []model.Profile {
	out := make([]model.Profile, len(entries))
	for i, e := range entries {
		out[i] = e.Profile
	}
	return out
}

// aim is the level that the first powder's newest trial aims at.
func (c chosen) aim() float64 { return c.entries[0].Profile.Aim() }

// exported are the entries for an export, in their order.
func exported(entries []data.Entry) []data.Exported {
	out := make([]data.Exported, len(entries))
	for i, e := range entries {
		out[i] = data.Exported{Slug: e.Slug, Profile: e.Profile}
	}
	return out
}

// slugs are those of the entries, in their order.
func (c chosen) slugs() []string {
	out := make([]string, len(c.entries))
	for i, e := range c.entries {
		out[i] = e.Slug
	}
	return out
}

// named says which powder an answer is about; tspG is what a level teaspoon of
// it weighs, 0 unknown.
func named(e data.Entry, tspG float64) powderJSON {
	p := e.Profile.Powder
	return powderJSON{p.Name, p.Lot, e.Slug, string(p.Kind()), e.Path, data.Positive(tspG)}
}

// handle is the powder as it can be given to a command: name@lot.
func handle(p model.Powder) string {
	if p.Lot == "" {
		return p.Name
	}
	return p.Name + "@" + p.Lot
}

// spoonSetOf is the set that the profile's newest trial has its spoons from.
func spoonSetOf(p model.Profile) model.SpoonSet {
	set, newest := model.US, time.Time{}
	for _, t := range p.Trials {
		if t.SpoonSet != "" && !t.Started.Before(newest) {
			set, newest = t.SpoonSet, t.Started
		}
	}
	return set
}
