//go:build !manual

// Command cutgate checks work orders for soft furnishings before anything is
// cut.
package main

import (
	"os"
	"runtime/debug"
	"time"
)

// aStart is about as long as it takes to start and check some dozens of orders.
const aStart = 50 * time.Millisecond

func main() {
	// A few orders are checked before there is any need to collect. For more of them memory counts:
	// to collect less often takes a tenth more of it, and saves three hundredths of the time.
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(400)
		time.AfterFunc(aStart, func() { debug.SetGCPercent(80) })
	}
	os.Exit(run(os.Args[1:], streams{os.Stdin, os.Stdout, os.Stderr}))
}
