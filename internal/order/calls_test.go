package order

import (
	"reflect"
	"slices"
	"strings"
	"testing"
)

// TestCalls holds that every field of an item that names a cloth is one of its calls.
func TestCalls(t *testing.T) {
	var it Item
	calls := slices.Collect(it.Calls)
	var look func(v reflect.Value, path string)
	look = func(v reflect.Value, path string) {
		for i := range v.NumField() {
			f := v.Type().Field(i)
			tag := f.Tag.Get("form")
			switch leaf, ok := v.Field(i).Addr().Interface().(*Text); {
			case tag == "":
			case ok && (tag == "cloth" || strings.HasSuffix(tag, "_cloth")):
				if !slices.Contains(calls, leaf) {
					t.Errorf("%s%s is not among an item's calls", path, tag)
				}
			case f.Type.Kind() == reflect.Struct:
				look(v.Field(i), path+tag+".")
			}
		}
	}
	look(reflect.ValueOf(&it).Elem(), "")
}
