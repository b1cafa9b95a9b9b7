package usage

import (
	"daub.example/daub/model"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/typed"
	"github.com/spf13/cobra"
)

// Level is the level of a ratio: 1 to 6 in halves. Its zero value is the target
// level.
type Level float64

func (l *Level) String() string {
	if *l == 0 {
		return ""
	}
	return model.Number(float64(*l))
}

// Type names the value in help.
func (l *Level) Type() string { return "L" }

// Set reads a level.
func (l *Level) Set(text string) error {
	v, err := typed.Target(text)
	*l = Level(v)
	return err
}

// Or returns the level, or aim if none was given.
func (l Level) Or(aim float64) float64 {
	if l == 0 {
		return aim
	}
	return float64(l)
}

// AddLevel adds --level to a command.
func AddLevel(cmd *cobra.Command, l *Level) {
	cmd.Flags().Var(l, "level", "1 to 6 in halves, or its name (default: the target)")
	var levels []string
	for _, level := range model.CurveLevels() {
		levels = append(levels, cobra.CompletionWithDesc(model.Number(level), model.LevelWord(level)))
	}
	_ = cmd.RegisterFlagCompletionFunc("level", Words(levels))
}

// AddChoice adds --in and --rest to a command.
func AddChoice(cmd *cobra.Command, on *model.Choice) {
	cmd.Flags().StringVar(&on.In, "in", "", "of trials in this `LIQUID` (default: the main one)")
	cmd.Flags().Var(restFlag{on}, "rest", "of trials with this rest (default: the main one)")
	var liquids []string
	for _, l := range model.Liquids() {
		liquids = append(liquids, l.Name)
	}
	_ = cmd.RegisterFlagCompletionFunc("in", Words(liquids))
	_ = cmd.RegisterFlagCompletionFunc("rest", cobra.NoFileCompletions)
}

// restFlag is a wait before a look.
type restFlag struct{ on *model.Choice }

func (r restFlag) String() string {
	if r.on == nil || r.on.Rest == nil {
		return ""
	}
	return model.Seconds(*r.on.Rest)
}

// Type names the value in help.
func (r restFlag) Type() string { return "TIME" }

// Set reads a wait.
func (r restFlag) Set(text string) error {
	seconds, err := typed.Rest(text)
	if err == nil {
		r.on.Rest = &seconds
	}
	return err
}

// AddJSON adds --json to a command.
func AddJSON(cmd *cobra.Command, asJSON *bool) {
	cmd.Flags().BoolVar(asJSON, "json", false, "the answer as JSON, for other programs")
}

// AddSpoons adds --spoons to a command.
func AddSpoons(cmd *cobra.Command, spoons *[]string) {
	const usage = "your `SPOONS`, commas between (default: its trial's)"
	cmd.Flags().StringSliceVar(spoons, "spoons", nil, usage)
	_ = cmd.RegisterFlagCompletionFunc("spoons", cobra.FixedCompletions(
		model.StandardSpoonNames(), cobra.ShellCompDirectiveNoFileComp|cobra.ShellCompDirectiveNoSpace))
}

// AtHand checks the names of spoons. Without any it returns those of a single
// powder's newest trial; for several powders nil, the usual ones. A size that a
// powder was weighed with counts as known.
func AtHand(spoons []string, own model.OwnSpoons, profiles ...model.Profile) ([]string, error) {
	if len(spoons) == 0 && len(profiles) == 1 {
		return profiles[0].SpoonsAtHand(), nil
	}
	known := typed.SpoonsOf(own, profiles...)
	var names []string
	for _, text := range spoons {
		name, err := known.Name(text)
		if err != nil {
			return nil, Wrong(err)
		}
		names = append(names, name)
	}
	return names, nil
}

// AddKeep adds --keep to a command; usual says what is kept without it.
func AddKeep(cmd *cobra.Command, keep *string, usual string) {
	cmd.Flags().StringVar(keep, "keep", "", "`WHAT` stays: liquid, powder or total (default "+usual+")")
	_ = cmd.RegisterFlagCompletionFunc("keep", Words(kitchen.Keeps()))
}

// KeepOf checks the value of --keep; "" is the usual.
func KeepOf(text string) (kitchen.Keep, error) {
	if text == "" {
		return "", nil
	}
	for _, k := range kitchen.Keeps() {
		if string(k) == text {
			return k, nil
		}
	}
	return "", Misused("a swap cannot keep %q; --keep takes liquid, powder or total", text)
}
