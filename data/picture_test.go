package data

import (
	"bytes"
	"encoding/xml"
	"errors"
	"image"
	"image/color"
	"image/png"
	"io"
	"regexp"
	"strings"
	"testing"

	"daub.example/daub/data/export"
	"daub.example/daub/data/picture"
	"daub.example/daub/model"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

func drawn(t require.TestingT, format string, entries []export.Powder, own model.OwnSpoons, o picture.Options) []byte {
	var out bytes.Buffer
	require.NoError(t, picture.Draw(&out, format, profilesOf(entries), own, o))
	return out.Bytes()
}

// textsOf is every text in an SVG, which has to be XML.
func textsOf(t require.TestingT, svg []byte) []string {
	var texts []string
	inText := false
	for d := xml.NewDecoder(bytes.NewReader(svg)); ; {
		token, err := d.Token()
		if errors.Is(err, io.EOF) {
			return texts
		}
		require.NoError(t, err)
		switch token := token.(type) {
		case xml.StartElement:
			inText = token.Name.Local == "text"
		case xml.CharData:
			if inText {
				texts = append(texts, string(token))
			}
		case xml.EndElement:
			inText = false
		}
	}
}

func TestOnePowderAsSVG(t *testing.T) {
	entries, own := sampleEntries(t)
	svg := drawn(t, "svg", entries[2:3], own, picture.Options{})
	texts := textsOf(t, svg)
	for _, want := range []string{
		"Pale valley clay · lot B-17", "level", "spread 5", "crumbly 7", "5 spread",
		"g powder per g water", "1.0", "1.06",
		"g water per g powder", "2", "0.943", "trial 1, 2026-02-07", "trial 2, 2026-02-08", "trial 3, 2026-02-15",
	} {
		assert.Contains(t, texts, want)
	}
	for _, want := range []string{ // over several lines
		"At 5 spread this powder takes 0.943 (0.845 to 1.05) g water per g powder (3 trials, rest 30 s). Your " +
			"next dish may take 0.779 to 1.14: plan with that.",
		"Points: looks; side by side: looks at one place; curve: median; grey and bar: 95 %; hollow: at most or " +
			"at least.",
	} {
		assert.Contains(t, strings.Join(texts, " "), want)
	}
	assert.NotContains(t, string(svg), "NaN")
	assert.Contains(t, string(svg), "Arial, Helvetica, sans-serif")
	assert.Equal(t, svg, drawn(t, "svg", entries[2:3], own, picture.Options{}), "the same bytes again")

	texts = textsOf(t, drawn(t, "svg", entries[2:3], own, picture.Options{Level: 3.5, Title: "Mine & <yours>\x00"}))
	assert.Contains(t, texts, "Mine & <yours>")
	assert.Contains(t, strings.Join(texts, "\n"), "\n3.5 ribbon/dollop\n")
}

func TestLongNamesAreCutInTheMiddle(t *testing.T) {
	long := sixTried()[:2]
	for i := range long {
		long[i].Profile.Powder.Name = strings.Repeat("long ", 30) + long[i].Profile.Powder.Name
	}
	texts := textsOf(t, drawn(t, "svg", long, nil, picture.Options{Title: "start" + strings.Repeat(" more", 35) +
		" end"}))
	assert.Regexp(t, `^start more.*….* end$`, texts[0])
	long[0].Profile.Trials[0].Liquid = strings.Repeat("of the well ", 1000)
	texts = textsOf(t, drawn(t, "svg", long[:1], nil, picture.Options{}))
	assert.Contains(t, texts, "crumbly 7", "room is left for the plot")
	assert.Less(t, len(texts), 40)
	long[0].Profile.Trials[0].Liquid = ""
	texts = textsOf(t, drawn(t, "svg", long, nil, picture.Options{}))
	assert.Regexp(t, `\nlong .*….*Soft chalk · lot 1: 0\.`, strings.Join(texts, "\n"), "the lot stays")
}

func TestSixPowdersAsSVG(t *testing.T) {
	svg := drawn(t, "svg", sixTried(), nil, picture.Options{})
	texts := textsOf(t, svg)
	all := strings.Join(texts, "\n")
	for _, letter := range []string{"A", "B", "C", "D", "E", "F"} {
		n := 0
		for _, text := range texts {
			if text == letter {
				n++
			}
		}
		assert.Equal(t, 2, n, "%s at its curve and in the legend", letter)
	}
	for _, want := range []string{"6 powders in water", "0.05", "0.1", "0.2", "0.5", "1", "2", "5 spread"} {
		assert.Contains(t, texts, want)
	}
	assert.Contains(t, all, "Slow root powder · lot 1: level 5 not reached, less than")
	assert.Contains(t, all, "rest 5 min", "said, for they are apart")
	dashes := map[string]bool{}
	for _, found := range regexp.MustCompile(`stroke-dasharray:[0-9.,]+`).FindAllString(string(svg), -1) {
		dashes[found] = true
	}
	assert.GreaterOrEqual(t, len(dashes), 5, "no two alike, and one goes without")
	assert.Equal(t, svg, drawn(t, "svg", sixTried(), nil, picture.Options{}))

	over := sixTried()
	steps := &over[1].Profile.Trials[0].Steps
	(*steps)[3].Level = 6
	*steps = append(*steps, model.Step{Add: model.AddPowder, Grams: 200, Looked: true, Level: 7})
	all = strings.Join(textsOf(t, drawn(t, "svg", over[:2], nil, picture.Options{})), " ")
	assert.Contains(t, all,
		"Numbers: g water per g powder at 5 spread (95 %); points: looks; "+
			"small figures: which trial; curve: median; "+
			"shade and bar: 95 %; hollow: at most or at least; crossed: far from the others;")
	assert.Contains(t, all, "B›")
	assert.Contains(t, all, "‹ ›: beyond the edge.")

	near := []export.Powder{sixTried()[0], sixTried()[1]}
	assert.NotContains(t, string(drawn(t, "svg", near, nil, picture.Options{})), "rest", "not worth a word when alike")
}

func TestPictureAsPNG(t *testing.T) {
	entries, own := sampleEntries(t)
	for _, in := range [][]export.Powder{entries[2:3], sixTried()} {
		text := drawn(t, "png", in, own, picture.Options{})
		picture, err := png.Decode(bytes.NewReader(text))
		require.NoError(t, err)
		require.Equal(t, image.Rect(0, 0, 1600, 1000), picture.Bounds(), "16 by 10 cm at 100 dots a centimetre")
		assert.Equal(t, "pHYs\x00\x00\x27\x10\x00\x00\x27\x10\x01", string(text[37:50]), "10000 dots a metre")
		dark, grey, white := 0, 0, 0
		for y := range 1000 {
			for x := range 1600 {
				switch g := color.GrayModel.Convert(picture.At(x, y)).(color.Gray).Y; {
				case g < 0x60:
					dark++
				case g > 0xb8 && g < 0xf0:
					grey++
				case g == 0xff:
					white++
				}
			}
		}
		assert.Greater(t, dark, 10_000, "text and curve")
		assert.Greater(t, grey, 40_000, "band")
		assert.Greater(t, white, 1_000_000)
		for _, corner := range []image.Point{{0, 0}, {1599, 0}, {0, 999}, {1599, 999}} {
			assert.Equal(t, color.GrayModel.Convert(color.White),
				color.GrayModel.Convert(picture.At(corner.X, corner.Y)))
		}
	}
}

// Where the curve is, it is dark; beside it the band is grey.
func TestCurveLiesInItsBand(t *testing.T) {
	e := tried("Clay", model.PlainClay, 1, 7, 6.4, 1)
	picture, err := png.Decode(bytes.NewReader(drawn(t, "png", []export.Powder{e}, nil,
		picture.Options{Level: 1, HeightMM: 105})))
	require.NoError(t, err)
	row := func(y int) string {
		var b strings.Builder
		for x := 300; x < 1600; x++ {
			switch g := color.GrayModel.Convert(picture.At(x, y)).(color.Gray).Y; {
			case g == 0xd4:
				b.WriteByte('b')
			case g < 0x60:
				b.WriteByte('c')
			}
		}
		return b.String()
	}
	crossed := regexp.MustCompile(`^b{30,}c{3,10}b{30,}$`)
	n := 0
	for y := range 1000 {
		if crossed.MatchString(row(y)) {
			n++
		}
	}
	assert.Greater(t, n, 50, "rows that go through the band, the curve, and the band again")
}

func TestPictureAsPDF(t *testing.T) {
	text := drawn(t, "pdf", sixTried(), nil, picture.Options{})
	assert.True(t, bytes.HasPrefix(text, []byte("%PDF-")))
	assert.Contains(t, string(text), "/MediaBox [0 0 453.54 283.46]", "16 by 10 cm in points")
	assert.Contains(t, string(text), "LiberationSans", "the font is in it")
}

func TestPictureSaysWhatIsWrong(t *testing.T) {
	entries, own := sampleEntries(t)
	never := export.Powder{Profile: profile("Never tried", "")}
	draw := func(format string, level float64, powders ...export.Powder) error {
		return picture.Draw(&bytes.Buffer{}, format, profilesOf(powders), own, picture.Options{Level: level})
	}
	full := picture.Draw(full{}, "svg", profilesOf(entries[:1]), own, picture.Options{})
	for _, c := range []struct {
		err  error
		want string
	}{
		{draw("gif", 0, entries[0]), `draw a picture as "gif": the format is not known; use one of: svg, png, pdf`},
		{draw("svg", 0), "draw a picture of 0 powders: one is drawn alone"},
		{draw("svg", 0, append(sixTried(), never)...), "draw a picture of 7 powders"},
		{draw("svg", 7, entries[0]), "draw a picture at level 7: there is no ratio at it"},
		{draw("svg", 0, never), "draw a picture of Never tried: no finished trial has a look to show"},
		{draw("svg", 0, entries[:2]...), "Grey basin clay · lot 2026-01 was tried in water but Meadow petal powder · "},
		{full, "draw a picture: write: no room"},
	} {
		assert.ErrorContains(t, c.err, c.want)
	}
	texts := textsOf(t, drawn(t, "svg", []export.Powder{never, entries[2]}, own, picture.Options{}))
	assert.Contains(t, texts, "Never tried: no finished trial with a look")
}

// Any profile is drawn or refused with a reason; what is drawn is XML without
// a number that is none.
func TestAnyProfileIsDrawn(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		var entries []export.Powder
		for range rapid.IntRange(1, 3).Draw(t, "powders") {
			entries = append(entries, export.Powder{Profile: genProfile(t)})
		}
		o := picture.Options{
			Level: rapid.SampledFrom([]float64{0, 1, 4.5, 6}).Draw(t, "level"),
			Title: words.Draw(t, "title"),
		}
		var out bytes.Buffer
		if err := picture.Draw(&out, "svg", profilesOf(entries), nil, o); err != nil {
			require.Contains(t, []bool{
				strings.Contains(err.Error(), "no finished trial"),
				strings.Contains(err.Error(), "different liquids"),
			}, true, err)
			return
		}
		textsOf(t, out.Bytes())
		for _, attribute := range strings.Split(out.String(), "<")[1:] {
			tag, _, _ := strings.Cut(attribute, ">")
			require.NotContains(t, tag, "NaN")
			require.NotContains(t, tag, "Inf")
		}
	})
}

func BenchmarkPicture(b *testing.B) {
	entries, own := sampleEntries(b)
	for name, in := range map[string][]export.Powder{"1": entries[2:3], "6": sixTried()} {
		for _, format := range picture.Formats() {
			b.Run(format+" "+name, func(b *testing.B) {
				b.ReportAllocs()
				for b.Loop() {
					drawn(b, format, in, own, picture.Options{})
				}
			})
		}
	}
}
