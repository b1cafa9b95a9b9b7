package term

import (
	"encoding/base64"
	"os"
	"path/filepath"
	"testing"

	"github.com/stretchr/testify/require"
)

func TestCopyReachesTheTerminalAround(t *testing.T) {
	coded := base64.StdEncoding.EncodeToString([]byte("1.93 g"))
	plain := "\x1b]52;c;" + coded + "\x07"
	for _, c := range []struct{ name, tmux, term, want string }{
		{"plain", "", "xterm", plain},
		{"tmux", "/tmp/tmux-0/default,1,0", "tmux-256color", plain + "\x1bPtmux;\x1b" + plain + "\x1b\\"},
		{"screen", "", "screen.xterm", "\x1bP" + plain + "\x1b\\"},
	} {
		out, err := os.Create(filepath.Join(t.TempDir(), c.name))
		require.NoError(t, err)
		environment := map[string]string{"TMUX": c.tmux, "TERM": c.term}
		clip := NewOutput(out).Clipboard(func(name string) string { return environment[name] })
		require.NoError(t, clip("1.93 g"))
		require.Error(t, clip(""))
		require.NoError(t, out.Close())
		sent, err := os.ReadFile(out.Name())
		require.NoError(t, err)
		require.Equal(t, c.want, string(sent), c.name)
	}
}
