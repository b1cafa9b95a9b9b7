package picture

import (
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"

	"daub.example/daub/model"
)

// Options says how a picture is drawn; the zero value will do.
type Options struct {
	// Level is the level asked for, drawn dashed, 1 to 6 in halves; 0 means
	// the aim of the first powder's newest trial.
	Level float64
	Title string // "" means the powder, or how many there are
}

// Formats lists what Picture draws.
func Formats() []string { return []string{"svg", "png", "pdf"} }

// Draw draws one powder, or two to six over each other, in one of
// PictureFormats; own spoons come from d. It is 16 cm wide and 10 cm high, to
// stand in a text; a PNG has 254 dots an inch, 100 a centimetre.
//
// Points are the looks of the trials that count, hollow where they say only
// "at most" or "at least" (level 0 and 7), crossed where one sits far from the
// others. The curve is the powder's medians over the levels, the grey band its
// 95 % intervals, the dashed line the level asked for. Powders are told apart
// by letter, dash and shape; colour only helps. The same profiles give the
// same SVG.
//
// Powders in different liquids are refused: their ratios are different things.
func Draw(w io.Writer, format string, profiles []model.Profile, d model.Drawer, o Options) (err error) {
	defer func() {
		if r := recover(); r != nil { // the library panics on what it cannot draw
			err = fmt.Errorf("draw a picture: %v; export the numbers instead", r)
		}
	}()
	if !slices.Contains(Formats(), format) {
		return fmt.Errorf("draw a picture as %q: the format is not known; use one of: %s", format, strings.Join(Formats(), ", "))
	}
	scene, err := sceneOf(profiles, d, o)
	if err != nil {
		return err
	}
	var picture bytes.Buffer
	if err := render(&picture, format, scene.draw); err != nil {
		return fmt.Errorf("draw a picture as %s: %w", format, err)
	}
	if _, err := w.Write(picture.Bytes()); err != nil {
		return fmt.Errorf("draw a picture: write: %w; check that there is room and the file may be written", err)
	}
	return nil
}
