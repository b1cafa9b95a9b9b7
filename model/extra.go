package model

import (
	"slices"
	"strings"
	"unicode"
)

// Counts is what an extra is in a paste: liquid is part of what the powder
// takes up, oil and dry ride along.
type Counts string

// What an extra may count as.
const (
	CountsLiquid Counts = "liquid" // water-like: thins the paste as the liquid does
	CountsOil    Counts = "oil"    // its own phase
	CountsDry    Counts = "dry"
)

// CountsAs lists what an extra may count as.
func CountsAs() []Counts { return []Counts{CountsLiquid, CountsOil, CountsDry} }

// Role is when an extra goes in (chosen: common practice at the bench).
type Role int

// The roles, in the order of addition.
const (
	WithPowders  Role = iota // dry extras
	WithLiquid               // the water phase
	Solubiliser              // stirred into its oil
	OilPhase                 //
	Preservative             // last
)

// Extra is something else in a batch, as its share of the total.
type Extra struct {
	Name   string
	Share  float64 // of the total, above 0; all extras together below 1
	Counts Counts  // the maker's word; "" leaves it to the table of words
	Notes  string
}

// Usual is what the table of words takes the extra for; known is false for a
// name that it does not have, which then is to be asked about, and counts as
// liquid until it is.
func (e Extra) Usual() (c Counts, known bool) {
	if w, ok := extraWord(e.Name); ok {
		return w.counts, true
	}
	return CountsLiquid, false
}

// Kind is what the extra counts as: the maker's word, else the usual one.
func (e Extra) Kind() Counts {
	if e.Counts != "" {
		return e.Counts
	}
	c, _ := e.Usual()
	return c
}

// WithKind is the extra with what it counts as written down.
func (e Extra) WithKind() Extra {
	e.Counts = e.Kind()
	return e
}

// Density is the extra's, g/mL: its liquid's, or the usual one of what it
// counts as (dry 1.5, chosen).
func (e Extra) Density() float64 {
	kind := e.Kind()
	if w, ok := extraWord(e.Name); ok && w.counts == kind && w.like != "" {
		density, _ := LiquidDensity(w.like, DefaultTemperatureC)
		return density
	}
	switch kind {
	case CountsDry:
		return 1.5
	case CountsOil:
		density, _ := LiquidDensity("vegetable oil", DefaultTemperatureC)
		return density
	default:
		return 1
	}
}

// Role is when the extra goes in.
func (e Extra) Role() Role {
	if w, ok := extraWord(e.Name); ok && w.role != 0 {
		return w.role
	}
	switch e.Kind() {
	case CountsDry:
		return WithPowders
	case CountsOil:
		return OilPhase
	default:
		return WithLiquid
	}
}

// IsEssentialOil reports whether the extra is one that irritates skin where
// there is much of it.
func (e Extra) IsEssentialOil() bool {
	return hasWord(e.Name, "essential oil", "tea tree", "fragrance", "fragrance oil", "perfume", "absolute")
}

// Unsorted lists the extras whose name the table of words does not have and of
// which the maker has not said what they count as.
func Unsorted(extras []Extra) []string {
	var names []string
	for _, e := range extras {
		if _, known := e.Usual(); !known && e.Counts == "" {
			names = append(names, e.Name)
		}
	}
	return names
}

// extraKind is a line of the table of words.
type extraKind struct {
	counts Counts
	like   string // the liquid whose density it has; "" the usual one
	role   Role   // 0 as it counts
	words  []string
}

// extraKinds is the table of words. The first line with a word of the name
// counts, so that "milk powder" is dry and "cocoa butter" an oil.
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
	{CountsLiquid, "milk", 0, []string{"buttermilk", "coconut milk", "oat milk", "almond milk", "milk", "yoghurt", "yogurt", "kefir"}},
	{CountsOil, "vegetable oil", 0, []string{
		"oil", "butter", "cocoa butter", "wax", "beeswax", "lanolin", "squalane", "vitamin e", "tocopherol", "jojoba",
		"argan", "shea", "fragrance", "perfume", "tea tree", "absolute", "lecithin", "ester", "silicone",
	}},
	{CountsLiquid, "honey", 0, []string{"honey", "syrup", "molasses", "treacle", "agave"}},
	{CountsLiquid, "glycerine", 0, []string{"glycerine", "glycerin", "glycerol", "glycerite", "sorbitol"}},
	{CountsLiquid, "vinegar", 0, []string{"vinegar"}},
	{CountsLiquid, "hydrosol", 0, []string{
		"water", "rosewater", "hydrosol", "hydrolate", "infusion", "decoction", "tea", "coffee", "juice", "aloe", "aloe vera",
		"witch hazel", "lemon", "lime", "cream", "egg", "beer", "wine", "propanediol", "glycol", "panthenol", "lactic acid",
		"alcohol", "ethanol", "vodka", "tincture", "puree", "gel",
	}},
}

// extraWord is the line of the table that the name is on.
func extraWord(name string) (extraKind, bool) {
	for _, k := range extraKinds {
		if hasWord(name, k.words...) {
			return k, true
		}
	}
	return extraKind{}, false
}

// hasWord reports whether one of the words stands in the text by itself, or
// with the s of several; case does not count.
func hasWord(text string, words ...string) bool {
	text = " " + strings.Join(strings.FieldsFunc(strings.ToLower(text), func(r rune) bool {
		return !unicode.IsLetter(r)
	}), " ") + " "
	return slices.ContainsFunc(words, func(w string) bool {
		return strings.Contains(text, " "+w+" ") || strings.Contains(text, " "+w+"s ")
	})
}
