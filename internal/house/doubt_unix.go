//go:build unix

package house

import (
	"fmt"
	"io/fs"
	"os"
	"syscall"
)

// doubt says why a file may say what the shop never wrote: others may write to it, or
// it belongs to somebody else; "" for neither. The system's own files are nobody
// else's, and a group that is the owner's alone, as its number tells, is no others.
func doubt(info fs.FileInfo) string {
	s, ok := info.Sys().(*syscall.Stat_t)
	if !ok {
		return ""
	}
	mode := info.Mode().Perm()
	switch {
	case mode&0o002 != 0:
		return fmt.Sprintf("anybody can change this file (mode %04o), and it applies to every order under it", mode)
	case mode&0o020 != 0 && (s.Gid != s.Uid || s.Uid == 0):
		return fmt.Sprintf("others in its group can change this file (mode %04o), and it applies to every order under it", mode)
	case s.Uid != 0 && int(s.Uid) != os.Geteuid():
		return fmt.Sprintf("this file belongs to someone else (user %d), and it applies to every order under it", s.Uid)
	}
	return ""
}
