package data

import (
	"strings"
	"time"
	"unicode"

	"daub.example/daub/model"
	"pgregory.net/rapid"
)

// typed is a number as somebody types it, above 0.
func typed(high int, places int) *rapid.Generator[float64] {
	return rapid.Custom(func(t *rapid.T) float64 {
		scale := 1
		for range places {
			scale *= 10
		}
		return float64(rapid.IntRange(1, high*scale).Draw(t, "n")) / float64(scale)
	})
}

func maybe(t *rapid.T, name string) bool { return rapid.Bool().Draw(t, name) }

var words = rapid.OneOf(
	rapid.StringMatching(`[A-Za-z#"'=\[\]\\ ]{0,20}`),
	rapid.Map(rapid.String(), shown),
)

func genTime(t *rapid.T) time.Time {
	offset := rapid.IntRange(-12*4, 14*4).Draw(t, "offset") * 900
	zone := time.FixedZone("", offset)
	nanos := rapid.SampledFrom([]int64{0, 0, 500_000_000, 1}).Draw(t, "nanos")
	return time.Unix(rapid.Int64Range(1.5e9, 2e9).Draw(t, "second"), nanos).In(zone)
}

func genAny(t *rapid.T, depth int) any {
	switch rapid.IntRange(0, 7-min(depth, 2)).Draw(t, "what") {
	case 0:
		return words.Draw(t, "text")
	case 1:
		return rapid.Int64().Draw(t, "int")
	case 2:
		return rapid.Float64().Draw(t, "float")
	case 3:
		return genTime(t)
	case 4:
		return maybe(t, "bool")
	case 5:
		list := make([]any, rapid.IntRange(0, 3).Draw(t, "n"))
		for i := range list {
			list[i] = genAny(t, depth+1)
		}
		return list
	case 6:
		return genMap(t, depth+1)
	default:
		list := make([]map[string]any, rapid.IntRange(1, 3).Draw(t, "n"))
		for i := range list {
			list[i] = genMap(t, depth+1)
		}
		return list
	}
}

func genMap(t *rapid.T, depth int) map[string]any {
	m := map[string]any{}
	for range rapid.IntRange(0, 3).Draw(t, "n") {
		m[rapid.OneOf(rapid.StringMatching(`[a-z_-]{1,5}`), rapid.StringN(1, 5, -1)).Draw(t, "key")] = genAny(t, depth)
	}
	return m
}

func genReserved(t *rapid.T, names ...string) map[string]any {
	var m map[string]any
	for _, name := range names {
		if rapid.IntRange(0, 4).Draw(t, name) == 0 {
			if m == nil {
				m = map[string]any{}
			}
			m[name] = genAny(t, 0)
		}
	}
	return m
}

func genStep(t *rapid.T, step float64) model.Step {
	s := model.Step{Add: rapid.SampledFrom([]model.Add{model.AddPowder, model.AddLiquid, model.AddNone}).Draw(t, "add")}
	if s.Add != model.AddNone {
		if maybe(t, "weighed") {
			s.Grams = typed(50, 3).Draw(t, "grams")
		} else {
			s.Spoon = rapid.SampledFrom(model.StandardSpoonNames()).Draw(t, "spoon")
			s.Count = rapid.IntRange(0, 3).Draw(t, "count")
		}
	}
	if maybe(t, "timed") {
		s.At = genTime(t)
	}
	if maybe(t, "looked") {
		s.Looked = true
		s.Level = float64(rapid.IntRange(0, int(7/step)).Draw(t, "level")) * step
		rest := rapid.IntRange(0, 600).Draw(t, "rested")
		s.RestedS = &rest
	}
	if maybe(t, "marked") {
		s.Marks = rapid.SliceOfNDistinct(rapid.SampledFrom(model.Marks()), 1, 3, rapid.ID[string]).Draw(t, "marks")
	}
	s.Note = words.Draw(t, "note")
	return s
}

func genLater(t *rapid.T) model.LaterLook {
	l := model.LaterLook{At: genTime(t), Note: words.Draw(t, "later note")}
	level := float64(rapid.IntRange(0, 14).Draw(t, "later level")) / 2
	if l.Level = &level; maybe(t, "stirred") {
		l.Level, l.Stirred = nil, &level
	}
	if maybe(t, "later marked") {
		l.Marks = []string{"gels"}
	}
	return l
}

// isEmpty tells an empty list, which says nothing whoever reads it.
func isEmpty(v any) bool {
	switch v := v.(type) {
	case []any:
		return len(v) == 0
	case []map[string]any:
		return len(v) == 0
	}
	return false
}

