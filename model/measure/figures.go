package measure

// Figure is a number quoted in a caution, with its source.
type Figure struct {
	Low, High  float64 // the same for a single value
	Unit       string  // "" for pH
	Source     string
	FromMemory bool // not confirmed in the source
}

// The figures that cautions speak of. Local rules, the supplier's safety data
// sheet and licensed practice come before any of them.
var (
	// SwellingClayPH is the pH of 4.0 g of bentonite in 200 mL of water.
	SwellingClayPH = Figure{Low: 9.5, High: 10.5, Source: "USP-NF, Bentonite"}
	// ChalkPH is the pH of a paste with chalk.
	ChalkPH = Figure{Low: 8, High: 10, Source: "common knowledge", FromMemory: true}
	// SkinPH is the natural mean of the skin's surface.
	SkinPH = Figure{Low: 4.7, High: 4.7, Source: "Lambers et al. 2006, Int. J. Cosmet. Sci. 28, 359-370"}
	// VinegarAcid is the least acid that may be sold as vinegar.
	VinegarAcid = Figure{Low: 4, High: 4, Unit: "g acetic acid per 100 mL", Source: "FDA CPG 525.825"}
	// SilicaDust is the permissible exposure limit for respirable crystalline silica.
	SilicaDust = Figure{
		Low: 50, High: 50, Unit: "µg/m³ over 8 h", Source: "29 CFR 1910.1053 (secondary source)",
	}
	// SkinLead is the recommended maximum in cosmetics put on the skin.
	SkinLead = Figure{Low: 10, High: 10, Unit: "ppm", Source: "FDA draft guidance, December 2016"}
)
