package model

// Unfinished reports whether the trial is still being made; one that was set
// aside is not.
func (t Trial) Unfinished() bool { return t.State != Done && t.SetAside == "" }

// Newest is the place of the newest trial that is not set aside; where all
// are, of the newest of them. It is -1 without a trial.
func (p Profile) Newest() int {
	if i := p.NewestWhere(func(t Trial) bool { return t.SetAside == "" }); i >= 0 {
		return i
	}
	return p.NewestWhere(func(Trial) bool { return true })
}

// NewestUnfinished is the place of the newest trial that is still being made;
// -1 without one.
func (p Profile) NewestUnfinished() int { return p.NewestWhere(Trial.Unfinished) }

// NewestWhere is the place of the newest trial, by its start, that keep
// accepts; -1 without one. Of trials started at the same moment the later in
// the file is the newer.
func (p Profile) NewestWhere(keep func(Trial) bool) int {
	newest := -1
	for i, t := range p.Trials {
		if keep(t) && (newest < 0 || !t.Started.Before(p.Trials[newest].Started)) {
			newest = i
		}
	}
	return newest
}

// Unfinished lists the trials that are still being made, by their place.
func (p Profile) Unfinished() []int {
	var open []int
	for i, t := range p.Trials {
		if t.Unfinished() {
			open = append(open, i)
		}
	}
	return open
}
