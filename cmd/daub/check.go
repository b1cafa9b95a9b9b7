package main

import (
	"fmt"

	"daub.example/daub/cmd/daub/internal/page"
	"daub.example/daub/data"
	"daub.example/daub/data/tomlfile"
	"github.com/spf13/cobra"
)

// checkJSON is what `daub check --json` says of one file; the answer is a list
// of them, in the order asked.
type checkJSON struct {
	File     string        `json:"file"`
	OK       bool          `json:"ok"` // no problem; warnings do not count
	Problems []problemJSON `json:"problems"`
	Warnings []problemJSON `json:"warnings"`
}

// problemJSON is one thing wrong in a file.
type problemJSON struct {
	Line *int   `json:"line"` // from 1; null when the whole file is meant
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
	var asJSON bool
	cmd := &cobra.Command{
		Use:   "check FILE...",
		Short: "Say whether files are sound",
		Long: `Says of each file whether daub can read it to the last key, and if not, on
which line what is wrong and how to mend it. A file called spoons.toml is read
as a list of spoons, any other as a recipe where it has [recipe], else as a powder. Warnings do not make a file bad.`,
		Example: `  daub check oat.toml
  daub check ~/powders/powders/*.toml --json`,
		Args:              takes(1, many, "one file or more"),
		ValidArgsFunction: completeFiles,
		RunE:              func(_ *cobra.Command, args []string) error { return a.check(args, asJSON) },
	}
	addJSON(cmd, &asJSON)
	return cmd
}

// check answers for every file. Own spoons come from the shelf; a list of them
// that is itself refused is complained of, and makes the command fail.
func (a *app) check(files []string, asJSON bool) error {
	drawer, err := a.shelf().Spoons()
	if err != nil {
		a.complain(err)
	}
	bad := err != nil
	answers := make(checkAnswer, len(files))
	for i, file := range files {
		problems, warnings := data.Check(file, drawer)
		answers[i] = checkJSON{file, len(problems) == 0, toProblems(problems), toProblems(warnings)}
		bad = bad || !answers[i].OK
	}
	if err := a.answer(answers, asJSON); err != nil {
		return err
	}
	if bad {
		return errSaid
	}
	return nil
}

// checkAnswer is what is said of the files, in the order asked.
type checkAnswer []checkJSON

func (c checkAnswer) json() any { return c }

// text is the verdicts for a person, with one line for each thing wrong.
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
		word = page.Plural(len(f.Problems), "problem")
	}
	if n := len(f.Warnings); n > 0 {
		word += ", " + page.Plural(n, "warning")
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
