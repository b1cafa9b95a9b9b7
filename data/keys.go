package data

// kind is what may stand behind a key.
type kind int

const (
	text     kind = iota
	decimal       // a whole number will do
	whole         // 2, not 2.0
	flag          // true or false
	moment        // a date and time with its offset from UTC
	texts         // a list of text
	decimals      // a list of numbers
	table         // [key]
	tables        // [[key]]
	reserved      // kept for later work: anything, untouched
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
	{name: "schema", kind: whole, required: true, example: "schema = 1"},
	{name: "powder", kind: table, required: true, example: "[powder]", keys: []key{
		{name: "name", kind: text, required: true, example: `name = "Fine oat flour"`},
		{name: "lot", kind: text, example: `lot = "2026-04"`},
		{name: "family", kind: text, example: `family = "flour"`},
		{name: "solid_density", kind: decimal, nonzero: true, example: "solid_density = 1.5"},
		{name: "keep_from_metal", kind: flag, example: "keep_from_metal = false"},
		{name: "notes", kind: text, example: `notes = "from the back shelf"`},
	}},
	{name: "level_spoon", kind: tables, example: "[[level_spoon]]", keys: []key{
		{name: "spoon", kind: text, example: `spoon = "1 tsp"`},
		{name: "grams", kind: decimals, example: "grams = [2.31, 2.27]"},
		{name: "spoons_each", kind: whole, nonzero: true, example: "spoons_each = 1"},
		{name: "resolution_g", kind: decimal, nonzero: true, example: "resolution_g = 0.01"},
		{name: "volume_ml", kind: decimal, nonzero: true, example: "volume_ml = 4.92892"},
		{name: "how", kind: text, example: `how = "struck off level"`},
	}},
	{name: "packing", kind: reserved},
	{name: "trial", kind: tables, example: "[[trial]]", keys: []key{
		{name: "started", kind: moment, required: true, example: "started = 2026-05-03T10:12:00Z"},
		{name: "state", kind: text, example: `state = "done"`},
		{name: "set_aside", kind: text, example: `set_aside = "spilled"`},
		{name: "liquid", kind: text, example: `liquid = "water"`},
		{name: "liquid_g", kind: decimal, required: true, example: "liquid_g = 20.00"},
		{name: "liquid_by", kind: text, example: `liquid_by = "weight"`},
		{name: "liquid_spoon", kind: text, example: `liquid_spoon = "1 tbsp"`},
		{name: "liquid_count", kind: whole, example: "liquid_count = 1"},
		{name: "liquid_density", kind: decimal, nonzero: true, example: "liquid_density = 0.998"},
		{name: "temperature_c", kind: decimal, example: "temperature_c = 21.0"},
		{name: "resolution_g", kind: decimal, nonzero: true, example: "resolution_g = 0.01"},
		{name: "spoon_set", kind: text, example: `spoon_set = "us"`},
		{name: "spoons", kind: texts, example: `spoons = ["1 tsp", "1/2 tsp"]`},
		{name: "aim", kind: decimal, nonzero: true, example: "aim = 5.0"},
		{name: "level_step", kind: decimal, nonzero: true, example: "level_step = 1.0"},
		{name: "tolerance", kind: decimal, nonzero: true, example: "tolerance = 0.12"},
		{name: "rest_s", kind: whole, example: "rest_s = 120"},
		{name: "step", kind: tables, example: "[[trial.step]]", keys: []key{
			{name: "at", kind: moment, example: "at = 2026-05-03T10:13:10Z"},
			{name: "add", kind: text, required: true, example: `add = "powder"`},
			{name: "spoon", kind: text, example: `spoon = "1/2 tsp"`},
			{name: "count", kind: whole, example: "count = 1"},
			{name: "grams", kind: decimal, example: "grams = 1.14"},
			{name: "level", kind: decimal, example: "level = 3.0"},
			{name: "rested_s", kind: whole, example: "rested_s = 120"},
			{name: "marks", kind: texts, example: `marks = ["sinks"]`},
			{name: "note", kind: text, example: `note = "stirred twice"`},
		}},
		{name: "later", kind: reserved},
		{name: "acid", kind: reserved},
		{name: "measured", kind: reserved},
	}},
	{name: "ratio", kind: tables, example: "[[ratio]]", keys: []key{
		{name: "liquid", kind: text, example: `liquid = "water"`},
		{name: "rest_s", kind: whole, example: "rest_s = 120"},
		{name: "level", kind: decimal, example: "level = 5.0"},
		{name: "reach", kind: text, example: `reach = "bracketed"`},
		{name: "trials", kind: whole, example: "trials = 1"},
		{name: "liquid_per_powder", kind: decimal, example: "liquid_per_powder = 1.93"},
		{name: "low", kind: decimal, example: "low = 1.61"},
		{name: "high", kind: decimal, example: "high = 2.31"},
		{name: "next_low", kind: decimal, example: "next_low = 1.48"},
		{name: "next_high", kind: decimal, example: "next_high = 2.52"},
		{name: "bound_low", kind: decimal, example: "bound_low = 1.2"},
		{name: "bound_high", kind: decimal, example: "bound_high = 3.4"},
	}},
}

// spoonsKeys is the maker's own list of spoons.
var spoonsKeys = []key{
	{name: "spoon", kind: tables, example: "[[spoon]]", keys: []key{
		{name: "name", kind: text, required: true, example: `name = "blue scoop"`},
		{name: "volume_ml", kind: decimal, required: true, example: "volume_ml = 2.4"},
		{name: "standard_uncertainty_ml", kind: decimal, example: "standard_uncertainty_ml = 0.05"},
	}},
}

// find is the key of that name.
func find(keys []key, name string) (key, bool) {
	for _, k := range keys {
		if k.name == name {
			return k, true
		}
	}
	return key{}, false
}

func names(keys []key) []string {
	out := make([]string, len(keys))
	for i, k := range keys {
		out[i] = k.name
	}
	return out
}
