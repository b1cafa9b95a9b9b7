package typed

import (
	"regexp"
	"sync"
)

// lazy is a regular expression that is compiled when first used: most starts of
// the program need none of them.
type lazy struct{ compiled func() *regexp.Regexp }

// pattern makes a lazy expression.
func pattern(text string) lazy {
	return lazy{sync.OnceValue(func() *regexp.Regexp { return regexp.MustCompile(text) })}
}

// MatchString is that of the expression.
func (l lazy) MatchString(text string) bool { return l.compiled().MatchString(text) }

// FindStringSubmatch is that of the expression.
func (l lazy) FindStringSubmatch(text string) []string {
	return l.compiled().FindStringSubmatch(text)
}
