package page

import (
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/kitchen"
)

// Pair says all there is to a pair of powders.
func (p *Page) Pair(pair kitchen.Pair) {
	p.Gap()
	p.Hang("", "  ", pair.Sentence())
	for _, text := range Beside(pair, pair.Sentence()) {
		p.Hang("  ", "    ", text)
	}
}

// Beside lists what belongs beside a pair's number, without the warnings that
// were said with it already.
func Beside(pair kitchen.Pair, said string) []string {
	var texts []string
	for _, r := range pair.Reasons {
		texts = append(texts, string(pair.Verdict)+": "+r+".")
	}
	for _, w := range pair.Warnings {
		if !strings.Contains(said, w) {
			texts = append(texts, w)
		}
	}
	return append(texts, pair.Differences...)
}

// Sides sets powders side by side: what they take, then how they behave.
func (p *Page) Sides(sides []kitchen.Side) {
	var numbers, ways [][]string
	for _, s := range sides {
		name, tsp, ratio := Handle(s.Powder), "-", Ratio(s.Ratio.Powder, s.Ratio.Bound)
		if s.TspG > 0 {
			tsp = model.Grams(s.TspG)
		}
		if s.Ratio.Powder != nil && s.Ratio.Reach == fit.OneSided {
			ratio += " ?"
		}
		numbers = append(numbers, []string{name, tsp, ratio, Ratio(s.Ratio.PerTsp, nil), s.Ratio.Reach.String()})
		liquid, rest := "-", "-"
		if s.LevelStep > 0 {
			liquid, rest = s.Ratio.Basis.Liquid, model.Seconds(s.Ratio.Basis.RestS)
		}
		ways = append(ways, []string{
			name, string(s.Powder.Kind()), liquid, rest, OrDash(strings.Join(s.Marks, ", ")), s.Powder.CautionWord(),
		})
	}
	p.Table([]Column{
		{Title: "powder", Gives: true},
		{Title: "g/tsp", Right: true},
		{Title: "g liquid per g"},
		{Title: "to a level tsp"},
		{Title: "reach"},
	}, numbers)
	p.Gap()
	p.Table([]Column{
		{Title: "powder", Gives: true},
		{Title: "family"},
		{Title: "in", Gives: true},
		{Title: "rest"},
		{Title: "marks", Gives: true},
		{Title: "mind"},
	}, ways)
}
