package model

import (
	"slices"
	"strings"
	"unicode"
)

// scents are words for what is scent and nothing else; it irritates skin in larger amounts.
var scents = []string{
	"essential oil", "tea tree", "fragrance", "perfume", "absolute", "otto", "attar", "neroli", "petitgrain",
}

// scentedPlants lists plants whose oil is an essential oil unless the name says otherwise
// (chosen: what is usually sold).
var scentedPlants = []string{
	"lavender", "lavandin", "lemon", "lime", "orange", "mandarin", "tangerine", "grapefruit", "bergamot", "citrus",
	"lemongrass", "citronella", "verbena", "melissa", "cinnamon", "cassia", "clove", "nutmeg", "cardamom", "ginger",
	"pepper", "anise", "aniseed", "fennel", "caraway", "coriander", "mint", "peppermint", "spearmint", "menthol",
	"eucalyptus", "cajeput", "niaouli", "manuka", "camphor", "rosemary", "thyme", "oregano", "marjoram", "basil",
	"sage", "clary sage", "laurel", "bay", "myrtle", "hyssop", "chamomile", "camomile", "yarrow", "helichrysum",
	"geranium", "palmarosa", "rose", "jasmine", "ylang", "patchouli", "vetiver", "sandalwood", "cedar", "cedarwood",
	"pine", "fir", "spruce", "juniper", "cypress", "turpentine", "frankincense", "myrrh", "benzoin", "wintergreen",
	"birch",
}

// IsEssentialOil reports whether the extra, by its name, is an essential oil or a fragrance.
func (e Extra) IsEssentialOil() bool {
	if hasWord(e.Name, scents...) {
		return true
	}
	fixed := hasWord(e.Name, "hip", "petal", "infused", "infusion", "macerate", "macerated", "macerat")
	return fat(e.Name) && !fixed && hasWord(e.Name, scentedPlants...)
}

// extraKind is a line of the table of words.
type extraKind struct {
	counts Counts
	like   string // the liquid whose density it has; "" the usual one
	role   Role   // 0 as it counts
	words  []string
}

// extraKinds is the table of words. The first line with a word of the name counts, so that
// "milk powder" is dry. A fat, by fatWords, needs no other line.
var extraKinds = []extraKind{
	{CountsLiquid, "", 0, []string{"solution"}},
	{CountsDry, "", Preservative, []string{"sorbate", "benzoate"}},
	{CountsLiquid, "", Preservative, []string{"preservative", "phenoxyethanol", "benzyl alcohol"}},
	{CountsLiquid, "", Solubiliser, []string{"polysorbate", "solubiliser", "solubilizer", "glucoside", "surfactant"}},
	{CountsDry, "", 0, []string{
		"powder", "powdered", "ground", "flour", "starch", "clay", "salt", "sugar", "sand", "chalk", "oxide", "mica",
		"pigment", "ochre", "soda", "bicarbonate", "carbonate", "charcoal", "oats", "oatmeal", "bran", "seed", "petal",
		"leaf", "leaves", "herb", "gum", "xanthan", "cream of tartar", "citric acid", "ascorbic acid", "tartaric acid",
		"malic acid", "urea", "allantoin", "cinnamon", "turmeric", "cocoa", "coffee grounds", "pumice", "silica",
	}},
	{CountsLiquid, "milk", 0, []string{
		"buttermilk", "coconut milk", "oat milk", "almond milk", "milk", "yoghurt", "yogurt", "kefir", "whey",
	}},
	{CountsOil, "vegetable oil", 0, []string{
		"oil", "butter", "wax", "beeswax", "lanolin", "squalane", "vitamin e", "tocopherol", "jojoba",
		"argan", "shea", "fragrance", "perfume", "tea tree", "absolute", "otto", "attar", "neroli", "petitgrain",
		"lecithin", "ester", "silicone",
	}},
	{CountsLiquid, "honey", 0, []string{"honey", "syrup", "molasses", "treacle", "agave"}},
	{CountsLiquid, "glycerine", 0, []string{"glycerine", "glycerin", "glycerol", "glycerite", "sorbitol"}},
	{CountsLiquid, "vinegar", 0, []string{"vinegar"}},
	{CountsLiquid, "hydrosol", 0, []string{
		"water", "rosewater", "hydrosol", "hydrolate", "infusion", "decoction", "tea", "coffee", "juice", "aloe",
		"aloe vera", "witch hazel", "lemon", "lime", "cream", "egg", "beer", "wine", "cider", "verjuice", "kombucha",
		"propanediol", "glycol", "panthenol", "lactic acid", "alcohol", "ethanol", "vodka", "tincture", "puree", "gel",
	}},
}

// fatWords name a fat where a name ends in them, whatever it is made of: "cinnamon oil",
// "cocoa butter".
var fatWords = []string{"oil", "butter", "wax", "absolute"}

// fat reports whether a name, up to its first comma or bracket, ends in a word for a fat,
// or begins "oil of".
func fat(name string) bool {
	if at := strings.IndexAny(name, ",;:("); at > 0 {
		name = name[:at]
	}
	words := strings.FieldsFunc(strings.ToLower(name), func(r rune) bool { return !unicode.IsLetter(r) })
	n := len(words)
	return n > 0 && hasWord(words[n-1], fatWords...) || n > 2 && words[0] == "oil" && words[1] == "of"
}

// extraWord finds the line of the table that the name is on.
func extraWord(name string) (extraKind, bool) {
	if fat(name) {
		return extraKind{counts: CountsOil, like: "vegetable oil"}, true
	}
	for _, k := range extraKinds {
		if hasWord(name, k.words...) {
			return k, true
		}
	}
	return extraKind{}, false
}

// hasWord reports whether one of the words stands in the text by itself, or in the plural
// with s; case does not count.
func hasWord(text string, words ...string) bool {
	text = " " + strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return !unicode.IsLetter(r)
	}), " ") + " "
	return slices.ContainsFunc(words, func(w string) bool {
		return strings.Contains(text, " "+w+" ") || strings.Contains(text, " "+w+"s ")
	})
}
