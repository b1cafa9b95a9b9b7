package export

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
	"time"

	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
	"daub.example/daub/model/bench"
)

// look is one step of one trial, as the maker recorded it. Its keys never change.
type look struct {
	Slug      string    `json:"slug"`
	Powder    string    `json:"powder"`
	Lot       string    `json:"lot"`
	Trial     int       `json:"trial"` // from 1, as in the file
	Started   time.Time `json:"started"`
	State     string    `json:"state"`     // open or done
	SetAside  string    `json:"set_aside"` // a reason; "" if it counts
	Liquid    string    `json:"liquid"`
	RestS     int       `json:"rest_s"` // the rest set for the trial
	Step      int       `json:"step"`   // from 1
	Add       string    `json:"add"`    // powder, liquid, removed, none, or later: at the covered dish
	Spoon     string    `json:"spoon"`
	Count     int       `json:"count"`
	Grams     float64   `json:"grams"`    // added or taken out, weighed or by the spoon's weight
	Weighed   bool      `json:"weighed"`  // false: by the spoon
	PowderG   float64   `json:"powder_g"` // in the dish after the step
	LiquidG   float64   `json:"liquid_g"`
	Level     *float64  `json:"level"`         // null without a look, and beside a reference dish
	Beside    string    `json:"beside"`        // the look beside the reference dish; "" if levels are named
	Reading   *float64  `json:"reading"`       // in mm, s or blows; null if nothing was measured
	Kind      string    `json:"reading_kind"`  // spread, slump, cone, drain, blows; "" likewise
	Stirred   *float64  `json:"level_stirred"` // read just after stirring; null if it was not
	RestedS   *int      `json:"rested_s"`
	Use       bool      `json:"use"`   // false if the maker left the look out of the answer
	PotG      *float64  `json:"pot_g"` // the pot of powder after the step; null if it was not weighed
	Behaviour []string  `json:"behaviour"`
	Note      string    `json:"note"`
}

// looksOf lists every step of the powder's trials on the chosen bases, also of
// trials that are open or set aside. Steps whose masses cannot be calculated are
// left out: daub check says why.
func looksOf(e Powder, own model.OwnSpoons, on model.Choice) []look {
	var out []look
	p := e.Profile
	for n, t := range p.Trials {
		t = t.WithDefaults(p.Powder.Kind())
		if len(on.Among([]model.Basis{{Liquid: t.Liquid, RestS: *t.RestS}})) == 0 {
			continue
		}
		reading, _ := bench.Read(p, t, own)
		before := bench.StartDish(t)
		for i, dish := range reading.Dishes {
			step := t.Steps[i]
			l := look{
				Slug: e.Slug, Powder: p.Powder.Name, Lot: p.Powder.Lot, Trial: n +
					1, Started: t.Started, State: string(t.State),
				SetAside: t.SetAside, Liquid: t.Liquid, RestS: *t.RestS, Step: i +
					1, Add: string(step.Add), Spoon: step.Spoon,
				Weighed: step.Weighed(), PowderG: rounded(dish.PowderG), LiquidG: rounded(dish.LiquidG),
				Grams:   rounded(max(dish.PasteG()-before.PasteG(), before.PasteG()-dish.PasteG())),
				RestedS: step.RestedS, Behaviour: append([]string{}, step.Marks...), Note: step.Note,
				Use: !step.LeftOut, PotG: Positive(step.PotG),
			}
			if step.Spoon != "" {
				l.Count = step.Spoons()
			}
			l.Beside = string(step.Beside)
			if step.Looked && step.Beside == "" {
				l.Level = &step.Level
			}
			if step.Reading > 0 && t.Measured != nil {
				l.Reading, l.Kind = &step.Reading, string(t.Measured.Kind)
			}
			l.Stirred = step.LevelStirred
			out = append(out, l)
			before = dish
		}
		for _, later := range t.Later {
			l := look{
				Slug: e.Slug, Powder: p.Powder.Name, Lot: p.Powder.Lot, Trial: n + 1, Started: t.Started,
				State: string(t.State), SetAside: t.SetAside, Liquid: t.Liquid, RestS: *t.RestS, Step: len(t.Steps),
				Add: "later", Level: later.Level, Stirred: later.Stirred, Note: later.Note,
				PowderG: rounded(before.PowderG), LiquidG: rounded(before.LiquidG),
				Behaviour: append([]string{}, later.Marks...), Use: true,
			}
			if added, known := t.LastAdded(); known {
				rested := int(later.At.Sub(added).Seconds())
				l.RestedS = &rested
			}
			out = append(out, l)
		}
	}
	return out
}

