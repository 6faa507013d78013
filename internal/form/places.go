package form

import (
	"reflect"
	"unsafe"

	"cutgate/internal/source"
)

// Places are where a leaf, or a group with all that is in it, keeps where it
// stands, as offsets in its Go struct. An order has some two hundred leaves for
// each item, most of them not given, and each of them says where it would go:
// that is why they are not filled one by one through reflection.
type Places []uintptr

// allPlaces are the places of every type, each once.
type allPlaces map[reflect.Type]Places

var rangeType = reflect.TypeFor[source.Range]()

// of returns the places of t; a list keeps no place.
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

// Fill says of all that is in dst, of the type that has these places, that it would
// go to where.
func (v Places) Fill(dst reflect.Value, where source.Range) {
	start := dst.Addr().UnsafePointer()
	for _, off := range v {
		*(*source.Range)(unsafe.Add(start, off)) = where
	}
}
