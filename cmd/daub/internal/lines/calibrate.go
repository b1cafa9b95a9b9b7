package lines

import (
	"daub.example/daub/model"
	"daub.example/daub/model/handling"
	"daub.example/daub/model/typed"
)

// calibrate works out from its water what a level spoon holds, and keeps that in
// the maker's own list. Trials begun later use it.
func (t *Trial) calibrate(text string) error {
	list, err := t.shelf.Spoons()
	if err != nil {
		return err
	}
	asked, err := typed.SpoonsOf(list).Check(text)
	if err != nil {
		return err
	}
	check, err := handling.CheckSpoon(list, asked.Spoon, asked.WaterG, asked.TemperatureC, model.DefaultResolutionG,
		t.now())
	if err != nil {
		return err
	}
	if check.Doubt != "" {
		if err := t.insists(check.Doubt); err != nil {
			return err
		}
	}
	if err := t.shelf.SaveSpoons(list, check.With(list)); err != nil {
		return err
	}
	t.ownSpoons = check.With(list)
	t.tell("%s Saved: %s", check.Sentence(), t.shelf.SpoonsPath())
	if older := check.Older(); older != "" {
		t.tell("%s daub calibrate %q --older makes the change and says what moves.", older, asked.Spoon)
	}
	return nil
}
