package ui

import (
	"slices"
	"strings"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/care"
	tea "github.com/charmbracelet/bubbletea"
)

// Session is the profile being worked on, and how far it is saved. The editor owns
// the profile and changes it in Update only. At most one write is in flight; the
// newest state always wins.
type Session struct {
	*bench.Editor
	entry model.Entry // where it is on the shelf; the profile in it may be out of date

	attempted int // newest revision handed to a write
	durable   int // newest revision known to be on disk
	inFlight  bool
	savedAt   time.Time
	warned    []care.Moment // cautions already given
	logOf     map[int]bool  // trials whose chart got a logarithmic axis
	Err       error         // why the last write failed
}

// NewSession opens a profile at one of its trials, or at model.NoTrial.
func NewSession(entry model.Entry, trial int, own model.OwnSpoons) *Session {
	return &Session{Editor: bench.NewEditor(entry.Profile, trial, own), entry: entry}
}

// Entry returns the profile as it is now, with its place on the shelf.
func (s *Session) Entry() model.Entry {
	entry := s.entry
	entry.Profile = s.Profile()
	return entry
}

// Profiles returns all powders of the shelf, and the one worked on as it is now.
func (s *Session) Profiles(deps Deps) []model.Profile {
	all := Profiles(deps.Powders())
	for i, e := range deps.Powders() {
		if e.Slug != "" && e.Slug == s.entry.Slug {
			all[i] = s.Profile()
			return all
		}
	}
	return append(all, s.Profile())
}

// Writing reports whether a write is in flight.
func (s *Session) Writing() bool { return s.inFlight }

// CautionsOnce returns the cautions for these moments in one line, each only once in a
// session; "" if there is none.
func (s *Session) CautionsOnce(moments ...care.Moment) string {
	var texts []string
	for _, m := range moments {
		if text := care.Line(m, s.Powder()); text != "" && !slices.Contains(s.warned, m) {
			texts, s.warned = append(texts, text), append(s.warned, m)
		}
	}
	return strings.Join(texts, " ")
}

// LogAxis reports whether the trial's chart has a logarithmic axis. Once it needed
// one it keeps it, so that the axis does not change from look to look.
func (s *Session) LogAxis(needed bool) bool {
	if needed {
		if s.logOf == nil {
			s.logOf = map[int]bool{}
		}
		s.logOf[s.Index()] = true
	}
	return s.logOf[s.Index()]
}

// Dirty reports whether a change is not known to be on disk.
func (s *Session) Dirty() bool { return s.Revision() != s.durable }

// Save starts a write. It returns nil if nothing has changed, a write is in flight,
// or this state has just failed.
func (s *Session) Save(deps Deps) tea.Cmd {
	return s.write(deps, deps.Save)
}

func (s *Session) write(deps Deps, save func(model.Entry) (model.Entry, error)) tea.Cmd {
	if s.inFlight || !s.Dirty() || (s.Err != nil && s.attempted == s.Revision()) {
		return nil
	}
	entry, revision := s.Entry(), s.Revision()
	s.inFlight, s.attempted = true, revision
	return func() tea.Msg {
		stands, err := save(entry)
		return Saved{revision: revision, entry: stands, at: deps.Now(), Err: err}
	}
}

// Retry writes again after a failure, with Save or SaveAsNew.
func (s *Session) Retry(deps Deps, save func(model.Entry) (model.Entry, error)) tea.Cmd {
	s.Err = nil
	return s.write(deps, save)
}

// Receive takes the end of a write into account.
func (s *Session) Receive(m Saved) {
	s.inFlight = false
	s.Err = m.Err
	s.entry.Slug, s.entry.Path, s.entry.Read = m.entry.Slug, m.entry.Path, m.entry.Read
	if m.Err == nil {
		s.durable, s.savedAt = m.revision, m.at
	}
}

// Status says whether everything on screen is saved.
func (s *Session) Status() string {
	switch {
	case s == nil:
		return ""
	case s.Err != nil:
		return "NOT SAVED"
	case s.Dirty():
		return "saving…"
	case s.savedAt.IsZero():
		return "saved"
	default:
		return "saved " + s.savedAt.Format("15:04:05")
	}
}
