package manual

import (
	"fmt"
	"os"
	"path/filepath"
	"time"

	"daub.example/daub/data/atomicfile"
	"github.com/spf13/cobra"
)

// Command makes `daub man`, which writes a page for each command and topic; version
// stands on each.
func Command(version string, now func() time.Time) *cobra.Command {
	return &cobra.Command{
		Use:   "man DIR",
		Short: "Write the manual pages",
		Long: `Writes one manual page for each command and help topic into the folder DIR,
which is made if there is none. Pages that are there are replaced.`,
		Example: `  daub man ~/.local/share/man/man1
  man daub-list`,
		ValidArgsFunction: func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
			return nil, cobra.ShellCompDirectiveFilterDirs
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			return write(cmd.Root(), args[0], version, now().Format("2006-01-02"))
		},
	}
}

// write writes the pages into a folder.
func write(root *cobra.Command, dir, version, day string) error {
	if err := os.MkdirAll(dir, 0o755); err != nil {
		return fmt.Errorf("write the manual pages: make the folder: %w; give another", err)
	}
	for _, cmd := range withPages(root) {
		path := filepath.Join(dir, nameOf(cmd)+".1")
		page := pageOf(cmd, version, day)
		if err := atomicfile.Replace(path, []byte(page), nil); err != nil {
			return fmt.Errorf("write the manual page %s: %w; check that the folder may be written", path, err)
		}
	}
	return nil
}
