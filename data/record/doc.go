// Package record turns profiles, recipes and lists of spoons into TOML and back.
// For each kind of table, one list of fields says how every key is read, checked
// and written.
//
// It never opens a file, and leaves it to model which values make sense. It imports
// tomlfile and model.
package record
