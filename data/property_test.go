package data

import (
	"fmt"
	"maps"
	"slices"
	"strings"
	"testing"
	"time"

	"daub.example/daub/data/record"
	"daub.example/daub/data/tomlfile"
	"daub.example/daub/model"
	"github.com/stretchr/testify/require"
	"pgregory.net/rapid"
)

// canon writes a profile so that two can be compared: times by moment and
// offset, everything else as it is. NaN equals itself.
func canon(p model.Profile) string {
	var w strings.Builder
	fizzes := "-"
	if p.Powder.Fizzes != nil {
		fizzes = fmt.Sprint(*p.Powder.Fizzes)
	}
	p.Powder.Fizzes = nil
	p.Powder.Packings = slices.Clone(p.Powder.Packings)
	for i := range p.Powder.Packings {
		fmt.Fprintf(&w, "%s ", p.Powder.Packings[i].At.Format(time.RFC3339Nano))
		p.Powder.Packings[i].At = time.Time{}
	}
	fmt.Fprintf(&w, "%s %+v\n%+v\n%s\n", fizzes, p.Powder, p.LevelSpoons, canonAny(p.Reserved))
	for _, t := range p.Trials {
		steps, kept := t.Steps, t.Reserved
		temp, rest := "-", "-"
		if t.TemperatureC != nil {
			temp = fmt.Sprint(*t.TemperatureC)
		}
		if t.RestS != nil {
			rest = fmt.Sprint(*t.RestS)
		}
		started := t.Started
		for _, l := range t.Later {
			fmt.Fprintf(&w, "%s %s %q %q\n", l.At.Format(time.RFC3339Nano), l.Readings(), l.Marks, l.Note)
		}
		t.Later = nil
		if t.Measured != nil {
			fmt.Fprintf(&w, "%+v\n", *t.Measured)
		}
		if t.Acid != nil {
			for _, s := range t.Acid.Steps {
				fmt.Fprintf(&w, "%s %s %v\n", s.At.Format(time.RFC3339Nano), s.Text(), s.PH)
			}
			a := *t.Acid
			a.Steps = nil
			fmt.Fprintf(&w, "%+v\n", a)
		}
		t.Measured, t.Acid = nil, nil
		t.Steps, t.Reserved, t.TemperatureC, t.RestS, t.Started = nil, nil, nil, nil, time.Time{}
		fmt.Fprintf(&w, "%s %+v %s %s %s\n", started.Format(time.RFC3339Nano), t, temp, rest, canonAny(kept))
		for _, s := range steps {
			rested, at := "-", s.At
			if s.RestedS != nil {
				rested = fmt.Sprint(*s.RestedS)
			}
			if s.LevelStirred != nil {
				rested += fmt.Sprintf(" stirred %v", *s.LevelStirred)
			}
			s.RestedS, s.At, s.LevelStirred = nil, time.Time{}, nil
			fmt.Fprintf(&w, "  %s %+v %q %s\n", at.Format(time.RFC3339Nano), s, s.Note, rested)
		}
	}
	return w.String()
}

func canonAny(v any) string {
	switch v := v.(type) {
	case time.Time:
		zone := v.Location().String() // the TOML library marks times without an offset by their zone
		if !strings.HasSuffix(zone, "-local") {
			zone = ""
		}
		return v.Format(time.RFC3339Nano) + zone
	case map[string]any:
		var parts []string
		for _, name := range slices.Sorted(maps.Keys(v)) {
			parts = append(parts, fmt.Sprintf("%q=%s", name, canonAny(v[name])))
		}
		return "{" + strings.Join(parts, ",") + "}"
	case []any:
		var parts []string
		for _, one := range v {
			parts = append(parts, canonAny(one))
		}
		return "[" + strings.Join(parts, ",") + "]"
	case tomlfile.Verbatim:
		return canonAny(v.Value)
	case []map[string]any:
		var parts []string
		for _, one := range v {
			parts = append(parts, canonAny(one))
		}
		return "[" + strings.Join(parts, ",") + "]" // the same list in another spelling
	default:
		return fmt.Sprintf("%T %v", v, v)
	}
}

// What is written reads back the same, and writing it again changes nothing.
func TestWhatIsWrittenReadsBack(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := genProfile(t)
		text, err := record.Encode(p, nil, nil)
		require.NoError(t, err)
		back, err := record.Decode("x.toml", text, nil)
		require.NoError(t, err, "%s", text)
		require.Equal(t, canon(p), canon(back))
		again, err := record.Encode(back, nil, text)
		require.NoError(t, err)
		require.Equal(t, string(text), string(again))
	})
}

// Comments strewn over a file are all there after any change to the profile,
// and rewriting a rewritten file changes nothing.
func TestCommentsSurvive(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		p := genProfile(t)
		text, err := record.Encode(p, nil, nil)
		require.NoError(t, err)
		var strewn strings.Builder
		for i, line := range strings.SplitAfter(string(text), "\n") {
			switch rapid.IntRange(0, 9).Draw(t, "where") {
			case 0:
				fmt.Fprintf(&strewn, "# above %d\n", i)
			case 1:
				fmt.Fprintf(&strewn, "\n# apart %d\n\n", i)
			case 2:
				if strings.TrimSpace(line) != "" {
					line = strings.TrimSuffix(line, "\n") + fmt.Sprintf(" # behind %d # [[trial]]\n", i)
				}
			}
			strewn.WriteString(line)
		}
		old := []byte(strewn.String())
		changed, err := record.Decode("x.toml", old, nil)
		require.NoError(t, err, "%s", old)
		if maybe(t, "other profile") {
			changed = genProfile(t)
		}
		once, err := record.Encode(changed, nil, old)
		require.NoError(t, err)
		assertComments(t, old, once)
		twice, err := record.Encode(changed, nil, once)
		require.NoError(t, err)
		require.Equal(t, string(once), string(twice))
	})
}
