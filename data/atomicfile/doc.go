// Package atomicfile reads and writes plain files safely. A file is replaced whole
// or not at all, and a new one never replaces another. Reading neither waits for a
// pipe nor reads a device without end.
//
// It never looks at the text, never makes a backup, and keeps nothing in memory. It
// imports nothing of ours.
package atomicfile