func genTrial(t *rapid.T) model.Trial {
	tr := model.Trial{
		Started: genTime(t), Liquid: rapid.SampledFrom([]string{"", "water", "honey"}).Draw(t, "liquid"),
		State:    rapid.SampledFrom([]model.State{"", model.Open, model.Done}).Draw(t, "state"),
		SetAside: rapid.SampledFrom([]string{"", "", "spilled \"all\""}).Draw(t, "aside"),
		LiquidG:  typed(100, 2).Draw(t, "liquid_g"), LiquidBy: rapid.SampledFrom([]model.By{
			"",
			model.ByWeight,
		}).Draw(t, "by"),
		SpoonSet: rapid.SampledFrom([]model.SpoonSet{"", model.US, model.Metric, model.Own}).Draw(t, "set"),
		Spoons:   rapid.SampledFrom([][]string{nil, model.DefaultSpoons()}).Draw(t, "spoons"),
		Aim:      float64(rapid.SampledFrom([]int{0, 2, 9, 10}).Draw(t, "aim")) / 2,
		Covered:  maybe(t, "covered"),
	}
	if kept := genReserved(t, "acid", "measured"); maybe(t, "kept") {
		tr.Reserved = kept
	} else {
		tr.Measured = &model.Measured{Kind: "spread", VolumeML: typed(20, 1).Draw(t, "volume"), Wanted: 60}
		tr.Acid = &model.AcidTest{
			Acid: "vinegar", By: model.ByStrip, PasteG: 1 + typed(20, 1).Draw(t, "paste"), DropG: 0.05,
			Steps: []model.AcidStep{{At: genTime(t), PH: 9}, {At: genTime(t), Drops: 3, PH: typed(9, 1).Draw(t, "ph")}},
		}
	}
	for range rapid.IntRange(0, 2).Draw(t, "later") {
		tr.Later = append(tr.Later, genLater(t))
	}
	if len(tr.Later) == 0 {
		for name, v := range genReserved(t, "later") {
			if isEmpty(v) { // reads as a list of no looks
				continue
			}
			if tr.Reserved == nil {
				tr.Reserved = map[string]any{}
			}
			tr.Reserved[name] = v
		}
	}
	step := rapid.SampledFrom([]float64{1, 0.5}).Draw(t, "level_step")
	tr.LevelStep = step
	if maybe(t, "more") {
		temp := float64(rapid.IntRange(-50, 400).Draw(t, "temp")) / 10
		rest := rapid.IntRange(0, 600).Draw(t, "rest")
		tr.TemperatureC, tr.RestS = &temp, &rest
		tr.Tolerance, tr.ResolutionG, tr.LiquidDensity = typed(1, 2).Draw(t, "tol"), typed(1, 2).Draw(t,
			"res"), typed(2, 3).Draw(t, "density")
	}
	for range rapid.IntRange(0, 4).Draw(t, "steps") {
		tr.Steps = append(tr.Steps, genStep(t, step))
	}
	return tr
}

// genProfile draws a profile that Validate has nothing against.
func genProfile(t *rapid.T) model.Profile {
	p := model.Profile{
		Powder: model.Powder{
			Name: "x" + shown(rapid.StringN(0, 20, 60).Draw(t, "name")), Lot: words.Draw(t, "lot"),
			Family:        rapid.SampledFrom(append(model.Families(), "")).Draw(t, "family"),
			KeepFromMetal: maybe(t, "metal"), Notes: words.Draw(t, "notes"),
			Archived: maybe(t, "archived"),
		},
		LevelSpoons: []model.LevelSpoon{{
			Spoon: "1 tsp", Grams: rapid.SliceOfN(typed(5, 2), 1, 4).Draw(t, "grams"),
			How: words.Draw(t, "how"),
		}},
	}
	if maybe(t, "packing") {
		p.Powder.Packings = []model.Packing{{
			Spoon: "1 tsp", LooseG: rapid.SliceOfN(typed(5, 2), 1, 3).Draw(t, "loose"),
			TappedG: rapid.SliceOfN(typed(5, 2), 1, 3).Draw(t, "tapped"), At: genTime(t),
		}}
	} else if kept := genReserved(t, "packing"); !isEmpty(kept["packing"]) {
		p.Reserved = kept
	}
	if maybe(t, "allergens") {
		p.Powder.Allergens = []string{"gluten", "nuts"}
	}
	if fizzes := maybe(t, "fizzes"); maybe(t, "fizz tested") {
		p.Powder.Fizzes = &fizzes
	}
	for range rapid.IntRange(0, 2).Draw(t, "trials") {
		p.Trials = append(p.Trials, genTrial(t))
	}
	return p
}

// shown is a text without control characters, which a shelf refuses.
func shown(s string) string {
	return strings.Map(func(r rune) rune {
		if unicode.IsControl(r) {
			return -1
		}
		return r
	}, s)
}
