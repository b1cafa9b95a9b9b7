package setup

import (
	"cmp"
	"fmt"
	"slices"
	"strconv"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/handling"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/typed"
	"daub.example/daub/tui/ui"
)

// weighedSpoon shows the weighings of one size of spoon.
func (s *screen) weighedSpoon(name string) {
	s.Fields[fieldSpoon].Set(name)
	s.pick = -1
	each, scale, filled := "1", model.Number(s.trial.ResolutionG)+" g", model.Loose
	if l := s.weighings(); l != nil {
		each, scale, filled = strconv.Itoa(l.Each()), model.Number(l.Resolution())+" g", l.Filling()
	}
	s.Fields[fieldFilled].Set(filled)
	s.Fields[fieldEach].Set(each)
	s.Fields[fieldScale].Set(scale)
}

// weighings returns the table of the chosen spoon, nil before its first weighing.
func (s *screen) weighings() *model.LevelSpoon {
	name := s.Fields[fieldSpoon].Value()
	for i := range s.entry.Profile.LevelSpoons {
		if l := s.entry.Profile.LevelSpoons[i]; l.Spoon == name && l.How != model.ByPot {
			return &s.entry.Profile.LevelSpoons[i]
		}
	}
	return nil
}

func (s *screen) each() (int, error) {
	return typed.Count(s.Fields[fieldEach].Value(), "1, or 10 for ten at once")
}

func (s *screen) resolution() (float64, error) {
	return typed.Resolution(s.Fields[fieldScale].Value())
}

// recordWeighing records the typed grams; if they are refused, the text stays for
// mending.
func (s *screen) recordWeighing() {
	if err := s.addWeighing(s.Fields[fieldWeighing].Value()); err != nil {
		s.Problem = err.Error()
	}
}

// addWeighing records typed grams, in the place of the picked weighing or behind
// the others. An unlikely weighing is asked about once.
func (s *screen) addWeighing(text string) error {
	for _, i := range []int{fieldName, fieldLot, fieldFamily} {
		if err := s.apply(i); err != nil {
			return err
		}
	}
	filled, grams, err := typed.Weighings(text, "2.3 g")
	if err != nil {
		return err
	}
	next := s.entry.Profile.Clone()
	l, err := s.spoonAsked(filled)
	if err != nil {
		return err
	}
	tapped := bench.BesideLoose(next, l)
	var added []int
	have := s.weighings()
	switch {
	case s.pick >= 0 && have != nil && s.pick < len(have.Grams) && len(grams) == 1:
		added = []int{s.pick}
		for i := range next.LevelSpoons {
			if next.LevelSpoons[i].Spoon == l.Spoon {
				next.LevelSpoons[i].Grams[s.pick] = grams[0]
			}
		}
	default:
		n := 0
		if have != nil {
			n = len(have.Grams)
		}
		for i := range grams {
			added = append(added, n+i)
		}
		if next, err = bench.AddWeighings(next, l, grams...); err != nil {
			return err
		}
	}
	if tapped {
		added = nil
	}
	for _, i := range added {
		question, wild := next.WildWeighing(l.Spoon, i, s.trial.SpoonSet, s.deps.OwnSpoons)
		if wild && s.doubted != text {
			s.doubted = text
			return ui.EnterAgain(question)
		}
	}
	before := s.entry.Profile
	s.entry.Profile.LevelSpoons, s.entry.Profile.Powder.Packings = next.LevelSpoons, next.Powder.Packings
	s.named()
	if err := s.record(); err != nil {
		s.entry.Profile.LevelSpoons, s.entry.Profile.Powder.Packings = before.LevelSpoons, before.Powder.Packings
		return err
	}
	if s.pick < 0 && !tapped {
		s.fresh[l.Spoon] += len(grams)
	}
	s.pick, s.doubted = -1, ""
	s.Fields[fieldWeighing].Input.SetValue("")
	s.Problem = ""
	s.suggest()
	return nil
}

