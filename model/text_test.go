package model_test

import (
	"math"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/fit"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// The first letter may be longer than a byte.
func TestCapital(t *testing.T) {
	for text, want := range map[string]string{"": "", "clay": "Clay", "écru clay": "Écru clay", "öl": "Öl"} {
		assert.Equal(t, want, model.Capital(text))
	}
}

func TestSignificant(t *testing.T) {
	inf := math.Inf(1)
	for _, tt := range []struct {
		v    float64
		n    int
		want string
	}{
		{1.9349, 3, "1.93"},
		{0.6263, 3, "0.626"},
		{0.05, 3, "0.0500"},
		{12.345, 3, "12.3"},
		{123.45, 3, "123"},
		{1234.5, 3, "1230"},
		{123456, 2, "120000"},
		{9.996, 3, "10.0"}, // rounding up a digit is not one more digit
		{0.9996, 3, "1.00"},
		{99.96, 3, "100"},
		{1, 1, "1"},
		{-2.345, 2, "-2.3"},
		{0, 3, "0"},
		{math.Copysign(0, -1), 3, "0"},
		{1e-9, 3, "1e-09"},
		{1.2345e15, 3, "1.23e+15"},
		{1e308, 3, "1e+308"},
		{5e-324, 3, "4.94e-324"},
		{inf, 3, "+Inf"},
		{-inf, 3, "-Inf"},
		{math.NaN(), 3, "NaN"},
	} {
		assert.Equal(t, tt.want, model.Significant(tt.v, tt.n), "%v to %d", tt.v, tt.n)
	}
	assert.Equal(t, "4.76", model.RatioText(4.7645))
}

func TestRoundSignificant(t *testing.T) {
	for _, tt := range []struct {
		v    float64
		n    int
		want float64
	}{
		{1.93456, 4, 1.935},
		{0.000123456, 4, 0.0001235},
		{123456, 4, 123500},
		{0, 4, 0},
		{-9.9996, 4, -10},
		{math.Inf(1), 4, math.Inf(1)},
		{1e308, 1, 1e308},
		{math.MaxFloat64, 1, math.MaxFloat64}, // 2e308 is beyond all bounds
	} {
		assert.Equal(t, tt.want, model.RoundSignificant(tt.v, tt.n), "%v to %d", tt.v, tt.n)
	}
	assert.True(t, math.IsNaN(model.RoundSignificant(math.NaN(), 4)))
	rapid.Check(t, func(rt *rapid.T) {
		v, n := rapid.Float64Range(1e-6, 1e6).Draw(rt, "v"), rapid.IntRange(1, 8).Draw(rt, "n")
		once := model.RoundSignificant(v, n)
		assert.InEpsilon(rt, v, once, 5.001*math.Pow(10, float64(-n)))
		assert.Equal(rt, once, model.RoundSignificant(once, n), "rounding again changes nothing")
	})
}

func TestGrams(t *testing.T) {
	for g, want := range map[float64]string{
		0: "0.00", 1.425: "1.43", 20: "20.00", 99.99: "99.99", 99.996: "100.0", 100: "100.0", 1234.56: "1234.6",
		-0.001: "0.00", -2.5: "-2.50", math.Inf(1): "+Inf",
	} {
		assert.Equal(t, want, model.Grams(g))
	}
	assert.Equal(t, "NaN", model.Grams(math.NaN()))
}

func TestNumber(t *testing.T) {
	for v, want := range map[float64]string{
		0: "0", 1: "1", 0.5: "0.5", 2.35: "2.35", 100000: "100000", 1e6: "1000000", 0.0001: "0.0001",
		0.00001: "0.00001",
		-1.5:    "-1.5", 1e300: "1e+300", math.Inf(-1): "-Inf",
	} {
		assert.Equal(t, want, model.Number(v))
	}
	assert.Equal(t, "NaN", model.Number(math.NaN()))
}

func TestSeconds(t *testing.T) {
	for s, want := range map[int]string{
		0: "0 s", 30: "30 s", 60: "1 min", 120: "2 min", 150: "2 min 30 s",
		3601: "60 min 1 s", 5400: "90 min", 7200: "2 h", 28800: "8 h", 30600: "8 h 30 min", 7201: "2 h 1 s",
	} {
		assert.Equal(t, want, model.Seconds(s))
	}
}

func TestBoundText(t *testing.T) {
	inf := math.Inf(1)
	assert.Equal(t, "less than 2.50", bench.BoundText(fit.Bound{High: 2.5}))
	assert.Equal(t, "more than 0.400", bench.BoundText(fit.Bound{Low: 0.4, High: inf}))
	assert.Equal(t, "between 0.400 and 2.50", bench.BoundText(fit.Bound{Low: 0.4, High: 2.5}))
	assert.Equal(t, "unknown", bench.BoundText(fit.Bound{High: inf}))
}

func TestIntervalText(t *testing.T) {
	inf := math.Inf(1)
	assert.Equal(t, "more than 1.71", bench.IntervalText(fit.Interval{Median: inf, Low: 1.7149, High: inf}))
	assert.Equal(t, "less than 2.20", bench.IntervalText(fit.Interval{High: 2.1951}))
	for _, v := range []fit.Interval{{Median: inf, Low: inf, High: inf}, {Median: inf, High: inf}, {}} {
		assert.Equal(t, "?", bench.IntervalText(v))
	}
	assert.Equal(t, "1.71 to 2.20", bench.RangeText(fit.Interval{Median: 1.9312, Low: 1.7149, High: 2.1951}))
	assert.Equal(t, "1.71 or more", bench.RangeText(fit.Interval{Median: 1.9312, Low: 1.7149, High: inf}))
	assert.Equal(t, "1.93 (1.71 to 2.20)", bench.IntervalText(fit.Interval{Median: 1.9312, Low: 1.7149, High: 2.1951}))
}

func TestTerms(t *testing.T) {
	terms := bench.BudgetTerms(fit.Budget{
		Looks: 0.3, SpoonWeight: 0.4, Scoops: 0.004, Liquid: 0.005, SpoonSize: 0.141,
		Repeats: 0.15,
	})
	var keys []string
	for _, term := range terms {
		keys = append(keys, term.Key)
		assert.NotEmpty(t, term.Name)
		assert.NotEmpty(t, term.Shrink)
	}
	assert.Equal(t, []string{"spoon_weight", "looks", "repeats", "spoon_size", "liquid"}, keys,
		"largest first, none below half a percent")
	assert.Equal(t, 0.4, terms[0].Share)

	// Equal shares stand in the order METHOD names them.
	terms = bench.BudgetTerms(fit.Budget{Looks: 0.2, SpoonWeight: 0.2, Scoops: 0.2, PowderScale: 0.2, Liquid: 0.2})
	assert.Equal(t, "looks", terms[0].Key)
	assert.Equal(t, "liquid", terms[4].Key)
	assert.Empty(t, bench.BudgetTerms(fit.Budget{}))
}
