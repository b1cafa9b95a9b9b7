package typed

import (
	"cmp"
	"errors"
	"math"
	"slices"
	"strconv"
	"strings"

	"daub.example/daub/model"
)

// Spoons are the names of the level spoons that may be typed.
type Spoons []string

// SpoonsOf lists the standard spoons, the maker's own, and those that profiles
// were weighed with.
func SpoonsOf(own model.OwnSpoons, profiles ...model.Profile) Spoons {
	names := Spoons(own.Names())
	for _, p := range profiles {
		for _, l := range p.LevelSpoons {
			if !slices.Contains(names, l.Spoon) {
				names = append(names, l.Spoon)
			}
		}
	}
	return names
}

// Shapes of spoons.
var (
	times   = pattern(`(?i)^([0-9]+)\s*[x×*]\s*(.+)$`)
	several = pattern(`^([0-9]+)\s+([^0-9].*)$`)
	sized   = pattern(`^(?:(?:([0-9]+)\s+)?([0-9]+)/([0-9]+)|([0-9]*[.,]?[0-9]+))?\s*` +
		`(tsp|tsps|teaspoons?|tbsp|tbsps|tablespoons?)\.?$`)
)

// small maps the names of the smallest spoons to their sizes. There is no standard behind
// them; sets sold by these names mostly hold this.
var small = map[string]string{
	"dash": "1/8 tsp", "dashes": "1/8 tsp",
	"pinch": "1/16 tsp", "pinches": "1/16 tsp",
	"smidgen": "1/32 tsp", "smidgens": "1/32 tsp",
}

// known finds the full name of a spoon, whatever its case and spaces.
func (s Spoons) known(text string) (string, bool) {
	name := strings.Join(strings.Fields(spaced.Replace(text)), " ")
	if slices.Contains(s, name) {
		return name, true
	}
	at := slices.IndexFunc(s, func(n string) bool { return strings.EqualFold(n, name) })
	if at < 0 {
		name, ok := small[strings.TrimPrefix(strings.ToLower(name), "a ")]
		return name, ok
	}
	return s[at], true
}

// item reads one item of a sum: "1/2 tsp", "tsp", "2 tsp", "1 1/2 tsp",
// "2 x 1/4 tsp", "2 pinches"; nil for anything else.
func (s Spoons) item(text string) []model.SpoonCount {
	text = strings.TrimSpace(spaced.Replace(text))
	_, isName := s.known(text)
	if m := times.FindStringSubmatch(text); m != nil && !isName {
		return multiplied(s.size(m[2]), m[1])
	}
	return s.size(text)
}

// size is item for a text without a factor before it.
func (s Spoons) size(text string) []model.SpoonCount {
	if name, ok := s.known(text); ok {
		return []model.SpoonCount{{Spoon: name, Count: 1}}
	}
	if m := sized.FindStringSubmatch(strings.ToLower(text)); m != nil {
		return bySize(m[1], m[2], m[3], m[4], m[5])
	}
	if m := several.FindStringSubmatch(text); m != nil {
		if name, ok := s.known(m[2]); ok {
			return multiplied([]model.SpoonCount{{Spoon: name, Count: 1}}, m[1])
		}
	}
	return nil
}

// maxSpoons is the largest count read here; model has its own limit for a dish.
const maxSpoons = 1_000_000

// multiplied counts the spoons so many times; nil beyond maxSpoons.
func multiplied(spoons []model.SpoonCount, count string) []model.SpoonCount {
	n, err := strconv.Atoi(count)
	if err != nil || n < 1 {
		return nil
	}
	for i := range spoons {
		if n > maxSpoons/spoons[i].Count {
			return nil
		}
		spoons[i].Count *= n
	}
	return spoons
}

// bySize turns a number of teaspoons or tablespoons into standard spoons: the whole ones,
// and one for the fraction. An improper fraction is taken for a slip, as 21/4 for 2 1/4.
func bySize(whole, above, below, plain, unit string) []model.SpoonCount {
	size := 1.0
	if above != "" {
		a, _ := strconv.ParseFloat(above, 64)
		b, _ := strconv.ParseFloat(below, 64)
		if size = a / b; !(size < 1) {
			return nil
		}
	}
	if plain != "" {
		size, _ = strconv.ParseFloat(strings.ReplaceAll(plain, ",", "."), 64)
	}
	if whole != "" {
		w, _ := strconv.ParseFloat(whole, 64)
		size += w
	}
	unit = strings.NewReplacer("teaspoon", "tsp", "tablespoon", "tbsp").Replace(strings.TrimSuffix(unit, "s"))
	var spoons []model.SpoonCount
	full, rest := math.Modf(size)
	if full > maxSpoons || size == 0 {
		return nil
	}
	if full > 0 {
		spoons = append(spoons, model.SpoonCount{Spoon: "1 " + unit, Count: int(full)})
	}
	if rest == 0 {
		return spoons
	}
	for _, name := range model.StandardSpoonNames() {
		if strings.HasSuffix(name, " "+unit) && spoonSize(name) == rest {
			return append(spoons, model.SpoonCount{Spoon: name, Count: 1})
		}
	}
	return nil
}

