package term

import (
	"bytes"
	"testing"

	"github.com/stretchr/testify/require"
)

// Of any bytes from a terminal, those that end within a key sequence wait for the
// rest, and those without an Esc never do.
func FuzzCutShort(f *testing.F) {
	for _, typed := range []string{
		"", "a", "\x1b", "\x1b[1;5", "\x1b[C", "\x1bOA", "\x1bx", "\x1b[200~a\x1b[201~", "\x9b5~",
	} {
		f.Add([]byte(typed))
	}
	f.Fuzz(func(t *testing.T, typed []byte) {
		if cutShort(typed) {
			require.Contains(t, string(typed), "\x1b")
			closed := func(end string) bool { return !cutShort(append(bytes.Clone(typed), end...)) }
			require.True(t, closed("[C") || closed("C"), "nothing closes it: %q", typed)
		}
		require.True(t, cutShort(append(bytes.Clone(typed), 0x1b)))
		require.False(t, cutShort(append(bytes.Clone(typed), "\x1b[C"...)))
	})
}
