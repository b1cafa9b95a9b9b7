package kitchen

import (
	"errors"
	"fmt"

	"daub.example/daub/model"
	"daub.example/daub/model/bench"
	"daub.example/daub/model/care"
	"daub.example/daub/model/kitchen"
	"daub.example/daub/model/printable"
	"daub.example/daub/model/typed"
	"daub.example/daub/tui/ui"
	"github.com/charmbracelet/bubbles/key"
	tea "github.com/charmbracelet/bubbletea"
)

// The fields of a mix behind those of its powders, two each.
const (
	mixBasis = 2*model.MaxMixed + iota
	mixLevel
	mixOrder
)

// mix works out the ratio of several powders stirred together dry.
type mix struct {
	paste   kitchen.Paste
	batch   *kitchen.Batch // set if a total is given
	slugs   []string
	entries []model.Entry // its powders
	from    string        // where its level comes from
	err     error
}

func newMix(deps ui.Deps, shelf []model.Entry, back ui.Screen, chosen []model.Entry) ui.Screen {
	t := newCalculator(deps, shelf, back, &mix{})
	level := model.DefaultAim
	if len(chosen) > 0 {
		level = model.SharedAim(ui.Profiles(chosen)...)
	}
	var fields []ui.Field
	for i := range model.MaxMixed {
		r := model.Entry{}
		parts := ui.TextField("its part", "Parts by mass: 60 and 40, or 3 and 1.")
		if i < len(chosen) && len(chosen) > 1 {
			r = chosen[i]
			parts.Set("1")
		}
		fields = append(fields, t.powderField(fmt.Sprintf("powder %d", i+1), r), parts)
	}
	fields = append(append(fields, basisField(), levelField(level)), orderFields(model.DefaultSpoons())...)
	t.Hidden = func(i int) bool {
		return i < mixBasis && i >= 4 && t.Fields[i-i%2-2].Value() == "" || i == mixBasis &&
			len(t.Fields[i].Options) < 2
	}
	return t.ready(fields)
}

func (m *mix) help() []string {
	return append([]string{
		"A mix: two to five powders stirred together dry, each with its part by mass, as 60 and 40 or 3 and 1. Its " +
			"ratio is a first estimate from the powders' own; a trial of the mix says more.",
	}, orderHelp()...)
}

func (m *mix) title() string { return "mix" }

func (m *mix) update(t *calculator) { m.err = m.calculate(t) }

func (m *mix) calculate(t *calculator) error {
	m.batch, m.slugs, m.entries = nil, nil, nil
	mixed, err := m.parts(t)
	if err != nil {
		return err
	}
	level := t.level(mixLevel)
	m.from = "the target level of most of them"
	if t.Fields[mixLevel].Touched {
		m.from = "chosen here"
	}
	if m.paste, err = kitchen.MixOf(mixed, level, t.choice(mixBasis, m.entries...), t.deps.OwnSpoons); err != nil {
		return err
	}
	order, err := t.order(mixOrder)
	if errors.Is(err, errNoSize) {
		return nil // only the ratio is asked for
	}
	if err != nil {
		return err
	}
	b, err := m.paste.Batch(order)
	if err == nil {
		m.batch = &b
	}
	return err
}

var errNoPart = errors.New("give its part by mass, as in 60 and 40")

// parts reads the powders and their parts from the fields.
func (m *mix) parts(t *calculator) ([]kitchen.MixPart, error) {
	var mixed []kitchen.MixPart
	for i := 0; i < mixBasis; i += 2 {
		if t.Fields[i].Value() == "" {
			continue
		}
		r, err := t.powder(i)
		if err != nil {
			return nil, fmt.Errorf("%s: %w", t.Fields[i].Label, err)
		}
		if t.Fields[i+1].Value() == "" {
			return nil, fmt.Errorf("%s: %w", ui.Title(r), errNoPart)
		}
		parts, err := typed.Part(t.Fields[i+1].Value())
		if err != nil {
			return nil, fmt.Errorf("the part of %s: %w", ui.Title(r), err)
		}
		mixed = append(mixed, kitchen.MixPart{Profile: r.Profile, Parts: parts})
		m.slugs, m.entries = append(m.slugs, r.Slug), append(m.entries, r)
	}
	if len(mixed) < 2 {
		return nil, fmt.Errorf("%w, and another to go with it: two to five", errNoPowder)
	}
	return mixed, nil
}

// problem says why there is no batch of the mix.
func (m *mix) problem() string {
	if m.err == nil && m.batch == nil {
		return errNoSize.Error()
	}
	return said(m.err)
}

func (m *mix) keys() []key.Binding {
	k := calculatorKeys
	switch {
	case m.err != nil:
		return []key.Binding{k.kind}
	case m.batch == nil:
		return []key.Binding{k.trial, k.kind}
	}
	return []key.Binding{k.trial, k.save, k.export, k.kind}
}

func (m *mix) key(t *calculator, msg tea.KeyMsg) (ui.Next, tea.Cmd) {
	if key.Matches(msg, calculatorKeys.trial) {
		// The mix is a new powder.
		return ui.OpenSetup{Powder: &model.Entry{Profile: m.paste.Profile()}, Shelf: t.shelf}, nil
	}
	if key.Matches(msg, calculatorKeys.kind) {
		t.kindKey(mixOrder + orderExtras)
		return t, nil
	}
	t.outOfBatch(*m.batch, m.slugs, msg)
	return t, nil
}

func (m *mix) lines(_ *calculator, w int) []string {
	if m.err != nil {
		return incomplete(m.err, w)
	}
	plain := m.paste
	plain.Warnings = nil
	if m.batch != nil {
		lines := append(batchLines(*m.batch, m.from, w), "")
		lines = append(lines, ui.Painted(ui.PlainStyle, plain.Sentence(), w)...)
		return append(lines, batchCare(*m.batch, w)...)
	}
	lines := ui.Painted(ui.TitleStyle, plain.Sentence(), w)
	about := fmt.Sprintf("In %s. %s: %s.", pasteBasis(m.paste), model.LevelName(m.paste.Level), m.from)
	lines = append(lines, ui.Painted(ui.NoteStyle, about, w)...)
	for _, warning := range m.paste.Warnings {
		lines = append(lines, ui.Warned(warning, w)...)
	}
	lines = append(lines, "", ui.NoteStyle.Render(ui.Pad("powder", 40)+"g liquid per g"))
	powders := make([]model.Powder, len(m.paste.Powders))
	for i, p := range m.paste.Powders {
		powders[i] = p.Powder
		part := fmt.Sprintf("%s %%  %s", model.Significant(100*p.Fraction, 3), p.Powder.Title())
		ratio := bench.IntervalText(*p.Ratio.Rounded().Powder)
		lines = append(lines, ui.Cut(printable.Line(ui.Pad(part, 39)+" "+ratio), w))
	}
	return append(lines, careLines(w, care.OfPaste(m.paste.Basis.Liquid, nil, powders...))...)
}
