package main

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"daub.example/daub/data"
	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"github.com/stretchr/testify/require"
)

// typist plays a person: each line is given only when asked for.
type typist struct {
	lines []string
	asked func(line string) // called before a line is given; may be nil
}

func (p *typist) Read(into []byte) (int, error) {
	if len(p.lines) == 0 {
		return 0, io.EOF
	}
	line := p.lines[0]
	p.lines = p.lines[1:]
	if p.asked != nil {
		p.asked(line)
	}
	return copy(into, line+"\n"), nil
}

// typing is a host at which these lines are typed, one minute apart.
func typing(h host, lines ...string) host {
	start := h.now()
	n := 0
	h.now = func() time.Time { return start.Add(time.Duration(n) * time.Minute) }
	h.in = &typist{lines, func(string) { n++ }}
	return h
}

// newClay are the answers up to the bench for a new powder. Level teaspoons of 1.42
// g are weighed into 5 g of water.
var newClay = []string{
	"Garden clay", "", "plain-clay", "1 tsp", "1", "0.01", "1.42", "", "water", "us",
	"1 tsp, 1/2 tsp", "0.01", "5", "1", "30", "5 g",
}

func with(lines []string, more ...string) []string {
	return append(lines[:len(lines):len(lines)], more...)
}

// flat joins text to one line.
func flat(text string) string { return strings.Join(strings.Fields(text), " ") }

// shelved reads a profile from the host's shelf.
func shelved(t *testing.T, h host, slug string) model.Profile {
	t.Helper()
	e, err := data.Open(h.shelf, nil).Load(slug)
	require.NoError(t, err)
	return e.Profile
}

// A trial made in lines is the same trial that the model makes.
func TestPlainTrialEqualsTheModel(t *testing.T) {
	h := testHost(t)
	got := daub(typing(h, with(newClay,
		"2 x 1 tsp", "0",
		"1 tsp + 1/2 tsp", "2",
		"mark Gels, sinks",
		"note smells of rain",
		"1/2 tsp", "none",
		"0.71 g", "4 dollop",
		"= 12", "6",
		"liquid 1/2 tsp", "5",
		"removed 2 g", "none",
		"again", "5",
		"finish")...), "trial", "--plain")
	require.Zero(t, got.code, got.err)
	require.Empty(t, got.err)

	p := shelved(t, h, "garden-clay")
	require.Equal(t, model.Powder{Name: "Garden clay", Family: model.PlainClay}, p.Powder)
	require.Equal(t, []float64{1.42}, p.LevelSpoons[0].Grams)
	trial := p.Trials[0]
	require.Equal(t, model.Done, trial.State)
	require.Equal(t, 5.0, trial.LiquidG)
	require.Equal(t, []string{"1 tsp", "1/2 tsp"}, trial.Spoons)

	look := func(s model.Step, level float64) model.Step {
		s.Looked, s.Level = true, level
		return s
	}
	tsp := func(name string, n int) model.Step { return model.Step{Add: model.AddPowder, Spoon: name, Count: n} }
	marked := look(tsp("1/2 tsp", 1), 2)
	marked.Marks, marked.Note = []string{"sinks", "gels"}, "smells of rain"
	want := model.Trial{LiquidG: 5, Spoons: trial.Spoons, Steps: []model.Step{
		look(tsp("1 tsp", 2), 0),
		tsp("1 tsp", 1), marked,
		tsp("1/2 tsp", 1),
		look(model.Step{Add: model.AddPowder, Grams: 0.71}, 4),
		// The scale shows 12.
		look(model.Step{Add: model.AddPowder, Grams: model.RoundSignificant(12-(5+1.42*4+0.71), 6)}, 6),
		look(model.Step{Add: model.AddLiquid, Spoon: "1/2 tsp", Count: 1}, 5),
		{Add: model.Removed, Grams: 2},
		look(model.Step{Add: model.AddNone}, 5),
	}}
	bare := trial.Clone()
	for i := range bare.Steps {
		s := &bare.Steps[i]
		require.False(t, s.At.IsZero())
		require.Equal(t, s.Looked, s.RestedS != nil)
		if s.Looked {
			require.Equal(t, 60, *s.RestedS, "a minute went by")
		}
		s.At, s.RestedS = time.Time{}, nil
	}
	require.Equal(t, want.Steps, bare.Steps)

	made, err := bench.Read(p, trial, nil)
	require.NoError(t, err)
	same, err := bench.Read(p, want, nil)
	require.NoError(t, err)
	require.Equal(t, same.At(5), made.At(5))
	sentence := strings.ReplaceAll(same.At(5).Sentence("water"), " ", "")
	require.Contains(t, strings.NewReplacer(" ", "", "\n", "").Replace(got.out), sentence)
	fit := decode[fitJSON](t, daub(h, "fit", filepath.Join(h.shelf, "powders", "garden-clay.toml"), "--json"))
	about(t, made.At(5).Dish.Median, fit.Ratio.Median)
}

