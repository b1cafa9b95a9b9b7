package main

import (
	"bytes"
	"errors"
	"fmt"
	"slices"
	"strings"
	"unicode/utf8"

	"daub.example/daub/cmd/daub/internal/outfile"
	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/cmd/daub/internal/reply"
	"daub.example/daub/cmd/daub/internal/usage"
	"daub.example/daub/data/export"
	"daub.example/daub/model"
	"github.com/spf13/cobra"
)

// fileJSON is the answer of `daub export -o FILE --json` and of `daub picture
// --json`: the file written.
type fileJSON struct {
	File    string   `json:"file"`
	Format  string   `json:"format"`
	Bytes   int      `json:"bytes"`
	Powders []string `json:"powders"` // slugs, in the order asked
}

// exportFlags holds the flags of an export.
type exportFlags struct {
	outfile.Flags
	to     string
	all    bool
	level  usage.Level
	on     model.Choice
	looks  bool
	every  bool
	sep    string
	point  string
	asJSON bool
}

func (a *app) exportCommand() *cobra.Command {
	var flags exportFlags
	cmd := &cobra.Command{
		Use:   "export POWDER... --to toml|csv|json|md",
		Short: "Write ratios for spreadsheets, pages and programs",
		Long: `Writes the ratios of powders at every level of their tables, or at the one that
--level asks for: to standard output, or with -o to a file, whose ending then
says the format where --to does not. A file that is there is replaced only with
--force; if writing fails, it stays as it was. --looks writes what was seen
instead: one row for each step of each trial. There, beside is how the dish
stands to its reference dish, side by side; level stirred was read just after
stirring; reading is what was measured, and reading of which way.

  toml  ratios to copy from       csv  rows for a spreadsheet
  json  for other programs        md   a table to paste, one row a powder

A spreadsheet that writes 1,93 wants --sep ";" --decimal ",". A CSV file begins
with a byte order mark, so that spreadsheets read letters with accents right;
standard output has none.`,
		Example: `  daub export "white clay" --to md
  daub export white-clay oat-flour --level 5 -o mask.csv
  daub export --all --to json
  daub export --all --to csv --sep ";" --decimal ","
  daub export white-clay --looks -o looks.csv`,
		Args: func(cmd *cobra.Command, args []string) error {
			if flags.all && len(args) > 0 {
				return usage.Misused("export all powders, or those named? leave out --all or the names")
			}
			if flags.all {
				return nil
			}
			return usage.Takes(1, usage.Many, "one powder or more, or --all")(cmd, args)
		},
		ValidArgsFunction: a.completePowders(usage.Many),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := flags.resolve(cmd); err != nil {
				return err
			}
			return a.export(args, flags)
		},
	}
	flags.Add(cmd, "write to `FILE`; - or none for standard output", a.owns)
	cmd.Flags().StringVar(&flags.to, "to", "", "the `FORMAT`: "+strings.Join(export.Formats(), ", "))
	_ = cmd.RegisterFlagCompletionFunc("to", usage.Words(export.Formats()))
	cmd.Flags().BoolVar(&flags.all, "all", false, "every powder on the shelf")
	usage.AddLevel(cmd, &flags.level)
	usage.AddChoice(cmd, &flags.on)
	cmd.Flags().BoolVar(&flags.looks, "looks", false, "every step and look instead of ratios")
	cmd.Flags().BoolVar(&flags.every, "every-level", false, "all levels in md too")
	cmd.Flags().StringVar(&flags.sep, "sep", ",", "`SIGN` between cells of a csv: , ; | or tab")
	cmd.Flags().StringVar(&flags.point, "decimal", ".", "`SIGN` before decimals in a csv: . or ,")
	cmd.Flags().Lookup("level").Usage = "one level, 1 to 6 in halves (default: all of them)"
	cmd.Flags().BoolVar(&flags.asJSON, "json", false, "as --to json; with -o, what was written as JSON")
	return cmd
}

