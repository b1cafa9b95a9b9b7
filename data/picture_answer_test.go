package data

import (
	"bytes"
	"encoding/xml"
	"fmt"
	"image/png"
	"math"
	"regexp"
	"strconv"
	"strings"
	"testing"

	"daub.example/daub/data/export"
	"daub.example/daub/data/picture"
	"daub.example/daub/model"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// What stands on the two axes where the dashed line meets them is the answer
// in grams of powder and in grams of liquid: one over the other, as the
// sentence says.
func TestAxesSayWhatTheAnswerSays(t *testing.T) {
	entries, own := sampleEntries(t)
	for _, level := range []float64{2, 3.5, 5} {
		texts := textsOf(t, drawn(t, "svg", entries[2:3], own, picture.Options{Level: level}))
		require.Contains(t, texts, "g powder per g water")
		require.Contains(t, texts, "g water per g powder")
		var values []string
		for i, text := range texts {
			if text == model.LevelName(level) {
				values = texts[i+1 : i+3]
			}
		}
		require.Len(t, values, 2, "behind the target")
		below, err := strconv.ParseFloat(values[0], 64)
		require.NoError(t, err)
		above, err := strconv.ParseFloat(values[1], 64)
		require.NoError(t, err)
		assert.InEpsilon(t, 1, below*above, 0.01)
		assert.Contains(t, strings.Join(texts, "\n"), "this powder takes "+values[1]+" (")
	}
}

// A logarithmic axis says so, on both sides; one in equal steps does not.
func TestLogAxesSaySo(t *testing.T) {
	entries, own := sampleEntries(t)
	count := func(svg []byte) int { return strings.Count(strings.Join(textsOf(t, svg), "\n"), "log scale") }
	assert.Equal(t, 0, count(drawn(t, "svg", entries[2:3], own, picture.Options{})))
	assert.Equal(t, 2, count(drawn(t, "svg", sixTried(), nil, picture.Options{})))
}

// barelyTried is a powder of which a single look says little.
func barelyTried() export.Powder {
	p := tried("Clay", model.Other, 1, 7, 6.4, 1)
	steps := &p.Profile.Trials[0].Steps
	*steps = (*steps)[:1]
	(*steps)[0].Grams, (*steps)[0].Level = 0.4, 4
	return p
}

// The bar at the target has both its ends in the frame, also where the interval
// is many times as wide as the looks.
func TestTheWholeIntervalIsInTheFrame(t *testing.T) {
	for _, level := range []float64{2.5, 4, 6} {
		svg := string(drawn(t, "svg", []export.Powder{barelyTried()}, nil,
			picture.Options{Level: level, NoBands: true}))
		caps := regexp.MustCompile(`<path d="M([0-9.]+),([0-9.]+)L([0-9.]+),([0-9.]+)" ` +
			`style="fill:none;stroke:#1B1B1B;stroke-width:(?:1.2|0.6)" />`)
		var ends []float64
		for _, m := range caps.FindAllStringSubmatch(svg, -1) {
			var at [4]float64
			for i := range at {
				at[i], _ = strconv.ParseFloat(m[i+1], 64)
			}
			if at[0] == at[2] && math.Abs(at[1]-at[3]-6) < 0.01 {
				ends = append(ends, at[0])
			}
		}
		require.Len(t, ends, 2, "level %v", level)
		assert.Greater(t, ends[0], 60.0)
		assert.Less(t, ends[1], 450.0)
	}
}

// Titles and descriptions are read by who cannot see the picture, and by
// programs that list files.
func TestPicturesSayWhatTheyAre(t *testing.T) {
	entries, own := sampleEntries(t)
	var said struct {
		Role  string `xml:"role,attr"`
		Title string `xml:"title"`
		Desc  string `xml:"desc"`
	}
	svg := drawn(t, "svg", entries[2:3], own, picture.Options{Title: "Mine & <yours>"})
	require.NoError(t, xml.Unmarshal(svg, &said))
	assert.Equal(t, "img", said.Role)
	assert.Equal(t, "Mine & <yours>", said.Title)
	assert.Contains(t, said.Desc, "level 0 to 7, against g powder per g water. At 5 spread this powder takes 0.943 (")

	require.NoError(t, xml.Unmarshal(drawn(t, "svg", sixTried(), nil, picture.Options{}), &said))
	for _, want := range []string{
		"At 5 spread, in g water per g powder", "A Soft chalk · lot 1: 0.",
		"F Slow root powder · lot 1: level 5 not reached",
	} {
		assert.Contains(t, said.Desc, want)
	}

	pdf := drawn(t, "pdf", sixTried()[3:4], nil, picture.Options{Title: "Bär – 粉"})
	assert.Contains(t, string(pdf), "/Title <FEFF004200E400720020201300207C89> /Subject <FEFF0048")
}

// Every text says how wide it is, so that another font cannot run out of the
// picture.
func TestTextsKeepTheirWidth(t *testing.T) {
	svg := string(drawn(t, "svg", sixTried(), nil, picture.Options{}))
	assert.Equal(t, strings.Count(svg, "<text "), strings.Count(svg, `textLength="`))
	assert.Regexp(t, `(?s)textLength="[1-9]\d\.\d\d"[^>]*>6 powders in water<`, svg)
}

func TestTrialsAreToldApart(t *testing.T) {
	entries, own := sampleEntries(t)
	svg := drawn(t, "svg", entries[2:3], own, picture.Options{})
	for i, colour := range []string{"#1B1B1B", "#004B8D", "#A63A00"} {
		assert.Contains(t, textsOf(t, svg), fmt.Sprintf("trial %d, 2026-02-%s", i+1, []string{"07", "08", "15"}[i]))
		assert.Contains(t, string(svg), `style="fill:`+colour+`" />`)
	}
	one := string(drawn(t, "svg", sixTried()[:1], nil, picture.Options{}))
	assert.NotContains(t, one, "trial 1,", "nothing to tell apart")
	assert.NotContains(t, one, "#004B8D")
}

// Among several powders, a small figure says which trial a look is of, where a
// powder has more than one.
func TestTrialsAmongPowdersAreNumbered(t *testing.T) {
	texts := textsOf(t, drawn(t, "svg", sixTried(), nil, picture.Options{}))
	figures := map[string]int{}
	for _, text := range texts {
		for _, one := range strings.Split(text, ",") { // those close to each other are written as one
			figures[one]++
		}
	}
	require.Contains(t, strings.Join(texts, " "), "small figures: which trial")
	powders := sixTried()
	for trial := range 3 {
		looks := 0
		for _, p := range []int{1, 3} { // those with two and three
			if ts := powders[p].Profile.Trials; trial < len(ts) {
				looks += len(ts[trial].Steps)
			}
		}
		// The axes have whole numbers too.
		assert.InDelta(t, looks, figures[strconv.Itoa(trial+1)], 2, "trial %d", trial+1)
	}
	alone := drawn(t, "svg", append(sixTried()[:1], sixTried()[2]), nil, picture.Options{})
	assert.NotContains(t, strings.Join(textsOf(t, alone), " "), "small figures")
}

// Where a powder was tested from one side only, its curve is thin and its band
// pale.
func TestOneSidedStretchesArePale(t *testing.T) {
	const pale, thin, said = "fill:#EAEAEA", "stroke-width:0.6", "thin and pale: tested from one side only"
	part := tried("Clay", model.PlainClay, 1, 7, 3.6, 1)
	for powder, want := range map[*export.Powder]bool{&sixTried()[0]: false, &part: true} {
		svg := string(drawn(t, "svg", []export.Powder{*powder}, nil, picture.Options{}))
		for _, sign := range []string{pale, thin, said} {
			assert.Equal(t, want, strings.Contains(strings.ReplaceAll(svg, "\n", " "), sign), sign)
		}
		assert.Contains(t, svg, "fill:#D4D4D4")
	}
}

func TestBandsGiveWay(t *testing.T) {
	edges := func(n int, o picture.Options) (fills, lines int) {
		svg := string(drawn(t, "svg", sixTried()[:n], nil, o))
		return strings.Count(svg, "fill-opacity:"), strings.Count(svg, "stroke-width:0.3")
	}
	fills, lines := edges(3, picture.Options{})
	assert.Positive(t, fills)
	assert.Positive(t, lines)
	fills, lines = edges(4, picture.Options{})
	assert.Positive(t, fills)
	assert.Zero(t, lines, "many are too many for edges")
	fills, lines = edges(3, picture.Options{NoBands: true})
	assert.Zero(t, fills+lines)
	assert.Contains(t, strings.Join(textsOf(t, drawn(t, "svg", sixTried()[:3], nil, picture.Options{NoBands: true})),
		" "), "curve: median; bar: 95 %")
}

func TestSizeAndResolution(t *testing.T) {
	o := picture.Options{WidthMM: 120, HeightMM: 100, DPI: 127}
	image, err := png.DecodeConfig(bytes.NewReader(drawn(t, "png", sixTried(), nil, o)))
	require.NoError(t, err)
	assert.Equal(t, []int{600, 500}, []int{image.Width, image.Height})
	assert.Equal(t, "pHYs\x00\x00\x13\x88\x00\x00\x13\x88\x01", string(drawn(t, "png", sixTried(), nil, o)[37:50]),
		"5000 dots a metre")
	assert.Contains(t, string(drawn(t, "svg", sixTried(), nil, o)), `viewBox="0 0 340.16 283.46"`)
	assert.Contains(t, string(drawn(t, "pdf", sixTried(), nil, o)), "/MediaBox [0 0 340.16 283.46]")

	for want, o := range map[string]picture.Options{
		"draw a picture: 5 mm is no side of a picture: give 60 to 1000 mm": {WidthMM: 5},
		"draw a picture: 2000 mm is no side":                               {HeightMM: 2000},
		"draw a picture: 9 dots an inch cannot be drawn: give 50 to 1200":  {DPI: 9},
		"million dots are too many: give a smaller size or fewer dots an inch": {
			WidthMM:  900,
			HeightMM: 900, DPI: 600,
		},
		"draw a picture 60 mm high: the words under it leave no room; make it wider, or at least ": {
			WidthMM:  60,
			HeightMM: 60,
		},
	} {
		assert.ErrorContains(t, picture.Draw(&bytes.Buffer{}, "png", profilesOf(sixTried()), nil, o), want)
	}
}

func TestNamesKeepWhatDiffers(t *testing.T) {
	two := sixTried()[:2]
	for i := range two {
		two[i].Profile.Powder.Name = "Grey clay from the long " + []string{"northern", "southern"}[i] +
			" valley of the very wide and winding river " + strings.Repeat("by the mill ", 6)
		two[i].Profile.Powder.Lot = "2026-0" + strconv.Itoa(i+1)
	}
	all := strings.Join(textsOf(t, drawn(t, "svg", two, nil, picture.Options{WidthMM: 110})), "\n")
	assert.Regexp(t, `…[^\n]* · lot 2026-01: 0`, all)
	assert.Regexp(t, `…[^\n]* · lot 2026-02: 0`, all)
}
