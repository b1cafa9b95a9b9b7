package tomlfile

import (
	"strings"

	"daub.example/daub/model"
)

// goneHeading stands over the comments whose place is gone.
const goneHeading = "# Comments whose place in this file is gone:"

// withComments is the text with the comments of an old one put into it.
func (w *Writer) withComments(old *Document) string {
	moved := pathsBetween(old.ids, w.ids)
	fresh := w.String()
	lines := strings.Split(strings.TrimSuffix(fresh, "\n"), "\n")
	if fresh == "" {
		lines = nil
	}
	leads := make([][]string, len(lines)+1)
	trails := make([]string, len(lines)+1)
	var first, last, gone []string
	for _, c := range old.index().comments {
		switch c.where {
		case head:
			first = append(first, c.text)
			continue
		case tail:
			last = append(last, c.text)
			continue
		}
		n, ok := w.standing(moved.to(c.path))
		switch {
		case !ok && c.text != "":
			words := strings.TrimSpace(strings.TrimPrefix(c.text, "#"))
			gone = append(gone, strings.TrimSpace("# ("+model.Problem{Path: c.path}.Place()+") "+words))
		case !ok:
		// else it would stand inside the list
		case c.where == beside && trails[n] == "" && !strings.HasSuffix(lines[n-1], "["):
			trails[n] = c.text
		default:
			leads[n] = append(leads[n], c.text)
		}
	}
	var b strings.Builder
	write := func(indent string, texts []string) {
		for _, t := range texts {
			if t != "" {
				b.WriteString(indent + t)
			}
			b.WriteByte('\n')
		}
	}
	write("", first)
	for i, line := range lines {
		write(line[:len(line)-len(strings.TrimLeft(line, " "))], leads[i+1])
		b.WriteString(line)
		if trails[i+1] != "" {
			b.WriteString("  " + trails[i+1])
		}
		b.WriteByte('\n')
	}
	write("", ending(last, gone))
	return b.String()
}

// ending returns the comments that come after everything else, a blank line before them.
func ending(last, gone []string) []string {
	if len(gone) > 0 {
		said := false
		for _, t := range last {
			said = said || t == goneHeading
		}
		if !said {
			if len(last) > 0 {
				last = append(last, "")
			}
			last = append(last, goneHeading)
		}
		last = append(last, gone...)
	}
	if len(last) == 0 {
		return nil
	}
	return append([]string{""}, last...)
}

// standing is the line a comment at path belongs to: of the path itself, of
// the first table of the list it was, or of the line that has it in its value.
func (w *Writer) standing(path string) (line int, ok bool) {
	if at, ok := w.spots[path]; ok {
		return at.line, true
	}
	if at, ok := w.spots[item(path, 0)]; ok {
		return at.line, true
	}
	for path != "" {
		path = path[:max(strings.LastIndexAny(path, ".["), 0)]
		if at, ok := w.spots[path]; ok {
			return at.line, !at.header
		}
	}
	return 0, false
}
