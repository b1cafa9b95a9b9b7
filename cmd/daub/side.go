package main

import (
	"math"
	"strings"
	"time"

	"daub.example/daub/data"
	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// sideJSON is one powder as it is set beside others.
type sideJSON struct {
	powderJSON
	basisJSON
	levelJSON
	LevelStep *float64   `json:"level_step"` // its looks are to the nearest 1 or 0.5; null without a trial
	LastTrial *time.Time `json:"last_trial"` // the newest that the ratio rests on
	Marks     []string   `json:"marks"`      // behaviour seen
	Cautions  []string   `json:"cautions"`
}

func toSide(e data.Entry, s model.Side) sideJSON {
	out := sideJSON{
		powderJSON: named(e, s.TspG), levelJSON: toLevel(s.Ratio), LevelStep: data.Positive(s.LevelStep),
		LastTrial: moment(s.LastTrial), Marks: filled(s.Marks), Cautions: filled(s.Powder.Cautions()),
	}
	if s.LevelStep > 0 { // without a trial the basis is that of the others
		out.basisJSON = toBasis(s.Ratio.Basis)
	}
	return out
}

// pairJSON is one powder (to) against another (from) at one level.
type pairJSON struct {
	From        string             `json:"from"`      // slug
	To          string             `json:"to"`        // slug
	Refused     *string            `json:"refused"`   // other-liquid or level-missing; null where they are compared
	Verdict     *string            `json:"verdict"`   // close, adjust or not-a-stand-in; null when refused
	ByWeight    *data.IntervalJSON `json:"by_weight"` // times as much liquid to a gram; null when refused
	BySpoon     *data.IntervalJSON `json:"by_spoon"`  // the same to a level spoon; null also where no spoon was weighed
	Bound       *data.RangeJSON    `json:"bound"`     // what is known of by_weight when a level is missing
	RestsApart  bool               `json:"rests_apart"`
	Reasons     []string           `json:"reasons"` // of the verdict
	Settle      *string            `json:"settle"`  // what would settle a verdict that is open
	Warnings    []string           `json:"warnings"`
	Differences []string           `json:"differences"` // beside the ratio
	Sentence    string             `json:"sentence"`
}

func toPair(from, to string, p model.Pair) pairJSON {
	return pairJSON{
		From: from, To: to, Refused: keyword(string(p.Refused)), Verdict: keyword(string(p.Verdict)),
		ByWeight: data.ToInterval(p.ByWeight), BySpoon: data.ToInterval(p.BySpoon), Bound: data.ToBound(p.Bound),
		RestsApart: p.RestsApart, Reasons: filled(p.Reasons), Settle: orNull(p.Settle),
		Warnings: filled(p.Warnings), Differences: filled(p.Differences), Sentence: p.Sentence(),
	}
}

// keyword is a word of the model as JSON has it, without spaces; null for "".
func keyword(text string) *string { return orNull(strings.ReplaceAll(text, " ", "-")) }

// orNull is a text; null for "".
func orNull(text string) *string {
	if text == "" {
		return nil
	}
	return &text
}

// pair says all there is to a pair.
func (p *page) pair(pair model.Pair) {
	p.gap()
	p.say("", "  ", pair.Sentence())
	for _, text := range beside(pair, pair.Sentence()) {
		p.say("  ", "    ", text)
	}
}

// beside lists what belongs beside a pair's number, without the warnings that
// were said with it already.
func beside(pair model.Pair, said string) []string {
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

// sides are powders side by side: what they take, then how they behave.
func (p *page) sides(sides []model.Side) {
	var numbers, ways [][]string
	for _, s := range sides {
		name, tsp, ratio := handle(s.Powder), "-", ratioCell(s.Ratio.Powder, s.Ratio.Bound)
		if s.TspG > 0 {
			tsp = model.Grams(s.TspG)
		}
		if s.Ratio.Powder != nil && s.Ratio.Reach == fit.OneSided {
			ratio += " ?"
		}
		numbers = append(numbers, []string{name, tsp, ratio, ratioCell(s.Ratio.PerTsp, nil), s.Ratio.Reach.String()})
		liquid, rest := "-", "-"
		if s.LevelStep > 0 {
			liquid, rest = s.Ratio.Basis.Liquid, model.Seconds(s.Ratio.Basis.RestS)
		}
		ways = append(ways, []string{name, string(s.Powder.Kind()), liquid, rest, orDash(strings.Join(s.Marks, ", ")), s.Powder.CautionWord()})
	}
	p.table([]column{
		{title: "powder", gives: true},
		{title: "g/tsp", right: true},
		{title: "g liquid per g"},
		{title: "to a level tsp"},
		{title: "reach"},
	}, numbers)
	p.gap()
	p.table([]column{
		{title: "powder", gives: true},
		{title: "family"},
		{title: "in", gives: true},
		{title: "rest"},
		{title: "marks", gives: true},
		{title: "mind"},
	}, ways)
}

func orDash(text string) string {
	if text == "" {
		return "-"
	}
	return text
}

// shift says what a change of so many levels is like.
func shift(levels float64) string {
	if math.Abs(levels) < 0.05 {
		return "no thicker or thinner to speak of"
	}
	return model.LevelShift(levels)
}
