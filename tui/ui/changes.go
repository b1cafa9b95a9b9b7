package ui

// Changes counts what a screen has changed in a session, so that its undo takes
// back nothing that was made before it came up.
type Changes struct {
	session *Session
	made    int // changes made here that undo may take back
	counted int // the revision up to which they are counted
}

// NewChanges begins to count.
func NewChanges(s *Session) Changes { return Changes{session: s, counted: s.Revision()} }

// Made counts a change, if one was made, and passes its error on.
func (c *Changes) Made(err error) error {
	if c.counted != c.session.Revision() {
		c.made++
		c.counted = c.session.Revision()
	}
	return err
}

// Undo takes back the last change made here, and says which it was.
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

// Redo makes the change undone last again, and says which it was.
func (c *Changes) Redo(p *Prompt) {
	change, ok := c.session.Redo()
	if !ok {
		p.Refuse("nothing to be redone")
		return
	}
	c.made, c.counted = c.made+1, c.session.Revision()
	p.Say("redone: " + change.What)
}
