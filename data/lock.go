package data

import (
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"os/user"
	"path/filepath"
	"strings"
	"syscall"
	"time"

	"daub.example/daub/data/atomicfile"
	"daub.example/daub/data/tomlfile"
	"github.com/gofrs/flock"
)

// The lock lies in the shelf, where everyone who shares the folder has it, and git
// is told to ignore it.
const (
	lockFile   = ".lock"
	ignoreFile = ".gitignore"
	ignored    = lockFile + "\n.*.tmp\n"
)

// ErrBusy is the error of a save that waited too long for another program.
var ErrBusy = errors.New("another daub is saving to this shelf")

// lock keeps other programs from saving to the shelf; it waits for them a while. On
// one machine it works for all users, and ends with the program that holds it.
// Between machines it only warns, since their file systems may not pass it on.
// There every save compares before it writes, which keeps their work apart.
func (s *Shelf) lock() (unlock func(), err error) {
	if err := s.disk.MakeFolder(s.dir); err != nil {
		return nil, fmt.Errorf("lock the shelf: make the folder %s: %w; check that it may be written", s.dir, err)
	}
	file := filepath.Join(s.dir, lockFile)
	fail := func(err error) error {
		return fmt.Errorf("lock the shelf: open %s: %w; check that it may be written", file, err)
	}
	ctx, cancel := context.WithTimeout(context.Background(), s.wait)
	defer cancel()
	for {
		if err := s.layLock(file); err != nil {
			return nil, fail(err)
		}
		l := flock.New(file, flock.SetFlag(lockFlag(file)))
		held, err := l.TryLockContext(ctx, 10*time.Millisecond)
		switch {
		case errors.Is(err, fs.ErrNotExist):
			continue // it was swept away meanwhile
		case errors.Is(err, context.DeadlineExceeded), err == nil && !held:
			return nil, fmt.Errorf("lock the shelf %s: %w, waited %v; try again", s.dir, ErrBusy, s.wait)
		case errors.Is(err, errors.ErrUnsupported), errors.Is(err, syscall.ENOLCK):
			return func() {}, nil // a file system without locks
		case err != nil:
			return nil, fail(err)
		}
		if isStill(l, file) {
			s.sign(file)
			s.swept.Do(s.sweep)
			return func() {
				_ = os.Truncate(file, 0) // nobody is saving
				_ = l.Unlock()           // closing the file unlocks in any case
			}, nil
		}
		_ = l.Unlock() // the locked file is no longer the shelf's
	}
}

// sweep removes what interrupted saves left on the shelf.
func (s *Shelf) sweep() {
	for _, folder := range []string{"", powdersFolder, recipesFolder, deletedFolder} {
		atomicfile.Sweep(filepath.Join(s.dir, folder), time.Now())
	}
}

// layLock makes the lock file if there is none. Whoever may write to the folder may
// open it, whoever made it.
func (s *Shelf) layLock(file string) error {
	info, err := os.Lstat(file)
	switch {
	case err == nil && !info.Mode().IsRegular():
		return atomicfile.ErrNotPlain
	case err == nil || !errors.Is(err, fs.ErrNotExist):
		return err
	}
	f, err := os.OpenFile(file, os.O_RDWR|os.O_CREATE|os.O_EXCL, 0o666)
	if errors.Is(err, fs.ErrExist) {
		return nil // another program was quicker
	}
	if err != nil {
		return err
	}
	_ = f.Chmod(0o666) // despite the umask
	if err := f.Close(); err != nil {
		return err
	}
	s.tellGit()
	return nil
}

// tellGit makes git ignore the lock and unfinished files. An ignore file that
// exists gets the missing lines at its end. If that fails, the save goes on.
func (s *Shelf) tellGit() {
	path := filepath.Join(s.dir, ignoreFile)
	text, err := atomicfile.Read(path, tomlfile.MaxFileSize)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		_ = s.disk.Create(path, []byte(ignored))
	case err != nil || strings.Contains("\n"+string(text)+"\n", "\n"+lockFile+"\n"):
	default:
		if len(text) > 0 && !strings.HasSuffix(string(text), "\n") {
			text = append(text, '\n')
		}
		_ = s.disk.Replace(path, append(text, ignored...), nil)
	}
}

// lockFlag opens the lock for writing. If the shelf's owner forbids that, it opens
// it for reading, which is enough to lock on most systems.
func lockFlag(file string) int {
	f, err := os.OpenFile(file, os.O_RDWR, 0)
	if err != nil {
		return os.O_RDONLY
	}
	_ = f.Close()
	return os.O_RDWR
}

// isStill reports whether the locked file still has its name.
func isStill(l *flock.Flock, file string) bool {
	held, err := l.Stat()
	if err != nil {
		return false
	}
	there, err := os.Lstat(file)
	return err == nil && os.SameFile(held, there)
}

// holder says who is saving.
type holder struct {
	owner, machine string
	since          time.Time
}

var holderFields = []tomlfile.Field[holder]{
	tomlfile.Text("owner", `owner = "anna"`, func(h *holder) *string { return &h.owner }),
	tomlfile.Text("machine", `machine = "bench"`, func(h *holder) *string { return &h.machine }),
	tomlfile.Moment("time", "time = 2026-05-03T10:12:00Z", func(h *holder) *time.Time { return &h.since }),
}

// sign writes into the lock who holds it. It warns if another machine did so and
// did not end.
func (s *Shelf) sign(file string) {
	me := holder{machine: "unknown", owner: "unknown", since: time.Now().UTC().Truncate(time.Second)}
	if name, err := os.Hostname(); err == nil {
		me.machine = name
	}
	if u, err := user.Current(); err == nil {
		me.owner = u.Username
	}
	if other, found := readHolder(file); found && other.machine != me.machine {
		s.warn(fmt.Sprintf("%s on %s began to save to the shelf %s at %s and has not said that it was done; "+
			"what it wrote is not written over, look at the shelf again", other.owner, other.machine, s.dir,
			other.since.Format(time.RFC3339)))
	}
	if text, err := tomlfile.Write(holderFields, &me, nil); err == nil {
		// Only a courtesy: who may not write here may still lock.
		if f, err := os.OpenFile(file, os.O_WRONLY|os.O_TRUNC, 0); err == nil {
			_, _ = f.Write(text)
			_ = f.Close()
		}
	}
}

// readHolder reads who holds a lock; found is false if it does not say.
func readHolder(file string) (h holder, found bool) {
	text, err := atomicfile.Read(file, 1<<12)
	if err != nil {
		return h, false
	}
	doc, problems := tomlfile.Parse(text)
	if problems != nil || len(tomlfile.Fill(doc, holderFields, &h, nil)) > 0 {
		return h, false
	}
	return h, h.machine != ""
}
