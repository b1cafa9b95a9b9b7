package chart

import (
	"fmt"
	"slices"
	"unicode"
)

// Sign is a sign of the chart with its meaning.
type Sign struct{ Glyph, Meaning string }

// trialGlyphs are the shapes of a powder's trials; the hollow one if a look gives a
// bound.
var trialGlyphs = []struct{ full, hollow rune }{
	{'●', '○'}, {'■', '□'}, {'▼', '▽'}, {'★', '☆'}, {'▶', '▷'},
}

// glyph returns the character for a look: the letter of its series or, without one,
// the shape of its trial.
func (at Point) glyph(mark rune, severalTrials, ascii bool) rune {
	trial := trialGlyphs[0]
	if severalTrials {
		trial = trialGlyphs[max(at.Trial, 0)%len(trialGlyphs)]
		if ascii {
			mark = 'A' + rune(max(at.Trial, 0)%26)
		}
	}
	switch {
	case at.LeftOut:
		return pick(ascii, '×', 'x')
	case at.FarOut:
		return '!'
	case mark != 0 && at.open():
		return unicode.ToLower(mark)
	case mark != 0:
		return mark
	case at.Latest && at.open():
		return pick(ascii, '◇', '0')
	case at.Latest:
		return pick(ascii, '◆', '@')
	case at.open():
		return pick(ascii, trial.hollow, 'c')
	default:
		return pick(ascii, trial.full, 'o')
	}
}

// counts reports whether the look is used for the answer.
func (at Point) counts() bool { return !at.FarOut && !at.LeftOut }

// open reports whether the look gives a bound and no value.
func (at Point) open() bool { return at.Y <= 0 || at.Y >= topLevel }

// severalTrials reports whether the looks are of more than one trial.
func (s Series) severalTrials() bool {
	return s.Mark == 0 && slices.ContainsFunc(s.Points, func(p Point) bool { return p.Trial != s.Points[0].Trial })
}

// TrialSigns returns the sign of each trial's looks, by the trial's index in the
// profile. It is empty unless the series has looks of several trials.
func (s Series) TrialSigns(ascii bool) map[int]string {
	signs := map[int]string{}
	if s.severalTrials() {
		for _, p := range s.Points {
			signs[p.Trial] = string(Point{Y: 3, Trial: p.Trial}.glyph(0, true, ascii))
		}
	}
	return signs
}

// Signs lists the signs of one trial's chart, for the help.
func Signs(ascii bool) []Sign {
	all := []Point{{Y: 3}, {Y: 3, Latest: true}, {Y: 0}, {Y: 3, FarOut: true}, {Y: 3, LeftOut: true}}
	return Chart{
		Series: []Series{{Points: all, Curve: []CurvePoint{{High: 1}, {OneSided: true}}}},
		HasAim: true, NowX: 1, ASCII: ascii,
	}.Legend()
}

// Legend explains the signs, but only those that the chart shows. It leaves out
// looks beyond an edge: ‹ and › point to them.
func (c Chart) Legend() (all []Sign) {
	add := func(braille, ascii rune, meaning string) {
		all = append(all, Sign{string(pick(c.ASCII, braille, ascii)), meaning})
	}
	look := func(so func(Point) bool) bool {
		return slices.ContainsFunc(c.Series, func(s Series) bool { return slices.ContainsFunc(s.Points, so) })
	}
	curve := func(so func(CurvePoint) bool) bool {
		return slices.ContainsFunc(c.Series, func(s Series) bool {
			return slices.ContainsFunc(s.Curve, func(k CurvePoint) bool { return finite(k.X) && so(k) })
		})
	}
	all = append(all, c.lookSigns()...)
	if look(func(p Point) bool { return p.FarOut && !p.LeftOut }) {
		add('!', '!', "far from the others")
	}
	if look(func(p Point) bool { return p.LeftOut }) {
		add('×', 'x', "left out")
	}
	if curve(func(k CurvePoint) bool { return !k.OneSided }) {
		add('━', '*', "most likely")
	}
	if curve(func(k CurvePoint) bool { return k.OneSided }) {
		add('┄', '*', "tested from one side only")
		if c.ASCII {
			all[len(all)-1].Glyph = "* *"
		}
	}
	if curve(CurvePoint.hasBand) {
		add('⠪', ':', "likely range (95 %)")
	}
	if c.aimText() != "" {
		add('▸', '>', "target level")
	}
	if c.NowX > 0 {
		add('▲', '^', "in the dish now")
	}
	return all
}

// lookSigns explains the signs of the looks.
func (c Chart) lookSigns() (all []Sign) {
	seen := map[rune]bool{}
	add := func(glyph rune, meaning string) {
		if !seen[glyph] {
			seen[glyph] = true
			all = append(all, Sign{string(glyph), meaning})
		}
	}
	lettered, open := false, false
	for i, s := range c.Series {
		mark, several := c.mark(i), s.severalTrials()
		for _, p := range s.Points {
			open = open || p.counts() && p.open()
			lettered = lettered || mark != 0 || several && c.ASCII
			full := Point{Trial: p.Trial, Y: 1}.glyph(mark, several, c.ASCII)
			switch {
			case !p.counts() || p.open():
			case mark != 0:
				add('A', "a look at powder A")
			case p.Latest && !lettered:
				add(p.glyph(mark, several, c.ASCII), "the last look")
			case several:
				add(full, fmt.Sprintf("trial %d", p.Trial+1))
			default:
				add(full, "a look")
			}
		}
	}
	switch {
	case open && lettered:
		add('a', "small: at most, or at least")
	case open:
		add(pick(c.ASCII, '○', 'c'), "hollow: at most, or at least")
	}
	return all
}

func pick(asASCII bool, braille, ascii rune) rune {
	if asASCII {
		return ascii
	}
	return braille
}
