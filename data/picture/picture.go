package picture

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"daub.example/daub/data/drawing"
	"daub.example/daub/model"
)

// Options says how a picture is drawn; the zero value works.
type Options struct {
	// Level is the target, drawn dashed, 1 to 6 in halves; 0 means the target of
	// the first powder's newest trial.
	Level   float64
	On      model.Choice // the liquid and rest of the trials
	Title   string       // "": the powder's name, or the number of powders
	NoBands bool         // only the intervals at the target are drawn
	// WidthMM and HeightMM are LeastMM to MostMM. 0 stands for 160 by 100, to go
	// into a text, or as high as the words below the picture need.
	WidthMM, HeightMM float64
	// DPI is the dots per inch of a PNG, LeastDPI to MostDPI; 0 stands for 254, 100
	// a centimetre. The other formats have none.
	DPI int
}

// Limits of a picture's size.
const (
	LeastMM, MostMM   = 60, 1000
	LeastDPI, MostDPI = 50, 1200
)

const (
	defaultWidthMM, defaultHeightMM = 160, 100

	defaultDPI = 254

	// maxDots keeps a PNG, 4 bytes a dot, within a machine's memory.
	maxDots = 100e6
)

// Formats lists the formats of Draw.
func Formats() []string { return drawing.Formats() }

// Check refuses a size or a resolution that cannot be drawn.
func (o Options) Check() error {
	_, err := o.sheet()
	return err
}

// sheet returns the page for the options.
func (o Options) sheet() (drawing.Sheet, error) {
	width, height := cmp.Or(o.WidthMM, defaultWidthMM), cmp.Or(o.HeightMM, defaultHeightMM)
	dpi := cmp.Or(o.DPI, defaultDPI)
	for _, side := range []float64{width, height} {
		if !(side >= LeastMM && side <= MostMM) {
			return drawing.Sheet{}, fmt.Errorf("%s mm is no side of a picture: give %d to %d mm",
				model.Number(side), LeastMM, MostMM)
		}
	}
	if dpi < LeastDPI || dpi > MostDPI {
		return drawing.Sheet{}, fmt.Errorf("%d dots an inch cannot be drawn: give %d to %d", dpi, LeastDPI, MostDPI)
	}
	if dots := width * height * float64(dpi*dpi) / (25.4 * 25.4); dots > maxDots {
		return drawing.Sheet{}, fmt.Errorf("%.0f million dots are too many: give a smaller size or fewer dots an inch",
			dots/1e6)
	}
	const mm = drawing.Millimetre
	return drawing.Sheet{Width: width * mm, Height: height * mm, DPI: dpi}, nil
}

// Draw draws one powder, or two to six over each other, in one of Formats; own
// spoons come from own.
//
// Points are the looks of the trials that count, hollow where they say only
// "at most" or "at least" (level 0 and 7), crossed where one sits far from the
// others. The curve is the powder's medians over the levels, the band its 95 %
// intervals, both lighter where it was tested from one side only; the dashed
// line is the target, the bar on it the interval there. The lower axis counts
// powder per liquid, the upper one liquid per powder, as the answers do. Trials
// of a single powder are told apart by shape, powders by letter, dash and
// shape; colour only helps. The same profiles give the same SVG.
//
// Powders in different liquids are refused: their ratios are different things.
func Draw(w io.Writer, format string, profiles []model.Profile, own model.OwnSpoons, o Options) error {
	if !slices.Contains(Formats(), format) {
		return fmt.Errorf("draw a picture as %q: the format is not known; use one of: %s", format,
			strings.Join(Formats(), ", "))
	}
	sheet, err := o.sheet()
	if err != nil {
		return fmt.Errorf("draw a picture: %w", err)
	}
	scene, err := sceneOf(profiles, own, o)
	if err != nil {
		return err
	}
	switch least := scene.leastHeight(sheet.Width); {
	case o.HeightMM == 0:
		sheet.Height = max(sheet.Height, least)
	case sheet.Height < least:
		return fmt.Errorf("draw a picture %s mm high: the words under it leave no room; make it wider, or at "+
			"least %.0f mm high",
			model.Number(o.HeightMM), math.Ceil(least/drawing.Millimetre))
	}
	sheet.Title, sheet.Description = scene.title, scene.description()
	if err := sheet.Write(w, format, scene.draw); err != nil {
		return fmt.Errorf("draw a picture: write: %w; check that there is room and the file may be written", err)
	}
	return nil
}
