package trial

import (
	"errors"
	"fmt"
	"math"
	"strconv"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/typed"
	"daub.example/daub/tui/ui"
)

// The fields of the set-up, in the order they are asked.
const (
	fieldName = iota
	fieldLot
	fieldFamily
	fieldSpoon
	fieldEach
	fieldScale
	fieldWeighing
	fieldLiquid
	fieldDensity
	fieldAmount
	fieldTemperature
	fieldSet
	fieldHand
	fieldAim
	fieldStep
	fieldTolerance
	fieldRest
	fieldStart
)

var toleranceWords = []string{"fine, 0.08", "usual, 0.12", "quick, 0.20"}

func newFields(spoons []string) []ui.Field {
	var families, aims, liquids, sets []string
	for _, f := range model.Families() {
		families = append(families, string(f))
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
		fieldName:   ui.TextField("powder", "Its name, as on the bag. Left empty, the date serves."),
		fieldLot:    ui.TextField("lot", "Lot or delivery, if known: another lot is another profile."),
		fieldFamily: ui.ChoiceField("family", "", families...),
		fieldSpoon: ui.ChoiceField("level spoon",
			"Which spoon do you weigh? The largest you will use is best.", spoons...),
		fieldEach: ui.EitherField("spoons at once",
			"A scale that reads whole grams: weigh ten level spoons together, and say 10 here.",
			"1", "5", "10"),
		fieldScale: ui.EitherField("scale reads to",
			"The smallest step of the scale, in grams.", "0.001 g", "0.01 g", "0.1 g", "1 g"),
		fieldWeighing: ui.TextField("weighing",
			"Tare. Break up lumps, fill loosely, strike off level. Grams, Enter; three times or more."),
		fieldLiquid: ui.EitherField("liquid",
			"Choose, or type another. Ratios in different liquids are never compared.", liquids...),
		fieldDensity:     ui.TextField("its density", "g/mL; needed only to measure it by the spoon."),
		fieldAmount:      ui.TextField("how much", "Weigh it: 20 g. By the spoon: 4 x 1 tsp. None yet: 0."),
		fieldTemperature: ui.TextField("temperature", "°C, if you know it."),
		fieldSet: ui.ChoiceField("spoon set",
			"us: 1 tsp is 4.93 mL. metric: 5 mL. own: your spoons.toml first.", sets...),
		fieldHand: ui.ChoiceField("spoons at hand", "Arrows move, Space says at hand or not.", "spoons"),
		fieldAim:  ui.ChoiceField("aim", "", aims...),
		fieldStep: ui.ChoiceField("looks to", "The finest difference your eye tells, in levels.", "1", "0.5"),
		fieldTolerance: ui.ChoiceField("good enough",
			"How narrow the answer should get: 0.12 is about ±12 %.", toleranceWords...),
		fieldRest:  ui.TextField("rest", "Seconds between stirring and looking; the same every time."),
		fieldStart: ui.ChoiceField("", "", "begin"),
	}
}

// needless is a field with nothing to ask: a known liquid needs no density.
func (s *setup) needless(i int) bool {
	if i != fieldDensity {
		return false
	}
	_, known := model.LiquidDensity(s.trial.Liquid, model.DefaultTemperatureC)
	return known
}

