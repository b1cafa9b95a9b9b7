// Package webpage writes cards and pages as HTML: one file with its picture in it
// and a print style for A5. All text is escaped, and nothing in it runs.
//
// It opens no file; the text comes from model/paper, the picture from the caller.
// It imports model/paper.
package webpage

import (
	"bytes"
	_ "embed"
	"encoding/base64"
	"fmt"
	"html/template"
	"io"
	"strings"
	"sync"

	"daub.example/daub/model/paper"
)

var (
	//go:embed page.css
	css string
	//go:embed pages.html
	pages string

	// templates are parsed for the first page, so that other commands start quickly.
	templates = sync.OnceValue(func() *template.Template {
		return template.Must(template.New("pages").Funcs(template.FuncMap{
			"css": func() template.CSS { return template.CSS(css) },
		}).Parse(pages))
	})
)

// Picture is a drawing for a page; the zero value is none.
type Picture struct {
	SVG []byte // as data/picture draws it
	Alt string // a description for those who do not see it
}

// Source returns the picture as an address that holds all of it, so that it can
// neither run nor fetch anything; "" for none.
func (p Picture) Source() template.URL {
	if len(p.SVG) == 0 {
		return ""
	}
	return template.URL("data:image/svg+xml;base64," + base64.StdEncoding.EncodeToString(p.SVG))
}

// Card writes the card of a recipe, with a picture of its powders.
func Card(w io.Writer, c paper.Card, p Picture) error {
	return write(w, "card", struct {
		paper.Card
		Picture Picture
	}{c, p})
}

// Powders writes the pages of powders into one file, below a picture of all.
func Powders(w io.Writer, powders []paper.Powder, p Picture) error {
	var names []string
	for _, one := range powders {
		names = append(names, one.Title)
	}
	return write(w, "powders", struct {
		Title   string
		Powders []paper.Powder
		Picture Picture
	}{strings.Join(names, ", "), powders, p})
}

// write fills a template; on an error nothing is written.
func write(w io.Writer, name string, with any) error {
	var text bytes.Buffer
	if err := templates().ExecuteTemplate(&text, name, with); err != nil {
		return fmt.Errorf("write a page: %w", err)
	}
	if _, err := w.Write(text.Bytes()); err != nil {
		return fmt.Errorf("write a page: %w; check that there is room and the file may be written", err)
	}
	return nil
}
