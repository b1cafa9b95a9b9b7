// Package tomlfile reads and writes TOML files that people edit too. It knows the
// place of everything in a text, refuses keys that a table's fields do not name,
// and keeps comments when a file is written again.
//
// It never opens a file and knows no powder. Of ours it imports only model, for
// problems that name a path.
package tomlfile
