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
