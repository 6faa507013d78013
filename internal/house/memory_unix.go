//go:build linux || darwin || freebsd || netbsd || openbsd

package house

import "syscall"

// limitMemory lets the process have so many bytes of its own at most. Where the system
// does not go by that, whoever watches the memory does.
func limitMemory(most uint64) {
	var limit syscall.Rlimit
	if syscall.Getrlimit(syscall.RLIMIT_DATA, &limit) == nil {
		limit.Cur = min(limit.Max, 2*most)
		_ = syscall.Setrlimit(syscall.RLIMIT_DATA, &limit)
	}
}
