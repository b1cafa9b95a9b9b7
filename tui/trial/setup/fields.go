package setup

import (
	"fmt"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/typed"
	"daub.example/daub/tui/ui"
)

// The fields of the set-up in the order they are asked: the first stop, the second,
// and the settings with defaults.
const (
	fieldName = iota
	fieldLot
	fieldFamily

	fieldMethod
	fieldPot
	fieldSpoon
	fieldWeighing
	fieldAmount

	fieldAim
	fieldStep
	fieldTolerance
	fieldRest
	fieldLiquid
	fieldDensity
	fieldTemperature
	fieldHand
	fieldSet
	fieldScale
	fieldEach
	fieldFilled
	fieldStart
)

var precisions = []string{"±8 %", "±12 %", "±20 %"}

// methods lists the ways to know the powder's mass, in the order of method.
var methods = []struct{ name, how string }{
	bench.ByPot:    {"the powder's pot", "recommended: weigh the jar it is in, open"},
	bench.BySpoons: {"level spoons weighed", "weigh three level spoonfuls first"},
	bench.ByEach:   {"every addition weighed", "no spoons, everything on the scale"},
}

func newFields(spoons []string) []ui.Field {
	var aims, liquids, sets, ways []string
	for _, m := range methods {
		ways = append(ways, m.name)
	}
	for _, l := range model.CurveLevels() {
		aims = append(aims, model.LevelName(l))
	}
	for _, l := range model.Liquids() {
		liquids = append(liquids, l.Name)
	}
	for _, s := range model.SpoonSets() {
		sets = append(sets, string(s))
	}
	return []ui.Field{
		fieldName:   ui.TextField("name", "Its name, as on the bag. Leave it empty, and today's date is its name."),
		fieldLot:    ui.TextField("lot", "Lot or delivery, where it is known: another lot is another powder to daub."),
		fieldFamily: ui.ChoiceField("family", "", familyFact.Options...),
		fieldMethod: ui.ChoiceField("", "", ways...),
		fieldPot: ui.TextField("the pot now",
			"The open pot with its powder on the scale, no spoon in it. Or leave this empty and weigh it later: "+
				"p at the bench."),
		fieldSpoon: ui.ChoiceField("level spoon",
			"Which spoon do you weigh? The largest you will use is best.", spoons...),
		fieldWeighing: ui.TextField("weighing",
			"Tare. Break up lumps, fill loosely, strike off level. Grams, Enter; three times or more. "+
				"Then \"tapped 2.9\", if you want to know how it packs."),
		fieldAmount: ui.TextField("in the dish",
			"Weigh the liquid into the dish: 20 g. By the spoon: 4 x 1 tsp. None yet: 0."),
		fieldAim: ui.ChoiceField("target level", "", aims...),
		fieldStep: ui.ChoiceField("level steps",
			"1: judge in whole levels. 0.5: in half levels too, if you can tell them apart.", "1", "0.5"),
		fieldTolerance: ui.EitherField("precision",
			"The precision wanted: how narrow the answer should get before daub says stop.", precisions...),
		fieldRest: ui.TextField("rest", "Between stirring and looking, the same every time: 30 s, 2 min."),
		fieldLiquid: ui.EitherField("liquid",
			"Choose, or type another. Ratios in different liquids are never compared.", liquids...),
		fieldDensity:     ui.TextField("its density", "g/mL; needed only to measure it by the spoon."),
		fieldTemperature: ui.TextField("temperature", "°C, if you know it."),
		fieldHand:        ui.ChoiceField("spoons at hand", "Arrows move, Space says at hand or not.", "spoons"),
		fieldSet: ui.ChoiceField("spoon set",
			"us: 1 tsp is 4.93 mL. metric: 5 mL. own: spoons you measured; any not measured as in us.", sets...),
		fieldScale: ui.EitherField("scale reads to",
			"The smallest step of the scale, in grams.", "0.001 g", "0.01 g", "0.1 g", "1 g"),
		fieldEach: ui.EitherField("per weighing",
			"Level spoons per weighing. A scale that reads whole grams: weigh ten together, and say 10 here.",
			"1", "5", "10"),
		fieldFilled: ui.ChoiceField("spoon filled", "How: loose is the usual way; tapped until it sinks no more; or "+
			"packed, pressed in. Fill every spoon of the trial like that.", model.Fillings()...),
		fieldStart: ui.ChoiceField("", "", "begin"),
	}
}

