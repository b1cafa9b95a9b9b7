package typed

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/kitchen"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// own holds two spoons of the maker's own.
var own = model.OwnSpoons{{Name: "blue scoop", VolumeML: 12}, {Name: "7 tip", VolumeML: 0.4}}

// table holds what a reader makes of texts; a want of -1 is a refusal.
type table map[string]float64

func (want table) check(t *testing.T, name string, read func(string) (float64, error)) {
	t.Helper()
	for text, v := range want {
		got, err := read(text)
		if v == -1 {
			require.Error(t, err, "%s %q gave %v", name, text, got)
			continue
		}
		require.NoError(t, err, "%s %q", name, text)
		require.Equal(t, v, got, "%s %q", name, text)
	}
}

func with(read func(text, example string) (float64, error)) func(string) (float64, error) {
	return func(text string) (float64, error) { return read(text, "9 x") }
}

func TestQuantities(t *testing.T) {
	table{
		"2,28": 2.28, "1.5 kg": 1500, "20 g": 20, "20G": 20, " .5 ": 0.5, "0": 0, "300 mg": 0.3, "1,23": 1.23,
		"0,234": 0.234, "1.234": 1.234, "12,3456": 12.3456, "5 grams": 5, "1e3": 1000, "20\u00a0g": 20,
		"1,234": -1, "12,345 g": -1, "1,234,567": -1, "1.234,5": -1, "1 234": -1, "-3": -1, "": -1, "g": -1,
		"20 oz": -1,
		"2 tsp": -1, "inf": -1, "nan": -1, "0x10": -1, "1_0": -1, "1e999": -1, "5 %": -1, "20 g g": -1,
	}.check(t, "mass", with(Mass))
	table{"60 mL": 60, "60ml": 60, "0.5 L": 500, "60": 60, "6 cl": 60, "60 g": -1}.check(t, "volume", with(Volume))
	table{"0.92": 0.92, "1,26 g/mL": 1.26, "0": -1, "30": -1, "x": -1}.check(t, "density", Density)
	table{"21": 21, "21.5 °C": 21.5, "21 C": 21, "21°": 21, "-5": -5, "101": -1, "-21": -1, "70 F": -1}.check(t,
		"temperature", Temperature)
	table{"0.01": 0.01, "0,1 g": 0.1, "1 g": 1, "0": -1, "101": -1}.check(t, "resolution", Resolution)
	for _, g := range []float64{0.001, 0.01, 0.02, 0.05, 0.1, 0.2, 0.5, 1} {
		require.Empty(t, OddScale(g))
	}
	for _, g := range []float64{2.6, 0.3, 0.015, 2, 5, 100, 5e-324} {
		require.Contains(t, OddScale(g), "A scale that reads to", "%v g", g)
	}
	table{"60": 60, "60 %": 60, "0,5": 0.5, "0": -1, "a": -1, "1,234": -1}.check(t, "part", Part)
	table{"1": 1, "0.5": 0.5, "0,5": 0.5, "2": -1, "": -1}.check(t, "step", Step)
}

// An amount smaller than anything at a bench is refused as too small, also where a float
// has no room for it or only the unit makes it so.
func TestTinyAmountsAreRefused(t *testing.T) {
	for _, text := range []string{"1e-300 g", "5e-324", "1e-400", "-1e-12", "9e-9 mg", "0.0000000001", "0e5", "1e-8"} {
		_, err := Mass(text, "20 g")
		if text == "0e5" || text == "1e-8" {
			require.NoError(t, err, text)
			continue
		}
		require.ErrorContains(t, err, `"`+text+`" is too small: type it like 20 g`)
	}
	_, err := Density("1e-12")
	require.ErrorContains(t, err, "is too small")
}

func TestRest(t *testing.T) {
	table{
		"30": 30, "90 s": 90, "2 min": 120, "0:30": 30, "1:05": 65, "1:00:00": 3600, "2 min 30 s": 150, "2min30": 150,
		"1,5 min": 90, "1 h": 3600, "0": 0, "45 sec": 45, "2 m": 120,
		"": -1, "ages": -1, "0:75": -1, "s": -1, "8:00:00:00": -1, "200 h": -1, "-3": -1, "1,234": -1, "2 days": -1,
		"5 g": -1,
	}.check(t, "rest", func(text string) (float64, error) {
		s, err := Rest(text)
		return float64(s), err
	})
}

