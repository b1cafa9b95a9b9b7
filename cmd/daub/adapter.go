package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"daub.example/daub/cmd/daub/internal/outfile"
	"daub.example/daub/data"
	"daub.example/daub/data/export"
	"daub.example/daub/data/picture"
	"daub.example/daub/data/record"
	"daub.example/daub/model"
	"daub.example/daub/tui/ui"
)

// shelfAdapter gives the screens their shelf. It makes one write at a time and
// remembers the last. If the program is closed during a write, the screens never
// hear how it ended, but the next write has to build on it.
type shelfAdapter struct {
	shelf *data.Shelf
	mu    sync.Mutex
	from  data.Entry // what the last write was given
	last  data.Entry // what the last write returned; without Slug if it failed
	done  bool       // the program has been left: nothing is written after the last save

	seen   data.Memory // powders already read
	noting sync.Mutex
	notes  []string // messages of the shelf about saves, shown with the list
}

// newShelfAdapter opens the shelf in dir for the screens. Warnings of the shelf are
// shown with its list: printed now they would spoil the screen.
func newShelfAdapter(dir string) *shelfAdapter {
	adapter := &shelfAdapter{}
	adapter.shelf = data.Open(dir, func(text string) {
		adapter.noting.Lock()
		defer adapter.noting.Unlock()
		adapter.notes = append(adapter.notes, text)
	})
	return adapter
}

var errLeft = errors.New("save: the program has been left")

// list starts reading the shelf.
func (a *shelfAdapter) list() (ui.Listing, error) {
	visit := a.shelf.Visit()
	a.noting.Lock()
	notes := slices.Clone(a.notes)
	a.noting.Unlock()
	reading, err := visit.Begin(&a.seen)
	l := readPart(reading, visit.OwnSpoons)
	l.Notes = append(notes, redefined(visit.OwnSpoons)...)
	for _, err := range []error{visit.Err, err} {
		if err != nil {
			l.Broken = append([]string{oneLine(err)}, l.Broken...)
		}
	}
	return l, nil
}

// readPart makes a listing of one part, with what is left.
func readPart(reading *data.Reading, own model.OwnSpoons) ui.Listing {
	seen, errs := reading.Next()
	l := ui.Listing{Items: make([]ui.Listed, len(seen)), OwnSpoons: own, Left: reading.Left()}
	for i, one := range seen {
		l.Items[i] = ui.Listed{Entry: one.Entry, Ratio: one.Ratio, SortKey: data.SortKey(one.Entry)}
	}
	for _, err := range errs {
		l.Broken = append(l.Broken, oneLine(err))
	}
	if l.Left > 0 {
		l.More = func() (ui.Listing, error) { return readPart(reading, own), nil }
	}
	return l
}

// redefined says which standard spoons have another size in the maker's own list.
func redefined(own model.OwnSpoons) []string {
	names := own.Redefines()
	if len(names) == 0 {
		return nil
	}
	return []string{
		"spoons.toml gives " + strings.Join(names, ", ") + " another size; it counts only in trials with spoon set own",
	}
}

func (a *shelfAdapter) save(e data.Entry) (data.Entry, error) { return a.write(e, a.shelf.Save) }

func (a *shelfAdapter) saveAsNew(e data.Entry) (data.Entry, error) {
	return a.write(e, a.shelf.SaveAsNew)
}

// saveSpoons writes the maker's own spoons.
func (a *shelfAdapter) saveSpoons(was, now model.OwnSpoons) (path string, err error) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.done {
		return "", errLeft
	}
	return a.shelf.SpoonsPath(), a.shelf.SaveSpoons(was, now)
}

func (a *shelfAdapter) remove(e data.Entry) (restore func() (data.Entry, error), err error) {
	return removed(a, e, a.shelf.Delete)
}

func (a *shelfAdapter) removeRecipe(e data.RecipeEntry) (restore func() (data.RecipeEntry, error), err error) {
	return removed(a, e, a.shelf.DeleteRecipe)
}