// rounded rounds grams to five digits, all that a bench knows.
func rounded(grams float64) float64 { return model.RoundSignificant(grams, 5) }

// lookColumns are the columns of a table of steps.
var lookColumns = []struct {
	title string
	cell  func(l look, o Options) string
}{
	{"file", func(l look, _ Options) string { return textCell(l.Slug) }},
	{"powder", func(l look, _ Options) string { return textCell(l.Powder) }},
	{"lot", func(l look, _ Options) string { return textCell(l.Lot) }},
	{"trial", func(l look, _ Options) string { return strconv.Itoa(l.Trial) }},
	{"begun", func(l look, _ Options) string { return l.Started.Format(time.DateOnly) }},
	{"state", func(l look, _ Options) string {
		if l.SetAside != "" {
			return textCell("set aside: " + l.SetAside)
		}
		return l.State
	}},
	{"liquid", func(l look, _ Options) string { return textCell(l.Liquid) }},
	{"rest (s)", func(l look, _ Options) string { return strconv.Itoa(l.RestS) }},
	{"step", func(l look, _ Options) string { return strconv.Itoa(l.Step) }},
	{"added", func(l look, _ Options) string { return l.Add }},
	{"spoons", func(l look, _ Options) string {
		if l.Spoon == "" {
			return ""
		}
		return textCell(fmt.Sprintf("%d x %s", l.Count, l.Spoon))
	}},
	{"grams", func(l look, o Options) string { return o.number(l.Grams) }},
	{"powder (g)", func(l look, o Options) string { return o.number(l.PowderG) }},
	{"liquid (g)", func(l look, o Options) string { return o.number(l.LiquidG) }},
	{"level", func(l look, o Options) string {
		if l.Level == nil {
			return ""
		}
		return o.number(*l.Level)
	}},
	{"beside", func(l look, _ Options) string { return l.Beside }},
	{"level stirred", func(l look, o Options) string {
		if l.Stirred == nil {
			return ""
		}
		return o.number(*l.Stirred)
	}},
	{"reading", func(l look, o Options) string {
		if l.Reading == nil {
			return ""
		}
		return o.number(*l.Reading)
	}},
	{"reading of", func(l look, _ Options) string { return l.Kind }},
	{"rested (s)", func(l look, _ Options) string {
		if l.RestedS == nil {
			return ""
		}
		return strconv.Itoa(*l.RestedS)
	}},
	{"use", func(l look, _ Options) string {
		switch {
		case l.Level == nil && l.Beside == "" && l.Reading == nil:
			return ""
		case l.Use:
			return "yes"
		}
		return "no"
	}},
	{"pot (g)", func(l look, o Options) string {
		if l.PotG == nil {
			return ""
		}
		return o.number(*l.PotG)
	}},
	{"behaviour", func(l look, _ Options) string { return textCell(strings.Join(l.Behaviour, ", ")) }},
	{"note", func(l look, _ Options) string { return textCell(l.Note) }},
}

// lookRows returns the header and a row for each step.
func lookRows(looks []look, o Options) [][]string {
	row := func(cell func(c int) string) []string {
		out := make([]string, len(lookColumns))
		for c := range lookColumns {
			out[c] = cell(c)
		}
		return out
	}
	rows := [][]string{row(func(c int) string { return lookColumns[c].title })}
	for _, l := range looks {
		rows = append(rows, row(func(c int) string { return lookColumns[c].cell(l, o) }))
	}
	return rows
}

