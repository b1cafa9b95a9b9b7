package model_test

import (
	"testing"

	"daub.example/daub/model"
	"github.com/stretchr/testify/assert"
)

// What a name ends in says what the thing is, whatever plant it is made of.
func TestOilIsOilWhateverItIsMadeOf(t *testing.T) {
	for name, want := range map[string]model.Counts{
		"cinnamon essential oil": model.CountsOil, "cinnamon oil": model.CountsOil, "rose petals oil": model.CountsOil,
		"Grape Seed Oil, cold pressed": model.CountsOil, "hemp seed oils": model.CountsOil,
		"oil of cinnamon": model.CountsOil, "cocoa butter": model.CountsOil, "coffee butter": model.CountsOil,
		"milk oil (2 %)": model.CountsOil, "rice bran wax": model.CountsOil, "rose petal absolute": model.CountsOil,
		"cinnamon": model.CountsDry, "oil powder": model.CountsDry, "rose petals": model.CountsDry,
		"oil solution": model.CountsLiquid, "buttermilk": model.CountsLiquid, "milk powder": model.CountsDry,
	} {
		counts, known := model.Extra{Name: name}.Usual()
		assert.Equal(t, want, counts, name)
		assert.True(t, known, name)
	}
}

// Oils that are distilled or pressed from scented plants irritate; the fat ones do not.
func TestEssentialOils(t *testing.T) {
	for name, want := range map[string]bool{
		"lavender oil": true, "lemon oil": true, "Cinnamon essential oil": true, "oil of cloves": true,
		"tea tree": true, "fennel seed oil": true,
		"sweet orange oil (5-fold)": true, "ylang ylang oil": true, "fragrance": true, "rose absolute": true,
		"rose otto": true, "lavender": false, "almond oil": false, "oat oil": false, "rose hip oil": false,
		"rosehip oil": false, "lavender infused oil": false, "rose petals oil": false,
		"lavender water": false, "lemon juice": false,
		"orange blossom honey": false, "lavender oil-free clay": false,
	} {
		assert.Equal(t, want, model.Extra{Name: name}.IsEssentialOil(), name)
	}
}
