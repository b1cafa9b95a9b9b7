package tomlfile

import (
	"maps"
	"slices"
	"strings"
)

// identities holds the values that tell a list's tables apart, by the list's path;
// "" for a table without one.
type identities map[string][]string

// tablePaths maps each table of an old text to its path in the new one, so that a
// comment follows its step when an earlier one is removed.
type tablePaths map[string]string

// pathsBetween compares the lists of two texts.
func pathsBetween(old, now identities) tablePaths {
	m := tablePaths{}
	for _, list := range slices.Sorted(maps.Keys(old)) { // a list before the lists in it
		there := m.to(list)
		if there == "" {
			continue
		}
		for i, j := range pair(old[list], now[there]) {
			if j < 0 {
				m[item(list, i)] = ""
			} else {
				m[item(list, i)] = item(there, j)
			}
		}
	}
	return m
}

// to returns the new path of an old one, "" when its table is gone.
func (m tablePaths) to(path string) string {
	for at := path; at != ""; at = at[:max(strings.LastIndexAny(at, ".["), 0)] {
		if there, ok := m[at]; ok {
			if there == "" {
				return ""
			}
			return there + path[len(at):]
		}
	}
	return path
}

// pair matches the entries of two lists. Equal entries at the same index come
// first, then equal ones anywhere, then a changed entry with the one now at its
// index. It returns the new index of each old entry, -1 if it is gone.
func pair(old, now []string) []int {
	out := make([]int, len(old))
	used := make([]bool, len(now))
	unused := make(map[string][]int, len(now))
	for i := range old {
		out[i] = -1
		if i < len(now) && old[i] == now[i] {
			out[i], used[i] = i, true
		}
	}
	for j, id := range now {
		if !used[j] && id != "" {
			unused[id] = append(unused[id], j)
		}
	}
	for i, id := range old {
		if free := unused[id]; out[i] < 0 && len(free) > 0 {
			out[i], used[free[0]] = free[0], true
			unused[id] = free[1:]
		}
	}
	for i := range old {
		if out[i] < 0 && i < len(now) && !used[i] {
			out[i], used[i] = i, true
		}
	}
	return out
}