func TestSharesAndPrecision(t *testing.T) {
	table{
		"3 %": 0.03, "0.03": 0.03, "3%": 0.03, "0,2 %": 0.002, "0": 0,
		"3": -1, "100 %": -1, "1": -1, "-1 %": -1, "x": -1, "": -1, "%": -1, "1,234": -1,
	}.check(t, "share", with(Share))
	table{
		"±10 %": 0.1, "10%": 0.1, "0.1": 0.1, "+/-8 %": 0.08, "12": -1, "0": -1, "300 %": -1, "": -1,
	}.check(t, "precision", Precision)
	for text, want := range map[string][2]float64{
		"": {}, "5 %": {0.05, 0}, "0.05": {0.05, 0}, "2 g": {0, 2}, "2g": {0, 2}, "0": {}, "0,5 kg": {0, 500},
	} {
		share, grams, err := Allowance(text)
		require.NoError(t, err, text)
		require.Equal(t, want, [2]float64{share, grams}, text)
	}
	for _, text := range []string{"5", "5 mL", "110 %", "some", "1,234 g"} {
		_, _, err := Allowance(text)
		require.Error(t, err, text)
	}
}

func TestExtras(t *testing.T) {
	for text, want := range map[string]model.Extra{
		"honey=0.03": {Name: "honey", Share: 0.03}, "rose oil=0.2%": {Name: "rose oil", Share: 0.002},
		"honey 3 %": {Name: "honey", Share: 0.03}, "oil3%": {Name: "oil", Share: 0.03}, "B12 0,5 %": {
			Name:  "B12",
			Share: 0.005,
		},
		"Rose Oil = 3%": {Name: "Rose Oil", Share: 0.03}, "1,2-hexanediol 1%": {Name: "1,2-hexanediol", Share: 0.01},
		"citric acid 10 %=2%": {Name: "citric acid 10 %", Share: 0.02},
		"polysorbate 20 1 %":  {Name: "polysorbate 20", Share: 0.01}, "honey 3 %:liquid": {
			Name: "honey", Share: 0.03,
			Counts: model.CountsLiquid,
		},
		"wax=0.02: oil": {Name: "wax", Share: 0.02, Counts: model.CountsOil},
	} {
		got, err := Extra(text, "honey 3 %")
		require.NoError(t, err, text)
		require.Equal(t, want, got, text)
	}
	for _, text := range []string{
		"", "honey", "0.03", "=0.03", "honey=2", "honey=0", "honey=100%", "honey=x",
		"honey=1,234", "honey 3 %:wet", "a=b=0.03", "honey -5 %", "honey - 5 %", "honey 5 g", "honey=5 %, oil=3 %",
	} {
		_, err := Extra(text, "honey 3 %")
		require.Error(t, err, text)
		require.Contains(t, err.Error(), "type ", text)
	}
	got, err := Extras("oil 3,5 %, glycerine 0.02; honey 1%", "oil 3 %")
	require.NoError(t, err)
	require.Equal(t, []model.Extra{
		{Name: "oil", Share: 0.035},
		{Name: "glycerine", Share: 0.02},
		{Name: "honey", Share: 0.01},
	}, got)
	got, err = Extras("", "oil 3 %")
	require.NoError(t, err)
	require.Empty(t, got)
}

