package term

import (
	"os"
	"testing"
	"time"

	"github.com/stretchr/testify/require"
)

func TestCutShort(t *testing.T) {
	for typed, want := range map[string]bool{
		"": false, "a": false, "\x1b": true, "a\x1b": true, "\x1b[": true, "\x1bO": true, "\x1b[1;5": true,
		"\x1b[C": false, "\x1bOA": false, "\x1b[3~": false, "\x1bx": false, "\x1b[C\x1b": true, "\x1b[Cq": false,
	} {
		require.Equal(t, want, cutShort([]byte(typed)), "%q", typed)
	}
}

// TestSequencesStayWhole cuts an arrow in two, as a busy machine does.
func TestSequencesStayWhole(t *testing.T) {
	r, w, err := os.Pipe()
	require.NoError(t, err)
	defer r.Close()
	defer w.Close()
	k := Keyboard{r, 10 * time.Second}
	buf := make([]byte, 256)

	_, _ = w.WriteString("\x1b")
	go func() {
		time.Sleep(2 * time.Millisecond)
		_, _ = w.WriteString("[")
		time.Sleep(2 * time.Millisecond)
		_, _ = w.WriteString("C")
	}()
	n, err := k.Read(buf)
	require.NoError(t, err)
	require.Equal(t, "\x1b[C", string(buf[:n]))

	k.gap = sequenceGap
	_, _ = w.WriteString("\x1b")
	n, err = k.Read(buf)
	require.NoError(t, err)
	require.Equal(t, "\x1b", string(buf[:n]), "a lone Esc is an Esc")

	_, _ = w.WriteString("5")
	n, err = k.Read(buf)
	require.NoError(t, err)
	require.Equal(t, "5", string(buf[:n]))
}
