//go:build !manual

// Command cutgate checks work orders for soft furnishings before anything is
// cut.
package main

import (
	"os"
	"runtime/debug"
	"time"
)

// oneOrder is about as long as it takes to start and check an order.
const oneOrder = 15 * time.Millisecond

func main() {
	// An order's garbage is short-lived, so collecting less often saves time. Beyond
	// this little is saved and much memory taken: at 400 a tenth of the time, for half as
	// much memory again.
	// One order is checked before there is any need to collect.
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(400)
		time.AfterFunc(oneOrder, func() { debug.SetGCPercent(150) })
	}
	os.Exit(run(os.Args[1:], streams{os.Stdin, os.Stdout, os.Stderr}))
}
