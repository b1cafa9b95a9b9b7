package data

import (
	"bytes"
	"fmt"
)

// exportTOML writes the ratios alone. It is no profile: it has no trials.
func exportTOML(out *bytes.Buffer, sheets []sheet) error {
	var w writer
	w.line("schema", fmt.Sprint(Schema))
	for _, s := range sheets {
		w.header(0, "[[powder]]")
		w.line("name", quote(s.powder.Name))
		w.text("lot", s.powder.Lot)
		w.text("slug", s.slug)
		w.text("family", string(s.powder.Kind()))
		w.flag("keep_from_metal", s.powder.KeepFromMetal)
		w.decimal("grams_per_tsp", s.tspG)
		for _, r := range s.ratios {
			w.header(1, "[[powder.ratio]]")
			w.line("liquid", quote(r.Basis.Liquid))
			w.line("rest_s", fmt.Sprint(r.Basis.RestS))
			w.number("level", r.Level)
			w.text("reach", r.Reach.String())
			w.whole("trials", r.Trials)
			for _, v := range numbers(r) {
				w.number(v.name, v.value)
			}
		}
	}
	out.WriteString(w.String())
	return w.err
}
