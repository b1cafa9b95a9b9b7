package drive

import (
	"cmp"
	"encoding/json"
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"sync"
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/paper"
	"daub.example/daub/model/repeats"
	"daub.example/daub/tui/ui"
	"github.com/stretchr/testify/require"
)

// Shelf is a shelf in memory with a clock that moves only when told.
type Shelf struct {
	Clock     time.Time
	Entries   []model.Entry
	Recipes   []model.RecipeEntry
	OwnSpoons model.OwnSpoons // the maker's own spoons
	Fail      error           // the error of every write, nil for none

	Saves    int               // number of writes
	Bells    int               // how often the bell rang
	Kept     []model.Trial     // trials kept before they were taken out
	Exported [][]model.Entry   // profiles given to Export, in order
	Files    map[string]string // files written
	Clip     string            // the text copied last

	mu sync.Mutex // the real program writes and reads at the same time
}

// Hold keeps the shelf unchanged while do looks at it.
func (f *Shelf) Hold(do func()) {
	f.mu.Lock()
	defer f.mu.Unlock()
	do()
}

// NewShelf makes a shelf of profiles, named p0, p1 and so on.
func NewShelf(profiles ...model.Profile) *Shelf {
	f := &Shelf{Clock: time.Date(2026, 6, 1, 9, 0, 0, 0, time.UTC), Files: map[string]string{}}
	for i, p := range profiles {
		slug := fmt.Sprintf("p%d", i)
		f.Entries = append(f.Entries, model.Entry{Slug: slug, Path: "powders/" + slug + ".toml", Profile: p})
	}
	return f
}

// ratios remembers the ratio at the target level of every powder listed: test
// shelves hold the same few powders.
var ratios sync.Map

func ratio(p model.Profile, own model.OwnSpoons) repeats.Ratio {
	known, err := json.Marshal([]any{p, own})
	if err != nil {
		return repeats.AtAim(p, own)
	}
	if r, ok := ratios.Load(string(known)); ok {
		return r.(repeats.Ratio)
	}
	r := repeats.AtAim(p, own)
	ratios.Store(string(known), r)
	return r
}

// Deps returns the shelf as the program sees it.
func (f *Shelf) Deps() ui.Deps {
	return ui.Deps{
		Now: func() time.Time { return f.Clock },
		List: func() (ui.Listing, error) {
			f.mu.Lock()
			defer f.mu.Unlock()
			l := ui.Listing{OwnSpoons: f.OwnSpoons}
			for _, e := range f.Entries {
				l.Items = append(l.Items, ui.Listed{Entry: e, Ratio: ratio(e.Profile, f.OwnSpoons)})
			}
			return l, nil
		},
		Save: f.save,
		SaveSpoons: func(_, now model.OwnSpoons) (string, error) {
			f.OwnSpoons = now
			return "spoons.toml", nil
		},
		SaveAsNew: func(i model.Entry) (model.Entry, error) {
			i.Slug = ""
			return f.save(i)
		},
		Delete: f.remove,
		KeepTrial: func(e model.Entry, trial int) (string, error) {
			f.Kept = append(f.Kept, e.Profile.Trials[trial])
			return "deleted/" + e.Slug + ".toml", f.Fail
		},
		AddSamples: func() error {
			sample := model.Profile{Powder: model.Powder{Name: "Sample"}}
			f.Entries = append(f.Entries, model.Entry{Slug: "sample", Profile: sample})
			return nil
		},
		Recipes: func() (ui.Cookbook, error) {
			return ui.Cookbook{Items: append([]model.RecipeEntry(nil), f.Recipes...)}, f.Fail
		},
		SaveRecipe: f.saveRecipe,
		Export: func(items []model.Entry, level float64, file ui.File) (string, error) {
			f.Exported = append(f.Exported, items)
			return f.write(fmt.Sprintf("%d at %g", len(items), level), file)
		},
		DeleteRecipe: f.removeRecipe,
		WriteCard: func(r model.Recipe, profiles []model.Profile, file ui.File) (string, error) {
			return f.write(paper.CardOf(r, profiles, f.OwnSpoons, paper.Options{}).Markdown(), file)
		},
		Copy: func(text string) error {
			f.Clip = text
			return f.Fail
		},
		Bell:     func() { f.Bells++ },
		ShelfDir: "/shelf",
	}
}

