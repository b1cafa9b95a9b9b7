package data

import (
	"strings"

	"daub.example/daub/model"
)

// goneHeading stands over the comments whose place is gone.
const goneHeading = "# Comments whose place in this file is gone:"

// keepComments puts the comments of an old text into a fresh one that has
// none. moved says where a path of the old text is now.
func keepComments(old *index, fresh string, moved moves) string {
	now, err := scan(fresh)
	if err != nil {
		return fresh // deeper than anything that could be read
	}
	lines := strings.Split(strings.TrimSuffix(fresh, "\n"), "\n")
	if fresh == "" {
		lines = nil
	}
	leads := make([][]string, len(lines)+1)
	trails := make([]string, len(lines)+1)
	var first, last, gone []string
	for _, c := range old.comments {
		switch c.where {
		case head:
			first = append(first, c.text)
			continue
		case tail:
			last = append(last, c.text)
			continue
		}
		n, ok := now.standing(moved.to(c.path))
		switch {
		case !ok && c.text != "":
			words := strings.TrimSpace(strings.TrimPrefix(c.text, "#"))
			gone = append(gone, strings.TrimSpace("# ("+model.Problem{Path: c.path}.Place()+") "+words))
		case !ok:
		case c.where == beside && trails[n] == "" && !strings.HasSuffix(lines[n-1], "["): // else it would stand inside the list
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

// ending is what comes after everything else, a blank line before it.
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
// the list it is an entry of, or of the first table of the list it was.
func (ix *index) standing(path string) (line int, ok bool) {
	if line, ok = ix.lines[path]; ok {
		return line, true
	}
	if strings.HasSuffix(path, "]") {
		line, ok = ix.lines[path[:strings.LastIndexByte(path, '[')]]
		return line, ok
	}
	line, ok = ix.lines[item(path, 0)]
	return line, ok
}
