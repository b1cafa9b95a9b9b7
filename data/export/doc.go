// Package export writes the ratios of powders for others: tables for
// spreadsheets and pages, TOML and JSON for programs, and what the JSON answers
// of the commands are made of.
//
// It never opens a file and never fits. It imports tomlfile, parallel and model.
package export
