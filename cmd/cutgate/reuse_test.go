package main

import (
	"os"
	"path/filepath"
	"reflect"
	"strings"
	"sync/atomic"
	"testing"

	"cutgate/internal/render"
	"cutgate/internal/slab"
)

// TestReuse spoils the memory of every order that was reported, so that a report which
// reads of it later, or of the next order's in it, comes out otherwise.
func TestReuse(t *testing.T) {
	paths, err := filepath.Glob("../../testdata/orders/*/*")
	if err != nil || len(paths) < 50 {
		t.Fatalf("%d orders, error %v", len(paths), err)
	}
	report := func(t *testing.T, as string) string {
		var files [2]*os.File
		for i := range files {
			if files[i], err = os.CreateTemp(t.TempDir(), "out"); err != nil {
				t.Fatal(err)
			}
			defer files[i].Close()
		}
		run(append([]string{"check", "--as", as}, paths...), streams{os.Stdin, files[0], files[1]})
		var said strings.Builder
		for _, f := range files {
			text, err := os.ReadFile(f.Name())
			if err != nil {
				t.Fatal(err)
			}
			said.Write(text)
		}
		return said.String()
	}
	for _, f := range render.Formats() {
		t.Run(f.Name, func(t *testing.T) {
			want := report(t, f.Name)
			var spoilt atomic.Int64 // several goroutines give memory back
			slab.Spoil = func(slice any) {
				v := reflect.ValueOf(slice)
				for i := range v.Len() {
					spoil(v.Index(i))
					spoilt.Add(1)
				}
			}
			defer func() { slab.Spoil = nil }()
			if got := report(t, f.Name); got != want {
				t.Errorf("the report is another where memory is spoilt: %d bytes for %d", len(got), len(want))
			}
			if n := spoilt.Load(); n < int64(10*len(paths)) {
				t.Errorf("%d things were spoilt", n)
			}
		})
	}
}

// spoil puts rubbish into everything that can be set of a value; what it points to is gone.
func spoil(v reflect.Value) {
	switch v.Kind() {
	case reflect.Struct:
		for i := range v.NumField() {
			f := v.Field(i)
			spoil(reflect.NewAt(f.Type(), f.Addr().UnsafePointer()).Elem()) // fields without a capital too
		}
	case reflect.Array:
		for i := range v.Len() {
			spoil(v.Index(i))
		}
	case reflect.String:
		v.SetString("rubbish")
	case reflect.Bool:
		v.SetBool(true)
	case reflect.Int, reflect.Int8, reflect.Int16, reflect.Int32, reflect.Int64:
		v.SetInt(0x5a)
	case reflect.Uint, reflect.Uint8, reflect.Uint16, reflect.Uint32, reflect.Uint64:
		v.SetUint(0x5a)
	default:
		v.SetZero()
	}
}
