package handling

import (
	"fmt"
	"time"

	"daub.example/daub/model"
)

// dishKeeps is the time a wet dish keeps, chilled; the cautions say the same.
const dishKeeps = 24 * time.Hour

// OldDish asks whether the dish of an old trial is still fit to use, before another powder
// is compared with it. t is the trial of that dish; "" while it is fresh.
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
