package tomlfile

import (
	"slices"
	"strings"

	"daub.example/daub/model"
)

// goneHeading stands over the comments whose place is gone.
const goneHeading = "# Comments whose place in this file is gone:"

// withComments returns the text with the comments of an old one put into it.
func (w *Writer) withComments(old *Document) string {
	moved := pathsBetween(old.ids, w.ids)
	fresh := w.String()
	lines := strings.Split(strings.TrimSuffix(fresh, "\n"), "\n")
	if fresh == "" {
		lines = nil
	}
	leads := make([][]comment, len(lines)+1)
	trails := make([]string, len(lines)+1)
	var first, last []comment
	var gone []string
	for _, c := range old.index().comments {
		if w.keptWith(c, old, moved) {
			continue
		}
		switch c.where {
		case head:
			first = append(first, c)
			continue
		case tail:
			last = append(last, c)
			continue
		}
		n, ok := w.standing(moved.to(c.path))
		switch {
		case !ok:
			gone = append(gone, goneLines(c)...)
		// Otherwise it would stand inside the list.
		case c.where == beside && trails[n] == "" && !strings.HasSuffix(lines[n-1], "["):
			trails[n] = c.text
		default:
			leads[n] = append(leads[n], c)
		}
	}
	var b strings.Builder
	writeComments(&b, "", first)
	for i, line := range lines {
		writeComments(&b, line[:len(line)-len(strings.TrimLeft(line, " "))], leads[i+1])
		b.WriteString(line)
		if trails[i+1] != "" {
			b.WriteString("  " + trails[i+1])
		}
		b.WriteByte('\n')
	}
	writeEnding(&b, last, gone)
	return b.String()
}

// writeComments writes comments, each on lines of its own.
func writeComments(b *strings.Builder, indent string, comments []comment) {
	for _, c := range comments {
		for text := range c.lines {
			if text != "" {
				b.WriteString(indent + text)
			}
			b.WriteByte('\n')
		}
	}
}

// goneLines returns the lines of a comment whose place is gone, each with the place
// it had.
func goneLines(c comment) []string {
	var out []string
	for text := range c.lines {
		if text != "" {
			words := strings.TrimSpace(strings.TrimPrefix(text, "#"))
			out = append(out, strings.TrimSpace("# ("+model.Problem{Path: c.path}.PathWords()+") "+words))
		}
	}
	return out
}

// writeEnding writes the comments that come after everything else, a blank line
// before them.
func writeEnding(b *strings.Builder, last []comment, gone []string) {
	if len(last) == 0 && len(gone) == 0 {
		return
	}
	b.WriteByte('\n')
	writeComments(b, "", last)
	if len(gone) == 0 {
		return
	}
	if !slices.ContainsFunc(last, comment.isGoneHeading) {
		if len(last) > 0 {
			b.WriteByte('\n')
		}
		b.WriteString(goneHeading + "\n")
	}
	for _, line := range gone {
		b.WriteString(line + "\n")
	}
}

// isGoneHeading reports whether a comment holds the heading of comments whose place
// is gone.
func (c comment) isGoneHeading() bool {
	for text := range c.lines {
		if text == goneHeading {
			return true
		}
	}
	return false
}

// standing returns the line that a comment at path belongs to. This is the line of
// the path itself, of the first table of its old list, or of the line whose value
// holds it.
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
