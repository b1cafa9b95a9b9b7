package bench

import (
	"testing"
	"time"

	"daub.example/daub/model"
	"github.com/stretchr/testify/require"
)

// The history of a long trial takes room for what was changed only.
func TestHistoryTakesRoomForChangesOnly(t *testing.T) {
	const long = 1000
	trial := model.Trial{Started: time.Unix(1, 0), LiquidG: 20, Steps: make([]model.Step, long)}
	for i := range trial.Steps {
		trial.Steps[i] = model.Step{Add: model.AddNone, Looked: true}
	}
	e := NewEditor(model.Profile{Powder: model.Powder{Name: "Clay"}, Trials: []model.Trial{trial}}, 0, nil)
	require.Empty(t, e.past, "what the steps tell is not kept twice")
	for i := range 20 {
		require.NoError(t, e.Note(i*40, "seen"))
		_, ok := e.Undo()
		require.True(t, ok)
		_, ok = e.Undo()
		require.True(t, ok)
		require.NoError(t, e.Note(i, "seen after all"))
	}
	kept := 0
	for _, d := range e.past {
		kept += cap(d.before) + cap(d.after)
	}
	require.LessOrEqual(t, kept, 4*20)
}