func looksCSV(out *bytes.Buffer, looks []look, o Options) error {
	return writeCSV(out, lookRows(looks, o), o)
}

func looksMarkdown(out *bytes.Buffer, looks []look, o Options) error {
	for i, row := range lookRows(looks, o) {
		for c := range row {
			row[c] = mdCell(row[c])
		}
		fmt.Fprintf(out, "| %s |\n", strings.Join(row, " | "))
		if i == 0 {
			fmt.Fprintf(out, "|%s\n", strings.Repeat(" --- |", len(row)))
		}
	}
	return nil
}

func looksJSON(out *bytes.Buffer, looks []look, _ Options) error {
	return Encode(out, struct {
		Schema int    `json:"schema"`
		Looks  []look `json:"looks"`
	}{exportSchema, append([]look{}, looks...)})
}

// looksFile is an export of steps as TOML.
type looksFile struct {
	schema int
	looks  []look
}

var looksFields = []tomlfile.Field[looksFile]{
	tomlfile.Whole("schema", "", func(f *looksFile) *int { return &f.schema }),
	tomlfile.Tables("look", "", func(f *looksFile) *[]look { return &f.looks }, []tomlfile.Field[look]{
		tomlfile.Text("powder", "", func(l *look) *string { return &l.Powder }).Always(),
		tomlfile.Text("lot", "", func(l *look) *string { return &l.Lot }),
		tomlfile.Text("slug", "", func(l *look) *string { return &l.Slug }),
		tomlfile.Whole("trial", "", func(l *look) *int { return &l.Trial }).Always(),
		tomlfile.Moment("started", "", func(l *look) *time.Time { return &l.Started }),
		tomlfile.Text("state", "", func(l *look) *string { return &l.State }),
		tomlfile.Text("set_aside", "", func(l *look) *string { return &l.SetAside }),
		tomlfile.Text("liquid", "", func(l *look) *string { return &l.Liquid }),
		tomlfile.Whole("rest_s", "", func(l *look) *int { return &l.RestS }),
		tomlfile.Whole("step", "", func(l *look) *int { return &l.Step }).Always(),
		tomlfile.Text("add", "", func(l *look) *string { return &l.Add }),
		tomlfile.Text("spoon", "", func(l *look) *string { return &l.Spoon }),
		tomlfile.Whole("count", "", func(l *look) *int { return &l.Count }),
		tomlfile.Decimal("grams", "", func(l *look) *float64 { return &l.Grams }),
		tomlfile.Flag("weighed", "", func(l *look) *bool { return &l.Weighed }),
		tomlfile.Decimal("powder_g", "", func(l *look) *float64 { return &l.PowderG }),
		tomlfile.Decimal("liquid_g", "", func(l *look) *float64 { return &l.LiquidG }),
		tomlfile.MaybeDecimal("level", "", func(l *look) **float64 { return &l.Level }),
		tomlfile.Text("beside", "", func(l *look) *string { return &l.Beside }),
		tomlfile.MaybeDecimal("level_stirred", "", func(l *look) **float64 { return &l.Stirred }),
		tomlfile.MaybeDecimal("reading", "", func(l *look) **float64 { return &l.Reading }),
		tomlfile.Text("reading_kind", "", func(l *look) *string { return &l.Kind }),
		tomlfile.MaybeWhole("rested_s", "", func(l *look) **int { return &l.RestedS }),
		tomlfile.Flag("use", "", func(l *look) *bool { return &l.Use }).Always(),
		tomlfile.MaybeDecimal("pot_g", "", func(l *look) **float64 { return &l.PotG }),
		tomlfile.Texts("behaviour", "", func(l *look) *[]string { return &l.Behaviour }),
		tomlfile.Text("note", "", func(l *look) *string { return &l.Note }),
	}),
}

func looksTOML(out *bytes.Buffer, looks []look, _ Options) error {
	text, err := tomlfile.Write(looksFields, &looksFile{exportSchema, looks}, nil)
	out.Write(text)
	return err
}
