// Package usage holds the parts of how commands are used: shared flags, numbers of
// arguments, completion, and the error of whoever typed. It never reads a file and
// never answers anything. It may import the rooms of model.
package usage

import (
	"errors"
	"fmt"

	"daub.example/daub/model"
	"github.com/spf13/cobra"
	"github.com/spf13/pflag"
)

// Misuse is an error in the command typed, not in the data.
type Misuse struct{ error }

func (m Misuse) Unwrap() error { return m.error }

// Misused makes a Misuse.
func Misused(format string, args ...any) error { return Misuse{fmt.Errorf(format, args...)} }

// Wrong makes a Misuse of an error that says it already.
func Wrong(err error) error { return Misuse{err} }

// OfFlag words the error of a flag for people, and says where to look further.
func OfFlag(cmd *cobra.Command, err error) error {
	var invalid *pflag.InvalidValueError
	if errors.As(err, &invalid) {
		return fmt.Errorf("--%s: %w; %s --help shows examples", invalid.GetFlag().Name, invalid.Unwrap(),
			cmd.CommandPath())
	}
	var unknown *pflag.NotExistError
	if errors.As(err, &unknown) && len(unknown.GetSpecifiedName()) > 1 {
		var names []string
		cmd.Flags().VisitAll(func(f *pflag.Flag) { names = append(names, f.Name) })
		if near := model.Suggest(unknown.GetSpecifiedName(), names); len(near) > 0 {
			return fmt.Errorf("%w; did you mean --%s? %s --help shows what there is", err, near[0], cmd.CommandPath())
		}
	}
	return fmt.Errorf("%w; %s --help shows what there is", err, cmd.CommandPath())
}

// Takes says how many arguments a command takes, in its own words.
func Takes(low, high int, what string) cobra.PositionalArgs {
	return func(cmd *cobra.Command, args []string) error {
		if n := len(args); n >= low && (n <= high || high < low) {
			return nil
		}
		given := fmt.Sprintf("%d were given", len(args))
		switch {
		case len(args) == 0:
			given = "nothing was given"
		case high == 0:
			given = fmt.Sprintf("%q was given", args[0])
		case len(args) == 1:
			given = "only one was given"
		}
		return fmt.Errorf("%s takes %s, but %s; %s --help shows examples", cmd.CommandPath(), what, given,
			cmd.CommandPath())
	}
}

// Many is the upper limit in Takes for a command without one.
const Many = -1

// Completer offers what may be typed next.
type Completer = func(cmd *cobra.Command, args []string, typed string) ([]string, cobra.ShellCompDirective)

// Words offers a fixed list of words in its order.
func Words[T ~string](list []T) Completer {
	return func(*cobra.Command, []string, string) ([]string, cobra.ShellCompDirective) {
		out := make([]string, len(list))
		for i, w := range list {
			out[i] = string(w)
		}
		return out, cobra.ShellCompDirectiveNoFileComp | cobra.ShellCompDirectiveKeepOrder
	}
}
