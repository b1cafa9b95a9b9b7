package data

import (
	"fmt"
	"strings"
	"unicode"

	"daub.example/daub/model/printable"
)

// maxSlug is the length of the longest slug, with its number.
const maxSlug = 60

// Slug returns the file name for a powder and lot: lower-case ASCII letters and
// digits with single hyphens. It has 1 to 60 characters and is none of the names
// that Windows keeps for devices.
func Slug(name, lot string) string { return slugOf(name+" "+lot, PowderKind) }

// RecipeSlug is Slug for a recipe.
func RecipeSlug(name string) string { return slugOf(name, RecipeKind) }

// slugOf makes a slug from any text; if the text gives none, from the kind.
func slugOf(text string, kind Kind) string {
	var b strings.Builder
	for _, r := range printable.PlainLetters(strings.ToLower(text)) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			b.WriteRune(r)
		case unicode.Is(unicode.Mn, r): // an accent that stands alone behind its letter
		case b.Len() > 0 && !strings.HasSuffix(b.String(), "-"):
			b.WriteByte('-')
		}
	}
	slug := cut(b.String(), maxSlug)
	switch {
	case slug == "":
		return string(kind)
	case isDevice(slug):
		return slug + "-" + string(kind)
	}
	return slug
}

// numbered returns the slug of the n-th entry of the same name.
func numbered(slug string, n int) string {
	number := fmt.Sprintf("-%d", n)
	return cut(slug, maxSlug-len(number)) + number
}

func cut(slug string, length int) string {
	return strings.Trim(slug[:min(len(slug), length)], "-")
}

// isDevice reports whether Windows keeps the name for a device.
func isDevice(name string) bool {
	switch name {
	case "con", "prn", "aux", "nul":
		return true
	}
	return len(name) == 4 && (strings.HasPrefix(name, "com") || strings.HasPrefix(name, "lpt")) && name[3] >= '0' &&
		name[3] <= '9'
}
