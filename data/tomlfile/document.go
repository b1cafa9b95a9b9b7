package tomlfile

import (
	"bytes"
	"strings"
	"sync"

	"daub.example/daub/model"
)

// Document is a text that was read: its values, the place of each, and what a new
// text has to keep.
type Document struct {
	Text []byte         // as it was read, to the byte
	Tree map[string]any // its values; nil after Done
	ids  identities
	kept []keptText // values kept as written, in their order

	find sync.Once
	ix   *index // by index alone
}

// Parse reads src as TOML of any shape. Problems are those that make it no TOML;
// then nothing else can be said.
func Parse(src []byte) (*Document, []Problem) {
	tree, problems := parse(src)
	if problems != nil {
		return nil, problems
	}
	return &Document{Text: src, Tree: tree}, nil
}

// index returns the places of everything. It is made when first needed: most
// documents have no problem and are never written.
func (d *Document) index() *index {
	d.find.Do(func() { d.ix, _ = scan(d.plain()) }) // the text was parsed, so it is not too deep
	return d.ix
}

// plain returns the text without a byte order mark; places are counted in it.
func (d *Document) plain() string { return string(bytes.TrimPrefix(d.Text, ByteOrderMark)) }

// mayHaveComments reports whether the text has a # at all.
func (d *Document) mayHaveComments() bool { return bytes.IndexByte(d.Text, '#') >= 0 }

// Fill reads the document into a value and checks it against the fields. check adds
// problems with the values. It is told whether some are missing because they were
// of the wrong kind; what it says of those is dropped. Problems are in the order of
// their lines.
func Fill[T any](d *Document, fields []Field[T], into *T, check func(broken bool) []model.Problem) []Problem {
	var w Walker
	readTable(&w, "", d.Tree, fields, into)
	d.ids = w.ids
	d.keep(w.kept)
	found := w.problems
	if broken := len(found) > 0; check != nil {
		said := check(broken)
		found = append(found, w.uncovered(said)...)
	}
	return inOrder(d.Locate(found), w.more)
}

// Locate finds the lines of problems that name a path.
func (d *Document) Locate(ps []model.Problem) []Problem {
	out := make([]Problem, len(ps))
	for i, p := range ps {
		out[i] = Problem{Line: d.Line(p.Path), What: p.What, Fix: p.Fix}
	}
	return out
}

// Line returns the line of path, from 1; for a list of tables the first, and for
// something absent that of its table.
func (d *Document) Line(path string) int { return d.index().line(path) }

// Comments returns the comments in the document, in order.
func (d *Document) Comments() []string {
	var out []string
	for _, c := range d.index().comments {
		for text := range c.lines {
			if text != "" { // else a blank line between comments
				out = append(out, text)
			}
		}
	}
	return out
}

// Done drops the values and, if there are no comments, everything kept for them.
func (d *Document) Done() *Document {
	d.Tree = nil
	if !d.mayHaveComments() {
		d.ids = nil
	}
	return d
}

// Write is the text of a file: keys in the order of the fields, what was left
// out left out. Of the old text, nil for a new file, it keeps the kind of line
// ends and the comments: those above a header or key and those behind one stay
// with it, those whose place is gone come at the end. Writing again changes
// nothing.
//
// What the maker typed is written to the digit; a number of more than 15
// digits, which only arithmetic makes, is rounded to 10. The error is a value
// that TOML cannot hold.
func Write[T any](fields []Field[T], from *T, old *Document) ([]byte, error) {
	w := Writer{noting: old != nil && old.mayHaveComments()}
	writeTable(&w, "", 0, fields, from)
	if w.err != nil {
		return nil, w.err
	}
	if old == nil {
		return []byte(w.String()), nil
	}
	text := w.String()
	if w.noting {
		text = w.withComments(old)
	}
	if line, _, found := bytes.Cut(old.Text, []byte("\n")); found && bytes.HasSuffix(line, []byte("\r")) {
		text = strings.ReplaceAll(text, "\n", "\r\n")
	}
	return []byte(text), nil
}
