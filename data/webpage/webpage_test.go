package webpage_test

import (
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"regexp"
	"strings"
	"testing"

	"daub.example/daub/data/webpage"
	"daub.example/daub/model/paper"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// hostile is text that would break out of a page that does not escape it.
const hostile = `<script>alert(1)</script>"'><img src=x onerror=alert(1)>{{.}}</style>`

func hostileCard() paper.Card {
	return paper.Card{
		Title: hostile, Size: hostile, Notes: []string{hostile}, First: []string{hostile}, Made: hostile,
		Ingredients: []paper.Ingredient{{What: hostile, Grams: "1", Spoons: hostile, Note: hostile}}, Spoons: hostile,
		Steps: []paper.Step{{Cautions: []string{hostile}, Do: hostile}}, BasedOn: []string{hostile},
		Cautions: []string{hostile}, Deferral: hostile,
	}
}

func written(t *testing.T, write func(io.Writer) error) string {
	t.Helper()
	var out bytes.Buffer
	require.NoError(t, write(&out))
	return out.String()
}

// wellFormed reads the page as XML but for its head, whose meta elements stay
// open: every element that is opened is closed, in order.
func wellFormed(t *testing.T, page string) {
	t.Helper()
	d := xml.NewDecoder(strings.NewReader(page[strings.Index(page, "<body>"):strings.Index(page, "</html>")]))
	d.Strict = false
	d.AutoClose = []string{"img", "br"}
	d.Entity = xml.HTMLEntity
	for {
		if _, err := d.Token(); errors.Is(err, io.EOF) {
			return
		} else {
			require.NoError(t, err)
		}
	}
}

// selfContained sees that the page fetches and runs nothing.
func selfContained(t *testing.T, page string) {
	t.Helper()
	assert.NotContains(t, page, "<script")
	assert.NotContains(t, page, "onerror=alert(1)>{{", "nothing breaks out")
	assert.NotRegexp(t, regexp.MustCompile(`(?i)(src|href)="(https?:|//|file:)`), page)
	assert.NotContains(t, page, "@import")
	assert.NotContains(t, page, "url(")
	assert.Equal(t, 1, strings.Count(page, "</style>"))
	assert.Contains(t, page, `content="default-src 'none'; img-src data:; style-src 'unsafe-inline'"`)
	assert.Contains(t, page, "size: A5")
}

func TestCardEscapesEverything(t *testing.T) {
	p := webpage.Picture{SVG: []byte("<svg/>"), Alt: hostile}
	page := written(t, func(w io.Writer) error { return webpage.Card(w, hostileCard(), p) })
	selfContained(t, page)
	wellFormed(t, page)
	assert.Contains(t, page, "&lt;script&gt;alert(1)")
	assert.Contains(t, page, `<img src="data:image/svg&#43;xml;base64,PHN2Zy8&#43;"`)
	assert.Contains(t, page, `Use by: <span class="blank">`)
}

func TestCardThatIsNotReady(t *testing.T) {
	page := written(t, func(w io.Writer) error {
		return webpage.Card(w, paper.Card{Title: "x", Missing: []string{"recipe, level: give one"}}, webpage.Picture{})
	})
	assert.Contains(t, page, "Not ready to make")
	assert.NotContains(t, page, "<h2>Steps")
	assert.NotContains(t, page, "<img")
	wellFormed(t, page)
}

func TestPowdersOnOnePage(t *testing.T) {
	one := paper.Powder{
		Title: hostile, Headline: hostile, Facts: []paper.Fact{{
			Name:  "Family",
			Value: hostile,
		}}, Notes: []string{hostile},
		Ratios: []paper.RatioTable{{
			Liquid: hostile, Rest: "30 s",
			Rows: []paper.RatioRow{{Level: "5 spread", Ratio: hostile}},
		}},
		Trials: []paper.TrialLine{{Number: "1", State: hostile}}, Measured: []string{hostile}, Seen: []string{hostile},
		Cautions: []paper.Moment{{Before: "jar", Texts: []string{hostile}}},
	}
	two := one
	two.Title = "Hill clay"
	page := written(t, func(w io.Writer) error {
		return webpage.Powders(w, []paper.Powder{one, two}, webpage.Picture{SVG: []byte("<svg/>")})
	})
	selfContained(t, page)
	wellFormed(t, page)
	assert.Equal(t, 1, strings.Count(page, "<img"), "one picture of all")
	assert.Equal(t, 2, strings.Count(page, `<section class="powder">`))
	alone := written(t, func(w io.Writer) error { return webpage.Powders(w, []paper.Powder{two}, webpage.Picture{}) })
	assert.Equal(t, 1, strings.Count(alone, "<h1>"))
	assert.Contains(t, alone, "<title>Hill clay</title>")
}

// What keeps a page whole, as looked at in a browser, on screens of 320 and 400 px and
// printed on A5 with the breaks in forty places: wide tables stay in a box of their own,
// and no heading, no head of a table and no last line stands alone.
func TestPagesBreakWhereNothingStandsAlone(t *testing.T) {
	page := written(t, func(w io.Writer) error {
		return webpage.Powders(w, []paper.Powder{{
			Title: "Hill clay", Ratios: []paper.RatioTable{{Liquid: "water", Rows: []paper.RatioRow{{Level: "5"}}}},
			Trials: []paper.TrialLine{{Number: "1"}},
		}}, webpage.Picture{})
	})
	assert.Equal(t, strings.Count(page, "<table>"), strings.Count(page, `<div class="scroll"><table>`))
	screen, print, ok := strings.Cut(page, "@media print {")
	require.True(t, ok)
	assert.Contains(t, screen, ".scroll { overflow-x: auto; }")
	for _, rule := range []string{
		"h1, h2, h1 + .lead, thead, dt { break-after: avoid; }",
		"li:first-child, tbody tr:first-child, dd:first-of-type { break-after: avoid; }",
		"li:last-child, tbody tr:last-child, dd:last-child, p.faint:last-child { break-before: avoid; }",
		"tr, dd, img, .first, .blanks, .faint { break-inside: avoid; }",
	} {
		assert.Contains(t, print, rule)
	}
}

func TestNothingIsWrittenHalf(t *testing.T) {
	err := webpage.Card(failing{}, paper.Card{Title: "x"}, webpage.Picture{})
	assert.ErrorContains(t, err, "write a page: disk full")
}

type failing struct{}

func (failing) Write([]byte) (int, error) { return 0, errors.New("disk full") }
