package atomicfile

import (
	"errors"
	"fmt"
	"io/fs"
	"maps"
	"path/filepath"
	"testing"
	"testing/fstest"
	"time"

	"github.com/stretchr/testify/require"
)

// memory is a disk that forgets. A file keeps its text only once the file was
// synced; a new, changed or deleted name stays so only once its folder was. POSIX
// promises no more of fsync and rename.
type memory struct {
	now     map[string]*inode // the names as programs see them
	kept    map[string]*inode // the names that a loss of power leaves
	pending []change          // changes of names not synced yet
	calls   int               // made so far
	fail    int               // the call that fails, 0 for none
	dead    bool              // so do all after it
}

type inode struct {
	text, synced string
	folder       bool
}

// change gives a name another file, or takes it away. Its parts are kept or lost together.
type change struct {
	folder string
	to     map[string]*inode // nil for a name that is gone
}

var errDisk = errors.New("input/output error")

func newMemory() *memory {
	root := map[string]*inode{"/": {folder: true}, "/s": {folder: true}}
	return &memory{now: root, kept: maps.Clone(root)}
}

// step counts a call and reports whether it has to fail.
func (m *memory) step() error {
	m.calls++
	if m.calls == m.fail || m.dead && m.fail > 0 && m.calls > m.fail {
		return errDisk
	}
	return nil
}

func (m *memory) rename(to map[string]*inode) {
	for name, file := range to {
		if file == nil {
			delete(m.now, name)
		} else {
			m.now[name] = file
		}
		m.pending = append(m.pending[:len(m.pending):len(m.pending)], change{filepath.Dir(name), to})
	}
	if len(to) > 1 { // one step in one folder
		m.pending = m.pending[:len(m.pending)-len(to)+1]
	}
}

func (m *memory) Stat(name string) (fs.FileInfo, error) {
	if err := m.step(); err != nil {
		return nil, err
	}
	file := m.now[name]
	if file == nil {
		return nil, fs.ErrNotExist
	}
	mode := fs.FileMode(0o644)
	if file.folder {
		mode = fs.ModeDir | 0o755
	}
	return fstest.MapFS{"x": {Mode: mode, ModTime: time.Time{}}}.Stat("x")
}
func (m *memory) Lstat(name string) (fs.FileInfo, error) { return m.Stat(name) }
func (m *memory) Readlink(string) (string, error)        { return "", fs.ErrInvalid }

func (m *memory) Create(name string, _ fs.FileMode) (File, error) {
	if err := m.step(); err != nil {
		return nil, err
	}
	if m.now[name] != nil {
		return nil, fs.ErrExist
	}
	file := &inode{}
	m.rename(map[string]*inode{name: file})
	return &memoryFile{m, file, name}, nil
}

func (m *memory) Link(from, to string) error {
	if err := m.step(); err != nil {
		return err
	}
	if m.now[to] != nil {
		return fs.ErrExist
	}
	m.rename(map[string]*inode{to: m.now[from]})
	return nil
}

func (m *memory) Rename(from, to string) error {
	if err := m.step(); err != nil {
		return err
	}
	m.rename(map[string]*inode{to: m.now[from], from: nil})
	return nil
}

func (m *memory) Remove(name string) error {
	if err := m.step(); err != nil {
		return err
	}
	m.rename(map[string]*inode{name: nil})
	return nil
}

func (m *memory) Mkdir(name string) error {
	if err := m.step(); err != nil {
		return err
	}
	if m.now[name] != nil {
		return fs.ErrExist
	}
	m.rename(map[string]*inode{name: {folder: true}})
	return nil
}

func (m *memory) Sync(name string) error {
	if err := m.step(); err != nil {
		return err
	}
	if file := m.now[name]; file != nil {
		file.synced = file.text
	}
	var left []change
	for _, c := range m.pending {
		if c.folder != name {
			left = append(left, c)
			continue
		}
		c.keep(m.kept)
	}
	m.pending = left
	return nil
}