// spoonAsked returns the level spoon being weighed. Its filling is typed, else
// chosen, else as before.
func (s *screen) spoonAsked(filled string) (l model.LevelSpoon, err error) {
	l = model.LevelSpoon{Spoon: s.Fields[fieldSpoon].Value(), How: cmp.Or(filled, s.Fields[fieldFilled].Value())}
	if have := s.weighings(); l.How == "" && have != nil {
		l.How = have.How
	}
	if l.SpoonsEach, err = s.each(); err != nil {
		return l, err
	}
	l.ResolutionG, err = s.resolution()
	return l, err
}

// pickable reports whether the arrows pick a weighing: there is one, and no new one
// is half typed.
func (s *screen) pickable() bool {
	l := s.weighings()
	return l != nil && len(l.Grams) > 0 && (s.Fields[fieldWeighing].Value() == "" || s.pick >= 0)
}

// pickWeighing picks the next or the previous weighing for mending; beyond the last
// comes a new one.
func (s *screen) pickWeighing(by int) {
	l := s.weighings()
	n := len(l.Grams) + 1
	s.pick = (s.pick+1+by+n)%n - 1
	text := ""
	if s.pick >= 0 {
		text = model.Number(l.Grams[s.pick])
	}
	s.Fields[fieldWeighing].Input.SetValue(text)
	s.Fields[fieldWeighing].Input.CursorEnd()
}

// deleteWeighing deletes the picked weighing, else the last of this visit.
func (s *screen) deleteWeighing() {
	l := s.weighings()
	at := s.pick
	if l == nil || at < 0 && s.fresh[l.Spoon] == 0 {
		s.Problem = "no weighing of this visit to delete: ←→ picks an older one"
		return
	}
	if at < 0 {
		at = len(l.Grams) - 1
	}
	s.fresh[l.Spoon] = max(s.fresh[l.Spoon]-1, 0)
	s.said = model.Number(l.Grams[at]) + " g deleted"
	l.Grams = slices.Delete(l.Grams, at, at+1)
	s.pick = -1
	s.Fields[fieldWeighing].Input.SetValue("")
	if len(l.Grams) == 0 {
		name := l.Spoon
		s.entry.Profile.LevelSpoons = slices.DeleteFunc(s.entry.Profile.LevelSpoons, func(other model.LevelSpoon) bool {
			return other.Spoon == name
		})
	}
	if err := s.record(); err != nil {
		s.Problem = err.Error()
	}
	s.suggest()
}

// named names a powder without a name by the date.
func (s *screen) named() {
	if p := &s.entry.Profile.Powder; p.Name == "" {
		p.Name = "Powder of " + s.deps.Now().Format("2006-01-02")
		s.Fields[fieldName].Set(p.Name)
	}
}

// weighingLines draws the weighings so far with mean and spread, the one being
// mended in brackets.
func (s *screen) weighingLines(label string, here bool, w int) []string {
	f := &s.Fields[fieldWeighing]
	lines := []string{ui.Cut(label+f.Shown(here), w)}
	l := s.weighings()
	if l == nil || len(l.Grams) == 0 {
		return lines
	}
	weight, _ := l.Weight()
	text := strings.Repeat(" ", ui.LabelWidth)
	for i, g := range l.Grams {
		if here && i == s.pick {
			text += "[" + model.Number(g) + "] "
		} else {
			text += model.Number(g) + "  "
		}
	}
	mean := fmt.Sprintf("%s ± %s g a spoon", model.Significant(weight.Mean, 3),
		model.Significant(weight.HalfWidth(), 2))
	if weight.N > 1 {
		mean += fmt.Sprintf("; a spoonful strays by %s %%", model.Significant(100*weight.SD/weight.Mean, 2))
	}
	if how := l.Filling(); how != model.Loose {
		mean += ", " + cmp.Or(how, printable.Line(l.How))
	}
	lines = append(lines, ui.Cut(text, w), ui.Cut(strings.Repeat(" ", ui.LabelWidth)+mean, w))
	if packs := handling.SpoonPacks(s.entry.Profile.Powder, l.Spoon); packs != "" {
		lines = append(lines, ui.Painted(ui.NoteStyle, packs, w)...)
	}
	return lines
}
