package main

import (
	"fmt"
	"slices"
	"strings"
	"time"
	"unicode"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/cmd/daub/internal/reply"
	"daub.example/daub/cmd/daub/internal/usage"
	"daub.example/daub/data"
	"daub.example/daub/data/export"
	"daub.example/daub/model"
	"daub.example/daub/model/fit"
	"daub.example/daub/model/handling"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/typed"
	"github.com/spf13/cobra"
)

// calibrateJSON is the answer of `daub calibrate --json`.
type calibrateJSON struct {
	Spoon        string           `json:"spoon"`
	Volume       *export.Interval `json:"volume_ml"`
	UncertaintyM *float64         `json:"standard_uncertainty_ml"`
	WaterG       []float64        `json:"water_g"`
	TemperatureC *float64         `json:"temperature_c"` // null: the usual temperature
	Measured     *time.Time       `json:"measured"`
	BeforeML     *float64         `json:"before_ml"`   // for trials started before it; null if all use the volume
	OffPercent   *float64         `json:"off_percent"` // off the size in its name; null if that has none
	Far          bool             `json:"far"`         // so far that the name misleads
	File         string           `json:"file"`
	Older        []olderJSON      `json:"older"` // powders whose answer moved with their older trials
	Sentence     string           `json:"sentence"`
}

// olderJSON is a powder before and after its older trials used another size.
type olderJSON struct {
	Powder string           `json:"powder"`
	Slug   string           `json:"slug"`
	Level  float64          `json:"level"`
	Before *export.Interval `json:"before"`
	After  *export.Interval `json:"after"`
}

func (a *app) calibrateCommand() *cobra.Command {
	var (
		fill          fills
		older, asJSON bool
	)
	cmd := &cobra.Command{
		Use:   "calibrate SPOON --water G,G,G",
		Short: "Find what a level spoon really holds",
		Long: `Works out what a level spoon holds from the water of three level fills or more,
and keeps it in spoons.toml with its uncertainty. Tare before every fill. A fill
far from the others is taken for a slip: nothing is saved without --anyway.

Trials started from now on go by the new size. Earlier ones stay as they are;
--older changes them too, and shows every powder before and after. For a spoon
of a standard name choose the spoon set "own" in the trial's settings, or its
measured size is not used.`,
		Example: `  daub calibrate "blue scoop" --water 6.02,6.05,6.03 --at 21
  daub calibrate "1 tsp" --water 4.71,4.74,4.72
  daub calibrate "blue scoop" --older`,
		Args:              usage.Takes(1, 1, "one spoon"),
		ValidArgsFunction: a.completeSpoon,
		RunE: func(_ *cobra.Command, args []string) error {
			if fill.water == "" && !older {
				return usage.Misused("calibrate %s with what? give --water with the grams of "+
					"three fills or more, as in --water 4.9,4.9,5.0", args[0])
			}
			c, err := a.calibrate(args[0], fill)
			if err == nil && older {
				err = a.older(&c)
			}
			if err != nil {
				return err
			}
			return a.answer(c, asJSON)
		},
	}
	cmd.Flags().StringVar(&fill.water, "water", "", "grams of water of each level fill, `G,G,G` or more")
	cmd.Flags().StringVar(&fill.at, "at", "", "`TEMP` of the water in °C (20)")
	cmd.Flags().StringVar(&fill.scale, "scale", "", "what the scale reads to, `G` (0.01)")
	cmd.Flags().BoolVar(&fill.anyway, "anyway", false, "keep it though a fill is far from the others")
	cmd.Flags().BoolVar(&older, "older", false, "use it for earlier trials too")
	for _, flag := range []string{"water", "at", "scale"} {
		_ = cmd.RegisterFlagCompletionFunc(flag, usage.Words[string](nil))
	}
	usage.AddJSON(cmd, &asJSON)
	return cmd
}

// fills holds the water fills of a spoon, as typed.
type fills struct {
	water, at, scale string
	anyway           bool // keep them though one is far from the others
}

// grams reads the fills. Commas stand between fills; they are decimal only if each
// of several fills has one and none has a point.
func (f fills) grams() (grams []float64, err error) {
	apart := strings.FieldsFunc(f.water, func(r rune) bool { return unicode.IsSpace(r) || r == ';' })
	numbers, decimal := 0, 0
	for _, word := range apart {
		if word = strings.Trim(word, ","); strings.ContainsAny(word, "0123456789") {
			numbers++
			if strings.Count(word, ",") == 1 && strings.Trim(word, "0123456789,") == "" {
				decimal++
			}
		}
	}
	parts := strings.Split(f.water, ",")
	switch {
	case numbers < 2 || decimal == 0:
	case decimal == numbers:
		parts = []string{f.water}
	default:
		return nil, fmt.Errorf("--water %q: are the commas decimal, or between the fills? Type it with points, as in "+
			"--water 4.9,4.9,5.0", f.water)
	}
	for _, part := range parts {
		some, err := typed.Masses(part, "--water 4.9,4.9,5.0")
		if err != nil {
			return nil, err
		}
		grams = append(grams, some...)
	}
	return grams, nil
}

