package care_test

import (
	"slices"
	"strings"
	"testing"

	"daub.example/daub/model"
	"daub.example/daub/model/care"
	"github.com/stretchr/testify/assert"
)

// Dust and microbes go with every powder; the rest with its family. pH of a
// swelling clay: USP-NF, bentonite, 9.5 to 10.5.
func TestCautions(t *testing.T) {
	of := func(p model.Powder) string { return strings.Join(care.Of(p), "\n") }
	for _, f := range append(model.Families(), "") {
		said := of(model.Powder{Family: f})
		assert.True(t, strings.HasPrefix(said, "Fine dust"), f)
		assert.Contains(t, said, "Microbes", f)
		assert.NotContains(t, said, "metal", f)
		assert.Contains(t, care.Words(model.Powder{Family: f}), "dust")
	}
	clays := []model.Family{model.PlainClay, model.SwellingClay, model.Mineral}
	for _, f := range model.Families() {
		assert.Equal(t, slices.Contains(clays, f), strings.Contains(of(model.Powder{Family: f}), "silica"), f)
	}
	// USP-NF; chalk from memory; 29 CFR 1910.1053 (secondary source); FDA draft guidance of December 2016.
	assert.Contains(t, of(model.Powder{Family: model.SwellingClay}), "pH 9.5 to 10.5")
	assert.Contains(t, of(model.Powder{Family: model.Mineral}), "pH 8 to 10")
	assert.Contains(t, of(model.Powder{Family: model.Mineral}), "50 µg/m³ over 8 h")
	assert.Contains(t, of(model.Powder{Family: model.PlainClay}), "10 ppm")
	assert.Contains(t, of(model.Powder{Family: model.Starch}), "allergies")
	assert.Contains(t, of(model.Powder{Family: model.Botanical}), "patch test")
	assert.Contains(t, of(model.Powder{KeepFromMetal: true}), "Keep from metal")
	metal := model.Powder{KeepFromMetal: true, Family: model.SwellingClay}
	assert.Equal(t, "no metal, dust, alkaline", care.Words(metal), "metal does not hide the dust")
	assert.Contains(t, care.Deferral, "licensed practice")
}
