package house

import (
	"iter"
	"strconv"
	"strings"

	"cuelang.org/go/cue"
	"cuelang.org/go/cue/ast"
)

// A place is where a field stands in the file.
type place struct {
	key, value int
	expr       ast.Expr
}

// places finds the fields of a file by their paths. Of a field that is given in
// several places, the first counts.
type places map[string]place

// path joins the names on the way to a field as people write them.
func path(parent string, names ...string) string {
	for _, name := range names {
		if !plainName(name) {
			name = strconv.Quote(name)
		}
		if parent != "" {
			name = parent + "." + name
		}
		parent = name
	}
	return parent
}

// fields are the fields of a group by their names; none of what is no group.
func fields(v cue.Value) iter.Seq2[string, cue.Value] {
	return func(yield func(string, cue.Value) bool) {
		for it, err := v.Fields(); err == nil && it.Next(); {
			if !yield(it.Selector().Unquoted(), it.Value()) {
				return
			}
		}
	}
}

// field is the field of that name; one that does not exist where a group has none.
func field(v cue.Value, name string) cue.Value { return v.LookupPath(cue.MakePath(cue.Str(name))) }

func element(parent string, i int) string { return parent + "[" + strconv.Itoa(i) + "]" }

func plainName(s string) bool {
	for i := 0; i < len(s); i++ {
		c := s[i]
		if c != '_' && (c|0x20 < 'a' || c|0x20 > 'z') && (i == 0 || c < '0' || c > '9') {
			return false
		}
	}
	return s != ""
}

// index notes the places of all fields that are written out.
func (r *reader) index(decls []ast.Decl, parent string) {
	for _, d := range decls {
		switch d := d.(type) {
		case *ast.Field:
			name, _, err := ast.LabelName(d.Label)
			if err != nil || strings.HasPrefix(name, "_") || strings.HasPrefix(name, "#") {
				continue
			}
			p := path(parent, name)
			if _, ok := r.places[p]; !ok {
				r.places[p] = place{r.offset(d.Label.Pos()), r.offset(d.Value.Pos()), d.Value}
			}
			r.within(d.Value, p)
		case *ast.EmbedDecl:
			r.within(d.Expr, parent)
		case *ast.Comprehension:
			r.within(d.Value, parent)
		}
	}
}

// within notes the places of the fields in a value.
func (r *reader) within(e ast.Expr, parent string) {
	switch e := e.(type) {
	case *ast.ParenExpr:
		r.within(e.X, parent)
	case *ast.Alias:
		r.within(e.Expr, parent)
	case *ast.BinaryExpr:
		r.within(e.X, parent)
		r.within(e.Y, parent)
	case *ast.StructLit:
		r.index(e.Elts, parent)
	case *ast.ListLit:
		for i, x := range e.Elts {
			if more, ok := x.(*ast.Ellipsis); ok {
				r.within(more.Type, parent)
				continue
			}
			p := element(parent, i)
			if _, ok := r.places[p]; !ok {
				r.places[p] = place{r.offset(x.Pos()), r.offset(x.Pos()), x}
			}
			r.within(x, p)
		}
	}
}

// at returns the place of a field: its own, or that of the nearest group around
// it which is written out.
func (r *reader) at(p string) place {
	for {
		if at, ok := r.places[p]; ok {
			return at
		}
		i := strings.LastIndexAny(p, ".[")
		if i < 0 {
			return place{}
		}
		p = p[:i]
	}
}

// key and value return the place of a field's name, and of its value.
func (r *reader) key(p string) int   { return r.at(p).key }
func (r *reader) value(p string) int { return r.at(p).value }
