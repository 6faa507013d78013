package main

import (
	"bytes"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"path/filepath"
)

// rewriteStep is called after each step of putFile, with the file that is
// written beside the real one. Tests end the program there.
var rewriteStep = func(step, temp string) {}

// The steps of putFile, in their order.
var rewriteSteps = []string{"made", "written", "synced", "compared", "renamed", "done"}

// rewriteFile puts text in the place of what a file was read to say. The text is
// written whole beside the file and then renamed over it, so that at any moment
// the one or the other is there. Permissions are kept, and a link is followed. A
// file that is read-only, or that says something else by now, is left alone.
func rewriteFile(name string, was, text []byte) error {
	name, err := filepath.EvalSymlinks(name)
	if err != nil {
		return err
	}
	info, err := writable(name)
	if err != nil {
		return err
	}
	return putFile(name, text, func(temp *os.File) error {
		keepOwner(temp, info)
		return temp.Chmod(info.Mode())
	}, func() error {
		now, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		if !bytes.Equal(now, was) {
			return errors.New("it was changed in the meantime")
		}
		return nil
	})
}

// putFile writes a text beside the file of that name, and renames it over that.
// Prepare is called with what was written, ready just before the renaming; with
// an error of theirs all is as it was.
func putFile(name string, text []byte, prepare func(*os.File) error, ready func() error) (err error) {
	temp, err := openTemp(filepath.Dir(name))
	if err != nil {
		return err
	}
	defer func() {
		if err != nil {
			temp.Close()
		}
		leaveTemp(temp.Name(), err != nil)
	}()
	rewriteStep("made", temp.Name())
	if _, err = temp.Write(text); err != nil {
		return err
	}
	if err = prepare(temp); err != nil {
		return err
	}
	rewriteStep("written", temp.Name())
	if err = temp.Sync(); err != nil {
		return err
	}
	rewriteStep("synced", temp.Name())
	if err = temp.Close(); err != nil {
		return err
	}
	if err = ready(); err != nil {
		return err
	}
	rewriteStep("compared", temp.Name())
	if err = os.Rename(temp.Name(), name); err != nil {
		return err
	}
	rewriteStep("renamed", temp.Name())
	syncFolder(filepath.Dir(name))
	rewriteStep("done", temp.Name())
	return nil
}

// writable returns what is known of a file that may be written to.
func writable(name string) (fs.FileInfo, error) {
	info, err := os.Stat(name)
	if err != nil {
		return nil, err
	}
	if !info.Mode().IsRegular() {
		return nil, fmt.Errorf("%s is not a file", name)
	}
	if linked(info) {
		return nil, errors.New("the file has a second name (a hard link), which would keep the old text")
	}
	if info.Mode().Perm()&0o222 == 0 {
		return nil, errors.New("it is read-only")
	}
	f, err := os.OpenFile(name, os.O_WRONLY, 0)
	if err != nil {
		return nil, err
	}
	return info, f.Close()
}

// syncFolder makes a renaming last through a power cut, on file systems that can.
func syncFolder(name string) {
	if dir, err := os.Open(name); err == nil {
		_ = dir.Sync()
		dir.Close()
	}
}
