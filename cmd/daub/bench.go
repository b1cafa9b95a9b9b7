package main

import (
	"errors"
	"fmt"
	"os"
	"os/signal"
	"strings"
	"syscall"
	"time"

	"daub.example/daub/cmd/daub/internal/lines"
	"daub.example/daub/cmd/daub/internal/term"
	"daub.example/daub/cmd/daub/internal/usage"
	"daub.example/daub/data"
	"daub.example/daub/tui"
	"daub.example/daub/tui/ui"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/muesli/termenv"
	"github.com/spf13/cobra"
)

// bench runs `daub`: the program that fills the terminal.
func (a *app) bench() error {
	return a.screens(a.shelf().Dir(), false)
}

func (a *app) demoCommand() *cobra.Command {
	cmd := &cobra.Command{
		Use:   "demo",
		Short: "Open the bench on sample powders",
		Long: `Opens the bench on a fresh copy of the sample shelf, an invented scenario, in a
new temporary folder. The folder is kept; its path is printed on leaving.`,
		Example:           `  daub demo`,
		Args:              usage.Takes(0, 0, "nothing"),
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE:              func(*cobra.Command, []string) error { return a.demo() },
	}
	a.mouseFlag(cmd)
	return cmd
}

// mouseFlag adds a flag that leaves the mouse to the terminal.
func (a *app) mouseFlag(cmd *cobra.Command) {
	cmd.Flags().BoolVar(&a.noMouse, "no-mouse", false, "leave the mouse to the terminal")
}

func (a *app) demo() error {
	if a.shelfDir != "" {
		return usage.Misused("daub demo makes a shelf of its own; leave --shelf out")
	}
	if _, _, ok := a.terminal(); !ok {
		return errNoTerminal
	}
	dir, err := a.sampleShelf()
	if err != nil {
		return err
	}
	failed := a.screens(dir, true)
	a.say("the sample shelf is kept until you delete it; daub --shelf DIR opens it again:")
	_, err = fmt.Fprintln(a.out, dir)
	return errors.Join(failed, err)
}

// sampleShelf copies the sample shelf into a new temporary folder.
func (a *app) sampleShelf() (dir string, err error) {
	dir, err = os.MkdirTemp(a.temp, "daub-demo-")
	if err != nil {
		return "", fmt.Errorf("make a folder for the sample shelf: %w; check that %s may be written", err, a.temp)
	}
	return dir, data.WriteSample(dir)
}

var errNoTerminal = usage.Misused("the bench needs a terminal, but input or output is something else;" +
	" daub list, show and fit answer without one")

var errDumb = usage.Misused("the bench draws a screen, but TERM says that this terminal is dumb;" +
	" daub trial asks line by line, or set TERM to what the terminal is")

// screens runs the program on the shelf in dir until it is left, then saves what is
// still unsaved.
func (a *app) screens(dir string, demo bool) error {
	in, out, ok := a.terminal()
	if !ok {
		return errNoTerminal
	}
	if os.Getenv("TERM") == "dumb" {
		return errDumb
	}
	if termenv.EnvNoColor() {
		ui.WithoutColours()
	}
	adapter := newShelfAdapter(dir)
	screen := term.NewOutput(out)
	app := tui.New(a.deps(adapter, screen, demo))
	options := []tea.ProgramOption{
		tea.WithInput(term.NewKeyboard(in)), tea.WithOutput(screen), tea.WithAltScreen(),
		tea.WithFPS(20),
	} // so that a countdown takes less than a hundredth of a core
	if !a.noMouse {
		options = append(options, tea.WithMouseCellMotion())
	}
	program := tea.NewProgram(app, options...)
	stop := onHangup(program.Quit)
	_, failed := program.Run()
	stop()
	if failed != nil {
		failed = fmt.Errorf("run the screens: %w", failed)
	}
	failed = errors.Join(failed, app.Fault())
	if item, unsaved := app.Unsaved(); unsaved {
		return errors.Join(failed, a.saveOnExit(adapter, item))
	}
	return failed
}

// onHangup calls quit when the window is closed. Without it the program would end
// in the middle of a write.
func onHangup(quit func()) (stop func()) {
	hangup := make(chan os.Signal, 1)
	signal.Notify(hangup, syscall.SIGHUP)
	go func() {
		if _, open := <-hangup; open {
			quit()
		}
	}()
	return func() {
		signal.Stop(hangup)
		close(hangup)
	}
}

// deps connects the screens to the shelf, clock, clipboard and terminal.
func (a *app) deps(adapter *shelfAdapter, screen *term.Output, demo bool) ui.Deps {
	return ui.Deps{
		Now:        a.now,
		Wait:       time.Sleep,
		List:       adapter.list,
		Save:       adapter.save,
		SaveAsNew:  adapter.saveAsNew,
		SaveSpoons: adapter.saveSpoons,
		Delete:     adapter.remove,
		KeepTrial:  adapter.shelf.KeepTrial,
		AddSamples: func() error { return data.WriteSample(adapter.shelf.Dir()) },
		Recipes:    adapter.recipes,
		SaveRecipe: adapter.saveRecipe, DeleteRecipe: adapter.removeRecipe, WriteCard: adapter.card,
		Export:   adapter.export,
		Copy:     screen.Clipboard(os.Getenv),
		Bell:     screen.Bell,
		ShelfDir: adapter.shelf.Dir(),
		Demo:     demo,
		Suspend:  term.CanSuspend(),
		ASCII:    a.ascii,
	}
}

// trialCommand makes `daub trial --plain`: a trial by questions and answers.
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
to add next, asks what was added, and asks which level the look gave. From
the first weighing or addition on, each answer is saved at once, and a trial
that is left, or whose input ends, stays unfinished and goes on next time. Enter
takes what a question offers; help lists the words that serve at any time, undo,
mark, note, finish and quit among them.

With --beside you thicken this powder until it matches a dish of another powder
that stands beside it: both are stirred alike, and looked at after the same
rest.`,
		Example: `  daub trial --plain
  daub trial --plain "white clay"
  daub trial --plain "green clay" --beside "white clay"`,
		Args:              usage.Takes(0, 1, "one powder at most"),
		ValidArgsFunction: a.completePowder,
		RunE: func(_ *cobra.Command, args []string) error {
			if !isPlain {
				return usage.Misused(
					"daub alone opens the bench; daub trial --plain makes a trial in questions and answers")
			}
			powder, beside := "", strings.TrimSpace(beside)
			if len(args) > 0 {
				powder = args[0]
			}
			return a.plainTrial(powder, beside)
		},
	}
	cmd.Flags().StringVar(&beside, "beside", "",
		"as thick as the last finished dish of `POWDER`")
	_ = cmd.RegisterFlagCompletionFunc("beside", a.completePowder)
	cmd.Flags().BoolVar(&isPlain, "plain", false, "in lines, without filling the terminal")
	return cmd
}

// plainTrial makes a trial over the host's input and output, and saves what is
// unsaved at its end.
func (a *app) plainTrial(powder, beside string) error {
	shelf := a.shelf()
	ownSpoons, err := shelf.Spoons()
	if err != nil {
		return err
	}
	t := lines.New(a.in, a.out, a.now, shelf, ownSpoons, a.ascii)
	failed := t.Run(powder, beside)
	if entry, unsaved := t.Unsaved(); unsaved {
		failed = errors.Join(failed, a.saveOnExit(&shelfAdapter{shelf: shelf}, entry))
	}
	return failed
}
