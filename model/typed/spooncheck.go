package typed

import (
	"strings"
)

// SpoonCheckExample shows the form of a level spoon's water.
const SpoonCheckExample = "blue scoop: 6.02 6.05 6.03 at 21"

// SpoonCheck is a level spoon's water: g a fill, and the temperature in °C, nil where it
// was not given.
type SpoonCheck struct {
	Spoon        string
	WaterG       []float64
	TemperatureC *float64
}

// Check reads the water of a level spoon: its name, a colon, the grams of every fill, and,
// where it is known, "at" with the temperature in °C.
func (s Spoons) Check(text string) (c SpoonCheck, err error) {
	name, rest, found := strings.Cut(text, ":")
	c.Spoon = strings.TrimSpace(name)
	if !found || c.Spoon == "" {
		return c, refuse(text, "is not a spoon with the grams of its water", SpoonCheckExample)
	}
	if known, err := s.Name(c.Spoon); err == nil {
		c.Spoon = known
	}
	grams, temperature, said := strings.Cut(rest, " at ")
	if c.WaterG, err = Masses(grams, "6.02 6.05 6.03"); err != nil || !said {
		return c, err
	}
	at, err := Temperature(temperature)
	c.TemperatureC = &at
	return c, err
}
