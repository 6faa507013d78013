package load

import (
	"reflect"
	"unsafe"

	"cutgate/internal/order"
	"cutgate/internal/source"
)

// A vacancy is where a leaf, or a group with all that is in it, keeps its
// places, as offsets in its Go struct. An order has some two hundred leaves for
// each item, most of them not given, and each of them says where it would go:
// that is why they are not filled one by one through reflection.
type vacancy []uintptr

// vacancies makes the vacancy of every type once.
type vacancies map[reflect.Type]vacancy

var rangeType = reflect.TypeFor[source.Range]()

// of returns the vacancy of t; a list keeps no place.
func (vs vacancies) of(t reflect.Type) vacancy {
	if t.Kind() != reflect.Struct {
		return nil
	}
	if v, ok := vs[t]; ok {
		return v
	}
	var v vacancy
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

// fill says of all that is in dst, whose type v is of, that it would go to
// where.
func (v vacancy) fill(dst reflect.Value, where source.Range) {
	start := dst.Addr().UnsafePointer()
	for _, off := range v {
		*(*source.Range)(unsafe.Add(start, off)) = where
	}
}

// blank gives the leaf dst the node that it was left blank with; a group has none.
func blank(dst reflect.Value, n *order.Node) {
	if l, ok := dst.Addr().Interface().(interface{ Leave(*order.Node) }); ok {
		l.Leave(n)
	}
}
