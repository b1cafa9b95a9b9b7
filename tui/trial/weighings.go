package trial

import (
	"fmt"
	"strconv"
	"strings"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/typed"
)

// weighedSpoon shows the weighings of one spoon size.
func (s *setup) weighedSpoon(name string) {
	s.Fields[fieldSpoon].Set(name)
	each, scale := "1", model.Number(s.trial.ResolutionG)+" g"
	if l := s.weighings(); l != nil {
		each, scale = strconv.Itoa(l.Each()), model.Number(l.Resolution())+" g"
	}
	s.Fields[fieldEach].Set(each)
	s.Fields[fieldScale].Set(scale)
}

// weighings is the table of the chosen spoon, nil before the first weighing.
func (s *setup) weighings() *model.LevelSpoon {
	name := s.Fields[fieldSpoon].Value()
	for i := range s.entry.Profile.LevelSpoons {
		if s.entry.Profile.LevelSpoons[i].Spoon == name {
			return &s.entry.Profile.LevelSpoons[i]
		}
	}
	return nil
}

func (s *setup) each() (int, error) {
	return typed.Count(s.Fields[fieldEach].Value(), "1, or 10 for ten at once")
}

func (s *setup) resolution() (float64, error) {
	return typed.Resolution(s.Fields[fieldScale].Value())
}

// recordWeighing takes the typed grams; on a slip the text stays for mending.
func (s *setup) recordWeighing() {
	if err := s.addWeighing(s.Fields[fieldWeighing].Value()); err != nil {
		s.Problem = err.Error()
	}
}

func (s *setup) addWeighing(text string) error {
	for _, i := range []int{fieldName, fieldLot, fieldFamily} {
		if err := s.apply(i); err != nil {
			return err
		}
	}
	grams, err := typed.Masses(text, "2.3 g")
	if err != nil {
		return err
	}
	each, err := s.each()
	if err != nil {
		return err
	}
	resolution, err := s.resolution()
	if err != nil {
		return err
	}
	l := model.LevelSpoon{
		Spoon: s.Fields[fieldSpoon].Value(), SpoonsEach: each, ResolutionG: resolution, How: "struck off level",
	}
	before := s.entry.Profile.LevelSpoons
	s.entry.Profile.LevelSpoons, err = bench.AddWeighings(before, l, grams...)
	if err != nil {
		return err
	}
	s.named()
	if err := s.record(); err != nil {
		s.entry.Profile.LevelSpoons = before
		return err
	}
	s.fresh[l.Spoon] += len(grams)
	s.Fields[fieldWeighing].Input.SetValue("")
	s.Problem = ""
	s.suggest()
	return nil
}

// takeBackWeighing removes the last weighing of the chosen spoon, as long as it
// was made in this visit.
func (s *setup) takeBackWeighing() {
	l := s.weighings()
	if l == nil || s.fresh[l.Spoon] == 0 {
		s.Problem = "no weighing of this visit to take back"
		return
	}
	s.fresh[l.Spoon]--
	s.said = model.Number(l.Grams[len(l.Grams)-1]) + " g taken back"
	l.Grams = l.Grams[:len(l.Grams)-1]
	if len(l.Grams) == 0 {
		name := l.Spoon
		kept := s.entry.Profile.LevelSpoons[:0]
		for _, other := range s.entry.Profile.LevelSpoons {
			if other.Spoon != name {
				kept = append(kept, other)
			}
		}
		s.entry.Profile.LevelSpoons = kept
	}
	if err := s.record(); err != nil {
		s.Problem = err.Error()
	}
	s.suggest()
}

// named gives a powder without a name the date for one.
func (s *setup) named() {
	if p := &s.entry.Profile.Powder; p.Name == "" {
		p.Name = "Powder of " + s.deps.Now().Format("2006-01-02")
		s.Fields[fieldName].Set(p.Name)
	}
}

// weighingText says the weighings so far with their mean and spread.
func (s *setup) weighingText() string {
	l := s.weighings()
	if l == nil {
		return ""
	}
	w, ok := l.Weight()
	if !ok {
		return ""
	}
	var each []string
	for _, g := range l.Grams {
		each = append(each, model.Number(g))
	}
	text := fmt.Sprintf("%s: %s g per level spoon ± %s",
		strings.Join(each, "  "), model.Significant(w.Mean, 3), model.Significant(w.HalfWidth(), 2))
	if w.N > 1 {
		text += fmt.Sprintf(", SD %s %%", model.Significant(100*w.SD/w.Mean, 2))
	}
	return text
}
