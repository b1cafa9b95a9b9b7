// Package data keeps the shelf: a folder of plain TOML files, one powder and lot
// each, and the recipes. The folder may live in git or be synced.
//
// Nothing once recorded may be lost. A file with a key that is not understood is
// refused with the line and the fix, and left as it is. A save replaces a file in
// one step and keeps the maker's comments. It writes nothing if the file was
// changed elsewhere since it was read. It knows neither screens nor commands; it
// imports record, tomlfile, atomicfile, parallel and model.
//
// The sample shelf under samples is an invented scenario: its powders, lots and
// numbers are made up and describe no real product.
package data
