package main

import (
	"bytes"
	"slices"
	"strings"

	"daub.example/daub/data/picture"
	"daub.example/daub/model/kitchen"
	"github.com/spf13/cobra"
)

func (a *app) pictureCommand() *cobra.Command {
	var (
		out    outFlags
		title  string
		level  levelFlag
		asJSON bool
	)
	cmd := &cobra.Command{
		Use:   "picture POWDER... -o FILE",
		Short: "Draw the curve of one powder, or of up to six",
		Long: `Draws how thick a powder gets with how much liquid: its curve with the band of
its interval, and the level asked for; or the curves of up to six powders on one
picture. The ending of FILE says the format: svg, png or pdf. A file that is
there is not written over without --force.`,
		Example: `  daub picture "white clay" -o clay.svg
  daub picture white-clay green-clay -o clays.pdf --title "Two clays"`,
		Args:              takes(1, kitchen.MaxCompared, "one to six powders"),
		ValidArgsFunction: a.completePowders(kitchen.MaxCompared),
		RunE: func(cmd *cobra.Command, args []string) error {
			formats := picture.Formats()
			switch {
			case out.file == "":
				return misused("draw where? give -o FILE with an ending of: %s", strings.Join(formats, ", "))
			case !slices.Contains(formats, out.ending()):
				return misused("%s does not say which kind of picture; give it an ending of: %s",
					out.file, strings.Join(formats, ", "))
			}
			if err := out.check(cmd); err != nil {
				return err
			}
			c, err := a.choose(args...)
			if err != nil {
				return err
			}
			var image bytes.Buffer
			options := picture.Options{Level: float64(level), Title: title}
			if err := picture.Draw(&image, out.ending(), c.profiles(), c.drawer, options); err != nil {
				return err
			}
			return a.written(out, out.ending(), image.Bytes(), c, asJSON)
		},
	}
	out.add(cmd, "the picture's `FILE`; its ending says the format")
	cmd.Flags().StringVar(&title, "title", "", "`TITLE` of the picture (default: the powders)")
	_ = cmd.RegisterFlagCompletionFunc("title", cobra.NoFileCompletions)
	_ = cmd.RegisterFlagCompletionFunc("output",
		cobra.FixedCompletions(picture.Formats(), cobra.ShellCompDirectiveFilterFileExt))
	addLevel(cmd, &level)
	addJSON(cmd, &asJSON)
	return cmd
}
