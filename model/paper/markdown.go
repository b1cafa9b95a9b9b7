package paper

import (
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model/printable"
)

// blank is a line to write on by hand.
const blank mark = "______________"

// Markdown writes the card as Markdown.
func (c Card) Markdown() string {
	m := &markdown{}
	m.line("# %s", c.Title)
	if len(c.Missing) > 0 {
		m.list("Not ready to make", c.Missing)
		return m.String()
	}
	m.line("\n%s", c.Size)
	for _, n := range c.Notes {
		m.line("\n%s", n)
	}
	for _, f := range c.First {
		m.line("\n**%s**", f)
	}
	m.line("\n%s", c.Ready)
	m.line("\nMade: %s  Use by: %s", or(c.Made, blank), or(c.UseBy, blank))
	if BySpoon(c.Ingredients) {
		m.line("\n| what | grams | level spoons |")
		m.line("| --- | ---: | --- |")
	} else {
		m.line("\n| what | grams |")
		m.line("| --- | ---: |")
	}
	for _, i := range c.Ingredients {
		if BySpoon(c.Ingredients) {
			m.line("| %s | %s | %s |", i.Named(), i.Grams, i.Spoons)
		} else {
			m.line("| %s | %s |", i.Named(), i.Grams)
		}
	}
	if c.Spoons != "" {
		m.line("\n%s", c.Spoons)
	}
	m.section("Steps")
	for i, s := range c.Steps {
		lead := mark(fmt.Sprintf("%d. ", i+1))
		for _, caution := range s.Cautions {
			m.line("%s*%s*", lead, caution)
			lead = mark(strings.Repeat(" ", len(lead)))
		}
		m.line("%s%s", lead, s.Do)
	}
	m.list("How it behaves", c.Tips)
	m.list("On the skin", c.Cautions)
	m.section("Based on")
	for _, b := range c.BasedOn {
		m.line("%s", b)
	}
	m.line("\n%s", c.Deferral)
	return m.String()
}

// Named gives the ingredient with its note.
func (i Ingredient) Named() string {
	if i.Note == "" {
		return i.What
	}
	return fmt.Sprintf("%s (%s)", i.What, i.Note)
}

// BySpoon reports whether any of the ingredients can be spooned: then they have a column
// of level spoons.
func BySpoon(all []Ingredient) bool {
	return slices.ContainsFunc(all, func(i Ingredient) bool { return i.Spoons != "" })
}

// markdown gathers lines of Markdown.
type markdown struct{ strings.Builder }

// mark is a part of a line that is Markdown already.
type mark string

// line writes one line; strings put into it are escaped, marks are not.
func (m *markdown) line(format string, args ...any) {
	for i, arg := range args {
		if text, ok := arg.(string); ok {
			args[i] = printable.Markdown(text)
		}
	}
	fmt.Fprintf(m, format+"\n", args...)
}

// section writes a heading of the second rank.
func (m *markdown) section(title string) { m.line("\n## %s\n", title) }

// list writes a section with a list, nothing for an empty one.
func (m *markdown) list(title string, texts []string) {
	if len(texts) == 0 {
		return
	}
	m.section(title)
	for _, t := range texts {
		m.line("- %s", t)
	}
}

// or escapes a text; without one it gives the mark.
func or(text string, otherwise mark) mark {
	if text == "" {
		return otherwise
	}
	return mark(printable.Markdown(text))
}
