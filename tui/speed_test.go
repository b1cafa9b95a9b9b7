package tui_test

import (
	"fmt"
	"testing"
	"time"

	"daub.example/daub/model"
	"daub.example/daub/tui/internal/drive"
	"github.com/stretchr/testify/require"
)

// thirtyLooks is a shelf with a trial of thirty looks.
func thirtyLooks() *drive.Shelf {
	levels := make([]float64, 30)
	for i := range levels {
		levels[i] = float64(min(i/6, 4)) // below the target, so that the advice has every addition to compare
	}
	return drive.NewShelf(drive.Barley(levels...))
}

func BenchmarkLookRefitFrame(b *testing.B) {
	f := thirtyLooks()
	d := drive.Start(b, f.Deps(), 200, 60).Press("enter right enter")
	f.Clock = f.Clock.Add(2 * time.Minute) // the rest is over
	require.Contains(b, d.Frame(), "LOOK")
	b.ReportAllocs()
	for n := 0; b.Loop(); n++ {
		b.StopTimer()
		d.Press(fmt.Sprintf("u g %.4f enter", 0.3+0.0001*float64(n))) // a dish that no fit is remembered for
		f.Clock = f.Clock.Add(2 * time.Minute)                        // its rest is over
		b.StartTimer()
		d.App.Update(drive.Key("4"))
		_ = d.App.View()
		b.StopTimer()
		d.App.Update(drive.Key("u"))
		b.StartTimer()
	}
	require.Contains(b, d.Frame(), "LOOK", "every look was taken, and taken back")
}

func BenchmarkFrame(b *testing.B) {
	d := drive.Start(b, thirtyLooks().Deps(), 200, 60).Press("enter")
	b.ReportAllocs()
	for b.Loop() {
		_ = d.App.View()
	}
}

// BenchmarkFilter types one letter into the filter of a shelf of 5,000 and
// draws the frame.
func BenchmarkFilter(b *testing.B) {
	profiles := make([]model.Profile, 5000)
	for i := range profiles {
		family := model.Families()[i%7]
		profiles[i] = model.Profile{Powder: model.Powder{Name: fmt.Sprintf("Powder %04d", i), Family: family}}
	}
	d := drive.Start(b, drive.NewShelf(profiles...).Deps(), 120, 40).Press("/ powder")
	b.ReportAllocs()
	for b.Loop() {
		d.App.Update(drive.Key("1"))
		_ = d.App.View()
		d.App.Update(drive.Key("bksp"))
	}
}