// A refusal of an extra answers in the form in which it was typed, and nothing of it ends
// up in a name.
func TestRefusedExtrasAreAnsweredInTheirForm(t *testing.T) {
	for text, want := range map[string]string{
		"honey=-5%":    `honey: "-5%" is not a share, from 0 % to below 100 %: type it like honey=3%`,
		"honey -5%":    `honey: "-5%" is not a share, from 0 % to below 100 %: type it like honey=3%`,
		"honey=5":      `is "honey=5" 5 %? then type honey=5%`,
		"honey 5":      `is "honey 5" 5 %? then type honey=5%`,
		"honey=5g":     `"honey=5g": an extra is a share of the total, not an amount: type it like honey=3%`,
		"honey=2 tsp":  `"honey=2 tsp": an extra is a share of the total, not an amount: type it like honey=3%`,
		"honey=3%:oyl": `"honey=3%:oyl" does not count as liquid, oil or dry: type it like honey=3%:oil`,
		"honey=5% oil=3%": `"honey=5% oil=3%" is not one name and its share: type it like honey=3%, two with a ` +
			`comma between them`,
		"honey=5%, honey=3%":    `honey is named twice: give all of it as one share`,
		"honey=5%; Honey 3%":    `Honey is named twice: give all of it as one share`,
		"honey=5%, almond oil":  `"almond oil" is not a name and its share of the total: type it like honey=3%`,
		"honey – 5%":            `"honey – 5%" is not a name and its share of the total: type it like honey=3%`,
		"honey=5%, sesame=0":    `sesame: "0" is nothing: type it like honey=3%`,
		"honey=5%, sesame=-0.5": `sesame: "-0.5" is not a share, from 0 % to below 100 %: type it like honey=3%`,
	} {
		_, err := Extras(text, "honey=3%")
		require.EqualError(t, err, want, text)
	}
	_, err := Extra("honey 5", "oil 3 %")
	require.EqualError(t, err, `is "honey 5" 5 %? then type honey 5 %`)
	_, err = Extra("honey 3 %:oyl", "oil 3 %")
	require.EqualError(t, err, `"honey 3 %:oyl" does not count as liquid, oil or dry: type it like honey 3 %:oil`)
}

func TestPortions(t *testing.T) {
	for text, want := range map[string][2]float64{
		"": {}, "20": {20, 0}, "20 x 75 g": {20, 75}, "4×7,5": {4, 7.5}, "3 * 1 kg": {3, 1000}, "20 of 75 g": {20, 75},
	} {
		n, each, err := Portions(text)
		require.NoError(t, err, text)
		require.Equal(t, want, [2]float64{float64(n), each}, text)
	}
	for _, text := range []string{"0", "-1", "2.5", "many", "20 x", "20 x lots", "100000"} {
		_, _, err := Portions(text)
		require.Error(t, err, text)
	}
}

func TestLevels(t *testing.T) {
	table{
		"1": 1, "4.5": 4.5, "4,5": 4.5, "5.0": 5, "6": 6, "5 spread": 5, "4.5 dollop/spread": 4.5,
		"0.5": -1, "6.5": -1, "4.3": -1, "five": -1, "": -1, "5 stiff": -1, "1,234": -1,
	}.check(t, "target", Target)
	look := func(step float64) func(string) (float64, error) {
		return func(text string) (float64, error) { return Reading(text, step) }
	}
	table{"0": 0, "7": 7, "3 ribbon": 3, "2.5": -1, "8": -1, "-1": -1, "x": -1}.check(t, "whole", look(1))
	table{"0": 0, "7": 7, "2.5": 2.5, "2.25": -1, "7.5": -1}.check(t, "halves", look(0.5))
	_, err := Reading("2.5", 1)
	require.ErrorContains(t, err, "whole level")
	n, err := Count(" 10 ", "10")
	require.NoError(t, err)
	require.Equal(t, 10, n)
	for _, text := range []string{"", "0", "1001", "many", "1.5", "-2"} {
		_, err := Count(text, "10")
		require.ErrorContains(t, err, "type it like 10")
	}
}

func TestMasses(t *testing.T) {
	for text, want := range map[string][]float64{
		"": nil, "2.31": {2.31}, "2.31 2,28; 2.35 g": {2.31, 2.28, 2.35}, "2.31, 2.28, 2.35": {2.31, 2.28, 2.35},
		"0.5 kg 20 g": {500, 20}, "23g 24g": {23, 24},
	} {
		got, err := Masses(text, "2.3 g")
		require.NoError(t, err, text)
		require.Equal(t, want, got, text)
	}
	for _, text := range []string{"g", "0", "2.3 x", "2.3 0", "2.3 1,234"} {
		_, err := Masses(text, "2.3 g")
		require.Error(t, err, text)
	}
}

