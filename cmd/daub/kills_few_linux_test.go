//go:build !long

package main

// kills is how often TestKilledAtAnyMoment kills the program.
const kills = 5
