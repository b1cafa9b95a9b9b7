package page

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/care"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/kitchen"
)

// Pairs writes everything about pairs of powders: what repeats once, then each
// pair.
func (p *Page) Pairs(pairs []kitchen.Pair) {
	said := make([][]string, len(pairs))
	count := map[string]int{}
	var common []string
	for i, pair := range pairs {
		said[i] = PairNotes(pair, pair.Warnings[:restWarnings(pair)]...)
		for _, text := range said[i] {
			if count[text]++; count[text] == 2 {
				common = append(common, text)
			}
		}
	}
	if len(common) > 0 {
		p.Gap()
	}
	for _, text := range common {
		p.Hang("", "  ", text)
	}
	for i, pair := range pairs {
		p.Gap()
		p.Hang("", "  ", pair.Finding())
		for _, text := range said[i] {
			if !slices.Contains(common, text) {
				p.Hang("  ", "    ", text)
			}
		}
	}
}

// restWarnings returns how many of a pair's first warnings are about its rests;
// those are written once for all powders.
func restWarnings(pair kitchen.Pair) int {
	if pair.RestsApart {
		return 1
	}
	return 0
}

// PairNotes lists the remarks that belong to a pair's number, without the warnings
// already written.
func PairNotes(pair kitchen.Pair, said ...string) []string {
	var texts []string
	for i, r := range pair.Reasons {
		if i > 0 { // the finding has the first
			texts = append(texts, model.Capital(r)+".")
		}
	}
	for _, w := range pair.Warnings {
		if !slices.ContainsFunc(said, func(s string) bool { return strings.Contains(s, w) }) {
			texts = append(texts, w)
		}
	}
	return append(texts, pair.Differences...)
}

// Sides writes powders side by side: their ratios, each against the first powder's;
// then the same by the spoon, and how they behave.
func (p *Page) Sides(sides []kitchen.Side, against []kitchen.Pair) {
	var numbers, spoons, ways [][]string
	for i, s := range sides {
		name, tsp, ratio := Handle(s.Powder), "-", RatioOf(s.Ratio)
		if s.TspG > 0 {
			tsp = model.SpoonGrams(s.TspG) + " g"
		}
		if s.Ratio.Powder != nil && s.Ratio.Reach == fit.OneSided {
			ratio += " ?"
		}
		factor, verdict := "1", ""
		if i > 0 {
			factor, verdict = Factor(against[i-1])
		}
		numbers = append(numbers, []string{name, ratio, factor, verdict})
		spoons = append(spoons, []string{name, tsp, Ratio(s.Ratio.Rounded().PerTsp, nil), s.Ratio.Reach.Tested()})
		liquid, rest := "-", "-"
		if s.LevelStep > 0 {
			liquid, rest = s.Ratio.Basis.Liquid, model.Seconds(s.Ratio.Basis.RestS)
		}
		ways = append(ways, []string{
			name, string(s.Powder.Kind()), liquid, rest, care.Words(s.Powder), OrDash(model.SeenText(s.Seen)),
		})
	}
	p.TableInRoom(1, []Column{ // the finding about each pair says the last column too
		{Title: "powder"}, {Title: "g liquid per g"}, {Title: "times as much"}, {Title: "gram for gram"},
	}, numbers)
	p.Gap()
	p.Table([]Column{
		{Title: "powder"}, {Title: "1 tsp", Right: true}, {Title: "g liquid per level tsp"}, {Title: "tested from"},
	}, spoons)
	p.Line("%s", BothSides)
	p.Gap()
	ofWays := []Column{
		{Title: "powder"}, {Title: "family"}, {Title: "in"}, {Title: "rest"}, {Title: "care"}, {Title: "behaviour"},
	}
	if p.Fits(ofWays, ways) {
		p.Table(ofWays, ways)
		return
	}
	facts := make([][]string, len(ways))
	for i, w := range ways {
		facts[i] = w[:4]
	}
	p.Table(ofWays[:4], facts)
	p.Gap()
	for _, w := range ways {
		p.Hang("", "  ", fmt.Sprintf("%s. Care: %s. Behaviour: %s.", w[0], w[4], w[5]))
	}
}

// Factor gives a pair in two cells: how many times the liquid B takes, and whether
// it can replace A gram for gram.
func Factor(pair kitchen.Pair) (factor, verdict string) {
	if pair.ByWeight == nil {
		return "-", pair.GramForGram()
	}
	return model.Significant(pair.ByWeight.Median, 2), pair.GramForGram()
}
