package main

import (
	"errors"
	"fmt"
	"io/fs"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/cmd/daub/internal/usage"
	"daub.example/daub/data"
	"daub.example/daub/data/parallel"
	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
	"github.com/spf13/cobra"
)

// checkJSON holds what `daub check --json` found in one file; the answer is a list
// of them in the order asked.
type checkJSON struct {
	File     string        `json:"file"`
	OK       bool          `json:"ok"`      // no problem; warnings do not count
	Renewed  bool          `json:"renewed"` // the ratio table was written again
	Problems []problemJSON `json:"problems"`
	Warnings []problemJSON `json:"warnings"`
}

// problemJSON is one problem of a file.
type problemJSON struct {
	Line *int   `json:"line"` // from 1; null if it is about the whole file
	What string `json:"what"`
	Fix  string `json:"fix"`
}

func toProblems(ps []tomlfile.Problem) []problemJSON {
	out := make([]problemJSON, len(ps))
	for i, p := range ps {
		out[i] = problemJSON{What: p.What, Fix: p.Fix}
		if p.Line > 0 {
			out[i].Line = &p.Line
		}
	}
	return out
}

func (a *app) checkCommand() *cobra.Command {
	var asJSON, renew bool
	cmd := &cobra.Command{
		Use:   "check FILE...",
		Short: "Say whether files are sound",
		Long: `Says of each file whether daub can read it in full, and if not, on
which line what is wrong and how to mend it. A file called spoons.toml is read
as a list of spoons, any other as a recipe where it has [recipe], else as a
powder. Warnings do not make a file bad.

--renew also writes the ratios in each sound powder's file anew. The shelf and
daub list rely on them while they fit the trials above them, which is quicker
than working them out.`,
		Example: `  daub check oat.toml
  daub check ~/powders/powders/*.toml --json
  daub check --renew ~/powders/powders/*.toml`,
		Args:              usage.Takes(1, usage.Many, "one file or more"),
		ValidArgsFunction: completeFiles,
		RunE:              func(_ *cobra.Command, args []string) error { return a.check(args, renew, asJSON) },
	}
	cmd.Flags().BoolVar(&renew, "renew", false, "write the ratios in each powder's file anew")
	usage.AddJSON(cmd, &asJSON)
	return cmd
}

// check checks every file. Own spoons come from the shelf; if their list is
// refused, it says so and the command fails.
func (a *app) check(files []string, renew, asJSON bool) error {
	ownSpoons, err := a.shelf().Spoons()
	if err != nil {
		a.complain(err)
	}
	bad := err != nil
	renew = renew && !bad // nothing can be calculated without the own spoons
	answers := make(checkAnswer, len(files))
	failed := make([]error, len(files))
	each := make([]int, len(files))
	for i := range each {
		each[i] = i
	}
	parallel.Map(each, func(i int) struct{} {
		answers[i], failed[i] = checkFile(files[i], ownSpoons, renew)
		return struct{}{}
	})
	for i, err := range failed {
		if err != nil {
			a.complain(err)
		}
		bad = bad || err != nil || !answers[i].OK
	}
	if err := a.answer(answers, asJSON); err != nil {
		return err
	}
	if bad {
		return errSaid
	}
	return nil
}

// checkFile checks one file, after renewing its ratios if asked for and possible.
func checkFile(file string, own model.OwnSpoons, renew bool) (found checkJSON, failed error) {
	found.File = file
	if renew {
		var refused *tomlfile.Error
		found.Renewed, failed = data.Renew(file, own)
		if errors.As(failed, &refused) || errors.Is(failed, fs.ErrNotExist) {
			failed = nil // the check reports it
		}
	}
	problems, warnings := data.Check(file, own)
	found.OK, found.Problems, found.Warnings = len(problems) == 0, toProblems(problems), toProblems(warnings)
	return found, failed
}

// checkAnswer holds the findings in each file, in the order asked.
type checkAnswer []checkJSON

func (c checkAnswer) json() any { return c }

// text writes the verdicts for people, with one line a problem.
func (c checkAnswer) text(p *page.Page) {
	for _, f := range c {
		p.Line("%s: %s", f.File, verdict(f))
		problemLines(p, f.File, "", f.Problems)
		problemLines(p, f.File, "warning: ", f.Warnings)
	}
}

// verdict sums a file up in a few words.
func verdict(f checkJSON) string {
	word := "sound"
	if !f.OK {
		word = model.Plural(len(f.Problems), "problem")
	}
	if n := len(f.Warnings); n > 0 {
		word += ", " + model.Plural(n, "warning")
	}
	if f.Renewed {
		word += ", ratios written anew"
	}
	return word
}

// problemLines writes one line a problem: "file:line: what; fix".
func problemLines(p *page.Page, file, kind string, problems []problemJSON) {
	for _, problem := range problems {
		place := file
		if problem.Line != nil {
			place = fmt.Sprintf("%s:%d", file, *problem.Line)
		}
		p.Line("%s: %s%s; %s", place, kind, problem.What, problem.Fix)
	}
}
