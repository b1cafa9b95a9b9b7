package main

import (
	"bytes"
	"errors"
	"fmt"
	"os"
	"runtime"
	"runtime/debug"
	"strings"
	"time"

	"daub.example/daub/cmd/daub/internal/manual"
	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/cmd/daub/internal/usage"
	"daub.example/daub/data"
	"daub.example/daub/data/export"
	"daub.example/daub/data/record"
	"daub.example/daub/model"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/printable"
	"github.com/spf13/cobra"
)

// Exit codes.
const (
	exitAnswered = 0 // also: not reached
	exitBadData  = 1
	exitMisused  = 2
	exitCannot   = 3 // these data do not allow it: a refused swap, mix or batch
)

// errSaid ends a command whose answer has already said what is wrong.
var errSaid = errors.New("the file could not be used")

// errRefused ends a command whose answer says that nothing can be calculated.
var errRefused = errors.New("cannot calculate")

// app is one run of the program.
type app struct {
	host
	shelfDir string // --shelf
	noMouse  bool   // --no-mouse
	ascii    bool
	patience time.Duration // how long the last save may take
	begun    bool          // the command line was understood and a command is at work
}

// run does what the arguments say and returns the exit code. The answer goes
// to the host's out, everything else to its err.
func run(args []string, h host) int {
	// A program started from a file manager must run, not explain itself.
	cobra.MousetrapHelpText = ""
	a := &app{host: h, patience: lastPatience}
	root := a.root()
	root.SetArgs(args)
	err := root.Execute()
	if err != nil && !errors.Is(err, errSaid) && !errors.Is(err, errRefused) {
		a.complain(err)
	}
	return a.code(err)
}

// code is the exit code of a command's error. What goes wrong before a command
// is at work is wrong in the command line.
func (a *app) code(err error) int {
	var (
		byUser    usage.Misuse
		unknown   *data.UnknownError
		ambiguous *data.AmbiguousError
	)
	switch {
	case a.begun && (errors.Is(err, errRefused) || kitchen.IsCannot(err)):
		return exitCannot
	case err == nil:
		return exitAnswered
	case !a.begun, errors.As(err, &byUser), errors.As(err, &unknown), errors.As(err, &ambiguous):
		return exitMisused
	default:
		return exitBadData
	}
}

// complain writes an error to standard error, one line for each thing wrong.
func (a *app) complain(err error) {
	for line := range strings.Lines(err.Error()) {
		a.say("%s", line)
	}
}

// say writes one message to standard error.
func (a *app) say(format string, args ...any) {
	_, _ = fmt.Fprintln(a.err, "daub: "+page.Clean(fmt.Sprintf(format, args...), a.ascii))
}

// sayUntried says which liquids and rests there are where none of those chosen is.
func (a *app) sayUntried(on model.Choice, profiles ...model.Profile) {
	if text := on.Untried(profiles...); text != "" {
		a.say("%s", text)
	}
}

// shelf is the shelf that the command works on.
func (a *app) shelf() *data.Shelf {
	dir := a.shelfDir
	if dir == "" {
		dir = a.host.shelf
	}
	return data.Open(dir, func(text string) { a.say("%s", text) })
}

// owns says whether a file is the shelf's own, which only the shelf writes.
func (a *app) owns(path string) bool { return a.shelf().Owns(path) }

// answer is a command's result, written as text or as JSON.
type answer interface {
	json() any         // for other programs
	text(p *page.Page) // for a person
}

// answer writes an answer to standard output, in one piece: as JSON, or as the
// text that a person reads. One that says why nothing can be calculated ends in
// errRefused.
func (a *app) answer(found answer, asJSON bool) error {
	var out bytes.Buffer
	if asJSON {
		if err := export.Encode(&out, found.json()); err != nil {
			return fmt.Errorf("write the answer as JSON: %w", err)
		}
	} else {
		p := page.New(a.ascii)
		found.text(p)
		out.WriteString(p.Drain())
	}
	if _, err := a.out.Write(out.Bytes()); err != nil {
		return fmt.Errorf("write the answer: %w", err)
	}
	if r, ok := found.(interface{ refused() bool }); ok && r.refused() {
		return errRefused
	}
	return nil
}

