package main

import (
	"io/fs"
	"os"
	"os/signal"
	"path/filepath"
	"regexp"
	"sync"
	"syscall"
	"time"
)

// temps are the files that are being written beside the real ones. Where the program is
// interrupted they are removed before it ends.
var temps struct {
	lock  sync.Mutex
	names map[string]bool
	watch sync.Once
}

// The names of such files, and how long one has to lie there untouched to be a leftover
// of a run that was killed.
var (
	tempName = regexp.MustCompile(`^\.cutgate-[0-9]+\.tmp$`)
	leftFor  = time.Hour
)

// openTemp makes a file to be written in a folder.
func openTemp(folder string) (*os.File, error) {
	temps.watch.Do(func() {
		interrupts := make(chan os.Signal, 1)
		for _, s := range []os.Signal{os.Interrupt, syscall.SIGTERM, syscall.SIGHUP} {
			if !signal.Ignored(s) { // as nohup has it
				signal.Notify(interrupts, s)
			}
		}
		go func() { interrupted(<-interrupts) }()
	})
	temps.lock.Lock()
	defer temps.lock.Unlock()
	f, err := os.CreateTemp(folder, ".cutgate-*.tmp")
	if err != nil {
		return nil, err
	}
	if temps.names == nil {
		temps.names = make(map[string]bool)
	}
	temps.names[f.Name()] = true
	return f, nil
}

// leaveTemp forgets a file that was written, and removes it unless it is in its place.
func leaveTemp(name string, remove bool) {
	temps.lock.Lock()
	defer temps.lock.Unlock()
	delete(temps.names, name)
	if remove {
		os.Remove(name)
	}
}

// interrupted removes what is being written and ends the program by the same signal.
// No file is made from here on.
func interrupted(by os.Signal) {
	temps.lock.Lock()
	for name := range temps.names {
		os.Remove(name)
	}
	signal.Reset(by)
	if self, err := os.FindProcess(os.Getpid()); err == nil && self.Signal(by) == nil {
		time.Sleep(time.Second) // it comes at once
	}
	os.Exit(exitCould)
}

// A sweeper removes what earlier runs left in folders when they were killed.
type sweeper struct{ swept map[string]bool }

// sweep removes the leftovers in a folder, once: files of the program's own naming, of
// the same owner, that nobody has touched for a while.
func (s *sweeper) sweep(folder string) {
	if s.swept[folder] {
		return
	}
	if s.swept == nil {
		s.swept = make(map[string]bool)
	}
	s.swept[folder] = true
	list, err := os.ReadDir(folder)
	if err != nil {
		return // what is wrong with the folder, its orders tell
	}
	for _, e := range list {
		if !tempName.MatchString(e.Name()) {
			continue
		}
		info, err := e.Info()
		if err == nil && info.Mode().IsRegular() && ours(info) && time.Since(info.ModTime()) > leftFor {
			os.Remove(filepath.Join(folder, e.Name()))
		}
	}
}

// linked reports whether a file has more names than one.
func linked(info fs.FileInfo) bool { return names(info) > 1 }