// spoonSize gives the number in a standard name, 0.25 in "1/4 tsp"; 0 for others.
func spoonSize(name string) float64 {
	n, unit, _ := strings.Cut(name, " ")
	if unit != "tsp" && unit != "tbsp" {
		return 0
	}
	above, below, found := strings.Cut(n, "/")
	a, err := strconv.ParseFloat(above, 64)
	if err != nil || !found {
		return a
	}
	b, _ := strconv.ParseFloat(below, 64)
	return a / b
}

// sum reads a sum; where it is none, slip is the part at fault.
func (s Spoons) sum(text string) (sum []model.SpoonCount, slip string) {
	if item := s.item(text); item != nil { // a name may hold a +
		return item, ""
	}
	for part := range strings.SplitSeq(text, "+") {
		item := s.item(part)
		if item == nil {
			return nil, part
		}
		sum = append(sum, item...)
	}
	return sum, ""
}

// Name reads one level spoon: "1/2 tsp", "tsp", "pinch".
func (s Spoons) Name(text string) (string, error) {
	if item := s.item(text); len(item) == 1 && item[0].Count == 1 {
		return item[0].Spoon, nil
	}
	return "", s.unknown(text, "is no level spoon", "1/2 tsp")
}

// List reads several level spoons, each once: "1 tsp, 1/2 tsp"; nil where
// nothing is typed.
func (s Spoons) List(text string) ([]string, error) {
	var names []string
	for _, item := range list(text) {
		name, err := s.Name(item)
		if err != nil {
			return nil, err
		}
		if !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names, nil
}

// unknown makes the error for a text that names no spoon.
func (s Spoons) unknown(text, wrong, example string) error {
	return refuse(text, wrong, example+"; there are "+strings.Join(s, ", ")+", and your own from spoons.toml")
}

// Amount is an amount added or removed: grams, or level spoons.
type Amount struct {
	Grams  float64
	Spoons []model.SpoonCount // nil for grams
}

// Amount reads grams or a sum of level spoons: "1.5 kg", "2 x 1/4 tsp".
func (s Spoons) Amount(text, example string) (Amount, error) {
	if _, _, known := mass.split(text); known {
		grams, err := Mass(text, example)
		return Amount{Grams: grams}, err
	}
	sum, slip := s.sum(text)
	if sum == nil {
		return Amount{}, refuse(slip, "is neither a number of grams nor level spoons", example)
	}
	return Amount{Spoons: sum}, nil
}

// OneSize gives the amount in spoons of a single size, three of 1/2 tsp for 1 1/2 tsp; ok
// is false where that is not possible.
func (a Amount) OneSize() (spoon string, count int, ok bool) {
	if len(a.Spoons) == 0 {
		return "", 0, false
	}
	smallest := slices.MinFunc(a.Spoons, func(a, b model.SpoonCount) int {
		return cmp.Compare(spoonSize(a.Spoon), spoonSize(b.Spoon))
	})
	for _, c := range a.Spoons {
		into := 1.0
		if c.Spoon != smallest.Spoon {
			if unitOf(c.Spoon) != unitOf(smallest.Spoon) || spoonSize(smallest.Spoon) == 0 {
				return "", 0, false
			}
			into = spoonSize(c.Spoon) / spoonSize(smallest.Spoon)
		}
		if into != math.Trunc(into) {
			return "", 0, false
		}
		count += c.Count * int(into)
	}
	return smallest.Spoon, count, count <= maxSpoons
}

// unitOf returns the unit in a spoon's name, after its number.
func unitOf(spoon string) string {
	_, unit, _ := strings.Cut(spoon, " ")
	return unit
}

// StartLiquid puts an amount into a trial as the liquid in its dish: by weight, or by spoons
// of one size, whose grams are rounded to 0.01. Spoons ask for the liquid's density.
func (a Amount) StartLiquid(t *model.Trial, own model.OwnSpoons) error {
	if a.Spoons == nil {
		t.LiquidG, t.LiquidBy, t.LiquidSpoon, t.LiquidCount = a.Grams, model.ByWeight, "", 0
		return nil
	}
	spoon, count, ok := a.OneSize()
	if !ok {
		return errors.New("these are of several sizes: type spoons of one size as 4 x 1 tsp")
	}
	each, err := t.LiquidSpoonG(spoon, own)
	if err != nil {
		return err
	}
	t.LiquidBy, t.LiquidSpoon, t.LiquidCount = model.BySpoon, spoon, count
	t.LiquidG = math.Round(each*float64(count)*100) / 100
	return nil
}
