package main

import (
	"errors"
	"fmt"
	"os"
	"os/signal"
	"syscall"
	"time"

	"daub.example/daub/cmd/daub/internal/term"
	"daub.example/daub/cmd/daub/internal/usage"
	"daub.example/daub/data"
	"daub.example/daub/tui"
	"daub.example/daub/tui/ui"
	tea "github.com/charmbracelet/bubbletea"
	"github.com/spf13/cobra"
)

// bench is `daub`: the program that fills the terminal.
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

// mouseFlag lets the mouse be left to the terminal.
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
	_, err = fmt.Fprintln(a.out, dir)
	return errors.Join(failed, err)
}

// sampleShelf puts a copy of the sample shelf into a new temporary folder.
func (a *app) sampleShelf() (dir string, err error) {
	dir, err = os.MkdirTemp(a.temp, "daub-demo-")
	if err != nil {
		return "", fmt.Errorf("make a folder for the sample shelf: %w; check that %s may be written", err, a.temp)
	}
	return dir, data.WriteSample(dir)
}

var errNoTerminal = usage.Misused("the bench needs a terminal, but input or output is something else;" +
	" daub list, show and fit answer without one")

// screens runs the program on the shelf in dir until it is left, then saves what it may
// still owe.
func (a *app) screens(dir string, demo bool) error {
	in, out, ok := a.terminal()
	if !ok {
		return errNoTerminal
	}
	k := newShelfAdapter(dir)
	screen := term.NewOutput(out)
	app := tui.New(a.world(k, screen, demo))
	options := []tea.ProgramOption{
		tea.WithInput(term.NewKeyboard(in)), tea.WithOutput(screen), tea.WithAltScreen(),
		tea.WithFPS(20),
	} // a countdown then takes under a hundredth of a core
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
		return errors.Join(failed, a.saveOnExit(k, item))
	}
	return failed
}

// onHangup calls quit when the window is closed, which would otherwise end the
// program at once, in the middle of a write.
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

// world is what the screens get of everything outside them.
func (a *app) world(k *shelfAdapter, screen *term.Output, demo bool) ui.Deps {
	return ui.Deps{
		Now:        a.now,
		Wait:       time.Sleep,
		List:       k.list,
		Save:       k.save,
		SaveBeside: k.saveBeside,
		Delete:     k.remove,
		KeepTrial:  k.shelf.KeepTrial,
		AddSamples: func() error { return data.WriteSample(k.shelf.Dir()) },
		Recipes:    k.recipes,
		SaveRecipe: k.saveRecipe, DeleteRecipe: k.removeRecipe, WriteCard: k.card,
		Export:   k.export,
		Copy:     screen.Clipboard(os.Getenv),
		Bell:     screen.Bell,
		ShelfDir: k.shelf.Dir(),
		Demo:     demo,
		Suspend:  term.CanSuspend(),
		ASCII:    a.ascii,
	}
}
