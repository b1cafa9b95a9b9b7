package data

// kind is what may stand behind a key.
type kind int

const (
	kindText     kind = iota
	kindDecimal       // a whole number will do
	kindWhole         // 2, not 2.0
	kindFlag          // true or false
	kindMoment        // a date and time with its offset from UTC
	kindTexts         // a list of text
	kindDecimals      // a list of numbers
	kindTable         // [key]
	kindTables        // [[key]]
	kindReserved      // kept for later work: anything, untouched
)

// key is one key of a table: its kind, and what more is known of it.
type key struct {
	name     string
	kind     kind
	required bool
	// nonzero: 0 would be taken for "left out", so nobody may write it.
	nonzero bool
	example string // how the line looks, for advice
	keys    []key  // of a table
}

// profileKeys is the file of one powder and lot, in the order it is written.
var profileKeys = []key{
	{name: "schema", kind: kindWhole, required: true, example: "schema = 1"},
	{name: "powder", kind: kindTable, required: true, example: "[powder]", keys: []key{
		{name: "name", kind: kindText, required: true, example: `name = "Fine oat flour"`},
		{name: "lot", kind: kindText, example: `lot = "2026-04"`},
		{name: "family", kind: kindText, example: `family = "flour"`},
		{name: "solid_density", kind: kindDecimal, nonzero: true, example: "solid_density = 1.5"},
		{name: "keep_from_metal", kind: kindFlag, example: "keep_from_metal = false"},
		{name: "notes", kind: kindText, example: `notes = "from the back shelf"`},
	}},
	{name: "level_spoon", kind: kindTables, example: "[[level_spoon]]", keys: []key{
		{name: "spoon", kind: kindText, example: `spoon = "1 tsp"`},
		{name: "grams", kind: kindDecimals, example: "grams = [2.31, 2.27]"},
		{name: "spoons_each", kind: kindWhole, nonzero: true, example: "spoons_each = 1"},
		{name: "resolution_g", kind: kindDecimal, nonzero: true, example: "resolution_g = 0.01"},
		{name: "volume_ml", kind: kindDecimal, nonzero: true, example: "volume_ml = 4.92892"},
		{name: "how", kind: kindText, example: `how = "struck off level"`},
	}},
	{name: "packing", kind: kindReserved},
	{name: "trial", kind: kindTables, example: "[[trial]]", keys: []key{
		{name: "started", kind: kindMoment, required: true, example: "started = 2026-05-03T10:12:00Z"},
		{name: "state", kind: kindText, example: `state = "done"`},
		{name: "set_aside", kind: kindText, example: `set_aside = "spilled"`},
		{name: "liquid", kind: kindText, example: `liquid = "water"`},
		{name: "liquid_g", kind: kindDecimal, required: true, example: "liquid_g = 20.00"},
		{name: "liquid_by", kind: kindText, example: `liquid_by = "weight"`},
		{name: "liquid_spoon", kind: kindText, example: `liquid_spoon = "1 tbsp"`},
		{name: "liquid_count", kind: kindWhole, example: "liquid_count = 1"},
		{name: "liquid_density", kind: kindDecimal, nonzero: true, example: "liquid_density = 0.998"},
		{name: "temperature_c", kind: kindDecimal, example: "temperature_c = 21.0"},
		{name: "resolution_g", kind: kindDecimal, nonzero: true, example: "resolution_g = 0.01"},
		{name: "spoon_set", kind: kindText, example: `spoon_set = "us"`},
		{name: "spoons", kind: kindTexts, example: `spoons = ["1 tsp", "1/2 tsp"]`},
		{name: "aim", kind: kindDecimal, nonzero: true, example: "aim = 5.0"},
		{name: "level_step", kind: kindDecimal, nonzero: true, example: "level_step = 1.0"},
		{name: "tolerance", kind: kindDecimal, nonzero: true, example: "tolerance = 0.12"},
		{name: "rest_s", kind: kindWhole, example: "rest_s = 120"},
		{name: "step", kind: kindTables, example: "[[trial.step]]", keys: []key{
			{name: "at", kind: kindMoment, example: "at = 2026-05-03T10:13:10Z"},
			{name: "add", kind: kindText, required: true, example: `add = "powder"`},
			{name: "spoon", kind: kindText, example: `spoon = "1/2 tsp"`},
			{name: "count", kind: kindWhole, example: "count = 1"},
			{name: "grams", kind: kindDecimal, example: "grams = 1.14"},
			{name: "level", kind: kindDecimal, example: "level = 3.0"},
			{name: "rested_s", kind: kindWhole, example: "rested_s = 120"},
			{name: "marks", kind: kindTexts, example: `marks = ["sinks"]`},
			{name: "note", kind: kindText, example: `note = "stirred twice"`},
		}},
		{name: "later", kind: kindReserved},
		{name: "acid", kind: kindReserved},
		{name: "measured", kind: kindReserved},
	}},
	{name: "ratio", kind: kindTables, example: "[[ratio]]", keys: []key{
		{name: "liquid", kind: kindText, example: `liquid = "water"`},
		{name: "rest_s", kind: kindWhole, example: "rest_s = 120"},
		{name: "level", kind: kindDecimal, example: "level = 5.0"},
		{name: "reach", kind: kindText, example: `reach = "bracketed"`},
		{name: "trials", kind: kindWhole, example: "trials = 1"},
		{name: "liquid_per_powder", kind: kindDecimal, example: "liquid_per_powder = 1.93"},
		{name: "low", kind: kindDecimal, example: "low = 1.61"},
		{name: "high", kind: kindDecimal, example: "high = 2.31"},
		{name: "next_low", kind: kindDecimal, example: "next_low = 1.48"},
		{name: "next_high", kind: kindDecimal, example: "next_high = 2.52"},
		{name: "bound_low", kind: kindDecimal, example: "bound_low = 1.2"},
		{name: "bound_high", kind: kindDecimal, example: "bound_high = 3.4"},
	}},
}

// spoonsKeys is the maker's own list of spoons.
var spoonsKeys = []key{
	{name: "spoon", kind: kindTables, example: "[[spoon]]", keys: []key{
		{name: "name", kind: kindText, required: true, example: `name = "blue scoop"`},
		{name: "volume_ml", kind: kindDecimal, required: true, example: "volume_ml = 2.4"},
		{name: "standard_uncertainty_ml", kind: kindDecimal, example: "standard_uncertainty_ml = 0.05"},
	}},
}

// findKey is the key of that name.
func findKey(keys []key, name string) (key, bool) {
	for _, k := range keys {
		if k.name == name {
			return k, true
		}
	}
	return key{}, false
}

func keyNames(keys []key) []string {
	out := make([]string, len(keys))
	for i, k := range keys {
		out[i] = k.name
	}
	return out
}
