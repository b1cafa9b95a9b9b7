package tui_test

import (
	"encoding/xml"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"daub.example/daub/tui/internal/drive"
	"github.com/stretchr/testify/assert"
	"github.com/stretchr/testify/require"
)

// TestPictureOfTheBench holds the README's picture: a real frame, of an invented
// powder.
func TestPictureOfTheBench(t *testing.T) {
	d := drive.Start(t, drive.NewShelf(drive.Barley(0, 1, 2, 4, 4, 6)).Deps(), 80, 24).Press("enter enter")
	got := drive.SVG(d.Coloured(t), "daub at the bench: a trial of barley flour, waiting for the level to be read")

	var picture struct {
		Title string `xml:"title"`
		G     struct {
			Text []string   `xml:"text"`
			Dots []struct{} `xml:"circle"`
		} `xml:"g"`
	}
	require.NoError(t, xml.Unmarshal([]byte(got), &picture))
	assert.Contains(t, picture.Title, "at the bench")
	assert.Greater(t, len(picture.G.Dots), 100, "the chart")
	words := drive.Flat(strings.Join(picture.G.Text, " "))
	for _, fact := range []string{"LOOK", "5 spread", "target", "g water per g powder", "undo"} {
		assert.Contains(t, words, fact)
	}

	file := filepath.Join("..", "testdata", "bench.svg")
	if *update {
		require.NoError(t, os.WriteFile(file, []byte(got), 0o644))
	}
	want, err := os.ReadFile(file)
	require.NoError(t, err, "go test ./tui -update makes it")
	assert.Equal(t, string(want), got)
}