// count is a sum of spoons in short, "2*1 tsp".
func count(spoons []model.SpoonCount) string {
	var words []string
	for _, s := range spoons {
		words = append(words, fmt.Sprintf("%d*%s", s.Count, s.Spoon))
	}
	return strings.Join(words, " ")
}

func TestSpoons(t *testing.T) {
	s := SpoonsOf(own, model.Profile{LevelSpoons: []model.LevelSpoon{{Spoon: "grey + small"}}})
	for text, want := range map[string]string{
		"1/2 tsp": "1*1/2 tsp", "1/2tsp": "1*1/2 tsp", "½ tsp": "1*1/2 tsp", "0.5 tsp": "1*1/2 tsp",
		"0,25 tsp": "1*1/4 tsp",
		"tsp":      "1*1 tsp", "1 tsp": "1*1 tsp", "2 tsp": "2*1 tsp", "3 TBSP": "3*1 tbsp", "2 teaspoons": "2*1 tsp",
		"1 1/2 tsp": "1*1 tsp 1*1/2 tsp", "1½ tsp": "1*1 tsp 1*1/2 tsp", "1.5 tsp": "1*1 tsp 1*1/2 tsp",
		"2 1/4 tsp":   "2*1 tsp 1*1/4 tsp",
		"2 x 1/4 tsp": "2*1/4 tsp", "2x1/4tsp": "2*1/4 tsp", "2 × 1/4 tsp": "2*1/4 tsp", "2 * tsp": "2*1 tsp",
		"2X1 tsp":       "2*1 tsp",
		"2 x 1 1/2 tsp": "2*1 tsp 2*1/2 tsp", "3 x 2 tsp": "6*1 tsp",
		"dash": "1*1/8 tsp", "2 dashes": "2*1/8 tsp", "a pinch": "1*1/16 tsp", "3 x pinch": "3*1/16 tsp",
		"Smidgen":             "1*1/32 tsp",
		"2 x 1 tsp + 1/4 tsp": "2*1 tsp 1*1/4 tsp", "tbsp + tsp + dash": "1*1 tbsp 1*1 tsp 1*1/8 tsp",
		"blue scoop": "1*blue scoop", "BLUE  scoop": "1*blue scoop", "2 blue scoop": "2*blue scoop",
		"2 x blue scoop": "2*blue scoop",
		"7 tip":          "1*7 tip", "2 x 7 tip": "2*7 tip", "grey + small": "1*grey + small",
	} {
		got, err := s.Amount(text, "20 g")
		require.NoError(t, err, text)
		require.Equal(t, want, count(got.Spoons), text)
	}
	for _, text := range []string{
		"", "ladle", "2 ladles", "0 tsp", "0 x 1 tsp", "1/3 tsp", "21/4 tsp", "1 tsp +",
		"2 1 tsp", "-1 tsp", "1000001 x 1 tsp", "99999999999999999999 tsp", "1/0 tsp", "Ⱥ x 1 tsp",
	} {
		_, err := s.Amount(text, "20 g")
		require.Error(t, err, text)
	}

	names, err := s.List("1 tsp, 1/2tsp; pinch,tsp")
	require.NoError(t, err)
	require.Equal(t, []string{"1 tsp", "1/2 tsp", "1/16 tsp"}, names)
	_, err = s.List("1 tsp, 2 tsp")
	require.ErrorContains(t, err, `"2 tsp" is no level spoon: type it like 1/2 tsp; there are 1 tbsp, blue scoop, `)
	names, err = s.List(" ")
	require.NoError(t, err)
	require.Nil(t, names)
}