// root is the whole command line.
func (a *app) root() *cobra.Command {
	root := &cobra.Command{
		Use:   "daub",
		Short: "How much liquid does this powder take?",
		Long: `daub finds out how much liquid a powder takes to make a paste as thick as you
want it: powder by the spoonful into a little liquid, a look after each, and
out comes a ratio with an interval you can trust. Every powder and lot is one
plain file on a shelf, a folder of your own. A command takes a powder by its
name, in quotes, or by its file's name without .toml, as white-clay.

Without a command it opens the bench, a program that fills the terminal.

Exit codes: 0 answered; 1 a file could not be used; 2 the command is misused;
3 these data do not allow it: a swap, mix or batch is refused.`,
		Example: `  daub                                 the bench
  daub demo                            look around on sample powders
  daub list                            what is on the shelf
  daub show "fine oat flour"           one powder
  daub fit trial.toml --level 4.5      one dish, from a file anywhere
  daub compare "white clay" "green clay"
  daub swap "white clay" "green clay" --powder 20
  daub batch "white clay" --jar 60     what goes into a jar full of paste
  daub export --all --to csv           for a spreadsheet
  daub check ~/powders/*.toml          are these files sound?`,
		Version:       version().Version,
		SilenceErrors: true,
		SilenceUsage:  true,
		Args:          a.noCommand,
		RunE:          func(*cobra.Command, []string) error { return a.bench() },
		PersistentPreRunE: func(cmd *cobra.Command, _ []string) error {
			if f := cmd.Flag("shelf"); f != nil && f.Changed && a.shelfDir == "" {
				return fmt.Errorf("--shelf names no folder: give one, as in --shelf ~/powders")
			}
			if _, _, ok := a.terminal(); ok && !cmd.Flag("ascii").Changed {
				a.ascii = plainLocale(os.Getenv)
			}
			a.begun = true
			return nil
		},
	}
	root.SetIn(a.in)
	root.SetOut(a.out)
	root.SetErr(a.err)
	root.SetVersionTemplate("{{.Name}} {{.Version}}\n")
	root.SetFlagErrorFunc(usage.OfFlag)
	flags := root.PersistentFlags()
	flags.StringVar(&a.shelfDir, "shelf", "", "the shelf's `DIR`; else $DAUB_SHELF, else your data folder")
	flags.BoolVar(&a.ascii, "ascii", false,
		"plain ASCII instead of line drawing and signs")
	_ = root.MarkPersistentFlagDirname("shelf")
	help := root.HelpFunc()
	root.SetHelpFunc(func(cmd *cobra.Command, args []string) { // manual pages know no shelf of their reader's
		flags.Lookup("shelf").Usage = "the shelf's `DIR` (default " + printable.Line(a.host.shelf) + ")"
		help(cmd, args)
	})
	a.mouseFlag(root)

	man := manual.Command(version().Version, a.now)
	man.Args = usage.Takes(1, 1, "one folder")
	root.AddCommand(
		a.demoCommand(), a.trialCommand(), a.editCommand(), a.listCommand(), a.showCommand(), a.fitCommand(),
		a.compareCommand(), a.swapCommand(), a.batchCommand(), a.mixCommand(), a.spoonsCommand(),
		a.calibrateCommand(),
		a.recipeCommand(), a.exportCommand(), a.pictureCommand(), a.pageCommand(),
		a.checkCommand(), man, a.versionCommand(),
	)
	root.AddCommand(manual.Topics()...)
	root.SetHelpCommand(helpCommand())
	root.AddCommand(manual.Completion(usage.Misused))
	return root
}

// noCommand refuses a first word that is no command, with what may be meant.
func (a *app) noCommand(cmd *cobra.Command, args []string) error {
	if len(args) == 0 {
		return nil
	}
	var known []string
	for _, c := range cmd.Commands() {
		if c.IsAvailableCommand() {
			known = append(known, c.Name())
		}
	}
	fix := "daub --help shows what there is"
	if near := model.Suggest(args[0], known); len(near) > 0 {
		fix = "did you mean " + strings.Join(near, ", ") + "?"
	}
	return fmt.Errorf("there is no command %q; %s", args[0], fix)
}

// helpCommand is `daub help`, which, unlike the library's own, takes a command
// that does not exist for misuse.
func helpCommand() *cobra.Command {
	return &cobra.Command{
		Use:   "help [COMMAND|TOPIC]",
		Short: "Say how a command is used, or what a topic is about",
		ValidArgsFunction: func(cmd *cobra.Command, args []string, _ string) ([]string, cobra.ShellCompDirective) {
			var names []string
			if about, _, err := cmd.Root().Find(args); err == nil {
				for _, c := range about.Commands() {
					if c.IsAvailableCommand() || c.IsAdditionalHelpTopicCommand() {
						names = append(names, cobra.CompletionWithDesc(c.Name(), c.Short))
					}
				}
			}
			return names, cobra.ShellCompDirectiveNoFileComp
		},
		RunE: func(cmd *cobra.Command, args []string) error {
			about, rest, err := cmd.Root().Find(args)
			if err != nil || len(rest) > 0 {
				return usage.Misused("there is no command %q to help with; daub --help shows what there is",
					strings.Join(args, " "))
			}
			about.InitDefaultHelpFlag()
			return about.Help()
		},
	}
}

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
		Args:              usage.Takes(0, 0, "nothing"),
		ValidArgsFunction: cobra.NoFileCompletions,
		RunE: func(*cobra.Command, []string) error {
			return a.answer(version(), asJSON)
		},
	}
	usage.AddJSON(cmd, &asJSON)
	return cmd
}
