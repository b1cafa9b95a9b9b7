package model_test

import (
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/internal/specimen"
	"github.com/stretchr/testify/assert"
)

// Tanaka et al. 2001, Metrologia 38, 301-309 (computed), kg/m³ to four
// decimals.
func TestWaterDensity(t *testing.T) {
	for celsius, kgPerM3 := range map[float64]float64{
		10: 999.7027, 15: 999.1026, 20: 998.2067, 25: 997.0470,
		30: 995.6488,
	} {
		assert.InDelta(t, kgPerM3, 1000*model.WaterDensity(celsius), 5e-5, "%v °C", celsius)
	}
}

// METHOD 2: other liquids at 20 °C, chosen.
func TestLiquidDensity(t *testing.T) {
	for name, want := range map[string]float64{
		"water": model.WaterDensity(25), " Water ": model.WaterDensity(25), "hydrosol": 1.00, "infusion": 1.00,
		"aloe juice": 1.00, "vinegar": 1.01, "milk": 1.03, "glycerine": 1.26, "Vegetable Oil": 0.92, "honey": 1.42,
	} {
		got, ok := model.LiquidDensity(name, 25)
		assert.True(t, ok, name)
		assert.Equal(t, want, got, name)
	}
	_, ok := model.LiquidDensity("rose syrup", 20)
	assert.False(t, ok, "anything else is asked for")
	for _, l := range model.Liquids() {
		got, ok := model.LiquidDensity(l.Name, model.DefaultTemperatureC)
		assert.True(t, ok)
		assert.Equal(t, l.DensityGML, got, l.Name)
	}
}

func TestTrialDensity(t *testing.T) {
	density := func(trial model.Trial) float64 {
		d, ok := trial.Density()
		assert.True(t, ok)
		return d
	}
	assert.Equal(t, model.WaterDensity(20), density(model.Trial{}))
	assert.Equal(t, model.WaterDensity(31), density(model.Trial{TemperatureC: specimen.Ptr(31.0)}))
	assert.Equal(t, 1.42, density(model.Trial{Liquid: "honey"}))
	assert.Equal(t, 1.36, density(model.Trial{Liquid: "honey", LiquidDensity: 1.36}), "the maker knows better")
	_, ok := model.Trial{Liquid: "rose syrup"}.Density()
	assert.False(t, ok)
}
