package ui

import (
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/printable"
)

// Title is a powder with its lot, made safe to show.
func Title(e model.Entry) string { return printable.Line(e.Profile.Powder.Title()) }

// SharedAim is the aim of most powders; of equals, the one of the first.
func SharedAim(powders []model.Entry) float64 {
	count := map[float64]int{}
	for _, e := range powders {
		count[e.Profile.Aim()]++
	}
	best := powders[0].Profile.Aim()
	for _, e := range powders {
		if aim := e.Profile.Aim(); count[aim] > count[best] {
			best = aim
		}
	}
	return best
}

// PairLines is all that a pair has to say, the verdict first.
func PairLines(p kitchen.Pair, prefix string, w int) []string {
	style, sign := PlainStyle, ""
	switch {
	case p.Refused != "":
		style, sign = RiskStyle, "! "
	case p.Verdict == kitchen.NotStandIn:
		style, sign = WaitStyle, "! "
	case p.Verdict == kitchen.Close:
		style = GoodStyle
	}
	lines := Painted(style, sign+prefix+p.Sentence(), w)
	if len(p.Reasons) > 0 {
		lines = append(lines, Painted(PlainStyle, "Why: "+strings.Join(p.Reasons, "; ")+".", w)...)
	}
	for i, warning := range p.Warnings {
		if p.RestsApart && i == 0 && p.Refused != kitchen.OtherLiquid {
			continue // the sentence begins with it
		}
		lines = append(lines, Warned(warning, w)...)
	}
	for _, d := range p.Differences {
		lines = append(lines, Bullet(d, w)...)
	}
	return lines
}