// removed moves an entry to the deleted files. Bringing it back is a write like any
// other.
func removed[E any](
	adapter *shelfAdapter, e E, remove func(E) (func() (E, error), error),
) (restore func() (E, error), err error) {
	adapter.mu.Lock()
	defer adapter.mu.Unlock()
	if adapter.done {
		return nil, errLeft
	}
	back, err := remove(e)
	if err != nil {
		return nil, err
	}
	return func() (E, error) {
		adapter.mu.Lock()
		defer adapter.mu.Unlock()
		if adapter.done {
			return e, errLeft
		}
		return back()
	}, nil
}

func (a *shelfAdapter) write(e data.Entry, to func(data.Entry) (data.Entry, error)) (data.Entry, error) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.done {
		return e, errLeft
	}
	a.from, a.last = e, data.Entry{}
	stands, err := to(e)
	if err != nil {
		// The shelf may have changed all the same: a write that the disk did not
		// confirm may be there, and the next one builds on it.
		return stands, err
	}
	a.last = stands
	return stands, nil
}

// saveLast saves what the screens left unsaved. It waits for a write under way; no
// other write starts after it.
func (a *shelfAdapter) saveLast(e data.Entry) error {
	a.mu.Lock()
	defer a.mu.Unlock()
	a.done = true
	if a.last.Slug != "" && a.from.Slug == e.Slug && (e.Slug != "" || sameBeginning(a.from.Profile, e.Profile)) {
		e.Slug, e.Path, e.Read = a.last.Slug, a.last.Path, a.last.Read
	}
	_, err := a.shelf.Save(e)
	return err
}

// sameBeginning reports whether two states without a file belong to one profile:
// same powder, same first trial.
func sameBeginning(a, b model.Profile) bool {
	return a.Powder.Name == b.Powder.Name && a.Powder.Lot == b.Powder.Lot &&
		len(a.Trials) > 0 && len(b.Trials) > 0 && a.Trials[0].Started.Equal(b.Trials[0].Started)
}

// saveOnExit saves what is not on disk yet. If the shelf refuses it, the profile
// goes to a temporary file, which the error names.
func (a *app) saveOnExit(adapter *shelfAdapter, unsaved data.Entry) error {
	_, err := inTime(a.patience, func() (data.Entry, error) { return unsaved, adapter.saveLast(unsaved) })
	if err == nil {
		return nil
	}
	path, text, lost := a.rescue(adapter, unsaved)
	if lost != nil {
		return fmt.Errorf("%w\nnor could it be put elsewhere: %w; this is the powder's file:\n%s", err, lost, text)
	}
	return fmt.Errorf("%w\nthe powder was put into %s instead: keep it, then mend the shelf", err, path)
}

// lastPatience limits the last save: 7 s, longer than it waits for another
// program's save.
const lastPatience = 7 * time.Second

// errHung says that a disk neither fails nor answers.
var errHung = errors.New("the disk does not answer")

// inTime calls do and gives up after patience with errHung. What do was doing may
// still happen later.
func inTime[T any](patience time.Duration, do func() (T, error)) (T, error) {
	type outcome struct {
		value T
		err   error
	}
	done := make(chan outcome, 1)
	go func() {
		value, err := do()
		done <- outcome{value, err}
	}()
	select {
	case o := <-done:
		return o.value, o.err
	case <-time.After(patience):
		var none T
		return none, errHung
	}
}

// rescue writes the profile to a new temporary file. text is the profile, in case
// that file cannot be written either.
func (a *app) rescue(adapter *shelfAdapter, unsaved data.Entry) (path, text string, err error) {
	ownSpoons, _ := inTime(a.patience, adapter.shelf.Spoons)
	src, err := record.Encode(unsaved.Profile, ownSpoons, data.TextRead(unsaved)) // with its comments
	if err != nil {
		return "", "", err
	}
	path, err = inTime(a.patience, func() (string, error) {
		powder := unsaved.Profile.Powder
		f, err := os.CreateTemp(a.temp, "daub-"+data.Slug(powder.Name, powder.Lot)+"-*.toml")
		if err != nil {
			return "", err
		}
		if _, err = f.Write(src); err == nil {
			err = f.Sync()
		}
		if closed := f.Close(); err == nil {
			err = closed
		}
		return f.Name(), err
	})
	return path, string(src), err
}

