package repeats

import (
	"strconv"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
)

// Curve holds the looks and points that a chart of a powder shows.
type Curve struct {
	Looks   []bench.LookPoint
	Points  []bench.CurvePoint // at CurveLevels
	Dropped []int              // used trials that cannot be calculated, by their index
}

// CurveOf reads the used trials on a basis. A trial that cannot be calculated is listed in
// Dropped and gives no look.
func CurveOf(p model.Profile, b model.Basis, own model.OwnSpoons) Curve {
	var c Curve
	for n, t := range p.Trials {
		if !t.Used() || !b.Matches(t, p.Powder.Kind()) {
			continue
		}
		r, err := bench.Read(p, t, own)
		if err != nil {
			c.Dropped = append(c.Dropped, n)
			continue
		}
		for _, s := range r.LookPoints(r.FarOut()) {
			s.Trial = n
			c.Looks = append(c.Looks, s)
		}
	}
	for _, r := range Ratios(p, b, model.CurveLevels(), own) {
		c.Points = append(c.Points, bench.CurvePointOf(r.Level, r.Powder, r.Reach))
	}
	return c
}

// DroppedText says which trials of a Curve are left out.
func DroppedText(trials []int) string {
	numbers := make([]string, len(trials))
	for i, n := range trials {
		numbers[i] = strconv.Itoa(n + 1)
	}
	if len(trials) == 1 {
		return "trial " + numbers[0] + " cannot be calculated and is left out"
	}
	return "trials " + strings.Join(numbers, ", ") + " cannot be calculated and are left out"
}
