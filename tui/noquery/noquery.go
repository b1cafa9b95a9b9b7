// Package noquery keeps start-up from asking the terminal anything. The
// terminal library asks for the background colour when it is initialised, and
// a terminal that never answers would hold every command up for five seconds.
// Setting the answer first avoids the question; daub draws with the 16 ANSI
// colours, so the answer is never used.
//
// It works because packages are initialised in the order of their import
// paths, and this one sorts before the terminal library's.
package noquery

import "github.com/charmbracelet/lipgloss"

func init() { lipgloss.SetHasDarkBackground(true) }
