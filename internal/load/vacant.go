package load

import (
	"reflect"

	"cutgate/internal/order"
	"cutgate/internal/source"
)

// A vacancy is how to say of a leaf or a whole group that it is not given.
type vacancy struct{ slots []vacantSlot }

// A vacantSlot is a field of a Go struct, and how to say that it is not given.
type vacantSlot struct {
	slot   int
	vacant *vacancy
}

// noPlace is the vacancy of a list, which keeps no place.
var noPlace *vacancy

// vacancies makes the vacancy of every type once.
type vacancies map[reflect.Type]*vacancy

func (vs vacancies) of(t reflect.Type) *vacancy {
	if t.Kind() != reflect.Struct {
		return noPlace
	}
	if v, ok := vs[t]; ok {
		return v
	}
	v := new(vacancy)
	vs[t] = v
	for i := range t.NumField() {
		if t.Field(i).Tag.Get("form") == "" {
			continue
		}
		if of := vs.of(t.Field(i).Type); of != noPlace {
			v.slots = append(v.slots, vacantSlot{i, of})
		}
	}
	return v
}

// fill says of dst that it is not given, and that it would go to where.
func (v *vacancy) fill(dst reflect.Value, where source.Range) {
	if v == noPlace {
		return
	}
	switch d := dst.Addr().Interface().(type) {
	case *order.Length:
		d.At = where
	case *order.Text:
		d.At = where
	case *order.Count:
		d.At = where
	case *order.Ratio:
		d.At = where
	case *order.Flag:
		d.At = where
	case *order.Mass:
		d.At = where
	case *order.Areal:
		d.At = where
	case *order.Linear:
		d.At = where
	case *order.Setting:
		d.At = where
	default:
		*dst.Field(0).Addr().Interface().(*order.Block) = order.Block{At: where, Key: where}
		for _, s := range v.slots {
			s.vacant.fill(dst.Field(s.slot), where)
		}
	}
}

// blank gives the leaf dst the node that it was left blank with.
func blank(dst reflect.Value, n *order.Node) {
	switch d := dst.Addr().Interface().(type) {
	case *order.Length:
		d.Node = n
	case *order.Text:
		d.Node = n
	case *order.Count:
		d.Node = n
	case *order.Ratio:
		d.Node = n
	case *order.Flag:
		d.Node = n
	case *order.Mass:
		d.Node = n
	case *order.Areal:
		d.Node = n
	case *order.Linear:
		d.Node = n
	case *order.Setting:
		d.Node = n
	}
}