func (f *Shelf) save(i model.Entry) (model.Entry, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.Saves++
	if f.Fail != nil {
		return i, f.Fail
	}
	if problems := bench.Check(i.Profile, f.OwnSpoons); len(problems) > 0 {
		return i, problems[0] // as on the real shelf: what could not be read again is not written
	}
	if i.Slug == "" {
		i.Slug = fmt.Sprintf("p%d", len(f.Entries))
		i.Path = "powders/" + i.Slug + ".toml"
		f.Entries = append(f.Entries, i)
		return i, nil
	}
	for n := range f.Entries {
		if f.Entries[n].Slug == i.Slug {
			f.Entries[n] = i
			return i, nil
		}
	}
	return i, errors.New("no such profile")
}

func (f *Shelf) remove(i model.Entry) (restore func() (model.Entry, error), err error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	at := slices.IndexFunc(f.Entries, func(e model.Entry) bool { return e.Slug == i.Slug })
	if f.Fail != nil || at < 0 {
		return nil, cmp.Or(f.Fail, errors.New("no such profile"))
	}
	gone := f.Entries[at]
	f.Entries = slices.Delete(f.Entries, at, at+1)
	return func() (model.Entry, error) {
		f.Entries = append(f.Entries, gone)
		return gone, f.Fail
	}, nil
}

func (f *Shelf) removeRecipe(i model.RecipeEntry) (restore func() (model.RecipeEntry, error), err error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	at := slices.IndexFunc(f.Recipes, func(e model.RecipeEntry) bool { return e.Slug == i.Slug })
	if f.Fail != nil || at < 0 {
		return nil, cmp.Or(f.Fail, errors.New("no such recipe"))
	}
	gone := f.Recipes[at]
	f.Recipes = slices.Delete(f.Recipes, at, at+1)
	return func() (model.RecipeEntry, error) {
		f.Recipes = append(f.Recipes, gone)
		return gone, f.Fail
	}, nil
}

func (f *Shelf) saveRecipe(i model.RecipeEntry) (model.RecipeEntry, error) {
	f.mu.Lock()
	defer f.mu.Unlock()
	f.Saves++
	if f.Fail != nil {
		return i, f.Fail
	}
	for _, e := range f.Recipes {
		if e.Slug != i.Slug && repeats.SameName(e.Recipe.Name, i.Recipe.Name) {
			return i, ui.NameTaken{Name: e.Recipe.Name}
		}
	}
	for n := range f.Recipes {
		if f.Recipes[n].Slug == i.Slug {
			f.Recipes[n] = i
			return i, nil
		}
	}
	i.Slug = fmt.Sprintf("r%d", len(f.Recipes))
	i.Path = "recipes/" + i.Slug + ".toml"
	f.Recipes = append(f.Recipes, i)
	return i, nil
}

func (f *Shelf) write(text string, file ui.File) (string, error) {
	if f.Fail != nil {
		return "", f.Fail
	}
	if _, there := f.Files[file.Name]; there && !file.Over {
		return "", fmt.Errorf("write %s: %w", file.Name, fs.ErrExist)
	}
	f.Files[file.Name] = text
	return "/written/" + file.Name, nil
}

// Profile returns the powder's profile as it is on the shelf now.
func (f *Shelf) Profile(name string) model.Profile {
	for _, i := range f.Entries {
		if i.Profile.Powder.Name == name {
			return i.Profile
		}
	}
	return model.Profile{}
}

// Steps returns the steps of a powder's only trial as they are on the shelf now.
func (f *Shelf) Steps(t testing.TB, name string) []model.Step {
	p := f.Profile(name)
	require.Len(t, p.Trials, 1)
	return p.Trials[0].Steps
}
