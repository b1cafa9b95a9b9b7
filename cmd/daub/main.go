// Command daub is a bench assistant in the terminal: it walks a maker through
// thickening trials, turns spoonfuls and looks into a ratio with an honest
// interval, and keeps a profile of every powder as a plain file.
package main

import (
	"os"

	_ "daub.example/daub/tui/noquery" // start-up asks the terminal nothing
)

func main() { os.Exit(run(os.Args[1:], system())) }
