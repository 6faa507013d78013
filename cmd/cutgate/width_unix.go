//go:build unix

package main

import (
	"os"

	"golang.org/x/sys/unix"
)

// columns is how wide a terminal is; 0 where that can't be told.
func columns(f *os.File) int {
	size, err := unix.IoctlGetWinsize(int(f.Fd()), unix.TIOCGWINSZ)
	if err != nil {
		return 0
	}
	return int(size.Col)
}
