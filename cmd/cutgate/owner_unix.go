//go:build unix

package main

import (
	"io/fs"
	"os"
	"syscall"
)

// keepOwner gives a file the owner and the group that another has, as far as
// that is allowed: the group can often be kept where the owner can't.
func keepOwner(f *os.File, like fs.FileInfo) {
	s, ok := like.Sys().(*syscall.Stat_t)
	if !ok {
		return
	}
	if f.Chown(int(s.Uid), int(s.Gid)) != nil {
		_ = f.Chown(-1, int(s.Gid))
	}
}

// ours reports whether a file is of who runs the program.
func ours(info fs.FileInfo) bool {
	s, ok := info.Sys().(*syscall.Stat_t)
	return ok && int(s.Uid) == os.Geteuid()
}

// names is how many names a file has.
func names(info fs.FileInfo) uint64 {
	if s, ok := info.Sys().(*syscall.Stat_t); ok {
		return uint64(s.Nlink)
	}
	return 1
}
