package model_test

import (
	"testing"

	"daub.example/daub/model"
	"github.com/stretchr/testify/assert"
)

func TestSuggest(t *testing.T) {
	keys := []string{"level", "level_step", "liquid", "liquid_g"}
	assert.Equal(t, "level", model.Suggest("levl", keys)[0])
	assert.Equal(t, "level_step", model.Suggest("levelstep", keys)[0])
	assert.Equal(t, "liquid_g", model.Suggest("liquid_gr", keys)[0])
	assert.Empty(t, model.Suggest("weather", keys))
}

func TestMisspelt(t *testing.T) {
	known := []string{"honey", "oil", "vinegar", "citric acid", "ascorbic"}
	for text, want := range map[string]string{
		"honny": "honey", "Hoeny": "honey", "wild honny": "honey", "vinigar": "vinegar", "citirc acid": "citric acid",
		"citrik acyd": "citric acid", "soil": "", "honey": "", "moonwort": "", "": "",
	} {
		assert.Equal(t, want, model.Misspelt(text, known), text)
	}
}

// Acids by name are sour enough to make a carbonate foam, and what only sounds like one
// is none.
func TestAcidsByName(t *testing.T) {
	for _, name := range []string{
		"vinegar", "Citric acid 10 %", "AHA", "fruit acids", "mandelic acid", "lemon juice", "red wine", "cider",
		"rose hip", "hibiscus tea", "sour cherry juice", "apple juice", "vitamin C", "kefir", "verjuice", "amla",
		"apple cider vinegar", "sea buckthorn juice",
	} {
		assert.True(t, model.IsAcid(name), name)
	}
	for _, name := range []string{
		"water", "honey", "hyaluronic acid", "stearic acid", "amino acids", "lemon essential oil", "rose hip oil",
		"orange clay", "raspberry leaf", "grape seed oil", "wine red clay", "slaked lime", "orange chalk",
		"sea buckthorn oil", "sahara sand",
	} {
		assert.False(t, model.IsAcid(name), name)
	}
}
