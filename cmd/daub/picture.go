package main

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/cmd/daub/internal/outfile"
	"daub.example/daub/cmd/daub/internal/usage"
	"daub.example/daub/data/picture"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/typed"
	"github.com/spf13/cobra"
)

// sizeFlag reads the size of a picture from a flag.
type sizeFlag struct{ options *picture.Options }

func (s sizeFlag) String() string { return "" }

// Type names the value in help.
func (s sizeFlag) Type() string { return "SIZE" }

// Set reads width and height, mm.
func (s sizeFlag) Set(text string) (err error) {
	s.options.WidthMM, s.options.HeightMM, err = typed.Size(text, "120x80mm")
	if err == nil && (s.options.WidthMM == 0 || s.options.HeightMM == 0) {
		err = fmt.Errorf("%q has no size: type it like 120x80mm", text)
	}
	return err
}

func (a *app) pictureCommand() *cobra.Command {
	var (
		out     outfile.Flags
		options picture.Options
		level   usage.Level
		to      string
		asJSON  bool
	)
	cmd := &cobra.Command{
		Use:   "picture POWDER... -o FILE",
		Short: "Draw the curve of one powder, or of up to six",
		Long: `Draws how thick a powder gets with how much liquid: its curve with the band of
its interval, and the target level; or the curves of up to six powders on one
picture. The lower axis counts powder per liquid, the upper one liquid per
powder. The ending of FILE says the format: svg, png or pdf. A file that is
there is not written over without --force.`,
		Example: `  daub picture "white clay" -o clay.svg
  daub picture white-clay green-clay -o clays.pdf --title "Two clays"
  daub picture white-clay -o clay.svg --in milk --rest 30s
  daub picture white-clay -o clay.png --size 120x80mm --dpi 300`,
		Args:              usage.Takes(1, kitchen.MaxCompared, "one to six powders"),
		ValidArgsFunction: a.completePowders(kitchen.MaxCompared),
		RunE: func(cmd *cobra.Command, args []string) error {
			if err := out.Check(cmd); err != nil {
				return err
			}
			format, err := a.pictureFormat(out, to, asJSON)
			switch {
			case err != nil:
				return err
			case cmd.Flags().Changed("dpi") && format != "png":
				return usage.Misused("--dpi is for png; a picture as %s is sharp at any size", format)
			}
			if cmd.Flags().Changed("dpi") && options.DPI == 0 {
				return usage.Misused("--dpi 0: a picture of no dots; give %d to %d", picture.LeastDPI, picture.MostDPI)
			}
			if err := options.Check(); err != nil {
				return usage.Wrong(err)
			}
			c, err := a.choose(args...)
			if err != nil {
				return err
			}
			a.sayUntried(options.On, c.profiles()...)
			var image bytes.Buffer
			options.Level = float64(level)
			if err := picture.Draw(&image, format, c.profiles(), c.ownSpoons, options); err != nil {
				return err
			}
			if out.Standard {
				return a.print(image.Bytes())
			}
			return a.written(out, format, image.Bytes(), c, asJSON)
		},
	}
	out.Add(cmd, "the `FILE`, its ending says the format; or -, with --to", a.owns)
	cmd.Flags().StringVar(&to, "to", "", "the `FORMAT` for -o -: "+strings.Join(picture.Formats(), ", "))
	_ = cmd.RegisterFlagCompletionFunc("to", usage.Words(picture.Formats()))
	cmd.Flags().StringVar(&options.Title, "title", "", "`TITLE` of the picture (default: the powders)")
	cmd.Flags().BoolVar(&options.NoBands, "no-bands", false, "draw no bands; a bar at the target stays")
	cmd.Flags().Var(sizeFlag{&options}, "size", "width and height (default 160x100mm)")
	usage.AddWhole(cmd, &options.DPI, "dpi", "DOTS", "300", "dots an inch of a png (default 254)")
	for _, name := range []string{"title", "size"} {
		_ = cmd.RegisterFlagCompletionFunc(name, cobra.NoFileCompletions)
	}
	_ = cmd.RegisterFlagCompletionFunc("output",
		cobra.FixedCompletions(picture.Formats(), cobra.ShellCompDirectiveFilterFileExt))
	usage.AddLevel(cmd, &level)
	usage.AddChoice(cmd, &options.On)
	usage.AddJSON(cmd, &asJSON)
	return cmd
}

// pictureFormat returns the format of a picture: that of its file's ending, or --to
// for standard output.
func (a *app) pictureFormat(out outfile.Flags, to string, asJSON bool) (string, error) {
	formats := picture.Formats()
	all := strings.Join(formats, ", ")
	switch {
	case out.Standard && asJSON:
		return "", usage.Misused("standard output gets one of the two: leave out --json, or give -o FILE")
	case out.Standard && !slices.Contains(formats, to):
		return "", usage.Misused("which kind of picture? give --to with -o -, one of: %s", all)
	case out.Standard && to != "svg" && a.toTerminal():
		return "", usage.Misused("a picture as %s would garble the terminal; give -o FILE", to)
	case out.Standard:
		return to, nil
	case out.File == "":
		return "", usage.Misused("draw where? give -o FILE with an ending of: %s", all)
	case !slices.Contains(formats, out.Ending()):
		return "", usage.Misused("%s does not say which kind of picture; give it an ending of: %s", out.File, all)
	case to != "" && to != out.Ending():
		return "", usage.Misused("%s or %s? leave --to out, the ending of the file says the format", to, out.Ending())
	}
	return out.Ending(), nil
}
