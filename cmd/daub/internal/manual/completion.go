package manual

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"

	"github.com/spf13/cobra"
)

// shell is a shell with completion: what it needs, how the present shell and every
// new one load the script, and the library's script.
type shell struct {
	name, needs, example string
	script               func(root *cobra.Command, out io.Writer) error
}

var shells = []shell{
	{
		"bash", `Needs the package bash-completion, which most systems have or offer; without it
the script says so at the first Tab.`,
		`  source <(daub completion bash)
  daub completion bash > ~/.local/share/bash-completion/completions/daub`,
		bashScript,
	},
	{
		"zsh", `Needs "autoload -U compinit; compinit" in ~/.zshrc.`,
		`  source <(daub completion zsh)
  daub completion zsh > "${fpath[1]}/_daub"`,
		func(root *cobra.Command, out io.Writer) error { return root.GenZshCompletion(out) },
	},
	{
		"fish", "Needs nothing else.",
		`  daub completion fish | source
  daub completion fish > ~/.config/fish/completions/daub.fish`,
		func(root *cobra.Command, out io.Writer) error { return root.GenFishCompletion(out, true) },
	},
	{
		"powershell", "Needs version 5 or later.",
		`  daub completion powershell | Out-String | Invoke-Expression
  daub completion powershell >> $PROFILE`,
		func(root *cobra.Command, out io.Writer) error { return root.GenPowerShellCompletionWithDesc(out) },
	},
}

// Completion makes `daub completion`, with a command for each shell. misused makes
// the error if none is named.
func Completion(misused func(format string, args ...any) error) *cobra.Command {
	var names []string
	for _, s := range shells {
		names = append(names, s.name)
	}
	or := strings.Join(names[:len(names)-1], ", ") + " or " + names[len(names)-1]
	cmd := &cobra.Command{
		Use:   "completion",
		Short: "Let the Tab key finish a command you have begun",
		Long: fmt.Sprintf(`Writes a script for %s, after which the Tab key
completes commands, flags, powders and levels.`, or),
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE: func(_ *cobra.Command, args []string) error {
			if len(args) > 0 {
				return misused("there is no completion for %q; name a shell: %s", args[0], or)
			}
			return misused("completion for which shell? name one: %s", or)
		},
	}
	for _, s := range shells {
		cmd.AddCommand(&cobra.Command{
			Use:   s.name,
			Short: "Write the completion script for " + s.name,
			Long: "Writes the completion script for " + s.name + ". The first example below is for the\nshell at " +
				"hand, the second for every new one.\n\n" + s.needs,
			Example:           s.example,
			Args:              cobra.NoArgs,
			ValidArgsFunction: cobra.NoFileCompletions,
			RunE: func(cmd *cobra.Command, _ []string) error {
				if err := s.script(cmd.Root(), cmd.OutOrStdout()); err != nil {
					return fmt.Errorf("write the completion script for %s: %w", s.name, err)
				}
				return nil
			},
		})
	}
	return cmd
}

// needed is a function that the library's bash script calls without a check.
const needed = "_get_comp_words_by_ref"

// bashScript is the library's script. Without bash-completion it says what is
// missing, not that some function was not found.
func bashScript(root *cobra.Command, out io.Writer) error {
	var script bytes.Buffer
	if err := root.GenBashCompletionV2(&script, true); err != nil {
		return err
	}
	lines := strings.SplitAfter(script.String(), "\n")
	at := slices.IndexFunc(lines, func(line string) bool { return strings.HasPrefix(strings.TrimSpace(line), needed) })
	if at < 0 {
		return fmt.Errorf("no line calls %s any more", needed)
	}
	lines = slices.Insert(lines, at, `    if ! declare -F `+needed+` >/dev/null; then
        printf '\ndaub: completion needs the package bash-completion; install it and start a new shell\n' >&2
        return 1
    fi
`)
	_, err := io.WriteString(out, strings.Join(lines, ""))
	return err
}
