//go:build !manual

// Command cutgate checks work orders for soft furnishings before anything is
// cut.
package main

import (
	"os"
	"runtime"
	"runtime/debug"
)

func main() {
	// An order's garbage is short-lived, so collecting less often saves time. Beyond
	// this little is saved and much memory taken: at 400 a tenth of the time, for half as
	// much memory again.
	// The first collection waits for more, as one order is checked before there is any.
	if os.Getenv("GOGC") == "" {
		debug.SetGCPercent(400)
		runtime.AddCleanup(new(*int), func(percent int) { debug.SetGCPercent(percent) }, 150)
	}
	os.Exit(run(os.Args[1:], streams{os.Stdin, os.Stdout, os.Stderr}))
}
