package tui

import (
	"time"

	"daub.example/daub/model"
	tea "github.com/charmbracelet/bubbletea"
)

// Session is the profile being worked on and how far it is saved. The editor
// owns the profile and is changed in Update only. At most one write is in
// flight, and the newest state always wins.
type Session struct {
	*model.Editor
	item Item // what it is on the shelf; the profile in it is not kept up

	attempted int // newest revision handed to a write
	durable   int // newest revision known to be on disk
	inFlight  bool
	savedAt   time.Time
	err       error // why the last write failed
}

// newSession takes up a profile at one of its trials, or at model.NoTrial.
func newSession(item Item, trial int, d model.Drawer) *Session {
	return &Session{Editor: model.NewEditor(item.Profile, trial, d), item: item}
}

// Item is the profile as it stands, with what it is on the shelf.
func (s *Session) Item() Item {
	item := s.item
	item.Profile = s.Profile()
	return item
}

// owed reports whether a change is not known to be on disk.
func (s *Session) owed() bool { return s.Revision() != s.durable }

// save starts a write when one is owed, none is in flight, and this state has
// not just failed; otherwise it is nil.
func (s *Session) save(w World) tea.Cmd {
	return s.write(w, w.Save)
}

func (s *Session) write(w World, save func(Item) (Item, error)) tea.Cmd {
	if s.inFlight || !s.owed() || (s.err != nil && s.attempted == s.Revision()) {
		return nil
	}
	item, revision := s.Item(), s.Revision()
	s.inFlight, s.attempted = true, revision
	return func() tea.Msg {
		stands, err := save(item)
		return saved{revision: revision, item: stands, at: w.Now(), err: err}
	}
}

// retry writes again after a failure, with Save or with SaveBeside.
func (s *Session) retry(w World, save func(Item) (Item, error)) tea.Cmd {
	s.err = nil
	return s.write(w, save)
}

// onSaved takes in the end of a write.
func (s *Session) onSaved(m saved) {
	s.inFlight = false
	s.err = m.err
	s.item.ID, s.item.Path, s.item.Token = m.item.ID, m.item.Path, m.item.Token
	if m.err == nil {
		s.durable, s.savedAt = m.revision, m.at
	}
}

// status says whether what is on screen is saved.
func (s *Session) status() string {
	switch {
	case s == nil:
		return ""
	case s.err != nil:
		return "NOT SAVED"
	case s.owed():
		return "saving…"
	case s.savedAt.IsZero():
		return "saved"
	default:
		return "saved " + s.savedAt.Format("15:04:05")
	}
}
