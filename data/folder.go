package data

import (
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"

	"daub.example/daub/data/atomicfile"
	"daub.example/daub/data/parallel"
	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
	"daub.example/daub/model/repeats"
)

// File is a file of the shelf as it was read or last saved. The zero File was never
// saved.
type File struct {
	Slug string // its name without .toml
	Path string

	read    *tomlfile.Document // its text; nil for a new file
	derived derived            // of a profile
}

// kept holds the things that an entry remembers of its file besides the name.
type kept struct {
	read    *tomlfile.Document
	derived derived
}

func (f File) kept() any { return kept{f.read, f.derived} }

// TextRead returns the text that an entry was read from or last saved as; nil if it
// was never saved.
func TextRead(e Entry) []byte {
	if k, _ := e.Read.(kept); k.read != nil {
		return k.read.Text
	}
	return nil
}

// fileOf returns the file of an entry, with what it remembers of it.
func fileOf(slug, path string, read any) File {
	k, _ := read.(kept)
	return File{Slug: slug, Path: path, read: k.read, derived: k.derived}
}

// folder is one kind of file: its place on the shelf, and how its contents, each a
// T, are named, read and written.
type folder[T any] struct {
	name  string
	kind  Kind
	title func(T) string            // its title
	goes  func(v T, by string) bool // reports whether a name fits it
	slug  func(T) string            // the slug for its file
	read  func([]byte, model.OwnSpoons) (content[T], []tomlfile.Problem)
	check func(T, model.OwnSpoons) []model.Problem
	write func(T, model.OwnSpoons, *File) ([]byte, error)
}

// content is a file as it was read.
type content[T any] struct {
	value   T
	doc     *tomlfile.Document
	trusted []repeats.Row // of a profile, if its ratio table can be relied on
}

// filed is a file with its contents.
type filed[T any] struct {
	File
	value T
}

func (f folder[T]) path(s *Shelf, slug string) string {
	return filepath.Join(s.dir, f.name, slug+extension)
}

// slugs lists the files by name. Hidden files and other kinds are left out, also
// leftovers of an interrupted save.
func (f folder[T]) slugs(s *Shelf) ([]string, error) {
	dir := filepath.Join(s.dir, f.name)
	files, err := os.ReadDir(dir)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("list the shelf %s: %w; check that the folder may be read", dir, err)
	}
	var slugs []string
	for _, file := range files {
		slug, ok := strings.CutSuffix(file.Name(), extension)
		if ok && slug != "" && !strings.HasPrefix(slug, ".") && !file.IsDir() {
			slugs = append(slugs, slug)
		}
	}
	return slugs, nil
}

// list reads the whole folder in the order of the files' names. It returns the
// readable files, and an error for each other one.
func (f folder[T]) list(s *Shelf, own model.OwnSpoons) ([]filed[T], []error) {
	slugs, err := f.slugs(s)
	if err != nil {
		return nil, []error{err}
	}
	return loadAll(slugs, func(slug string) (filed[T], error) { return f.load(s, slug, own) })
}

// loadAll loads the files of these slugs, in their order.
func loadAll[T any](slugs []string, load func(slug string) (T, error)) ([]T, []error) {
	type result struct {
		one T
		err error
	}
	found := make([]T, 0, len(slugs))
	var errs []error
	for _, r := range parallel.Map(slugs, func(slug string) result {
		one, err := load(slug)
		return result{one, err}
	}) {
		switch {
		case r.err == nil:
			found = append(found, r.one)
		case !errors.Is(r.err, fs.ErrNotExist): // deleted since the folder was read
			errs = append(errs, r.err)
		}
	}
	return found, errs
}

// load reads the file of a slug; a missing one is an fs.ErrNotExist.
func (f folder[T]) load(s *Shelf, slug string, own model.OwnSpoons) (filed[T], error) {
	src, err := readFile(f.path(s, slug))
	if err != nil {
		return filed[T]{}, err
	}
	return f.parse(s, slug, src, own)
}

// parse is load for a file whose text is src.
func (f folder[T]) parse(s *Shelf, slug string, src []byte, own model.OwnSpoons) (filed[T], error) {
	path := f.path(s, slug)
	read, problems := f.read(src, own)
	if err := tomlfile.Refuse(path, problems); err != nil {
		return filed[T]{}, err
	}
	file := File{Slug: slug, Path: path, read: read.doc.Done(), derived: derived{trusted: read.trusted}}
	return filed[T]{file, read.value}, nil
}

// loadNamed is load for a slug that was typed: an unknown one is an *UnknownError.
func (f folder[T]) loadNamed(s *Shelf, slug string, own model.OwnSpoons) (filed[T], error) {
	if !isSlug(slug) {
		return filed[T]{}, &UnknownError{Kind: f.kind, Name: slug}
	}
	one, err := f.load(s, slug, own)
	if errors.Is(err, fs.ErrNotExist) {
		slugs, _ := f.slugs(s)
		return one, unknown(f.kind, slug, nil, slugs, nil)
	}
	return one, err
}