// familyFact is the powder's family, read and shown here as everywhere.
var familyFact = func() typed.Fact {
	f, err := typed.FactOf("family")
	if err != nil {
		panic(err)
	}
	return f
}()

// hidden reports whether this stop leaves a field out.
func (s *screen) hidden(i int) bool {
	switch {
	case s.needless(i):
		return true
	case s.stop == stopPowder:
		return i > fieldFamily
	case i <= fieldFamily:
		return true
	default:
		return i > fieldAmount && !s.more
	}
}

// needless reports whether a field has nothing to ask: a known liquid needs no
// density, and without weighing there is no weighing to ask for.
func (s *screen) needless(i int) bool {
	switch i {
	case fieldDensity:
		_, known := model.LiquidDensity(s.trial.Liquid, model.DefaultTemperatureC)
		return known
	case fieldPot:
		return s.method != bench.ByPot
	case fieldSpoon, fieldWeighing, fieldEach, fieldFilled:
		return s.method != bench.BySpoons
	case fieldHand:
		return s.method == bench.ByEach
	case fieldAim, fieldStep, fieldRest, fieldLiquid, fieldTemperature:
		return s.like != nil // the reference dish gives them
	}
	return false
}

func (s *screen) chooseMethod(m bench.Method) {
	s.method = m
	s.Fields[fieldMethod].Set(methods[m].name)
	s.suggest()
}

// fill shows the profile and the trial in the fields.
func (s *screen) fill() {
	p, t := s.entry.Profile.Powder, s.trial
	s.Fields[fieldName].Set(p.Name)
	s.Fields[fieldLot].Set(p.Lot)
	s.Fields[fieldFamily].Set(familyFact.Show(p))
	s.Fields[fieldMethod].Set(methods[s.method].name)
	if s.Fields[fieldSpoon].Value() == "" {
		s.weighedSpoon(model.Teaspoon)
	}
	s.Fields[fieldLiquid].Set(t.Liquid)
	if t.LiquidDensity > 0 {
		s.Fields[fieldDensity].Set(model.Number(t.LiquidDensity))
	}
	if t.TemperatureC != nil {
		s.Fields[fieldTemperature].Set(model.Number(*t.TemperatureC))
	}
	s.Fields[fieldSet].Set(string(t.SpoonSet))
	s.Fields[fieldAim].Set(model.LevelName(t.Aim))
	s.Fields[fieldStep].Set(model.Number(t.LevelStep))
	s.Fields[fieldTolerance].Set("±" + model.Number(model.RoundSignificant(100*t.Tolerance, 3)) + " %")
	switch {
	case t.LiquidBy == model.BySpoon && t.LiquidSpoon != "":
		s.Fields[fieldAmount].Set(fmt.Sprintf("%d x %s", max(t.LiquidCount, 1), t.LiquidSpoon))
	case t.LiquidG > 0:
		s.Fields[fieldAmount].Set(model.Number(t.LiquidG) + " g")
	}
	s.Fields[fieldAmount].Touched = t.LiquidG > 0
	s.suggest()
}

// suggest fills in what follows from the other fields, where the maker typed
// nothing.
func (s *screen) suggest() {
	if f := &s.Fields[fieldRest]; !f.Touched {
		f.Set(model.Seconds(s.trial.Rest(s.entry.Profile.Powder.Kind())))
	}
	if f := &s.Fields[fieldAmount]; !f.Touched {
		f.Set(model.Number(bench.PlannedLiquidG(s.entry.Profile, s.trial, s.deps.OwnSpoons)) + " g")
	}
}
