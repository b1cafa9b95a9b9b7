// Package atomicfile reads and writes plain files without surprises: a file is
// replaced whole or not at all, a new one never lands on another, and reading
// neither waits for a pipe nor swallows a device.
//
// It never looks at what is in a file, never makes a backup, and holds nothing
// in memory. It imports nothing of ours.
package atomicfile
