//go:build !manual

// Command cutgate checks work orders for soft furnishings before anything is
// cut.
package main

import (
	"os"
	"runtime/debug"
)

func main() {
	// An order's garbage is short-lived and what lives is a few megabytes, so
	// collecting less often costs little memory and saves a third of the time.
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(400)
	}
	os.Exit(run(os.Args[1:], streams{os.Stdin, os.Stdout, os.Stderr}))
}
