package ui_test

import (
	"fmt"
	"testing"

	"daub.example/daub/tui/ui"
	"github.com/stretchr/testify/assert"
	"pgregory.net/rapid"
)

// However few lines fit, paging down and up again passes over none.
func TestPagingShowsEveryLine(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		all := make([]string, rapid.IntRange(0, 60).Draw(t, "lines"))
		for i := range all {
			all[i] = fmt.Sprint("line ", i)
		}
		h := rapid.IntRange(2, 30).Draw(t, "h")
		for _, key := range []string{"pgdown", "pgup"} {
			var s ui.Scroll
			if key == "pgup" {
				for range all {
					s.Sight(all, h)
					s.ScrollBy("pgdown")
				}
			}
			seen := map[string]bool{}
			for range all {
				for _, line := range s.Sight(all, h) {
					seen[line] = true
				}
				s.ScrollBy(key)
			}
			for _, line := range all {
				assert.True(t, seen[line], "%s of %d lines in %d passes over %s", key, len(all), h, line)
			}
		}
	})
}