func TestAmount(t *testing.T) {
	s := SpoonsOf(own)
	for text, want := range map[string]string{
		"20": "20 g", "1.5 kg": "1500 g", "2,28": "2.28 g", "4 x 1 tsp": "4*1 tsp", "1 1/2 tsp": "1*1 tsp 1*1/2 tsp",
		"0": "0 g",
	} {
		a, err := s.Amount(text, "20 g")
		require.NoError(t, err, text)
		got := count(a.Spoons)
		if a.Spoons == nil {
			got = model.Number(a.Grams) + " g"
		}
		require.Equal(t, want, got, text)
	}
	for text, want := range map[string]string{
		"1,234": `is "1,234" 1.234 or 1234? type it with a point or without the comma`,
		"lots":  `"lots" is neither a number of grams nor level spoons: type it like 20 g`,
		"-4 g":  `"-4 g" is below 0: type it like 20 g`,
		"":      `nothing was typed: type it like 20 g`,
	} {
		_, err := s.Amount(text, "20 g")
		require.EqualError(t, err, want)
	}
	for text, want := range map[string]string{
		"4 x 1 tsp": "4 1 tsp true", "1 1/2 tsp": "3 1/2 tsp true", "1 tsp + 1 tsp": "2 1 tsp true",
		"3/4 tsp + 1/2 tsp": "0  false",
		"1 tbsp + 1 tsp":    "0  false", "2 blue scoop": "2 blue scoop true", "1 tsp + blue scoop": "0  false",
		"20 g": "0  false",
	} {
		a, err := s.Amount(text, "20 g")
		require.NoError(t, err, text)
		spoon, n, ok := a.OneSize()
		require.Equal(t, want, fmt.Sprintf("%d %s %v", n, spoon, ok), text)
	}
}

// The readers take everything that daub prints.
func TestWhatIsPrintedIsReadBack(t *testing.T) {
	spoons := SpoonsOf(own)
	rapid.Check(t, func(t *rapid.T) {
		v := model.RoundSignificant(rapid.Float64Range(0, 99999).Draw(t, "v"), rapid.IntRange(1, 9).Draw(t, "digits"))
		if model.Tiny(v) {
			v = 0 // what is smaller than anything at a bench is refused
		}
		for _, text := range []string{model.Number(v), model.Number(v) + " g"} {
			got, err := Mass(text, "20 g")
			require.NoError(t, err)
			require.Equal(t, v, got)
		}
		got, err := Mass(model.Grams(v)+" g", "20 g")
		require.NoError(t, err)
		require.InDelta(t, v, got, 0.0501)

		share := rapid.Float64Range(0, 0.999).Draw(t, "share")
		got, err = Share(model.Significant(100*share, 4)+" %", "3 %")
		require.NoError(t, err)
		require.InDelta(t, share, got, 1e-3)

		half := rapid.Float64Range(0.001, 1.9).Draw(t, "half")
		got, err = Precision(bench.PlusMinus(half))
		require.NoError(t, err)
		require.InEpsilon(t, half, got, 0.06)

		wait := rapid.IntRange(0, model.MaxRestS).Draw(t, "wait")
		s, err := Rest(model.Seconds(wait))
		require.NoError(t, err)
		require.Equal(t, wait, s)

		level := rapid.SampledFrom(model.CurveLevels()).Draw(t, "level")
		got, err = Target(model.LevelName(level))
		require.NoError(t, err)
		require.Equal(t, level, got)
		got, err = Target(" " + strings.ToUpper(model.LevelWord(level)))
		require.NoError(t, err)
		require.Equal(t, level, got)
		got, err = Reading(model.LevelName(level), 0.5)
		require.NoError(t, err)
		require.Equal(t, level, got)

		sum := kitchen.SpoonSum{}
		for _, name := range rapid.SliceOfNDistinct(rapid.SampledFrom(spoons), 1, 4, rapid.ID).Draw(t, "spoons") {
			sum.Spoons = append(sum.Spoons,
				model.SpoonCount{Spoon: name, Count: rapid.IntRange(1, maxCount).Draw(t, "n")})
		}
		read, err := spoons.Amount(sum.String(), "20 g")
		require.NoError(t, err)
		require.Equal(t, sum.Spoons, read.Spoons)
	})
}

