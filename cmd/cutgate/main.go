// Command cutgate checks work orders for soft furnishings before anything is
// cut.
package main

import "os"

func main() {
	os.Exit(run(os.Args[1:], streams{os.Stdin, os.Stdout, os.Stderr}))
}