// What is said to be saved is on the shelf before the next question.
func TestPlainTrialSavesEveryStepAtOnce(t *testing.T) {
	h := testHost(t)
	lines := with(newClay, "1 tsp", "0", "mark lumps", "1 tsp", "1", "undo", "2", "quit")
	var out strings.Builder
	said := 0
	h = typing(h)
	clock := h.in.(*typist).asked
	h.in = &typist{lines, func(line string) {
		clock(line)
		fresh := out.String()[said:]
		said = out.Len()
		if !strings.Contains(fresh, "saved") {
			return
		}
		p := shelved(t, h, "garden-clay")
		switch {
		case strings.Contains(fresh, "Step 2: "):
			require.Len(t, p.Trials[0].Steps, 2)
			require.False(t, p.Trials[0].Steps[1].Looked)
		case strings.Contains(fresh, "Level 1 slick; saved"):
			require.Equal(t, 1.0, p.Trials[0].Steps[1].Level)
		case strings.Contains(fresh, "marked"):
			require.Equal(t, []string{"lumps"}, p.Trials[0].Steps[0].Marks)
		case strings.Contains(fresh, "Taken back"):
			require.False(t, p.Trials[0].Steps[1].Looked)
		}
	}}
	h.out, h.err = &out, io.Discard
	require.Zero(t, run([]string{"trial", "--plain"}, h))
	require.Contains(t, out.String(), "Left unfinished; all that was recorded is saved.")
	require.Equal(t, 2.0, shelved(t, h, "garden-clay").Trials[0].Steps[1].Level)
}

// The input may end at any question: everything recorded stays, nothing else.
func TestPlainTrialMayEndAnywhere(t *testing.T) {
	lines := with(newClay, "1 tsp", "0", "", "2", "finish")
	for n := range lines {
		h := testHost(t)
		got := daub(typing(h, lines[:n]...), "trial", "--plain")
		require.Zero(t, got.code, "%d: %s", n, got.err)
		require.Empty(t, got.err)
		entries, errs := data.Open(h.shelf, nil).List()
		require.Empty(t, errs)
		if n < 7 {
			require.Empty(t, entries, "nothing recorded yet")
			continue
		}
		require.Len(t, entries, 1)
		if trials := entries[0].Profile.Trials; len(trials) > 0 {
			require.Equal(t, model.Open, trials[0].State)
		}
	}
}

func TestPlainTrialIsGoneOnWith(t *testing.T) {
	h := testHost(t)
	require.Zero(t, daub(typing(h, with(newClay, "1 tsp", "1", "1 tsp", "2")...), "trial", "--plain").code)
	got := daub(typing(h, "yes", "undo", "undo", "1/2 tsp", "3", "quit"), "trial", "--plain", "garden clay")
	require.Zero(t, got.code, got.err)
	require.Contains(t, got.out, "2 steps so far, is unfinished")
	require.Contains(t, got.out, "Undone: level 2 pouring; saved.")
	require.Contains(t, got.out, "Undone: 1 tsp powder; saved.")
	steps := shelved(t, h, "garden-clay").Trials[0].Steps
	require.Len(t, steps, 2)
	require.Equal(t, "1/2 tsp", steps[1].Spoon)
	require.Equal(t, 3.0, steps[1].Level)

	got = daub(typing(h, "no", "", "", "yes", "6 g", "1 tsp", "1", "quit"), "trial", "--plain", "garden-clay")
	require.Zero(t, got.code, got.err)
	p := shelved(t, h, "garden-clay")
	require.Len(t, p.Trials, 2)
	require.Equal(t, 6.0, p.Trials[1].LiquidG)
	require.Equal(t, p.Trials[0].Spoons, p.Trials[1].Spoons, "set up as the last one")
}

// A mix put on the shelf is ready to begin.
func TestPlainTrialOfAMix(t *testing.T) {
	h := kitchenShelf(t)
	m := decode[pasteJSON](t, daub(h, "mix", "light-white-clay=60", "heavy-swelling-clay=40", "--trial", "--json"))
	lines := []string{"yes", "each", "10 g", "4 g", "3", "", "2 g", "5", "", "finish"}
	got := daub(typing(h, lines...), "trial", "--plain", m.Trial.Slug)
	require.Zero(t, got.code, got.err)
	trial := shelved(t, h, m.Trial.Slug).Trials[0]
	require.Equal(t, 10.0, trial.LiquidG)
	require.Equal(t, model.Done, trial.State, got.out)
}