// Whatever is typed, a reader gives a value within its limits, or an error that shows how
// the field is typed.
func FuzzReaders(f *testing.F) {
	for _, text := range []string{
		"2,28", "1.5 kg", "0:30", "3 %", "1 1/2 tsp", "2 x 1/4 tsp", "±10 %", "5 spread",
		"oil 3 %, honey 1%", "1,234", "Ⱥ x 1 tsp", "½",
	} {
		f.Add(text)
	}
	spoons := SpoonsOf(own)
	f.Fuzz(func(t *testing.T, text string) {
		within := func(low, high float64) func(v float64, err error) {
			return func(v float64, err error) {
				if err != nil {
					require.Contains(t, err.Error(), "type ")
					return
				}
				require.GreaterOrEqual(t, v, low, "%q", text)
				require.LessOrEqual(t, v, high, "%q", text)
			}
		}
		const huge = math.MaxFloat64
		within(0, huge)(Mass(text, "20 g"))
		within(0, huge)(Volume(text, "60 mL"))
		within(0, 25)(Density(text))
		within(-20, 100)(Temperature(text))
		within(0, 100)(Resolution(text))
		within(0, 1)(Share(text, "3 %"))
		within(0, 2)(Precision(text))
		within(0, huge)(Part(text))
		within(1, 6)(Target(text))
		within(0, 7)(Reading(text, 0.5))
		s, err := Rest(text)
		within(0, model.MaxRestS)(float64(s), err)
		n, err := Count(text, "10")
		within(0, maxCount)(float64(n), err)
		share, grams, err := Allowance(text)
		within(0, huge)(share+grams, err)
		extras, err := Extras(text, "oil 3 %")
		for _, e := range extras {
			within(0, 1)(e.Share, err)
		}
		a, err := spoons.Amount(text, "20 g")
		within(0, huge)(a.Grams, err)
		for _, c := range a.Spoons {
			within(1, maxSpoons)(float64(c.Count), nil)
			require.Contains(t, spoons, c.Spoon)
		}
		if spoon, n, ok := a.OneSize(); ok {
			require.Positive(t, n)
			require.Contains(t, spoons, spoon)
		}
		list, err := spoons.List(text)
		within(0, huge)(float64(len(list)), err)
		masses, err := Masses(text, "2.3 g")
		within(0, huge)(float64(len(masses)), err)
	})
}

func TestAnAmountIsNoLiquid(t *testing.T) {
	for _, name := range []string{"water", "7 herbs tea", "E 200", "g"} {
		got, err := Liquid(name)
		require.NoError(t, err)
		require.Equal(t, name, got)
	}
	for _, amount := range []string{"200", "20 g", "0,5 kg", "-3", ""} {
		_, err := Liquid(amount)
		require.ErrorContains(t, err, "name", amount)
	}
	trial := model.Trial{Liquid: "oil", LiquidDensity: 0.9}
	for _, f := range TrialFacts() {
		if f.Key == "liquid" {
			require.Error(t, f.Set(&trial, "200"))
		}
	}
	require.Equal(t, model.Trial{Liquid: "oil", LiquidDensity: 0.9}, trial)
}

func TestWeighings(t *testing.T) {
	for text, want := range map[string]struct {
		filled string
		grams  []float64
	}{
		"2.31 2,28":       {"", []float64{2.31, 2.28}},
		"Tapped 2.9 2.8g": {"tapped", []float64{2.9, 2.8}},
		"packed: 3.1 g":   {"packed", []float64{3.1}},
		"loose, 2.3":      {"loose", []float64{2.3}},
		"":                {"", nil},
	} {
		filled, grams, err := Weighings(text, "2.3 g")
		require.NoError(t, err, text)
		require.Equal(t, want.filled, filled, text)
		require.Equal(t, want.grams, grams, text)
	}
	for _, text := range []string{"tapped", "heaped 2.9", "tapped loose 2", "tapped -1", "packed 0"} {
		_, _, err := Weighings(text, "2.3 g")
		require.Error(t, err, text)
	}
}
