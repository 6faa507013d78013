//go:build unix

package main

import (
	"os"

	"golang.org/x/sys/unix"
)

// columns returns the width of a terminal, 0 if it is unknown.
func columns(f *os.File) int {
	size, err := unix.IoctlGetWinsize(int(f.Fd()), unix.TIOCGWINSZ)
	if err != nil {
		return 0
	}
	return int(size.Col)
}
