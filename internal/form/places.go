package form

import (
	"reflect"
	"unsafe"

	"cutgate/internal/source"
)

// Places are the offsets, in a Go struct, of the places that a leaf, or a group with
// everything in it, records. An order has some two hundred leaves for each item. Most
// are not given, and each of those records where it would go; setting them one by one
// through reflection would be slow.
type Places []uintptr

// allPlaces caches the places of each type.
type allPlaces map[reflect.Type]Places

var rangeType = reflect.TypeFor[source.Range]()

// of returns the places of t. A list has none.
func (vs allPlaces) of(t reflect.Type) Places {
	if t.Kind() != reflect.Struct {
		return nil
	}
	if v, ok := vs[t]; ok {
		return v
	}
	var v Places
	for i := range t.NumField() {
		f := t.Field(i)
		if f.Type == rangeType {
			v = append(v, f.Offset)
			continue
		}
		if f.Anonymous || f.Tag.Get("form") != "" {
			for _, off := range vs.of(f.Type) {
				v = append(v, f.Offset+off)
			}
		}
	}
	vs[t] = v
	return v
}

// Fill sets every place in dst, which has the type that these places are of, to where.
func (v Places) Fill(dst reflect.Value, where source.Range) {
	start := dst.Addr().UnsafePointer()
	for _, off := range v {
		*(*source.Range)(unsafe.Add(start, off)) = where
	}
}
