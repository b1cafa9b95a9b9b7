package main

import (
	"errors"

	"daub.example/daub/cmd/daub/internal/lines"
	"daub.example/daub/cmd/daub/internal/usage"
	"github.com/spf13/cobra"
)

func (a *app) trialCommand() *cobra.Command {
	var isPlain bool
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
and is gone on with next time.`,
		Example: `  daub trial --plain
  daub trial --plain "white clay"`,
		Args:              usage.Takes(0, 1, "one powder at most"),
		ValidArgsFunction: a.completePowder,
		RunE: func(_ *cobra.Command, args []string) error {
			if !isPlain {
				return usage.Misused("daub alone opens the bench; daub trial --plain makes a trial in questions and answers")
			}
			powder := ""
			if len(args) > 0 {
				powder = args[0]
			}
			return a.plainTrial(powder)
		},
	}
	cmd.Flags().BoolVar(&isPlain, "plain", false, "in lines, without filling the terminal")
	return cmd
}

// plainTrial makes a trial over the host's input and output, and saves what
// may still be unsaved at its end.
func (a *app) plainTrial(powder string) error {
	shelf := a.shelf()
	ownSpoons, err := shelf.Spoons()
	if err != nil {
		return err
	}
	t := lines.New(a.in, a.out, a.now, shelf, ownSpoons, a.ascii)
	failed := t.Run(powder)
	if entry, unsaved := t.Unsaved(); unsaved {
		failed = errors.Join(failed, a.saveOnExit(&shelfAdapter{shelf: shelf}, entry))
	}
	return failed
}
