// Package record turns profiles, recipes and lists of spoons into TOML and
// back: one table of fields for each kind of table in a file says how every key
// is read, checked and written.
//
// It never opens a file, and leaves to model what values make sense. It imports
// tomlfile and model.
package record