// calibrateAnswer is a spoon as it is now, with the powders whose answers moved.
type calibrateAnswer struct {
	check handling.SpoonCheck // without a volume if nothing was weighed now
	spoon model.Spoon
	file  string
	older []kitchen.Moved
	moved []data.Entry // powders with older trials
	asked bool         // --older was given
}

// calibrate measures a spoon and puts it into the maker's list. Without water it
// finds the spoon measured before.
func (a *app) calibrate(name string, fill fills) (c calibrateAnswer, err error) {
	shelf := a.shelf()
	list, err := shelf.Spoons()
	if err != nil {
		return c, err
	}
	if known, err := typed.SpoonsOf(list).Name(name); err == nil {
		name = known
	}
	c.file = shelf.SpoonsPath()
	if fill.water == "" {
		at := slices.IndexFunc(list, func(s model.Spoon) bool { return s.Name == name && !s.Measured.IsZero() })
		if at < 0 {
			return c, usage.Misused("%s was not measured yet: give --water", name)
		}
		c.spoon = list[at]
		return c, nil
	}
	grams, err := fill.grams()
	if err != nil {
		return c, usage.Misused("%w", err)
	}
	var temperature *float64
	if fill.at != "" {
		t, err := typed.Temperature(fill.at)
		if err != nil {
			return c, usage.Misused("--at: %w", err)
		}
		temperature = &t
	}
	resolution := model.DefaultResolutionG
	if fill.scale != "" {
		if resolution, err = typed.Resolution(fill.scale); err != nil {
			return c, usage.Misused("--scale: %w", err)
		}
	}
	if c.check, err = handling.CheckSpoon(list, name, grams, temperature, resolution, a.now()); err != nil {
		return c, usage.Misused("calibrate %s: %w", name, err)
	}
	if c.check.Doubt != "" && !fill.anyway {
		return c, usage.Misused("calibrate %s: %s Nothing was saved: weigh again, or keep it with --anyway", name,
			model.Ended(c.check.Doubt))
	}
	c.spoon = c.check.Spoon
	return c, shelf.SaveSpoons(list, c.check.With(list))
}

// older makes trials started before a spoon was measured use its size, and notes
// every powder whose answer moves.
func (a *app) older(c *calibrateAnswer) error {
	c.asked = true
	shelf := a.shelf()
	list, err := shelf.Spoons()
	if err != nil {
		return err
	}
	entries, _ := shelf.List() // a profile that cannot be read stays as it is
	now, moved, ok := kitchen.OlderTrials(profiles(entries), list, c.spoon.Name)
	if !ok {
		return nil
	}
	if err := shelf.SaveSpoons(list, now); err != nil {
		return err
	}
	c.spoon.BeforeML, c.spoon.BeforeUncertaintyML = 0, 0
	for _, m := range moved {
		e := entries[m.At]
		e.Profile = m.Profile
		if _, err := shelf.Save(e); err != nil {
			return err
		}
		c.older, c.moved = append(c.older, m), append(c.moved, e)
	}
	return nil
}

func (c calibrateAnswer) json() any {
	s := c.spoon
	out := calibrateJSON{
		Spoon: s.Name, UncertaintyM: export.Positive(s.UncertaintyML), WaterG: append([]float64{}, s.WaterG...),
		TemperatureC: s.TemperatureC, Measured: reply.Moment(s.Measured), BeforeML: export.Positive(s.BeforeML),
		Far: c.check.Far, File: c.file, Older: []olderJSON{}, Sentence: strings.Join(c.sentences(), " "),
	}
	half := fit.Normal95 * s.UncertaintyML
	out.Volume = export.IntervalOf(&fit.Interval{
		Median: s.VolumeML, Low: s.VolumeML - half, High: s.VolumeML + half,
	})
	if v := c.check.Volume; v.ML > 0 {
		out.Volume = export.IntervalOf(&v.Interval)
		if c.check.Before.VolumeML > 0 {
			out.OffPercent = export.Number(100 * c.check.Off)
		}
	}
	for i, m := range c.older {
		out.Older = append(out.Older, olderJSON{
			m.Profile.Powder.Name, c.moved[i].Slug, m.Level,
			export.IntervalOf(m.Before.Powder), export.IntervalOf(m.After.Powder),
		})
	}
	return out
}

// sentences says what the spoon holds and which trials use that.
func (c calibrateAnswer) sentences() []string {
	if c.check.Volume.ML == 0 {
		return []string{fmt.Sprintf("%s holds %s mL.", c.spoon.Name, model.Significant(c.spoon.VolumeML, 4))}
	}
	texts := []string{c.check.Sentence()}
	if older := c.check.Older(); older != "" && !c.asked {
		texts = append(texts, older)
	}
	return texts
}

func (c calibrateAnswer) text(p *page.Page) {
	for _, text := range c.sentences() {
		p.Say(text)
	}
	if c.asked && len(c.older) == 0 {
		p.Say("No older trial moves by it.")
	}
	for _, m := range c.older {
		p.Say(m.Text())
	}
	p.Line("%s", c.file)
}
