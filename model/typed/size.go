package typed

import (
	"strings"
)

var (
	length = kind{"a length", named(map[unit][]string{one: {"mm"}, {10, 1}: {"cm"}, {127, 5}: {"in", "inch"}})}
	sides  = pattern(`^\s*([0-9.,]+)\s*([a-z]*)\s*[x×*]\s*([0-9.,]+)\s*([a-z]*)\s*$`)
)

// Size reads width and height of a picture, mm: 160x100mm, 16 x 10 cm. One unit holds for
// both.
func Size(text, example string) (width, height float64, err error) {
	m := sides.FindStringSubmatch(strings.ToLower(spaced.Replace(text)))
	if m == nil {
		return 0, 0, refuse(text, "is not a width and a height", example)
	}
	if m[2] == "" {
		m[2] = m[4]
	}
	if width, err = length.positive(m[1]+m[2], example); err != nil {
		return 0, 0, err
	}
	height, err = length.positive(m[3]+m[4], example)
	return width, height, err
}
