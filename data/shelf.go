package data

import (
	"cmp"
	"errors"
	"path/filepath"
	"slices"
	"strings"
	"sync"
	"time"

	"daub.example/daub/data/atomicfile"
	"daub.example/daub/data/record"
	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
	"daub.example/daub/model/bench"
)

// Places on a shelf.
const (
	powdersFolder = "powders"
	recipesFolder = "recipes"
	spoonsFile    = "spoons.toml"
	extension     = ".toml"
)

// Shelf is a folder of profiles. It keeps nothing in memory: every call reads the
// files, and so sees what another program wrote.
type Shelf struct {
	dir   string
	wait  time.Duration // longest wait for another program's save
	warn  func(string)
	disk  atomicfile.Disk
	last  func() error // called before a new text takes its place, for tests; nil does nothing
	swept sync.Once
}

// Open opens the shelf in dir, which need not exist yet. warn gets the warnings of
// a save that went well; nil drops them. Nothing is read or made.
func Open(dir string, warn func(string)) *Shelf {
	if warn == nil {
		warn = func(string) {}
	}
	return &Shelf{dir: dir, wait: 5 * time.Second, warn: warn}
}

// Dir returns the shelf's folder.
func (s *Shelf) Dir() string { return s.dir }

// Entry is one powder and lot on the shelf.
type Entry = model.Entry

// powders is the folder of profiles.
var powders = folder[model.Profile]{
	name: powdersFolder, kind: PowderKind,
	title: func(p model.Profile) string { return p.Powder.Name },
	goes:  isCalled,
	slug:  func(p model.Profile) string { return Slug(p.Powder.Name, p.Powder.Lot) },
	read: func(src []byte, own model.OwnSpoons) (content[model.Profile], []tomlfile.Problem) {
		f, doc, problems := record.ReadProfile(src, own)
		return content[model.Profile]{f.Profile, doc, f.Trusted(src, own)}, problems
	},
	check: bench.Check,
	write: func(p model.Profile, own model.OwnSpoons, file *File) ([]byte, error) {
		return record.WriteProfile(p, file.derived.ratios(p, own, file.read), own, file.read)
	},
}

// isCalled reports whether a powder has this name, or name@lot. Case does not
// count.
func isCalled(p model.Profile, by string) bool {
	same := func(a, b string) bool { return strings.EqualFold(strings.TrimSpace(a), strings.TrimSpace(b)) }
	if same(p.Powder.Name, by) {
		return true
	}
	at := strings.LastIndex(by, "@")
	return at >= 0 && same(p.Powder.Name, by[:at]) && same(p.Powder.Lot, by[at+1:])
}

func entryOf(f filed[model.Profile]) Entry {
	return Entry{Slug: f.Slug, Path: f.Path, Profile: f.value, Read: f.kept()}
}

// Visit is one look at the shelf: the maker's own spoons are read once for all
// powders.
type Visit struct {
	OwnSpoons model.OwnSpoons
	Err       error // the error of the list of spoons
	shelf     *Shelf
}

// Visit reads the maker's own spoons.
func (s *Shelf) Visit() Visit {
	own, err := s.Spoons()
	return Visit{own, err, s}
}

// List is Visit and its List.
func (s *Shelf) List() ([]Entry, []error) { return s.Visit().List() }

// Load is Visit and its Load.
func (s *Shelf) Load(slug string) (Entry, error) { return s.Visit().Load(slug) }

// Find is Visit and its Find.
func (s *Shelf) Find(powder string) (Entry, error) { return s.Visit().Find(powder) }

// List reads the whole shelf. It returns the readable entries by name, then lot,
// and an error for each other file: a *FileError or a wrapped one of the system. A
// shelf that does not exist is empty.
func (v Visit) List() ([]Entry, []error) {
	found, errs := powders.list(v.shelf, v.OwnSpoons)
	entries, keys := make([]Entry, len(found)), make(map[string]string, len(found))
	for i, f := range found {
		entries[i] = entryOf(f)
		keys[f.Slug] = SortKey(entries[i])
	}
	if v.Err != nil {
		errs = append([]error{v.Err}, errs...)
	}
	slices.SortStableFunc(entries, func(a, b Entry) int { return cmp.Compare(keys[a.Slug], keys[b.Slug]) })
	return entries, errs
}

// SortKey is the key that a shelf is sorted by: name, then lot, then file.
func SortKey(e Entry) string {
	p := e.Profile.Powder
	return strings.ToLower(p.Name) + "\x00" + strings.ToLower(p.Lot) + "\x00" + e.Slug
}

// Lots reads all lots of a powder: the profiles whose files were named after it.
// Files that cannot be read are left out.
func (v Visit) Lots(name string) (lots []model.Profile) {
	slugs, _ := powders.slugs(v.shelf)
	for _, slug := range slugs {
		if !strings.HasPrefix(slug, Slug(name, "")) {
			continue
		}
		if e, err := v.Load(slug); err == nil {
			lots = append(lots, e.Profile)
		}
	}
	return lots
}

// Load reads one entry by its slug. An unknown slug is an *UnknownError, a refused
// file a *FileError.
func (v Visit) Load(slug string) (Entry, error) {
	found, err := powders.loadNamed(v.shelf, slug, v.OwnSpoons)
	return entryOf(found), v.blamed(err)
}

// Find reads the entry for a name. This is a slug, a name that only one entry has,
// name@lot, or the beginning of a slug or name that only one entry has. Case does
// not count. The error is an *UnknownError, an *AmbiguousError, or that of the
// file.
func (v Visit) Find(powder string) (Entry, error) {
	found, err := powders.find(v.shelf, powder, v.OwnSpoons)
	return entryOf(found), v.blamed(err)
}

// blamed adds the error of the maker's own spoons to that of a profile: it may be
// the cause.
func (v Visit) blamed(err error) error {
	var refused *tomlfile.Error
	if errors.As(err, &refused) {
		return errors.Join(err, v.Err)
	}
	return err
}

// Save writes an entry and returns it as it now is on the shelf. A new entry gets a
// slug of its name and lot, which it keeps for good. An old one is written only
// over the content it was read with. Otherwise, also if the file was moved or
// deleted, the error is ErrChanged.
//
// A profile that could not be read again is a *FileError and not written. A broken
// list of own spoons stops only profiles that need it: a trial at the bench goes
// on.
func (s *Shelf) Save(e Entry) (Entry, error) { return s.put(e, powders.save) }

// SaveAsNew writes an entry as a new file under the next free slug, so that
// it and what is on the shelf both survive.
func (s *Shelf) SaveAsNew(e Entry) (Entry, error) { return s.put(e, powders.saveAsNew) }

func (s *Shelf) put(e Entry, to func(*Shelf, File, model.Profile, model.OwnSpoons) (File, error)) (Entry, error) {
	v := s.Visit()
	file, err := to(s, fileOf(e.Slug, e.Path, e.Read), e.Profile, v.OwnSpoons)
	return entryOf(filed[model.Profile]{file, e.Profile}), v.blamed(err)
}

// isSlug reports whether text can be a slug and cannot lead to another folder.
func isSlug(text string) bool {
	return text != "" && text == filepath.Base(text) && !strings.HasPrefix(text, ".")
}
