// Package tomlfile reads and writes TOML files that people edit too: it knows
// where everything in a text stands, refuses what the fields of a table do not
// name, and keeps the comments when a file is written again.
//
// It never opens a file and knows no powder. Of ours it imports model alone,
// for complaints that name a path.
package tomlfile
