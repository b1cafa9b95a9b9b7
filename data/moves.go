package data

import (
	"fmt"
	"strings"
	"time"
)

// identity is what tells one table of a list from another, whatever its place.
var identity = map[string][]string{
	"level_spoon": {"spoon"},
	"trial":       {"started"},
	"step":        {"at"},
	"ratio":       {"liquid", "rest_s", "level"},
	"spoon":       {"name"},
	"powder":      {"name", "lot"}, // of a recipe
	"extra":       {"name"},
}

// moves says where the tables of an old text are in the new one, so that a
// comment follows its step when an earlier one is taken out.
type moves map[string]string

// movesBetween compares two texts; one that is not TOML has no moves.
func movesBetween(old, now string) moves {
	m := moves{}
	var was, is map[string]any
	if decodeTOML(old, &was) == nil && decodeTOML(now, &is) == nil {
		m.compare("", "", was, is)
	}
	return m
}

// to is the new path of an old one, "" when its table is gone.
func (m moves) to(path string) string {
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

// compare finds the moves from one decoded text to another.
func (m moves) compare(oldPath, nowPath string, old, now map[string]any) {
	for name, v := range old {
		was, ok := tableList(v)
		if !ok {
			continue
		}
		is, _ := tableList(now[name])
		for i, j := range pair(identities(name, was), identities(name, is)) {
			from := item(join(oldPath, name), i)
			if j < 0 {
				m[from] = ""
				continue
			}
			m[from] = item(join(nowPath, name), j)
			m.compare(from, m[from], was[i], is[j])
		}
	}
}

// identities is what tells the tables of a list apart, "" for one that does
// not say.
func identities(name string, list []map[string]any) []string {
	out := make([]string, len(list))
	for i, t := range list {
		for _, key := range identity[name] {
			switch v := t[key].(type) {
			case nil:
			case time.Time:
				out[i] += v.UTC().Format(time.RFC3339Nano) + "\n"
			case int64:
				out[i] += fmt.Sprint(float64(v)) + "\n"
			default:
				out[i] += fmt.Sprint(v) + "\n"
			}
		}
	}
	return out
}

// pair matches the entries of two lists: those alike at the same place, then
// those alike anywhere, then an entry that was changed with what is now at its
// place. It gives the new place of each old entry, -1 when gone.
func pair(old, now []string) []int {
	out := make([]int, len(old))
	used := make([]bool, len(now))
	place := make(map[string][]int, len(now))
	for i := range old {
		out[i] = -1
		if i < len(now) && old[i] == now[i] {
			out[i], used[i] = i, true
		}
	}
	for j, id := range now {
		if !used[j] && id != "" {
			place[id] = append(place[id], j)
		}
	}
	for i, id := range old {
		if free := place[id]; out[i] < 0 && len(free) > 0 {
			out[i], used[free[0]] = free[0], true
			place[id] = free[1:]
		}
	}
	for i := range old {
		if out[i] < 0 && i < len(now) && !used[i] {
			out[i], used[i] = i, true
		}
	}
	return out
}
