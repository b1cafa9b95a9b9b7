package main

import (
	"fmt"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// Words and cells that the commands share.

// day is how a date is written.
const day = "2006-01-02"

// standing says when a trial was made and whether it counts.
func standing(t model.Trial) string {
	return t.Started.Format(day) + ", " + state(t)
}

// state is a trial's state in words.
func state(t model.Trial) string {
	switch {
	case t.SetAside != "":
		return "set aside (" + t.SetAside + ")"
	case t.State == model.Done:
		return "done"
	default:
		return "unfinished"
	}
}

// nearest is the step of the looks in words.
func nearest(levelStep float64) string {
	if levelStep == 0.5 {
		return "half level"
	}
	return "level"
}

// marked is a level's cell, with a sign at the one asked for.
func marked(level, asked float64) string {
	if level == asked {
		return "> " + model.LevelName(level)
	}
	return "  " + model.LevelName(level)
}

// ratioCell is a ratio with its interval; where it is not reached, what is
// known instead.
func ratioCell(iv *fit.Interval, b *fit.Bound) string {
	switch {
	case iv != nil:
		return model.IntervalText(*iv)
	case b != nil:
		return model.BoundText(*b)
	default:
		return "-"
	}
}

// budget says what an interval is made of, and what would shrink each part to
// what.
func (p *page) budget(title string, terms []model.Term) {
	if len(terms) == 0 {
		return
	}
	p.gap()
	p.line("%s", title)
	for _, t := range terms {
		text := t.Name + ": " + t.Shrink
		if effect := t.Effect(); effect != "" {
			text += " (" + effect + ")"
		}
		p.say(fmt.Sprintf("%5.0f %%  ", 100*t.Share), "         ", text)
	}
}
