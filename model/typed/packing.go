package typed

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
)

// packingExample shows the form of a packing.
const packingExample = "1 tsp: loose 2.2 2.3, tapped 2.9 2.8"

// packingFact is the fact of level spoons filled loose and tapped, one entry a spoon with
// ";" between them.
func packingFact() Fact {
	return Fact{
		Key: "packing",
		Hint: "How much a spoon depends on tapping: grams of one level spoon filled loose, and tapped until it sinks " +
			"no more, as " + packingExample + ".",
		show: func(p model.Powder) string {
			var texts []string
			for _, one := range p.Packings {
				texts = append(texts, fmt.Sprintf("%s: loose %s, tapped %s", one.Spoon, gramsList(one.LooseG),
					gramsList(one.TappedG)))
			}
			return strings.Join(texts, "; ")
		},
		read: readPacking,
	}
}

// gramsList writes masses with spaces between them.
func gramsList(grams []float64) string {
	texts := make([]string, len(grams))
	for i, g := range grams {
		texts[i] = model.Number(g)
	}
	return strings.Join(texts, " ")
}

// readPacking reads all packings of a powder; those typed as before keep their time.
func readPacking(p *model.Powder, text string) error {
	was := p.Packings
	p.Packings = nil
	if unsaid(text) {
		return nil
	}
	for one := range strings.SplitSeq(text, ";") {
		next, err := packing(one)
		if err != nil {
			return err
		}
		same := func(o model.Packing) bool {
			return o.Spoon == next.Spoon && slices.Equal(o.LooseG, next.LooseG) && slices.Equal(o.TappedG, next.TappedG)
		}
		if i := slices.IndexFunc(was, same); i >= 0 {
			next.At = was[i].At
		}
		p.Packings = append(p.Packings, next)
	}
	return nil
}

// packing reads one spoon with its loose and tapped grams.
func packing(text string) (p model.Packing, err error) {
	spoon, rest, found := strings.Cut(text, ":")
	loose, tapped, both := strings.Cut(strings.ToLower(rest), "tapped")
	loose, named := strings.CutPrefix(strings.TrimSpace(loose), "loose")
	if !found || !both || !named {
		return p, refuse(text, "is not a spoon with its loose and tapped grams", packingExample)
	}
	p.Spoon = strings.TrimSpace(spoon)
	if name, err := SpoonsOf(nil).Name(p.Spoon); err == nil {
		p.Spoon = name
	}
	if p.LooseG, err = Masses(strings.Trim(loose, " ,"), "2.2 2.3"); err != nil {
		return p, err
	}
	if p.TappedG, err = Masses(strings.TrimSpace(tapped), "2.9 2.8"); err != nil {
		return p, err
	}
	for _, problem := range p.Validate() {
		return p, fmt.Errorf("%s; %s", problem.What, problem.Fix)
	}
	return p, nil
}

// Weighings reads weighings of level spoons, g, after a word for how they were filled where
// there is one: "2.31 2.28", "tapped 2.9 2.8". filled is one of model.Fillings, or "".
func Weighings(text, example string) (filled string, grams []float64, err error) {
	first, rest, _ := strings.Cut(strings.TrimSpace(text), " ")
	if word := strings.ToLower(strings.Trim(first, ",:")); slices.Contains(model.Fillings(), word) {
		filled, text = word, rest
	}
	grams, err = Masses(text, example)
	if err == nil && filled != "" && len(grams) == 0 {
		err = fmt.Errorf("type the grams behind the word: %s %s", filled, example)
	}
	return filled, grams, err
}
