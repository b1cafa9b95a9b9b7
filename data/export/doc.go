// Package export writes the ratios of powders for others: tables for spreadsheets
// and pages, TOML and JSON for programs. It also has the parts of the commands'
// JSON answers.
//
// It never opens a file and never fits. It imports tomlfile, parallel and model.
package export
