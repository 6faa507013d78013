//go:build !unix

package main

import "os"

// columns is how wide a terminal is, which is not known here.
func columns(*os.File) int { return 0 }