func (c change) keep(names map[string]*inode) {
	for name, file := range c.to {
		if file == nil {
			delete(names, name)
		} else {
			names[name] = file
		}
	}
}

// afterPowerLoss returns every state in which the disk may be found. Of the
// unconfirmed changes of names any may be there and any lost, in any order that the
// names allow. Text that was not synced is cut short.
func (m *memory) afterPowerLoss() []map[string]string {
	var states []map[string]string
	for kept := range 1 << len(m.pending) {
		names := maps.Clone(m.kept)
		for i, c := range m.pending {
			if kept&(1<<i) != 0 {
				c.keep(names)
			}
		}
		texts := map[string]string{}
		for name, file := range names {
			if !file.folder && names[filepath.Dir(name)] != nil { // otherwise lost with its folder
				texts[name] = file.synced
			}
		}
		states = append(states, texts)
	}
	return states
}

type memoryFile struct {
	m    *memory
	file *inode
	name string
}

func (f *memoryFile) Name() string { return f.name }

func (f *memoryFile) Write(text []byte) (int, error) {
	if err := f.m.step(); err != nil {
		f.file.text += string(text[:len(text)/2]) // a full disk takes a part
		return len(text) / 2, err
	}
	f.file.text += string(text)
	return len(text), nil
}
func (f *memoryFile) Chmod(fs.FileMode) error { return f.m.step() }
func (f *memoryFile) Close() error            { return f.m.step() }

func (f *memoryFile) Sync() error {
	if err := f.m.step(); err != nil {
		return err
	}
	f.file.synced = f.file.text
	return nil
}

// TestEveryCallFailsAndThePowerGoes fails each call of a write in turn, and then
// cuts the power. Whatever the disk remembers, the file is whole, old or new, and a
// write reported as done is there. The failed write is done again, and the same
// must hold. So it must with a disk that takes no call from then on, as when it is
// pulled out.
func TestEveryCallFailsAndThePowerGoes(t *testing.T) {
	const file = "/s/powders/rye.toml"
	faults, found := 0, 0
	for name, write := range map[string]func(d Disk, text string) error{
		"replace": func(d Disk, text string) error { return d.Replace(file, []byte(text), nil) },
		"create": func(d Disk, text string) error {
			if err := d.MakeFolder(filepath.Dir(file)); err != nil {
				return err
			}
			err := d.Create(file, []byte(text))
			if errors.Is(err, fs.ErrExist) { // a try before was not confirmed
				return d.Confirm(file)
			}
			return err
		},
	} {
		isNew := name == "create"
		for _, dead := range []bool{false, true} {
			for fail, going := 0, true; going; fail++ {
				m := newMemory()
				if !isNew {
					m.now["/s/powders"] = &inode{folder: true}
					m.now[file] = &inode{text: "old", synced: "old"}
					m.kept = maps.Clone(m.now)
				}
				m.fail, m.dead = fail, dead
				check := func(written bool, when string) {
					for _, texts := range m.afterPowerLoss() {
						found++
						text, there := texts[file]
						at := fmt.Sprintf("%s, call %d, dead %v, %s: %v", name, fail, dead, when, texts)
						switch {
						case written || isNew && there:
							require.Equal(t, "new", text, at)
						case !isNew:
							require.Contains(t, []string{"old", "new"}, text, at)
						}
					}
				}
				err := write(Disk{m}, "new")
				if going = m.calls >= fail; going && fail > 0 {
					faults++
				}
				check(err == nil, "first")
				if err != nil {
					require.ErrorIs(t, err, errDisk)
					m.fail = 0
					require.NoError(t, write(Disk{m}, "new"), "%s, call %d", name, fail)
					check(true, "again")
				}
			}
		}
	}
	t.Logf("%d failed calls, %d disks after a loss of power", faults, found)
	require.Greater(t, faults, 20)
}
