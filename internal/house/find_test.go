package house_test

import (
	"errors"
	"os"
	"path/filepath"
	"strings"
	"sync"
	"testing"

	"cutgate/internal/house"
)

// write makes files below a folder of its own.
func write(t *testing.T, files map[string]string) string {
	t.Helper()
	dir := t.TempDir()
	for name, text := range files {
		path := filepath.Join(dir, filepath.FromSlash(name))
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	return dir
}

func TestNearestHouse(t *testing.T) {
	dir := write(t, map[string]string{
		"house.cue": `name: "top"`, "a/b/house.cue": `name: "low"`, "a/b/c/d/x": "", "a/e/x": "", "f/house.cue/x": "",
	})
	f := &house.Finder{Tables: usual()}
	for order, want := range map[string]string{
		"x.yaml": "top", "a/x.yaml": "top", "a/e/x.yaml": "top", "a/b/x.yaml": "low", "a/b/c/d/x.yaml": "low",
		"f/x.yaml": "top", "none/such/x.yaml": "top",
	} {
		h, err := f.Of(filepath.Join(dir, filepath.FromSlash(order)))
		if err != nil || h == nil || h.Name != want {
			t.Errorf("%s: %v, %v, want %s", order, h, err, want)
		}
	}
}

// TestHouseIsReadOnce changes the file between two looks, from another folder
// too.
func TestHouseIsReadOnce(t *testing.T) {
	dir := write(t, map[string]string{"house.cue": `name: "first"`, "a/x": "", "b/x": ""})
	f := &house.Finder{Tables: usual()}
	first, err := f.In(dir)
	if err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "house.cue"), []byte(`name: "second"`), 0o666); err != nil {
		t.Fatal(err)
	}
	for _, folder := range []string{dir, filepath.Join(dir, "a"), filepath.Join(dir, "a", "..", "b")} {
		if h, err := f.In(folder); h != first || err != nil {
			t.Errorf("%s: %v, %v", folder, h, err)
		}
	}
	// Once asked for, a folder is not looked at again.
	n := testing.AllocsPerRun(100, func() { f.In(dir) })
	if n > 1 {
		t.Errorf("%v allocations for a folder that was asked for before", n)
	}
}

func TestNoHouse(t *testing.T) {
	dir := write(t, map[string]string{"a/x": ""})
	f := &house.Finder{Tables: usual()}
	// The folder lies below one that has no house up to the root, unless the
	// machine's temporary folder has.
	for up := dir; ; up = filepath.Dir(up) {
		if _, err := os.Stat(filepath.Join(up, house.FileName)); err == nil {
			t.Skip("there is a house.cue above the temporary folder")
		}
		if up == filepath.Dir(up) {
			break
		}
	}
	if h, err := f.In(filepath.Join(dir, "a")); h != nil || err != nil {
		t.Errorf("%v, %v", h, err)
	}
}

func TestHouseOfTheWorkingFolder(t *testing.T) {
	dir := write(t, map[string]string{"house.cue": `name: "here"`, "sub/house.cue": "pitch: 5"})
	t.Chdir(dir)
	f := &house.Finder{Tables: usual()}
	if h, err := f.Of("standard input"); err != nil || h.Name != "here" || h.File != "house.cue" {
		t.Errorf("%v, %v", h, err)
	}
	_, err := f.Of(filepath.Join("sub", "x.yaml"))
	if err == nil || !strings.HasPrefix(err.Error(), filepath.Join("sub", "house.cue")+":1:8: pitch takes a length") {
		t.Errorf("error %v", err)
	}
}

func TestNamedHouse(t *testing.T) {
	dir := write(t, map[string]string{"house.cue": `name: "beside"`, "ours.cue": `name: "ours"`, "bad.cue": `pitch: 5`})
	f := &house.Finder{File: filepath.Join(dir, "ours.cue"), Tables: usual()}
	for _, folder := range []string{dir, filepath.Dir(dir)} {
		if h, err := f.In(folder); err != nil || h.Name != "ours" {
			t.Errorf("%s: %v, %v", folder, h, err)
		}
	}
	f = &house.Finder{File: filepath.Join(dir, "gone.cue"), Tables: usual()}
	if _, err := f.In(dir); !errors.Is(err, os.ErrNotExist) {
		t.Errorf("error %v", err)
	}
	f = &house.Finder{File: filepath.Join(dir, "bad.cue"), Tables: usual()}
	_, first := f.In(dir)
	_, second := f.In(filepath.Dir(dir))
	var wrong *house.Error
	if !errors.As(first, &wrong) || first != second {
		t.Errorf("errors %v and %v", first, second)
	}
}

func TestFinderInParallel(t *testing.T) {
	dir := write(t, map[string]string{"house.cue": `name: "top"`, "a/house.cue": `name: "a"`, "b/x": ""})
	f := &house.Finder{Tables: usual()}
	var wait sync.WaitGroup
	for i := range 20 {
		wait.Go(func() {
			folder, want := "a", "a"
			if i%2 == 0 {
				folder, want = "b", "top"
			}
			if h, err := f.In(filepath.Join(dir, folder)); err != nil || h.Name != want {
				t.Errorf("%s: %v, %v", folder, h, err)
			}
		})
	}
	wait.Wait()
}

func BenchmarkOfFolderWithoutHouse(b *testing.B) {
	f := &house.Finder{Tables: usual()}
	name := filepath.Join(b.TempDir(), "order.yaml")
	b.ReportAllocs()
	for b.Loop() {
		f.Of(name)
	}
}

// TestHouseThatIsNoFile has house rules that can't be read told of, and not passed over.
func TestHouseThatIsNoFile(t *testing.T) {
	dir := write(t, map[string]string{"house.cue": `name: "top"`, "broken/order.yaml": "", "device/order.yaml": "", "folder/house.cue/order.yaml": ""})
	for folder, to := range map[string]string{"broken": "nowhere", "device": os.DevNull} {
		if err := os.Symlink(to, filepath.Join(dir, folder, "house.cue")); err != nil {
			t.Skip(err)
		}
	}
	for folder, want := range map[string]string{"broken": "is a broken link", "device": "is not a file", "folder": ""} {
		f := &house.Finder{Tables: usual()}
		h, err := f.In(filepath.Join(dir, folder))
		switch {
		case want == "" && (err != nil || h == nil || h.Name != "top"):
			t.Errorf("%s: %v, %v", folder, h, err)
		case want != "" && (err == nil || !strings.Contains(err.Error(), want)):
			t.Errorf("%s: got %v, want that it %s", folder, err, want)
		}
	}
}
