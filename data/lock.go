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

// The lock lies in the shelf, where everyone who shares the folder has it, and
// is told to git.
const (
	lockFile   = ".lock"
	ignoreFile = ".gitignore"
	ignored    = lockFile + "\n.*.tmp\n"
)

// ErrBusy is the error of a save that waited too long for another program.
var ErrBusy = errors.New("another daub is saving to this shelf")

// lock keeps other programs from saving to the shelf; it waits for them a
// while. On one machine it holds for all users, and a program that dies lets
// go. Between machines it only warns: their file systems may not pass it on, so
// what keeps their work apart is that every save compares before it writes.
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
			continue // swept away since it was laid
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
				_ = l.Unlock()           // closing the file lets go in any case
			}, nil
		}
		_ = l.Unlock() // of a file that is no longer the shelf's
	}
}

// sweep takes away what saves that were cut off left on the shelf.
func (s *Shelf) sweep() {
	for _, folder := range []string{"", powdersFolder, recipesFolder, deletedFolder} {
		atomicfile.Sweep(filepath.Join(s.dir, folder), time.Now())
	}
}

// layLock makes the lock file where there is none, so that whoever may write to
// the folder may open it, whoever made it.
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
	_ = f.Chmod(0o666) // past the umask
	if err := f.Close(); err != nil {
		return err
	}
	s.tellGit()
	return nil
}

// tellGit keeps the lock and unfinished files out of git. A shelf that already
// tells git something gets what is missing at the end. That it could not be
// told is no reason not to save.
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

// lockFlag opens the lock to write, or, where the shelf's owner does not let
// us, to read, which is enough to lock on most systems.
func lockFlag(file string) int {
	f, err := os.OpenFile(file, os.O_RDWR, 0)
	if err != nil {
		return os.O_RDONLY
	}
	_ = f.Close()
	return os.O_RDWR
}

// isStill reports whether what was locked is still the file of that name.
func isStill(l *flock.Flock, file string) bool {
	held, err := l.Stat()
	if err != nil {
		return false
	}
	there, err := os.Lstat(file)
	return err == nil && os.SameFile(held, there)
}

// holder is who is saving.
type holder struct {
	owner, machine string
	since          time.Time
}

var holderFields = []tomlfile.Field[holder]{
	tomlfile.Text("owner", `owner = "anna"`, func(h *holder) *string { return &h.owner }),
	tomlfile.Text("machine", `machine = "bench"`, func(h *holder) *string { return &h.machine }),
	tomlfile.Moment("time", "time = 2026-05-03T10:12:00Z", func(h *holder) *time.Time { return &h.since }),
}

// sign writes into the lock who has it, and warns of another machine that wrote
// so and did not say that it was done.
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
		// a courtesy: who may not write here may still lock
		if f, err := os.OpenFile(file, os.O_WRONLY|os.O_TRUNC, 0); err == nil {
			_, _ = f.Write(text)
			_ = f.Close()
		}
	}
}

// readHolder is who a lock says has it; found is false where it says nothing.
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
