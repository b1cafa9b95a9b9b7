package model

import (
	"slices"
	"strings"
	"unicode/utf8"
)

// Suggest picks up to three candidates that word may be a slip for, the nearest first. They
// are the same but for case, contain word or lie within it, or are a few letters off.
func Suggest(word string, candidates []string) []string {
	type scored struct {
		text string
		far  int
	}
	low := strings.ToLower(strings.TrimSpace(word))
	var found []scored
	for _, c := range candidates {
		other := strings.ToLower(c)
		far := distance(low, other)
		switch {
		case far <= max(1, min(len(low), len(other))/3):
		case len(low) >= 3 && (strings.Contains(other, low) || strings.Contains(low, other)):
			far = 100 + far
		default:
			continue
		}
		found = append(found, scored{c, far})
	}
	slices.SortStableFunc(found, func(a, b scored) int { return a.far - b.far })
	var out []string
	for _, f := range found[:min(len(found), 3)] {
		out = append(out, f.text)
	}
	return out
}

// distance counts the letters to insert, drop, change or swap with the next one (optimal
// string alignment). Texts too long to be a slip count as far apart.
func distance(a, b string) int {
	ra, rb := []rune(a), []rune(b)
	if len(ra) > 100 || len(rb) > 100 {
		return 100
	}
	var twoAbove, above []int
	row := make([]int, len(rb)+1)
	for j := range row {
		row[j] = j
	}
	for i, x := range ra {
		twoAbove, above, row = above, row, make([]int, len(rb)+1)
		row[0] = i + 1
		for j, y := range rb {
			change := above[j]
			if x != y {
				change++
			}
			row[j+1] = min(change, row[j]+1, above[j+1]+1)
			if i > 0 && j > 0 && x == rb[j-1] && ra[i-1] == y {
				row[j+1] = min(row[j+1], twoAbove[j-1]+1)
			}
		}
	}
	return row[len(rb)]
}

// Misspelt finds the known word that text, or one of its words, was meant to be; "" for
// none. Both have at least four letters and are one letter apart, or two in a long word.
func Misspelt(text string, known []string) string {
	low := strings.ToLower(strings.TrimSpace(text))
	least, found := 3, ""
	for _, word := range append([]string{low}, strings.Fields(low)...) {
		for _, k := range known {
			letters := min(utf8.RuneCountInString(word), utf8.RuneCountInString(k))
			far := distance(word, k)
			if letters >= 4 && far < least && (far == 1 || far == 2 && letters >= 8) {
				least, found = far, k
			}
		}
	}
	return found
}
