package data

import (
	"fmt"
	"strings"
	"unicode"
)

// maxSlug is the longest slug, with the number that tells it from others.
const maxSlug = 60

// letters writes common letters with accents in plain ones. Other scripts are
// left out.
var letters = strings.NewReplacer(
	"à", "a", "á", "a", "â", "a", "ã", "a", "ä", "ae", "å", "a", "ā", "a", "ă", "a", "ą", "a", "æ", "ae",
	"ç", "c", "ć", "c", "č", "c", "ď", "d", "đ", "d", "ð", "d",
	"è", "e", "é", "e", "ê", "e", "ë", "e", "ē", "e", "ė", "e", "ę", "e", "ě", "e", "ğ", "g",
	"ì", "i", "í", "i", "î", "i", "ï", "i", "ī", "i", "ı", "i", "ł", "l", "ñ", "n", "ń", "n", "ň", "n",
	"ò", "o", "ó", "o", "ô", "o", "õ", "o", "ö", "oe", "ø", "o", "ō", "o", "ő", "o", "œ", "oe",
	"ř", "r", "ś", "s", "š", "s", "ş", "s", "ș", "s", "ß", "ss", "ť", "t", "ț", "t", "þ", "th",
	"ù", "u", "ú", "u", "û", "u", "ü", "ue", "ū", "u", "ů", "u", "ű", "u", "ý", "y", "ÿ", "y",
	"ź", "z", "ż", "z", "ž", "z",
)

// Slug is the file name for a powder and lot: lower-case ASCII letters and
// digits with single hyphens, at most 60 long, never empty, and none of the
// names that Windows keeps for devices.
func Slug(name, lot string) string { return slugOf(name+" "+lot, PowderKind) }

// RecipeSlug is Slug for a recipe.
func RecipeSlug(name string) string { return slugOf(name, RecipeKind) }

// slugOf is the slug of a text, with the kind where the text gives none.
func slugOf(text string, kind Kind) string {
	var b strings.Builder
	for _, r := range letters.Replace(strings.ToLower(text)) {
		switch {
		case r >= 'a' && r <= 'z' || r >= '0' && r <= '9':
			b.WriteRune(r)
		case unicode.Is(unicode.Mn, r): // an accent of its own behind its letter
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

// numbered is the slug of the n-th entry of the same name.
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
	return len(name) == 4 && (strings.HasPrefix(name, "com") || strings.HasPrefix(name, "lpt")) && name[3] >= '0' && name[3] <= '9'
}
