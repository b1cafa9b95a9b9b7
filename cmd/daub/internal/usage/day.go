package usage

import (
	"fmt"
	"strings"
	"time"
)

// Day is a day; its zero value is none.
type Day struct{ time.Time }

func (d *Day) String() string {
	if d.IsZero() {
		return ""
	}
	return d.Format(time.DateOnly)
}

// Type names the value in help.
func (d *Day) Type() string { return "DATE" }

// Set reads a day.
func (d *Day) Set(text string) error {
	day, err := time.Parse(time.DateOnly, strings.TrimSpace(text))
	if err != nil {
		return fmt.Errorf("%q is no day: give year, month and day, as in 2026-05-04", text)
	}
	d.Time = day
	return nil
}
