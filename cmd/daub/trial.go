package main

import (
	"errors"
	"strings"

	"daub.example/daub/cmd/daub/internal/lines"
	"daub.example/daub/cmd/daub/internal/usage"
	"github.com/spf13/cobra"
)

func (a *app) trialCommand() *cobra.Command {
	var (
		isPlain bool
		beside  string
	)
	cmd := &cobra.Command{
		Use:   "trial --plain [POWDER]",
		Short: "Make a trial in questions and answers",
		Long: `Makes a trial in lines of questions and answers, for a screen reader, a log or a
terminal that can do no more. daub alone opens the bench, which fills the
terminal.

It asks for the powder, its level-spoon weighings and the liquid, then says what
to add next, asks what was added, and asks which level the look gave. Every
answer is on the shelf before it says "saved". Enter takes what a question
offers; help lists the words that serve at any time, undo, mark, note, finish
and quit among them. A trial that is left, or whose input ends, stays unfinished
and is gone on with next time.

With --beside the powder is brought to the thickness of another's dish that still
stands: both are stirred the same, and looked at side by side after the same rest.`,
		Example: `  daub trial --plain
  daub trial --plain "white clay"
  daub trial --plain "green clay" --beside "white clay"`,
		Args:              usage.Takes(0, 1, "one powder at most"),
		ValidArgsFunction: a.completePowder,
		RunE: func(_ *cobra.Command, args []string) error {
			if !isPlain {
				return usage.Misused("daub alone opens the bench; daub trial --plain makes a trial in questions and answers")
			}
			powder, beside := "", strings.TrimSpace(beside)
			if len(args) > 0 {
				powder = args[0]
			}
			return a.plainTrial(powder, beside)
		},
	}
	cmd.Flags().StringVar(&beside, "beside", "",
		"bring it to the thickness of the last finished dish of `POWDER`, kept covered")
	_ = cmd.RegisterFlagCompletionFunc("beside", a.completePowder)
	cmd.Flags().BoolVar(&isPlain, "plain", false, "in lines, without filling the terminal")
	return cmd
}

// plainTrial makes a trial over the host's input and output, and saves what
// may still be unsaved at its end.
func (a *app) plainTrial(powder, beside string) error {
	shelf := a.shelf()
	ownSpoons, err := shelf.Spoons()
	if err != nil {
		return err
	}
	t := lines.New(a.in, a.out, a.now, shelf, ownSpoons, a.ascii)
	if beside != "" {
		if err := t.Beside(beside); err != nil {
			return err
		}
	}
	failed := t.Run(powder)
	if entry, unsaved := t.Unsaved(); unsaved {
		failed = errors.Join(failed, a.saveOnExit(&shelfAdapter{shelf: shelf}, entry))
	}
	return failed
}
