package model

// Entry is one powder and lot as the shelf holds it.
type Entry struct {
	Slug    string // its name on the shelf, the file's without .toml; "" before it is first saved
	Path    string // its file
	Profile Profile
	// Read is the shelf's own note of what the file held when it was read or last
	// saved; a save compares it with what is there then.
	Read any
}

// RecipeEntry is one recipe as the shelf holds it; its fields are those of Entry.
type RecipeEntry struct {
	Slug   string
	Path   string
	Recipe Recipe
	Read   any
}