// find reads the file for a name: a slug, a name that only one has, or the
// beginning of a slug or name that only one has. Case does not count.
func (f folder[T]) find(s *Shelf, name string, own model.OwnSpoons) (filed[T], error) {
	name = strings.TrimSpace(name)
	slugs, err := f.slugs(s)
	if err != nil {
		return filed[T]{}, err
	}
	if slices.Contains(slugs, name) {
		return f.loadNamed(s, name, own)
	}
	all, errs := f.list(s, own)
	var known []string
	for _, one := range all {
		known = append(known, f.title(one.value))
	}
	begins := func(text string) bool {
		return name != "" && len(text) >= len(name) && strings.EqualFold(text[:len(name)], name)
	}
	var found []filed[T]
	for _, fits := range []func(filed[T]) bool{
		func(one filed[T]) bool { return f.goes(one.value, name) },
		func(one filed[T]) bool { return strings.EqualFold(one.Slug, name) },
		func(one filed[T]) bool { return begins(one.Slug) || begins(f.title(one.value)) },
	} {
		for _, one := range all {
			if fits(one) {
				found = append(found, one)
			}
		}
		if len(found) > 0 {
			break
		}
	}
	var choices []string
	for _, one := range found {
		choices = append(choices, one.Slug)
	}
	switch len(found) {
	case 1:
		return found[0], nil
	case 0:
		return filed[T]{}, unknown(f.kind, name, known, slugs, errs)
	default:
		slices.Sort(choices)
		return filed[T]{}, &AmbiguousError{f.kind, name, choices}
	}
}

// save writes v to the file it was read from, or to a new one, and returns the file
// as it now is.
func (f folder[T]) save(s *Shelf, file File, v T, own model.OwnSpoons) (File, error) {
	if file.Slug == "" {
		return f.saveAsNew(s, file, v, own)
	}
	file.Path = f.path(s, file.Slug)
	text, doc, err := f.text(&file, v, own)
	if err != nil {
		return file, err
	}
	err = s.rewrite(file.Path, text, file.read)
	if atomicfile.Written(err) {
		file.read = doc
	}
	return file, err
}

// saveAsNew writes v to a new file under the next free slug, so that the file on
// the shelf stays too.
func (f folder[T]) saveAsNew(s *Shelf, file File, v T, own model.OwnSpoons) (File, error) {
	slug := f.slug(v)
	fresh := File{Path: f.path(s, slug), read: file.read, derived: file.derived}
	text, doc, err := f.text(&fresh, v, own)
	if err != nil {
		return file, err
	}
	slug, err = s.writeNew(f.name, slug, text)
	if !atomicfile.Written(err) {
		return file, err
	}
	return File{Slug: slug, Path: f.path(s, slug), read: doc, derived: fresh.derived}, err
}

// text returns the new text of a file, and the document read before. Text that
// could not be read again is never written.
func (f folder[T]) text(file *File, v T, own model.OwnSpoons) ([]byte, *tomlfile.Document, error) {
	if problems := f.check(v, own); len(problems) > 0 {
		return nil, nil, fmt.Errorf("save: %w", tomlfile.Refuse(file.Path, unplaced(problems)))
	}
	text, err := f.write(v, own, file)
	if err != nil {
		return nil, nil, fmt.Errorf("save %s: %w", file.Path, err)
	}
	read, problems := f.read(text, own)
	if err := tomlfile.Refuse(file.Path, problems); err != nil {
		return nil, nil, fmt.Errorf("save: %w", err)
	}
	return text, read.doc.Done(), nil
}

// unplaced converts problems in data that is in no file yet: with a path, without a
// line.
func unplaced(problems []model.Problem) []tomlfile.Problem {
	out := make([]tomlfile.Problem, len(problems))
	for i, p := range problems {
		out[i] = tomlfile.Problem{What: p.PathWords() + ": " + p.What, Fix: p.Fix}
	}
	return out
}

// readFile reads a file of the shelf, or one from elsewhere that should be of its
// kinds. A missing one is an fs.ErrNotExist, another kind of file a *FileError.
func readFile(path string) ([]byte, error) {
	src, err := atomicfile.Read(path, tomlfile.MaxFileSize)
	refused := func(p tomlfile.Problem) error { return tomlfile.Refuse(path, []tomlfile.Problem{p}) }
	switch {
	case errors.Is(err, atomicfile.ErrFolder):
		return nil, refused(tomlfile.Problem{What: err.Error(), Fix: "give a file"})
	case errors.Is(err, atomicfile.ErrNotPlain):
		return nil, refused(tomlfile.Problem{What: err.Error(), Fix: "take it away, or put a plain file in its place"})
	case errors.Is(err, atomicfile.ErrNowhere):
		return nil, refused(tomlfile.Problem{What: err.Error(), Fix: "mend it, or take it away"})
	case errors.Is(err, atomicfile.ErrTooLarge):
		return nil, refused(tomlfile.TooLarge)
	case err != nil && !errors.Is(err, fs.ErrNotExist):
		return nil, fmt.Errorf("read %s: %w; check that it may be read", path, err)
	}
	return src, err
}
