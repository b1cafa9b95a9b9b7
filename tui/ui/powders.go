package ui

import (
	"slices"

	"daub.example/daub/model"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/printable"
	"github.com/charmbracelet/lipgloss"
)

// Title gives a powder with its lot, safe to show.
func Title(e model.Entry) string { return printable.Line(e.Profile.Powder.Title()) }

// Profiles returns the profiles of powders.
func Profiles(powders []model.Entry) []model.Profile {
	out := make([]model.Profile, len(powders))
	for i, e := range powders {
		out[i] = e.Profile
	}
	return out
}

// CutTitle gives a powder with its lot in w cells. The name is cut, the lot stays:
// it tells powders of one name apart.
func CutTitle(p model.Powder, w int) string {
	title := printable.Line(p.Title())
	lot := " · " + printable.Line(p.Lot)
	const leastName = 8
	if Cells(title) <= w || p.Lot == "" || w-Cells(lot) < leastName {
		return Cut(title, w)
	}
	name := printable.Line(p.Name)
	return Cut(name, w-Cells(lot)) + lot
}

// PairLines draws everything known of a pair, the verdict first.
func PairLines(p kitchen.Pair, w int) []string { return PairRest(p, "", nil, w) }

// PairRest is PairLines without the warnings and differences already told. prefix
// stands before the verdict; the rest is indented under it.
func PairRest(p kitchen.Pair, prefix string, told []string, w int) []string {
	style, sign := PlainStyle, "  "
	switch {
	case p.Refused != "":
		style, sign = RiskStyle, "! "
	case p.Verdict == kitchen.NotStandIn, p.Verdict == kitchen.Unsettled:
		style, sign = WaitStyle, "! "
	case p.Verdict == kitchen.Close:
		style = GoodStyle
	}
	lines := hung(sign, style, prefix+p.Finding(), w)
	under := func(style lipgloss.Style, text string) {
		for _, l := range Painted(style, text, w-4) {
			lines = append(lines, "    "+l)
		}
	}
	for _, reason := range p.Reasons[min(1, len(p.Reasons)):] { // the finding gives the first
		under(PlainStyle, reason+".")
	}
	for _, warning := range p.Warnings {
		if !slices.Contains(told, warning) {
			under(WaitStyle, "! "+warning)
		}
	}
	for _, d := range p.Differences {
		if !slices.Contains(told, d) {
			under(PlainStyle, d)
		}
	}
	return lines
}

// Repeated returns the warnings and differences that more than one pair has, each
// once.
func Repeated(pairs []kitchen.Pair) []string {
	count := map[string]int{}
	var again []string
	for _, p := range pairs {
		for _, text := range slices.Concat(p.Warnings, p.Differences) {
			if count[text]++; count[text] == 2 {
				again = append(again, text)
			}
		}
	}
	return again
}
