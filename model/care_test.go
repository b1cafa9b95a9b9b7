package model_test

import (
	"slices"
	"strings"
	"testing"

	"daub.example/daub/model"
	"github.com/stretchr/testify/assert"
)

// Dust and microbes go with every powder; the rest with its family. pH of a
// swelling clay: USP-NF, bentonite, 9.5 to 10.5.
func TestCautions(t *testing.T) {
	of := func(p model.Powder) string { return strings.Join(p.Cautions(), "\n") }
	for _, f := range append(model.Families(), "") {
		said := of(model.Powder{Family: f})
		assert.True(t, strings.HasPrefix(said, "Fine dust"), f)
		assert.Contains(t, said, "Microbes", f)
		assert.NotContains(t, said, "metal", f)
		assert.Contains(t, model.Powder{Family: f}.CautionWord(), "dust")
	}
	clays := []model.Family{model.PlainClay, model.SwellingClay, model.Mineral}
	for _, f := range model.Families() {
		assert.Equal(t, slices.Contains(clays, f), strings.Contains(of(model.Powder{Family: f}), "silica"), f)
	}
	assert.Contains(t, of(model.Powder{Family: model.SwellingClay}), "9.5 to 10.5")
	assert.Contains(t, of(model.Powder{Family: model.Starch}), "allergies")
	assert.Contains(t, of(model.Powder{Family: model.Botanical}), "patch test")
	assert.Contains(t, of(model.Powder{KeepFromMetal: true}), "Keep from metal")
	assert.Equal(t, "no metal", model.Powder{KeepFromMetal: true}.CautionWord())
	assert.Contains(t, model.Deferral, "licensed practice")
}

// Handbook liquid limits (Mitchell & Soga, from memory): kaolinite 30 to
// 110 %, illite 60 to 120 %, halloysite 35 to 70 %; montmorillonite 100 to
// 900 %. A paste takes 1 to 2.5 times as much.
func TestPlausibility(t *testing.T) {
	low, high, ok := model.PlainClay.PlausibleRange()
	assert.True(t, ok)
	assert.InDelta(t, 0.30, low, 1e-12)
	assert.InDelta(t, 2.5*1.20, high, 1e-12)
	low, high, ok = model.SwellingClay.PlausibleRange()
	assert.True(t, ok)
	assert.InDelta(t, 1, low, 1e-12)
	assert.InDelta(t, 2.5*9, high, 1e-12)
	// Measured liquid limits lie in it: Na- and Ca-montmorillonite 309 % and
	// 219 % (Karakan 2022).
	assert.True(t, low < 2.19 && 3.09 < high)
	_, _, ok = model.Flour.PlausibleRange()
	assert.False(t, ok)

	kaolin := model.Powder{Family: model.PlainClay}
	assert.Contains(t, kaolin.Plausibility(" Water", 5, 5, 0)[0], "5.00 lies outside 0.3 to 3 g/g")
	assert.Empty(t, kaolin.Plausibility("vegetable oil", 5, 0.6, 0), "another liquid is another ratio")
	assert.Empty(t, kaolin.Plausibility("water", 3, 0.6, 0), "handbook values are for pastes near level 5")
	assert.Contains(t, kaolin.Plausibility("water", 2, 0.6, 2.7)[0], "as dense as the solid itself (2.6)")
	assert.Empty(t, kaolin.Plausibility("water", 2, 0.6, 0.9))
	assert.Empty(t, model.Powder{Family: model.Mineral}.Plausibility("water", 5, 1, 9), "no density to hold it against")
	assert.NotEmpty(t, model.Powder{Family: model.Mineral, SolidDensity: 5.6}.Plausibility("water", 5, 1, 9))
}
