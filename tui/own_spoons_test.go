package tui

import (
	"testing"

	"github.com/stretchr/testify/assert"

	"daub.example/daub/model"
)

// A spoon that was put on the list while the program ran can be used once the
// shelf is read again.
func TestReadingTheShelfAgainBringsItsSpoons(t *testing.T) {
	f := newFake(model.Profile{Powder: model.Powder{Name: "Alpha"}})
	var own model.Drawer
	w := f.world()
	w.List = func() (Listing, error) { return Listing{Items: f.items, Drawer: own}, nil }
	d := drive(t, w, 80, 24)
	assert.NotContains(t, d.app.screen.(*shelf).world.Drawer.Names(), "cap")
	own = model.Drawer{{Name: "cap", VolumeML: 4}}
	d.press("r")
	assert.Contains(t, d.app.screen.(*shelf).world.Drawer.Names(), "cap")
	d.press("t")
	assert.Contains(t, d.app.screen.(*setup).world.Drawer.Names(), "cap")
}
