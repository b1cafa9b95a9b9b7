package bench

import (
	"fmt"
	"math"

	"daub.example/daub/model"
	"daub.example/daub/model/fit"
)

// Forecast says what the look after an addition will likely show.
type Forecast struct {
	Grams      float64 // the addition's weight, g
	Low, High  float64 // levels between which the look falls in four cases of five
	Thins      bool    // liquid is added: it may go beyond the aim on the thin side
	Over       float64 // the chance of a look more than a level beyond the aim
	Beyond     float64 // the level that Over is the chance of going beyond
	SideBySide bool    // levels are looks beside a reference dish, -2 much thinner to 2 much thicker
	Unlooked   bool    // no look yet: Over is not known
	Known      bool    // before the first look: by earlier trials of the powder, not by its family alone
}

// guess is the width in levels beyond which a forecast is a guess (chosen).
const guess = 3

// Guess reports whether the forecast is too wide to build on.
func (f Forecast) Guess() bool { return f.High-f.Low > guess }

// Blind reports whether nothing is known of the powder yet: its first look may
// fall anywhere.
func (f Forecast) Blind() bool { return f.Unlooked && f.High-f.Low >= model.MaxLevel-model.MinLevel }

// nearlyAlways is the chance above which an addition is asked about (chosen).
const nearlyAlways = 0.85

// Overshoots reports whether the look would nearly always be more than a level beyond the
// aim.
func (f Forecast) Overshoots() bool { return f.Over > nearlyAlways }

// Risky reports whether the bench would not advise the addition.
func (f Forecast) Risky() bool { return f.Over > risk }

// Seldom reports whether the look would hardly ever be beyond.
func (f Forecast) Seldom() bool { return f.Over < 0.04 }

// Odds says how often the look would be beyond, "almost every time".
func (f Forecast) Odds() string {
	if f.Seldom() {
		return "hardly ever"
	}
	return oneIn(f.Over)
}

// Range writes the levels of the forecast, "3 to 5".
func (f Forecast) Range() string { return rangeText(f.Low, f.High, f.SideBySide) }

// BeyondText says what the look would be beyond, "thicker than 6": a level, or the
// reference dish.
func (f Forecast) BeyondText() string {
	text := map[bool]string{true: "thinner than ", false: "thicker than "}[f.Thins]
	if f.SideBySide {
		return text + "the reference dish by far"
	}
	return text + model.Number(f.Beyond)
}

// Forecasts gives the forecast of each addition, made alone; nil where one of them cannot
// be calculated or leaves no paste.
func (r Reading) Forecasts(steps ...model.Step) []Forecast {
	forecasts := make([]Forecast, len(steps))
	xs := make([]float64, len(steps))
	for i, s := range steps {
		dish, err := apply(r.Trial, r.Dish(), s, r.SpoonWeights)
		if err != nil || !dish.Mixed() {
			return nil
		}
		xs[i] = dish.PowderPerLiquid()
		forecasts[i].Grams = math.Abs(dish.PasteG() - r.Dish().PasteG())
		forecasts[i].Beyond = beyond(r.target())
		if s.Add == model.AddLiquid {
			forecasts[i].Thins, forecasts[i].Beyond = true, math.Max(r.target()-1, r.thinnest()+0.5)
		}
		forecasts[i].SideBySide = r.Trial.Match != nil
	}
	outlooks := r.Steered().Outlooks(r.target(), xs, r.expected())
	for i := range forecasts {
		if outlooks == nil {
			r.foresee(&forecasts[i], xs[i])
			continue
		}
		forecasts[i].Low, forecasts[i].High = outlooks[i].Likely()
		forecasts[i].Over = overshoot(outlooks[i], r.target())
		if forecasts[i].Thins {
			forecasts[i].Over = 1 - outlooks[i].Above(forecasts[i].Beyond-0.25) // levels are halves at the finest
		}
	}
	return forecasts
}

// foresee fills in a forecast before the first look, for x powder per liquid. It takes the
// expected ratio at the aim and the usual slope.
func (r Reading) foresee(f *Forecast, x float64) {
	f.Unlooked, f.Known = true, r.isKnown()
	aim, e := r.target(), r.expected()
	if f.Known {
		e = fourInFive(e)
	}
	level := func(ratio float64) float64 {
		low, high := model.MinLevel, model.MaxLevel
		if f.SideBySide {
			low, high = float64(fit.MuchThinner), float64(fit.MuchThicker)
		}
		at := aim + usualSlope*math.Log(ratio*x)
		if at < aim { // below the aim is not said to reach it
			return math.Min(math.Max(math.Floor(at), low), high)
		}
		return math.Min(math.Max(math.Round(at), low), high)
	}
	f.Low, f.High = level(e.Low), level(e.High)
}

// fourInFive narrows a known 95 % range to four cases in five, about its middle in ln R.
func fourInFive(e fit.Expected) fit.Expected {
	middle, half := math.Sqrt(e.Low*e.High), math.Log(e.High/e.Low)/2*1.2816/1.9600
	return fit.Expected{Low: middle * math.Exp(-half), High: middle * math.Exp(half)}
}

// Basis says where a forecast before the first look comes from: "by earlier trials", "with
// most flours".
func (r Reading) Basis() string {
	if r.isKnown() {
		return "by earlier trials"
	}
	return "with most " + familiesText(r.Profile.Powder.Kind())
}

// Unlikely asks about an addition that would overshoot nearly every time, or is more than
// the dish holds; "" for any other.
func (r Reading) Unlikely(s model.Step) string {
	forecasts := r.Forecasts(s)
	holds := r.Dish().PasteG()
	switch {
	case forecasts == nil:
		return ""
	case holds > 0 && forecasts[0].Grams > holds:
		return fmt.Sprintf("%s g into the %s g in the dish?", model.Grams(forecasts[0].Grams), model.Grams(holds))
	case s.Add == model.AddPowder && forecasts[0].Overshoots():
		return fmt.Sprintf("%s would nearly always make it %s.", s.Amount(), forecasts[0].BeyondText())
	default:
		return ""
	}
}