// A failed save is reported, never hidden; what is unsaved is saved at the end.
func TestPlainTrialSaysWhatIsNotSaved(t *testing.T) {
	h := testHost(t)
	path := filepath.Join(h.shelf, "powders", "garden-clay.toml")
	lines := with(newClay, "2 g", "1", "copy", "1 tsp", "2", "quit")
	h = typing(h)
	clock := h.in.(*typist).asked
	h.in = &typist{lines, func(line string) {
		clock(line)
		if line == "2 g" {
			require.NoError(t, os.WriteFile(path, []byte(read(t, path)+"\n# changed elsewhere\n"), 0o644))
		}
	}}
	got := daub(h, "trial", "--plain")
	require.Zero(t, got.code, got.err)
	require.Contains(t, got.out, "NOT SAVED")
	require.Contains(t, read(t, path), "changed elsewhere")
	require.Len(t, shelved(t, h, "garden-clay-2").Trials[0].Steps, 2)
	require.Empty(t, shelved(t, h, "garden-clay").Trials[0].Steps)

	h = testHost(t)
	path = filepath.Join(h.shelf, "powders", "garden-clay.toml")
	h = typing(h)
	clock = h.in.(*typist).asked
	h.in = &typist{with(newClay, "2 g", "1", "save"), func(line string) {
		clock(line)
		if line == "2 g" {
			require.NoError(t, os.WriteFile(path, []byte(read(t, path)+"\n# changed elsewhere\n"), 0o644))
		}
	}}
	got = daub(h, "trial", "--plain")
	require.Equal(t, exitBadData, got.code)
	require.NotContains(t, got.out, "all that was recorded is saved")
	found, _ := filepath.Glob(filepath.Join(h.temp, "daub-garden-clay-*.toml"))
	require.Len(t, found, 1)
	require.Contains(t, got.err, found[0])
	p, err := data.ReadPowder(found[0], nil)
	require.NoError(t, err)
	require.True(t, p.Trials[0].Steps[0].Looked)
}

// gone is an input that fails.
type gone struct{}

func (gone) Read([]byte) (int, error) { return 0, errors.New("the line is cut") }

func TestPlainTrialWhoseLineIsCut(t *testing.T) {
	h := testHost(t)
	h.in = gone{}
	got := daub(h, "trial", "--plain")
	require.Equal(t, exitBadData, got.code)
	require.Contains(t, got.err, "the line is cut")

	h = testHost(t)
	h.out, h.err = full{}, io.Discard
	require.Equal(t, exitBadData, run([]string{"trial", "--plain"}, h))

	h = testHost(t)
	require.NoError(t, os.MkdirAll(h.shelf, 0o755))
	require.NoError(t, os.WriteFile(filepath.Join(h.shelf, "spoons.toml"), []byte("x"), 0o644))
	require.Equal(t, exitBadData, daub(h, "trial", "--plain").code)
	require.Contains(t, daub(kitchenShelf(t), "trial", "--plain", "--ascii").out, "Which powder?")
}

// Help is there at every question, also before the bench. It lists the words that
// work there, and is never taken for an answer.
func TestHelpBeforeTheBench(t *testing.T) {
	for _, word := range []string{"?", "help", "HELP"} {
		lines := []string{word}
		for _, answer := range newClay[:7] {
			lines = append(lines, answer, word) // at the next question
		}
		got := daub(typing(testHost(t), append(lines, "undo", "1.42", "", word)...), "trial", "--plain")
		require.Zero(t, got.code, got.err)
		require.Contains(t, got.out, "A new powder: Garden clay.")
		told := flat(got.out)
		require.NotContains(t, told, "A new powder: ?")
		asked := strings.Index(told, "Grams of one level teaspoon")
		require.Positive(t, asked, told)
		helped := told[asked:]
		for _, part := range []string{
			"Enter alone takes what is offered", "undo: undoes the last change.", "set KEY=VALUE: changes the powder",
			"calibrate SPOON: GRAMS", "later LEVEL", "quit: leaves", "help: says this.",
		} {
			require.Contains(t, helped, part, word)
		}
		require.NotContains(t, helped, "finish:", "what serves at the bench only is not told here")
		require.Contains(t, told, "Weighing recorded; saved.")
		require.NotContains(t, told, "Not done")
	}
}
