package typed

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/printable"
)

// Fact is one thing that a maker says of a powder: its key in files, its question, and how
// to read and show it.
type Fact struct {
	Key     string
	Hint    string   // what is asked, for people
	Options []string // what there is to choose from; nil where it is typed
	Mends   bool     // true for a text to be edited rather than typed anew
	show    func(p model.Powder) string
	read    func(p *model.Powder, text string) error
}

// Show writes the fact as a maker would type it; "" where nothing was said.
func (f Fact) Show(p model.Powder) string { return f.show(p) }

// Label gives the fact's name for people.
func (f Fact) Label() string { return strings.ReplaceAll(f.Key, "_", " ") }

// Set reads the fact from a text into p; a text that cannot be read leaves p as it was.
func (f Fact) Set(p *model.Powder, text string) error {
	next := *p
	if err := f.read(&next, strings.TrimSpace(printable.Line(text))); err != nil {
		return fmt.Errorf("%s: %w", f.Label(), err)
	}
	*p = next
	return nil
}

// Words for what was not said.
const (
	notKnown  = "I don't know"
	notTested = "not tested"
	byFamily  = "by its name or family"
)

// Facts lists all facts of a powder, in the order of its file.
func Facts() []Fact {
	families := []string{notKnown}
	for _, f := range model.Families() {
		families = append(families, string(f))
	}
	return []Fact{
		textFact("name", "Its name, as on the bag.", func(p *model.Powder) *string { return &p.Name }),
		textFact("lot", "Lot or delivery, where it is known.", func(p *model.Powder) *string { return &p.Lot }),
		{
			Key: "family", Options: families,
			Hint: "It sets the rest before a look, the cautions, and how careful the first spoons are. Not sure? " +
				"Say so.",
			show: func(p model.Powder) string {
				if p.Family == "" {
					return notKnown
				}
				return string(p.Family)
			},
			read: readFamily,
		},
		{
			Key: "solid_density", Hint: "g/mL of the solid itself, where a data sheet gives it: 1.5 for most flours.",
			show: func(p model.Powder) string {
				if p.SolidDensity == 0 {
					return ""
				}
				return model.Number(p.SolidDensity) + " g/mL"
			},
			read: func(p *model.Powder, text string) (err error) {
				p.SolidDensity = 0
				if !unsaid(text) {
					p.SolidDensity, err = Density(text)
				}
				return err
			},
		},
		flagFact("keep_from_metal", "Does it have to be kept from metal?",
			func(p *model.Powder) *bool { return &p.KeepFromMetal }),
		{
			Key: "fizzes", Options: []string{notTested, "yes", "no"},
			Hint: "A drop of vinegar on a pinch of it: does it fizz? One that does must never meet acid in a " +
				"closed jar.",
			show: func(p model.Powder) string {
				if p.Fizzes == nil {
					return notTested
				}
				return yesNo(*p.Fizzes)
			},
			read: func(p *model.Powder, text string) error {
				p.Fizzes = nil
				if unsaid(text) || tidy(text) == notTested {
					return nil
				}
				fizzes, err := flag(text)
				p.Fizzes = &fizzes
				return err
			},
		},
		{
			Key: "allergens", Hint: "As gluten, nuts; or none. Left empty, daub goes by its name and family.",
			show: func(p model.Powder) string { return strings.Join(p.Allergens, ", ") },
			read: func(p *model.Powder, text string) error {
				p.Allergens = nil
				if unsaid(text) || text == byFamily {
					return nil
				}
				for one := range strings.SplitSeq(text, ",") {
					if one = strings.TrimSpace(one); one != "" && !slices.Contains(p.Allergens, one) {
						p.Allergens = append(p.Allergens, one)
					}
				}
				return nil
			},
		},
		packingFact(),
		flagFact("archived", "An archived powder is kept, but hidden from the shelf.",
			func(p *model.Powder) *bool { return &p.Archived }),
		textFact("notes", "Whatever is worth keeping: where it is from, how it is stored.",
			func(p *model.Powder) *string { return &p.Notes }),
	}
}

// FactOf finds the fact of a key: solid_density and "solid density" are the same.
func FactOf(key string) (Fact, error) {
	want := strings.ReplaceAll(tidy(key), " ", "_")
	var keys []string
	for _, f := range Facts() {
		if f.Key == want {
			return f, nil
		}
		keys = append(keys, f.Key)
	}
	return Fact{}, fmt.Errorf("a powder has no %q: use one of %s", key, strings.Join(keys, ", "))
}

// Assignment reads KEY=VALUE into p.
func Assignment(p *model.Powder, text string) error {
	key, value, found := strings.Cut(text, "=")
	if !found {
		return fmt.Errorf("%q says no value: type it like lot=2026-04", text)
	}
	fact, err := FactOf(key)
	if err != nil {
		return err
	}
	return fact.Set(p, value)
}

// textFact makes a fact that holds any text.
func textFact(key, hint string, at func(*model.Powder) *string) Fact {
	return Fact{
		Key: key, Hint: hint, Mends: key != "name",
		show: func(p model.Powder) string { return *at(&p) },
		read: func(p *model.Powder, text string) error {
			if key == "name" && text == "" {
				return fmt.Errorf("a powder needs one")
			}
			*at(p) = text
			return nil
		},
	}
}

// flagFact makes a fact that is yes or no.
func flagFact(key, hint string, at func(*model.Powder) *bool) Fact {
	return Fact{
		Key: key, Hint: hint, Options: []string{"no", "yes"},
		show: func(p model.Powder) string { return yesNo(*at(&p)) },
		read: func(p *model.Powder, text string) (err error) {
			*at(p), err = flag(text)
			return err
		},
	}
}

// readFamily reads a family by its name.
func readFamily(p *model.Powder, text string) error {
	p.Family = ""
	if unsaid(text) {
		return nil
	}
	p.Family = model.Family(strings.ReplaceAll(tidy(text), " ", "-"))
	if !p.Family.Known() {
		var words []string
		for _, f := range model.Families() {
			words = append(words, string(f))
		}
		return fmt.Errorf("there is no family %q: use one of %s, or unknown", text, strings.Join(words, ", "))
	}
	return nil
}

// unsaid reports whether a text says that nothing is known.
func unsaid(text string) bool {
	switch tidy(strings.ReplaceAll(text, "’", "'")) {
	case "", "-", "?", "unknown", "not known", "i don't know", "don't know":
		return true
	}
	return false
}

// yesNo writes yes or no.
func yesNo(v bool) string {
	if v {
		return "yes"
	}
	return "no"
}

// flag reads yes or no.
func flag(text string) (bool, error) {
	switch tidy(text) {
	case "yes", "y", "true":
		return true, nil
	case "no", "n", "false":
		return false, nil
	}
	return false, refuse(text, "is neither yes nor no", "yes or no")
}
