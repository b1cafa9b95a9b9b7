package typed

import (
	"errors"
	"fmt"
	"slices"
	"strings"

	"daub.example/daub/model"
)

// laterExample shows the form of a later look.
const laterExample = "5, stirred 4, gels, note a skin on top"

// Later reads a later look without its time. It takes the level as the dish stands,
// "stirred" before the level after ten turns, behaviour by name, and a note at the end.
func Later(text string) (l model.LaterLook, err error) {
	parts := strings.Split(text, ",")
	for i, part := range parts {
		part = strings.TrimSpace(part)
		first, rest, _ := strings.Cut(part, " ")
		switch {
		case part == "":
		case strings.EqualFold(first, "note"):
			l.Note = strings.TrimSpace(strings.Join(append([]string{rest}, parts[i+1:]...), ","))
			return l, said(l)
		case strings.EqualFold(first, "stirred"):
			if l.Stirred, err = laterLevel(rest); err != nil {
				return l, err
			}
		case slices.Contains(model.Marks(), strings.ToLower(part)):
			l.Marks = append(l.Marks, strings.ToLower(part))
		default:
			if l.Level, err = laterLevel(part); err != nil {
				return l, fmt.Errorf("%w; the whole is typed as %s", err, laterExample)
			}
		}
	}
	return l, said(l)
}

// laterLevel reads a whole or half level.
func laterLevel(text string) (*float64, error) {
	level, err := Reading(text, 0.5)
	return &level, err
}

// said asks for a level where the look has none.
func said(l model.LaterLook) error {
	if l.Level == nil && l.Stirred == nil {
		return errors.New("type the level as it stands, or stirred and the level after ten turns: " + laterExample)
	}
	return nil
}

// ShowLater writes a later look as it can be typed again.
func ShowLater(l model.LaterLook) string {
	var parts []string
	if l.Level != nil {
		parts = append(parts, model.Number(*l.Level))
	}
	if l.Stirred != nil {
		parts = append(parts, "stirred "+model.Number(*l.Stirred))
	}
	parts = append(parts, l.Marks...)
	if l.Note != "" {
		parts = append(parts, "note "+l.Note)
	}
	return strings.Join(parts, ", ")
}
