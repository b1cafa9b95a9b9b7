package model

import (
	"fmt"
	"strconv"
	"strings"
)

// Problem is one thing wrong in a profile or a list of spoons, in the maker's
// words.
type Problem struct {
	// Path names the place as the file has it, counted from 0:
	// "powder.name", "level_spoon[0].grams", "trial[1].step[3].level".
	Path string
	What string // what is wrong
	Fix  string // how to mend it
}

// Error is the whole complaint: where, what is wrong, how to mend it.
func (p Problem) Error() string {
	return fmt.Sprintf("%s: %s; %s", p.Place(), p.What, p.Fix)
}

// Place says where the problem is as a maker counts, from 1:
// "trial 2, step 4, level".
func (p Problem) Place() string {
	var words []string
	for _, part := range strings.Split(p.Path, ".") {
		name, index, _ := strings.Cut(strings.TrimSuffix(part, "]"), "[")
		name = strings.ReplaceAll(name, "_", " ")
		if n, err := strconv.Atoi(index); err == nil {
			name = fmt.Sprintf("%s %d", name, n+1)
		}
		words = append(words, name)
	}
	return strings.Join(words, ", ")
}
