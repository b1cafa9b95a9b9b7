package printable

import (
	"cmp"
	"slices"
	"strings"
)

// lotSign stands before the lot in a powder's title.
const lotSign = " · lot "

// Shorten cuts the name numbered i of several until it fits, marking the cut with more
// ("…"). The cut lies near the middle of the name before its lot, where the name keeps its
// lot and still differs from the others. Where one cut cannot do that, the beginning that
// other names share goes too. It is "" where nothing fits.
func Shorten(names []string, i int, more string, fits func(string) bool) string {
	if fits(names[i]) {
		return names[i]
	}
	name := []rune(names[i])
	for gap := 1; gap < len(name); gap++ {
		if middle := (len(name) - gap + 1) / 2; !fits(string(name[:middle]) + more + string(name[middle+gap:])) {
			continue
		}
		for _, at := range places(names, i, gap) {
			short := string(name[:at.from]) + more + string(name[at.from+gap:])
			if at.hides >= 0 {
				short = window(name, at.hides, more, fits)
			}
			if fits(short) {
				return short
			}
		}
	}
	if fits(more) {
		return more
	}
	return ""
}

// window gives the name from a letter on, as far as it fits.
func window(name []rune, from int, more string, fits func(string) bool) string {
	end := from + 1
	for end < len(name) && fits(more+string(name[from:end+1])+more) {
		end++
	}
	if short := more + string(name[from:]); fits(short) {
		return short
	}
	return more + string(name[from:end]) + more
}

// place is a cut, by its first letter.
type place struct {
	from   int
	hides  int // a letter that has to be seen and is cut away, -1 for none
	cutLot bool
}

// places lists the cuts of gap letters, the best first.
func places(names []string, i, gap int) []place {
	name := []rune(names[i])
	lot := len(name)
	if before, _, has := strings.Cut(names[i], lotSign); has {
		lot = len([]rune(before))
	}
	differs := differences(names, i)
	middle := (lot - gap + 1) / 2
	if lot <= gap {
		middle = (len(name) - gap + 1) / 2
	}
	all := make([]place, len(name)-gap+1)
	for from := range all {
		all[from] = place{from, -1, lot < len(name) && from+gap > lot}
		for _, d := range differs {
			if d[0] >= from && d[1] < from+gap {
				all[from].hides = max(all[from].hides, min(d[0], len(name)-1))
			}
		}
	}
	slices.SortStableFunc(all, func(a, b place) int {
		return cmp.Or(cmp.Compare(a.cost(), b.cost()), cmp.Compare(max(a.from-middle, middle-a.from),
			max(b.from-middle, middle-b.from)))
	})
	return all
}

// cost rates what the cut hides: a difference is worse than the lot.
func (p place) cost() int {
	switch {
	case p.hides >= 0:
		return 2
	case p.cutLot:
		return 1
	default:
		return 0
	}
}

// differences gives, for each other name, the first and the last letter at which name i
// differs from it.
func differences(names []string, i int) (all [][2]int) {
	name := []rune(names[i])
	for j := range names {
		if names[j] == names[i] {
			continue
		}
		other := []rune(names[j])
		shorter := min(len(name), len(other))
		first, last := 0, 0
		for first < shorter && name[first] == other[first] {
			first++
		}
		for last < shorter && name[len(name)-1-last] == other[len(other)-1-last] {
			last++
		}
		all = append(all, [2]int{first, len(name) - 1 - last})
	}
	return all
}