// recipes reads the recipes of the shelf.
func (a *shelfAdapter) recipes() (ui.Cookbook, error) {
	entries, errs := a.shelf.Recipes()
	book := ui.Cookbook{Items: entries}
	for _, err := range errs {
		book.Broken = append(book.Broken, oneLine(err))
	}
	return book, nil
}

// saveRecipe writes a recipe; one without a slug is new.
func (a *shelfAdapter) saveRecipe(e data.RecipeEntry) (data.RecipeEntry, error) {
	a.mu.Lock()
	defer a.mu.Unlock()
	if a.done {
		return e, errLeft
	}
	if there, taken := recipeCalled(a.shelf, e.Recipe.Name, e.Slug); taken {
		return e, ui.NameTaken{Name: there.Recipe.Name}
	}
	stands, err := a.shelf.SaveRecipe(e)
	if err != nil {
		return e, err
	}
	return stands, nil
}

// export writes profiles in the format of the file's ending.
func (a *shelfAdapter) export(entries []data.Entry, level float64, f ui.File) (string, error) {
	ownSpoons, _ := a.shelf.Spoons() // problems with them are told with the list
	return a.writeOut(f, func(out *bytes.Buffer) error { return exportTo(out, f, entries, ownSpoons, level) })
}

func exportTo(out *bytes.Buffer, f ui.File, entries []data.Entry, own model.OwnSpoons, level float64) error {
	format := strings.ToLower(strings.TrimPrefix(filepath.Ext(f.Name), "."))
	if slices.Contains(picture.Formats(), format) {
		return picture.Draw(out, format, profiles(entries), own, picture.Options{Level: level})
	}
	return export.Write(out, format, exported(entries), own, export.Options{Level: level, Mark: true})
}

// card writes a recipe's card in the format of the file's ending.
func (a *shelfAdapter) card(r model.Recipe, profiles []model.Profile, f ui.File) (string, error) {
	ownSpoons, _ := a.shelf.Spoons() // problems with them are told with the list
	return a.writeOut(f, func(out *bytes.Buffer) error {
		format := strings.ToLower(strings.TrimPrefix(filepath.Ext(f.Name), "."))
		text, err := cardText(recipeAnswer{recipe: r, profiles: profiles, ownSpoons: ownSpoons}, format, "")
		out.Write(text)
		return err
	})
}

// writeOut writes the output of make to a file and returns its path. If the file
// exists the error is an fs.ErrExist, unless it may be written over.
func (a *shelfAdapter) writeOut(f ui.File, make func(*bytes.Buffer) error) (path string, err error) {
	name := f.Name
	if rest, found := strings.CutPrefix(name, "~/"); found { // no shell has expanded it
		if home, err := os.UserHomeDir(); err == nil {
			name = filepath.Join(home, rest)
		}
	}
	if path, err = filepath.Abs(name); err != nil {
		return "", err
	}
	if _, err := os.Lstat(path); err == nil && !f.Over {
		return "", fmt.Errorf("write %s: %w", path, fs.ErrExist)
	}
	var out bytes.Buffer
	if err := make(&out); err != nil {
		return "", err
	}
	to := outfile.Flags{File: path, Force: f.Over, Owns: a.shelf.Owns}
	return path, to.Write(out.Bytes())
}

// oneLine returns an error's first line, and how many more there are.
func oneLine(err error) string {
	first, more, found := strings.Cut(err.Error(), "\n")
	if found {
		first += fmt.Sprintf(" (and %d more)", strings.Count(more, "\n")+1)
	}
	return first
}
