package main

import (
	"errors"
	"fmt"
	"os"
	"slices"
	"sync"

	"daub.example/daub/data"
	"daub.example/daub/model"
	"daub.example/daub/tui"
)

// keeper is the shelf as the screens see it. It makes one write at a time and
// remembers the last one: when the program is closed while a write is under
// way, the screens never hear how it ended, but the next write has to build on
// it.
type keeper struct {
	shelf *data.Shelf
	mu    sync.Mutex
	from  tui.Item // what the last write was given
	last  tui.Item // what came of it; without ID when it failed
	done  bool     // the program has been left: no write may come after the last

	noting sync.Mutex
	notes  []string // what the shelf had to say of saves, to be shown with it
}

// newKeeper is the shelf in dir for the screens. What the shelf warns of is
// shown with it: a message written now would stand across the screen.
func newKeeper(dir string) *keeper {
	k := &keeper{}
	k.shelf = data.Open(dir, func(text string) {
		k.noting.Lock()
		defer k.noting.Unlock()
		k.notes = append(k.notes, text)
	})
	return k
}

var errLeft = errors.New("save: the program has been left")

// list reads the shelf.
func (k *keeper) list() (tui.Listing, error) {
	visit := k.shelf.Visit()
	entries, errs := visit.List()
	k.noting.Lock()
	notes := slices.Clone(k.notes)
	k.noting.Unlock()
	l := tui.Listing{Drawer: visit.Drawer, Notes: append(notes, redefined(visit.Drawer)...)}
	for _, e := range entries {
		l.Items = append(l.Items, item(e))
	}
	for _, err := range errs {
		l.Broken = append(l.Broken, oneLine(err))
	}
	return l, nil
}

// redefined tells which standard spoons the maker's own list gives another
// size.
func redefined(d model.Drawer) []string {
	var notes []string
	for _, name := range d.Redefines() {
		notes = append(notes, fmt.Sprintf("spoons.toml gives %s another size; it counts only in trials with spoon set own", name))
	}
	return notes
}

// item is an entry as the screens hold it.
func item(e data.Entry) tui.Item {
	return tui.Item{ID: e.Slug, Path: e.Path, Profile: e.Profile, Token: e}
}

// entry is an item as the shelf knows it.
func entry(i tui.Item) data.Entry {
	e, _ := i.Token.(data.Entry)
	e.Profile = i.Profile
	return e
}

func (k *keeper) save(i tui.Item) (tui.Item, error) { return k.write(i, k.shelf.Save) }

func (k *keeper) saveBeside(i tui.Item) (tui.Item, error) { return k.write(i, k.shelf.SaveBeside) }

func (k *keeper) write(i tui.Item, to func(data.Entry) (data.Entry, error)) (tui.Item, error) {
	k.mu.Lock()
	defer k.mu.Unlock()
	if k.done {
		return i, errLeft
	}
	k.from, k.last = i, tui.Item{}
	e, err := to(entry(i))
	if err != nil {
		// What stands on the shelf may have changed all the same: a write that
		// the disk did not confirm is there, and the next one builds on it.
		return item(e), err
	}
	k.last = item(e)
	return k.last, nil
}

// saveLast saves what the screens left behind. A write that is under way is
// waited for; one that has not begun never will.
func (k *keeper) saveLast(i tui.Item) error {
	k.mu.Lock()
	defer k.mu.Unlock()
	k.done = true
	if k.last.ID != "" && k.from.ID == i.ID && (i.ID != "" || sameBeginning(k.from.Profile, i.Profile)) {
		i.Token = k.last.Token
	}
	_, err := k.shelf.Save(entry(i))
	return err
}

// sameBeginning reports whether two states without a file are of one profile:
// same powder, same first trial.
func sameBeginning(a, b model.Profile) bool {
	return a.Powder.Name == b.Powder.Name && a.Powder.Lot == b.Powder.Lot &&
		len(a.Trials) > 0 && len(b.Trials) > 0 && a.Trials[0].Started.Equal(b.Trials[0].Started)
}

// settle saves what the screens still owe; where the shelf cannot take it, the
// profile goes to a file among the temporary ones, and the error names it.
func (a *app) settle(k *keeper, owed tui.Item) error {
	err := k.saveLast(owed)
	if err == nil {
		return nil
	}
	path, text, lost := a.rescue(k, owed)
	if lost != nil {
		return fmt.Errorf("%w\nnor could it be put elsewhere: %w; this is the profile:\n%s", err, lost, text)
	}
	return fmt.Errorf("%w\nthe profile was put into %s instead: keep it, then mend the shelf", err, path)
}

// rescue writes the profile to a new temporary file.
func (a *app) rescue(k *keeper, owed tui.Item) (path, text string, err error) {
	drawer, _ := k.shelf.Spoons()
	src, err := data.Encode(owed.Profile, drawer, nil)
	if err != nil {
		return "", "", err
	}
	f, err := os.CreateTemp(a.temp, "daub-"+data.Slug(owed.Profile.Powder.Name, owed.Profile.Powder.Lot)+"-*.toml")
	if err != nil {
		return "", string(src), err
	}
	_, err = f.Write(src)
	if closed := f.Close(); err == nil {
		err = closed
	}
	return f.Name(), string(src), err
}
