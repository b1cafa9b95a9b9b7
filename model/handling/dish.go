package handling

import (
	"fmt"
	"time"

	"daub.example/daub/model"
)

// dishKeeps is how long a wet dish keeps, chilled, as the cautions have it.
const dishKeeps = 24 * time.Hour

// OldDish asks about a dish that another powder is to be brought beside; "" while it is
// fresh. t is the trial whose dish it is.
func OldDish(p model.Powder, t model.Trial, now time.Time) string {
	made, known := t.LastAdded()
	if !known {
		made = t.Started
	}
	if now.Sub(made) <= dishKeeps {
		return ""
	}
	return fmt.Sprintf("The last dish of %s is of %s, and a wet dish keeps a day. Is it before you, kept covered and "+
		"fit to use?", p.Title(), made.Format(model.Day))
}
