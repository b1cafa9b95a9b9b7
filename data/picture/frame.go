package picture

import (
	"daub.example/daub/data/drawing"
)

// Sizes of the axes.
const (
	tickLength     = 8
	ratioPadding   = 3 // between an axis' words and its labels
	levelPadding   = 4
	ratioAxisWords = "g powder per g %s"
	levelAxisWords = "level"
)

// axes draws the two axes along the left and lower edge of a page and returns the
// area inside.
func (s scene) axes(page drawing.Page) drawing.Page {
	line := drawing.Line{Color: ink, Width: 0.5}
	words, labels := lettering(labelSize, false), lettering(textSize, false)
	words.Across = drawing.AtMiddle

	levels := levelTicks()
	widest := 0.0
	for _, tick := range levels {
		widest = max(widest, labels.Width(tick.label))
	}
	left := words.Height() + words.Descent() + levelPadding + widest + labels.Width(" ") + tickLength
	below := words.Height() + ratioPadding + labels.Height() + tickLength
	frame := page.Cropped(left, 0, below, 0)
	ratios := s.axis.ticks(page.Width() - levelWords)
	for _, tick := range ratios { // so that the last label stays on the page
		if half := labels.Width(tick.label) / 2; tick.label != "" && tick.fraction > 0 {
			frame.Max.X = min(frame.Max.X, frame.Min.X+(page.Max.X-half-frame.Min.X)/tick.fraction)
		}
	}

	across := s.axisWords(ratioAxisWords, words, page.Width()-levelWords)
	page.Write(words, drawing.Point{X: frame.Centre().X, Y: page.Min.Y + words.Descent()}, across)
	labels.Across, labels.Up = drawing.AtMiddle, drawing.AtEnd
	for _, tick := range ratios {
		x, length := frame.Min.X+tick.fraction*frame.Width(), float64(tickLength)
		if tick.label == "" {
			length /= 2
		}
		page.Line(line, x, frame.Min.Y, x, frame.Min.Y-length)
		page.Write(labels, drawing.Point{X: x, Y: frame.Min.Y - tickLength + labels.Descent()}, tick.label)
	}
	page.Line(line, frame.Min.X, frame.Min.Y, frame.Max.X, frame.Min.Y)

	words.Turned = true
	edge := page.Min.X + words.Height() - words.Descent()
	page.Write(words, drawing.Point{X: edge, Y: frame.Centre().Y}, levelAxisWords)
	labels.Across, labels.Up = drawing.AtEnd, drawing.AtMiddle
	for _, tick := range levels {
		x, y := frame.Min.X-tickLength, frame.Min.Y+tick.fraction*frame.Height()
		page.Line(line, x, y, frame.Min.X, y)
		page.Write(labels, drawing.Point{X: x - labels.Width(" "), Y: y + labels.Descent()}, tick.label)
	}
	page.Line(line, frame.Min.X, frame.Min.Y, frame.Min.X, frame.Max.Y)
	return frame
}
