package main

import (
	"fmt"
	"regexp"
	"slices"
	"strconv"
	"strings"

	"daub.example/daub/model"
)

// Spoons as a maker types them: "1/2 tsp", "2 x 1 tsp + 1/4 tsp", "1 1/2 tsp".
var (
	counted  = regexp.MustCompile(`^([0-9]+)\s*[x×*]\s*(.+)$`)
	wholes   = regexp.MustCompile(`^([0-9]+)\s*(tsp|tbsp)$`)
	withPart = regexp.MustCompile(`^([0-9]+)\s+([0-9]+/[0-9]+\s*(?:tsp|tbsp))$`)
	spaceTsp = regexp.MustCompile(`^([0-9/]+)\s*(tsp|tbsp)$`)
)

// spoonName is the spoon that was typed, under its full name: a standard one,
// one of the maker's own, or one that a profile was weighed with.
func spoonName(typed string, d model.Drawer, profiles ...model.Profile) (string, bool) {
	names := d.Names()
	for _, p := range profiles {
		for _, l := range p.LevelSpoons {
			names = append(names, l.Spoon)
		}
	}
	name := strings.Join(strings.Fields(typed), " ")
	if slices.Contains(names, name) {
		return name, true
	}
	name = spaceTsp.ReplaceAllString(strings.ToLower(name), "$1 $2") // 1/2tsp
	for _, n := range names {
		if strings.EqualFold(n, name) {
			return n, true
		}
	}
	return "", false
}

// spoonSum reads a sum of level spoons.
func spoonSum(text string, d model.Drawer, p model.Profile) ([]model.SpoonCount, error) {
	var sum []model.SpoonCount
	parts := []string{text} // a spoon of the maker's own may have a + in its name
	if _, ok := spoonName(text, d, p); !ok {
		parts = strings.Split(text, "+")
	}
	for _, part := range parts {
		spoons, err := spoonCounts(part, d, p)
		if err != nil {
			return nil, err
		}
		sum = append(sum, spoons...)
	}
	return sum, nil
}

// spoonCounts reads one part of such a sum.
func spoonCounts(text string, d model.Drawer, p model.Profile) ([]model.SpoonCount, error) {
	t := strings.TrimSpace(text)
	if name, ok := spoonName(t, d, p); ok {
		return []model.SpoonCount{{Spoon: name, Count: 1}}, nil
	}
	if m := counted.FindStringSubmatch(t); m != nil {
		name, ok := spoonName(m[2], d, p)
		n, err := strconv.Atoi(m[1])
		if ok && err == nil && n > 0 {
			return []model.SpoonCount{{Spoon: name, Count: n}}, nil
		}
	}
	lower := strings.ToLower(t)
	if m := wholes.FindStringSubmatch(lower); m != nil {
		if n, err := strconv.Atoi(m[1]); err == nil && n > 0 {
			return []model.SpoonCount{{Spoon: "1 " + m[2], Count: n}}, nil
		}
	}
	if m := withPart.FindStringSubmatch(lower); m != nil {
		unit := m[2][strings.LastIndexByte(m[2], 't'):]
		name, ok := spoonName(m[2], d, p)
		n, err := strconv.Atoi(m[1])
		if ok && err == nil && n > 0 {
			return []model.SpoonCount{{Spoon: "1 " + unit, Count: n}, {Spoon: name, Count: 1}}, nil
		}
	}
	return nil, fmt.Errorf("%q is no level spoon: type spoons as 2 x 1 tsp + 1/4 tsp; there are %s, and your own from spoons.toml", t, strings.Join(d.Names(), ", "))
}
