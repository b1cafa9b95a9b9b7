package care

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/measure"
	"daub.example/daub/model/repeats"
)

// Doubt holds the facts by which an answer is compared with handbook values and other lots.
type Doubt struct {
	Liquid string
	Level  float64
	Ratio  *fit.Interval // g/g, of this powder or this dish; nil where there is none
	// GramsPerML is the bulk density in a level spoon; 0 without a weighing.
	GramsPerML float64
	// Lots are other lots of the same powder, see Lots.
	Lots []Lot
}

// Plausibility says whether an answer can be true, one sentence each, the gravest doubt
// first; empty where nothing can be said.
func Plausibility(p model.Powder, d Doubt) []string {
	return slices.Concat(againstLots(d), againstHandbook(p.Kind(), d), againstSolid(p, d.GramsPerML))
}

// Alarm gives the gravest doubt about an answer in one line, for the top of a page; ""
// without one. Plausibility has the rest.
func Alarm(p model.Powder, d Doubt) string {
	if said := againstLots(d); len(said) > 0 {
		return said[0]
	}
	if said := againstSolid(p, d.GramsPerML); len(said) > 0 {
		return said[0]
	}
	c, ok := inHandbook(p.Kind(), d)
	if !ok || c.Plausible == measure.Usual || !c.Certain {
		return ""
	}
	return fmt.Sprintf("%s g/g is unusual for a %s, %s to %s g/g is usual. %s", model.RatioText(d.Ratio.Median),
		p.Kind().Words(), model.Significant(c.Low, 2), model.Significant(c.High, 2), slip(c.Times))
}

// inHandbook compares a ratio in water near level 5 with the liquid limits of a family; ok
// is false where there is nothing to compare.
func inHandbook(f model.Family, d Doubt) (c measure.Check, ok bool) {
	if d.Ratio == nil || !model.SameLiquid(d.Liquid, "water") || d.Level < 4 || d.Level > 6 {
		return c, false
	}
	c = measure.PlausibleRatio(*d.Ratio, limitsOf(f))
	return c, c.Plausible != measure.Unknown
}

// limitsOf lists the handbook's liquid limits of a family; nil without any.
func limitsOf(f model.Family) []measure.Limit {
	switch f {
	case model.PlainClay:
		return measure.PlainClays()
	case model.SwellingClay:
		return measure.SwellingClays()
	default:
		return nil
	}
}

// UsualRatio gives the ratios in water near level 5, g/g, that are usual for a family: by
// the handbook, as in Plausibility, else those that first additions are planned with.
func UsualRatio(f model.Family) (low, high float64) {
	if low, high = measure.UsualRange(limitsOf(f)); low > 0 {
		return low, high
	}
	return f.FirstRange()
}

// againstHandbook compares a ratio in water near level 5 with liquid limits, in words.
func againstHandbook(f model.Family, d Doubt) []string {
	c, ok := inHandbook(f, d)
	if !ok {
		return nil
	}
	limits := limitsOf(f)
	ratio := model.RatioText(d.Ratio.Median)
	usual := map[bool]string{true: "usual", false: "unusual"}[c.Plausible == measure.Usual]
	text := fmt.Sprintf("%s g/g is %s for a %s: pastes for spreading mostly take %s to %s g/g. They take 1 to 2.5 "+
		"times the liquid limit, the water at which a soil begins to flow: %s. The range leaves out the most unusual "+
		"tenth.", ratio, usual, f.Words(), model.Significant(c.Low, 2), model.Significant(c.High, 2),
		limitList(common(limits)))
	if c.Plausible == measure.Usual {
		return []string{text}
	}
	if !c.Certain {
		return []string{text + " Its interval still reaches there: another look first."}
	}
	text += " " + slip(c.Times)
	if c.Plausible == measure.Unusual {
		text += " Yet it is within 1 to 2.5 times the liquid limit of " + reachList(c.Kinds) + "."
	}
	return []string{text}
}

// slip asks about the mistake that would explain such a factor.
func slip(times float64) string {
	switch {
	case times >= 7 || times <= 1.0/7:
		return "A slipped decimal point, or grams for spoons?"
	case times >= 1.5 || times <= 1/1.5:
		return "A tablespoon for a teaspoon, the tare, another powder?"
	default:
		return "Check the weighings and the family."
	}
}

// reachList lists kinds with the ratios that their liquid limits allow, g/g.
func reachList(limits []measure.Limit) string {
	var kinds []string
	for _, l := range limits {
		low, high := l.Possible()
		span := fmt.Sprintf("%s (%s to %s)", l.Kind, model.Significant(low, 2), model.Significant(high, 2))
		kinds = append(kinds, span)
	}
	return strings.Join(kinds, ", ")
}

// common keeps the kinds that a maker is likely to have.
func common(limits []measure.Limit) []measure.Limit {
	return slices.DeleteFunc(slices.Clone(limits), func(l measure.Limit) bool { return l.Rare })
}

// limitList lists kinds with their liquid limits, and each source once.
func limitList(limits []measure.Limit) string {
	var kinds, sources []string
	for _, l := range limits {
		span := model.Number(l.Low)
		if l.High > l.Low {
			span += " to " + model.Number(l.High)
		}
		kinds = append(kinds, l.Kind+" "+span)
		if !slices.Contains(sources, l.Source) {
			sources = append(sources, l.Source)
		}
	}
	return strings.Join(kinds, ", ") + " g/g (" + strings.Join(sources, "; ") + ")"
}

// againstSolid says when a level spoon is as dense as the solid itself.
func againstSolid(p model.Powder, gramsPerML float64) []string {
	solid := p.SolidDensity
	if solid == 0 {
		solid, _ = p.Kind().TypicalSolidDensity()
	}
	if !(solid > 0 && gramsPerML >= solid) {
		return nil
	}
	return []string{fmt.Sprintf("A level spoon of %s g/mL is as dense as the solid itself (%s): check the weighing, "+
		"the spoon or the tare.", model.Significant(gramsPerML, 3), model.Number(solid))}
}

// Lot holds the ratio of another lot of the same powder.
type Lot struct {
	Lot   string // "" where it was not recorded
	Ratio fit.Interval
}

// Lots lists the other lots of a powder on a shelf with a ratio at the level, g/g, in the
// shelf's order. They are in the same liquid and after a comparable rest.
func Lots(p model.Powder, shelf []model.Profile, b model.Basis, level float64, own model.OwnSpoons) (lots []Lot) {
	for _, other := range shelf {
		if !repeats.SameName(other.Powder.Name, p.Name) || repeats.SameName(other.Powder.Lot, p.Lot) {
			continue
		}
		basis, like := b.Nearest(other.Bases())
		if like < 2 {
			continue
		}
		if r := repeats.Overview(other, basis, level, own); r.Powder != nil {
			lots = append(lots, Lot{other.Powder.Lot, *r.Powder})
		}
	}
	return lots
}

// againstLots asks about a ratio that is far from those of other lots.
func againstLots(d Doubt) (said []string) {
	if d.Ratio == nil {
		return nil
	}
	for _, lot := range d.Lots {
		factor := d.Ratio.Over(lot.Ratio)
		if !measure.StrayLot(factor) {
			continue
		}
		name := "an earlier lot"
		if lot.Lot != "" {
			name = "lot " + lot.Lot
		}
		said = append(said, fmt.Sprintf("%s times what %s took (%s g/g): another powder, another spoon?",
			model.Significant(factor.Median, 2), name, model.RatioText(lot.Ratio.Median)))
	}
	return said
}
