package main

import (
	"os/exec"
	"strings"
	"testing"

	"github.com/stretchr/testify/require"
)

// The program never uses a network: no package of ours imports net, and nothing
// linked can make a request. net itself comes with the flag library, which reads
// addresses as values.
func TestNothingTouchesTheNetwork(t *testing.T) {
	linked, err := exec.Command("go", "list", "-deps", ".").Output()
	require.NoError(t, err)
	for _, name := range []string{"net/http", "net/rpc", "net/smtp", "crypto/tls", "log/syslog"} {
		require.NotContains(t, strings.Fields(string(linked)), name)
	}
	ours, err := exec.Command("go", "list", "-f", `{{join .Imports " "}}`, "../../...").Output()
	require.NoError(t, err)
	require.NotContains(t, strings.Fields(string(ours)), "net")
}
