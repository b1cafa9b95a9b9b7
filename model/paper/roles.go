package paper

import (
	"slices"
	"strings"

	"daub.example/daub/model"
)

// Words by which the order of addition knows an extra; the recipe's own order
// wins.
var (
	solubiliserWords  = []string{"polysorbate", "solubil", "emulsif"}
	preservativeWords = []string{"preserv"}
)

// has reports whether a name holds one of the words.
func has(name string, words []string) bool {
	name = strings.ToLower(name)
	return slices.ContainsFunc(words, func(w string) bool { return strings.Contains(name, w) })
}

func solubiliser(name string) bool { return has(name, solubiliserWords) }

// roleOf is how an extra goes in.
func roleOf(e model.Extra) role {
	if has(e.Name, preservativeWords) {
		return preservative
	}
	return water
}

func portions(r model.Recipe) (n int, eachG float64) { return 0, 0 }

func order(r model.Recipe) []string { return nil }