// fill shows the profile and the trial in the fields.
func (s *setup) fill() {
	p, t := s.entry.Profile.Powder, s.trial
	s.Fields[fieldName].Set(p.Name)
	s.Fields[fieldLot].Set(p.Lot)
	s.Fields[fieldFamily].Set(string(p.Kind()))
	if s.Fields[fieldSpoon].Value() == "" {
		s.weighedSpoon("1 tsp")
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
	s.Fields[fieldTolerance].Set(toleranceWord(t.Tolerance))
	switch {
	case t.LiquidBy == model.BySpoon && t.LiquidSpoon != "":
		s.Fields[fieldAmount].Set(fmt.Sprintf("%d x %s", max(t.LiquidCount, 1), t.LiquidSpoon))
	case t.LiquidG > 0:
		s.Fields[fieldAmount].Set(model.Number(t.LiquidG) + " g")
	}
	s.Fields[fieldAmount].Touched = t.LiquidG > 0
	s.suggest()
}

// suggest fills what follows from the rest, where the maker has not said.
func (s *setup) suggest() {
	if f := &s.Fields[fieldRest]; !f.Touched {
		f.Set(strconv.Itoa(s.trial.Rest(s.entry.Profile.Powder.Kind())))
	}
	if f := &s.Fields[fieldAmount]; !f.Touched {
		f.Set(model.Number(bench.PlannedLiquidG(s.entry.Profile, s.trial, s.deps.Drawer)) + " g")
	}
}

func toleranceWord(v float64) string {
	for _, w := range toleranceWords {
		if _, number, _ := strings.Cut(w, ", "); number == fmt.Sprintf("%.2f", v) {
			return w
		}
	}
	return toleranceWords[1]
}

// apply takes one field into the profile or the trial.
func (s *setup) apply(i int) error {
	f := &s.Fields[i]
	v := f.Value()
	p, t := &s.entry.Profile.Powder, &s.trial
	var err error
	switch i {
	case fieldName:
		err = s.name(v, p.Lot)
	case fieldLot:
		err = s.name(p.Name, v)
	case fieldFamily:
		p.Family = model.Family(v)
	case fieldSpoon:
		s.weighedSpoon(v)
	case fieldEach:
		_, err = s.each()
	case fieldScale:
		t.ResolutionG, err = s.resolution()
	case fieldWeighing:
		if v != "" {
			return s.addWeighing(v)
		}
	case fieldLiquid:
		if v = orWater(v); !model.SameLiquid(v, t.Liquid) {
			t.LiquidDensity = 0 // that of the liquid before
			s.Fields[fieldDensity].Set("")
		}
		t.Liquid = v
	case fieldDensity:
		t.LiquidDensity, err = ui.Optional(v, typed.Density)
	case fieldAmount:
		err = s.amount(v)
	case fieldTemperature:
		err = s.temperature(v)
	case fieldSet:
		t.SpoonSet = model.SpoonSet(v)
	case fieldAim:
		t.Aim = model.CurveLevels()[f.Pick]
	case fieldStep:
		t.LevelStep, err = typed.Step(v)
	case fieldTolerance:
		_, precision, _ := strings.Cut(v, ", ")
		t.Tolerance, err = typed.Precision(precision)
	case fieldRest:
		err = s.rest(v)
	}
	if err == nil {
		s.suggest()
	}
	return err
}

// name names the powder. Another name or lot than that of a profile from the
// shelf is another powder: it begins a profile of its own.
func (s *setup) name(name, lot string) error {
	p := &s.entry.Profile.Powder
	if s.entry.Slug == "" || (name == p.Name && lot == p.Lot) {
		p.Name, p.Lot = name, lot
		return nil
	}
	if s.session.Dirty() {
		return errors.New("the last weighing is still being saved: Enter once more")
	}
	other := *p
	other.Name, other.Lot, other.Notes = name, lot, ""
	s.entry, s.fresh = model.Entry{Profile: model.Profile{Powder: other}}, map[string]int{}
	s.session = ui.NewSession(model.Entry{}, bench.NoTrial, s.deps.Drawer)
	s.Problem = "another name or lot: a new profile, its level spoon is still to be weighed"
	return nil
}

func orWater(v string) string {
	if v == "" {
		return "water"
	}
	return v
}

func (s *setup) temperature(v string) error {
	s.trial.TemperatureC = nil
	if v == "" {
		return nil
	}
	c, err := typed.Temperature(v)
	if err == nil {
		s.trial.TemperatureC = &c
	}
	return err
}

func (s *setup) rest(v string) error {
	if v == "" {
		s.trial.RestS = nil
		s.Fields[fieldRest].Touched = false
		return nil
	}
	seconds, err := typed.Rest(v)
	if err == nil {
		s.trial.RestS = &seconds
	}
	return err
}

// amount reads grams, or spoons of one size such as "4 x 1 tsp"; nothing typed
// is no liquid yet.
func (s *setup) amount(v string) error {
	t := &s.trial
	var amount typed.Amount
	if v != "" {
		var err error
		if amount, err = typed.SpoonsOf(s.deps.Drawer).Amount(v, "20 g or 4 x 1 tsp"); err != nil {
			return err
		}
	}
	if amount.Spoons == nil {
		t.LiquidG, t.LiquidBy, t.LiquidSpoon, t.LiquidCount = amount.Grams, model.ByWeight, "", 0
		return nil
	}
	spoon, n, ok := amount.OneSize()
	if !ok {
		return fmt.Errorf("%q is of several sizes: type spoons of one size as 4 x 1 tsp", v)
	}
	each, err := t.LiquidSpoonG(spoon, s.deps.Drawer)
	if err != nil {
		return err
	}
	t.LiquidBy, t.LiquidSpoon, t.LiquidCount = model.BySpoon, spoon, n
	t.LiquidG = math.Round(each*float64(n)*100) / 100
	return nil
}
