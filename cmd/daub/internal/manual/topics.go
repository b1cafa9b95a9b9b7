package manual

import (
	"fmt"
	"strings"

	"daub.example/daub/model"
	"github.com/spf13/cobra"
)

const filesHelp = `A shelf is a folder of plain TOML files:

  powders/NAME-LOT.toml   one powder and lot: its facts, level spoons, trials
  recipes/NAME.toml       one recipe
  spoons.toml             your own spoons
  deleted/                what was deleted, kept

The shelf is the folder given with --shelf, else the one that $DAUB_SHELF names,
else the folder daub among your data: daub --help says where that is. It may
live in git or in a synced folder; daub asks before it writes over what another
program has changed.

Every file may be edited by hand, and comments stay. The [[ratio]] tables are
worked out from the trials and written at every save, for other programs to
read: do not edit them. daub check says whether a file is sound, and on which
line it is not; daub check --renew works its ratios out anew.`

const methodHelp = `The ratio is grams of liquid per gram of powder. Each look says only that the
true thickness lies within half a step of the level that was named. One curve,
from watery to crumbly, is fitted to all looks of a trial: how thick the paste
is at each amount of powder per liquid, how steep the curve is, how it bends,
and how steady the eye is. What the looks leave open is the interval: with 19
chances in 20 the ratio lies in it.

Scales, spoons and their repeats add their own doubt. Three intervals follow:

  this dish        one trial: what was in this bowl
  this powder      all its trials together
  the next dish    what your next bowl may need: use this in recipes

"Tested from both sides" means one look thinner and one thicker (a look at the
level itself counts as both), at least one no more than two levels away. From
one side only, the ratio is a first estimate.`

// Topics are help pages that belong to no single command.
func Topics() []*cobra.Command {
	return []*cobra.Command{
		{Use: "levels", Short: "What the levels 0 to 7 mean", Long: levelsHelp()},
		{Use: "behaviour", Short: "What to note beside the level", Long: behaviourHelp()},
		{Use: "files", Short: "Where everything is kept, and in what form", Long: filesHelp},
		{Use: "method", Short: "How looks become a ratio", Long: methodHelp},
	}
}

// behaviourHelp lists the behaviours in a table, and what else is seen besides a
// level.
func behaviourHelp() string {
	var b strings.Builder
	b.WriteString("What is seen at a look besides the level is noted with m at the bench:\n\n")
	for _, one := range model.Behaviours() {
		fmt.Fprintf(&b, "  %s  %-22s %s\n", one.Letter, one.Name, one.Means)
	}
	b.WriteString(`
The result, daub show and cards sum it up and say what to do about it.

Later looks: l at the result, then c, keeps a finished dish covered, and daub
says when it is due for a look. Two later looks that
agree, a while apart, become advice on cards.

Packing: a level spoon weighed loose and then tapped (type tapped 2.9) says
whether the powder is better given in grams.

True spoons: daub calibrate, or the kitchen's spoon check, finds what a level
spoon really holds.`)
	return b.String()
}

// levelsHelp shows the scale as a table.
func levelsHelp() string {
	var b strings.Builder
	b.WriteString("A level says how thick a paste is, once it has rested:\n\n")
	for _, c := range model.Scale() {
		lead := fmt.Sprintf("  %s  %-10s", model.Number(c.Level), c.Word)
		for _, word := range strings.Fields(c.Test) {
			if len(lead)+len(word) >= 80 {
				b.WriteString(lead + "\n")
				lead = strings.Repeat(" ", 15)
			}
			lead += " " + word
		}
		b.WriteString(lead + "\n")
	}
	b.WriteString(`
Levels are read to the nearest whole or half. Ratios can be asked for from
level 1 to level 6: 0 also stands for anything thinner still, 7 for anything
thicker.

The levels are daub's own, for skin and hair pastes; they say nothing about food
or swallowing.`)
	return b.String()
}