// resolve works out the format.
func (f *exportFlags) resolve(cmd *cobra.Command) error {
	formats := strings.Join(export.Formats(), ", ")
	if err := f.Check(cmd); err != nil {
		return err
	}
	if f.to == "" && f.File != "" {
		f.to = f.Ending()
		if !slices.Contains(export.Formats(), f.to) {
			return usage.Misused("export to what? the ending of %s does not say; give --to with one of: %s",
				f.File, formats)
		}
	}
	if f.to == "" && f.asJSON {
		f.to = "json"
	}
	switch {
	case f.to == "":
		return usage.Misused("export to what? give --to with one of: %s", formats)
	case !slices.Contains(export.Formats(), f.to):
		return usage.Misused("there is no export to %q; --to takes one of: %s", f.to, formats)
	case f.File == "" && f.asJSON && f.to != "json":
		return usage.Misused("standard output gets the export itself; --to json makes that JSON")
	case f.File == "" && f.Force:
		return usage.Misused("--force is for a file; give -o FILE with it")
	}
	return nil
}

func (a *app) export(powders []string, f exportFlags) error {
	var c chosen
	var err error
	if f.all {
		c, err = a.everything()
	} else {
		c, err = a.choose(powders...)
	}
	if err != nil {
		return err
	}
	a.sayUntried(f.on, c.profiles()...)
	var text bytes.Buffer
	options, err := f.options()
	if err != nil {
		return err
	}
	if err := export.Write(&text, f.to, exported(c.entries), c.ownSpoons, options); err != nil {
		return err
	}
	if f.File == "" {
		return a.print(text.Bytes())
	}
	return a.written(f.Flags, f.to, text.Bytes(), c, f.asJSON)
}

// options converts the flags for the export.
func (f *exportFlags) options() (export.Options, error) {
	o := export.Options{Level: float64(f.level), On: f.on, EveryLevel: f.every, Looks: f.looks, Mark: f.File != ""}
	var err error
	if o.Separator, err = sign("--sep", strings.NewReplacer("tab", "\t", `\t`, "\t").Replace(f.sep)); err != nil {
		return o, err
	}
	if o.Decimal, err = sign("--decimal", f.point); err != nil {
		return o, err
	}
	if f.to != "csv" && (f.sep != "," || f.point != ".") {
		return o, usage.Misused("--sep and --decimal are for --to csv")
	}
	if err := o.Check(); err != nil {
		return o, usage.Wrong(err)
	}
	return o, nil
}

// sign returns the one character that a flag was given.
func sign(flag, text string) (rune, error) {
	if utf8.RuneCountInString(text) != 1 {
		return 0, usage.Misused("%s %q: give one sign, as in %s %q", flag, text, flag, ";")
	}
	r, _ := utf8.DecodeRuneInString(text)
	return r, nil
}

// everything reads the whole shelf. A file that cannot be read is an error, so that
// an export never lacks a powder unnoticed.
func (a *app) everything() (chosen, error) {
	if err := a.shelfIsThere(); err != nil {
		return chosen{}, err
	}
	shelf := a.shelf()
	visit := shelf.Visit()
	entries, errs := visit.List()
	if len(errs) > 0 {
		return chosen{}, errors.Join(errs...)
	}
	if len(entries) == 0 {
		return chosen{}, fmt.Errorf("nothing to export: the shelf %s is empty", shelf.Dir())
	}
	return chosen{entries, visit.OwnSpoons}, nil
}

// written writes a file and answers with its name.
func (a *app) written(f outfile.Flags, format string, text []byte, c chosen, asJSON bool) error {
	if err := f.Write(text); err != nil {
		return err
	}
	return a.answer(fileJSON{f.File, format, len(text), reply.Filled(c.slugs())}, asJSON)
}

func (f fileJSON) json() any { return f }

func (f fileJSON) text(p *page.Page) {
	p.Line("%s: %s as %s", f.File, model.Plural(len(f.Powders), "powder"), f.Format)
}
