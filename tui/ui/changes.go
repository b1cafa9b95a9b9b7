package ui

// Changes counts the changes a screen makes in a session. Its undo stops at the
// first of them and leaves everything made before the screen opened.
type Changes struct {
	session *Session
	made    int // changes made here that undo can take back
	counted int // the revision counted last
}

// NewChanges starts the count at the session's present revision.
func NewChanges(s *Session) Changes { return Changes{session: s, counted: s.Revision()} }

// Made counts a change, if one was made, and returns err.
func (c *Changes) Made(err error) error {
	if c.counted != c.session.Revision() {
		c.made++
		c.counted = c.session.Revision()
	}
	return err
}

// Undo takes back the last change made here and says which it was.
func (c *Changes) Undo(p *Prompt) {
	if c.made == 0 {
		p.Refuse("nothing to be undone here")
		return
	}
	if change, ok := c.session.Undo(); ok {
		c.made, c.counted = c.made-1, c.session.Revision()
		p.Say("undone: " + change.What)
	}
}

// Redo makes the last undone change again and says which it was.
func (c *Changes) Redo(p *Prompt) {
	change, ok := c.session.Redo()
	if !ok {
		p.Refuse("nothing to be redone")
		return
	}
	c.made, c.counted = c.made+1, c.session.Revision()
	p.Say("redone: " + change.What)
}
