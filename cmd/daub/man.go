package main

import (
	"fmt"
	"os"
	"path/filepath"

	"daub.example/daub/cmd/daub/internal/manual"
	"daub.example/daub/data/atomicfile"
	"github.com/spf13/cobra"
)

// manCommand writes the manual pages.
func (a *app) manCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "man DIR",
		Short: "Write the manual pages",
		Long: `Writes one manual page for each command and help topic into the folder DIR,
which is made if there is none. Pages that are there are replaced.`,
		Example: `  daub man ~/.local/share/man/man1
  man daub-list`,
		Args: takes(1, 1, "one folder"),
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return nil, cobra.ShellCompDirectiveFilterDirs
		},
		RunE: func(cmd *cobra.Command, args []string) error { return a.man(cmd.Root(), args[0]) },
	}
}

func (a *app) man(root *cobra.Command, dir string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return fmt.Errorf("write the manual pages: make the folder: %w; give another", err)
	}
	day := a.now().Format("2006-01-02")
	for _, cmd := range manual.Of(root) {
		path := filepath.Join(dir, manual.Name(cmd)+".1")
		page := manual.Page(cmd, version().Version, day)
		if err := atomicfile.Replace(path, []byte(page), nil); err != nil {
			return fmt.Errorf("write the manual page %s: %w; check that the folder may be written", path, err)
		}
	}
	return nil
}
