package data

import (
	"cmp"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
	"runtime"
	"slices"
	"strings"
	"sync"
	"time"

	"daub.example/daub/model"
)

// Places on a shelf.
const (
	powdersFolder = "powders"
	recipesFolder = "recipes"
	spoonsFile    = "spoons.toml"
	extension     = ".toml"
)

// Shelf is a folder of profiles. It holds nothing in memory: every call looks
// at the files, so that what another program wrote is seen.
type Shelf struct {
	dir     string
	lockDir string
	wait    time.Duration // longest wait for another program's save
	replace func(from, to string) error
}

// Open gives the shelf in dir, which need not exist yet. Lock files are kept
// in lockDir, so that the shelf stays clean. Nothing is read or made.
func Open(dir, lockDir string) *Shelf {
	return &Shelf{dir: dir, lockDir: lockDir, wait: 5 * time.Second, replace: replace}
}

// Dir is the shelf's folder.
func (s *Shelf) Dir() string { return s.dir }

// Entry is one powder and lot on the shelf. The zero Slug is an entry that was
// never saved.
type Entry struct {
	Slug    string // the file's name without .toml
	Path    string
	Profile model.Profile
	// Recreated is set by Save when the file was gone from the shelf and was
	// written anew.
	Recreated bool
	read      []byte // the file's content as read or last saved
}

// List reads the whole shelf: every readable entry, by name, then lot, and an
// error (a *FileError or a wrapped one of the system) for each file that is
// not. A shelf that does not exist is empty.
func (s *Shelf) List() ([]Entry, []error) {
	drawer, err := s.Spoons()
	var errs []error
	if err != nil {
		errs = append(errs, err)
	}
	slugs, err := s.slugs(powdersFolder)
	if err != nil {
		return nil, append(errs, err)
	}
	type result struct {
		entry Entry
		err   error
	}
	results := make([]result, len(slugs))
	spread(len(slugs), func(i int) {
		e, err := s.load(slugs[i], drawer)
		results[i] = result{e, err}
	})
	entries := make([]Entry, 0, len(slugs))
	for _, r := range results {
		switch {
		case r.err == nil:
			entries = append(entries, r.entry)
		case !errors.Is(r.err, fs.ErrNotExist): // taken away since the folder was read
			errs = append(errs, r.err)
		}
	}
	slices.SortStableFunc(entries, byName)
	return entries, errs
}

// spread does work for 0 to n-1 on all processors.
func spread(n int, work func(i int)) {
	var wg sync.WaitGroup
	workers := min(runtime.GOMAXPROCS(0), n)
	for k := range workers {
		wg.Go(func() {
			for i := k; i < n; i += workers {
				work(i)
			}
		})
	}
	wg.Wait()
}

// byName orders entries by name, lot and slug, whatever the case.
func byName(a, b Entry) int {
	return cmp.Or(
		cmp.Compare(strings.ToLower(a.Profile.Powder.Name), strings.ToLower(b.Profile.Powder.Name)),
		cmp.Compare(strings.ToLower(a.Profile.Powder.Lot), strings.ToLower(b.Profile.Powder.Lot)),
		cmp.Compare(a.Slug, b.Slug),
	)
}

// slugs lists the profiles or recipes by file name. Anything hidden or of
// another kind is passed over, leftovers of a save that was cut off among them.
func (s *Shelf) slugs(folder string) ([]string, error) {
	folder = filepath.Join(s.dir, folder)
	files, err := os.ReadDir(folder)
	if errors.Is(err, fs.ErrNotExist) {
		return nil, nil
	}
	if err != nil {
		return nil, fmt.Errorf("list the shelf %s: %w; check that the folder may be read", folder, err)
	}
	var slugs []string
	for _, f := range files {
		slug, ok := strings.CutSuffix(f.Name(), extension)
		if ok && slug != "" && !strings.HasPrefix(slug, ".") && !f.IsDir() {
			slugs = append(slugs, slug)
		}
	}
	return slugs, nil
}

func (s *Shelf) path(slug string) string { return s.file(powdersFolder, slug) }

func (s *Shelf) file(folder, slug string) string {
	return filepath.Join(s.dir, folder, slug+extension)
}

// isSlug reports whether a text may be a slug, and leads nowhere else.
func isSlug(text string) bool {
	return text != "" && text == filepath.Base(text) && !strings.HasPrefix(text, ".")
}

// Load reads one entry by its slug. An unknown slug gives an *UnknownError, a
// file that is refused a *FileError.
func (s *Shelf) Load(slug string) (Entry, error) {
	if !isSlug(slug) {
		return Entry{}, &UnknownError{Kind: PowderKind, Name: slug}
	}
	drawer, spoonsErr := s.Spoons()
	e, err := s.load(slug, drawer)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		slugs, _ := s.slugs(powdersFolder)
		return Entry{}, unknown(PowderKind, slug, slugs, nil)
	case err != nil && spoonsErr != nil:
		return Entry{}, errors.Join(err, spoonsErr) // own spoons may be all that is wrong
	}
	return e, err
}

func (s *Shelf) load(slug string, d model.Drawer) (Entry, error) {
	path := s.path(slug)
	src, err := readFile(path)
	if err != nil {
		return Entry{}, err
	}
	p, err := Decode(path, src, d)
	if err != nil {
		return Entry{}, err
	}
	return Entry{Slug: slug, Path: path, Profile: p, read: src}, nil
}
