package main

import (
	"runtime"
	"runtime/debug"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/data/record"
	"github.com/spf13/cobra"
)

// versionJSON is the answer of `daub version --json`.
type versionJSON struct {
	Version  string `json:"version"` // "(devel)" for one that was built without a version
	Go       string `json:"go"`      // of the compiler
	Platform string `json:"platform"`
	Schema   int    `json:"schema"` // newest version of the files that is read and written
}

func version() versionJSON {
	v := versionJSON{
		Version: "(devel)", Go: runtime.Version(), Platform: runtime.GOOS + "/" + runtime.GOARCH, Schema: record.Schema,
	}
	if info, ok := debug.ReadBuildInfo(); ok && info.Main.Version != "" {
		v.Version = info.Main.Version
	}
	return v
}

func (v versionJSON) json() any { return v }

func (v versionJSON) text(p *page.Page) {
	p.Line("daub %s (%s, %s; files of schema %d)", v.Version, v.Platform, v.Go, v.Schema)
}

func (a *app) versionCommand() *cobra.Command {
	var asJSON bool
	cmd := &cobra.Command{
		Use:               "version",
		Short:             "Say which version this is",
		Args:              takes(0, 0, "nothing"),
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE: func(*cobra.Command, []string) error {
			return a.answer(version(), asJSON)
		},
	}
	addJSON(cmd, &asJSON)
	return cmd
}
