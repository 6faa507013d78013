package cue

import (
	"slices"

	"cuelang.org/go/cue"
	"cuelang.org/go/cue/ast"
	"cuelang.org/go/cue/cuecontext"

	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/syntax"
)

// evaluate works out a CUE file that is trusted, and reads what comes out. What
// stands in the file as a literal is read as such; everything else stands at the
// expression that gave it, and is not edited.
func (r *reader) evaluate(file *ast.File) {
	v := cuecontext.New().BuildFile(file)
	if err := v.Err(); err != nil {
		r.unreadable(err)
		return
	}
	if err := v.Validate(cue.Concrete(true)); err != nil {
		r.unreadable(err)
		return
	}
	exprs := []ast.Expr{&ast.StructLit{Elts: file.Decls}}
	if list := onlyList(file.Decls); list != nil {
		exprs = []ast.Expr{list}
	}
	var n order.Node
	if flt := r.worked(&n, v, exprs, r.spread(file.Decls), 0); flt != nil {
		r.b.Unreadable(flt)
		return
	}
	if n.Form != order.Map || len(n.Kids) > 0 {
		r.b.Finish(n)
	}
}

// worked reads the value v, which the expressions gave; where is where it
// stands if none of them does.
func (r *reader) worked(n *order.Node, v cue.Value, exprs []ast.Expr, where source.Range, depth int) *syntax.Fault {
	n.At, n.Fixed = where, true
	if len(exprs) > 0 && exprs[0].Pos().IsValid() {
		n.At = r.extent(exprs[0])
	}
	if depth > syntax.MaxDepth {
		return syntax.TooDeep(n.At)
	}
	if flt := r.Copy(n.At, "it comes to"); flt != nil {
		return flt
	}
	switch v.IncompleteKind() {
	case cue.StructKind:
		return r.workedGroup(n, v, exprs, depth)
	case cue.ListKind:
		return r.workedList(n, v, exprs, depth)
	}
	for _, e := range exprs {
		lit := *n
		if lit.At = r.extent(e); r.literal(&lit, e) {
			lit.Fixed = r.shared[e]
			*n = lit
			return nil
		}
	}
	switch v.IncompleteKind() {
	case cue.NullKind:
		n.Form = order.Null
	case cue.BoolKind, cue.IntKind, cue.FloatKind, cue.NumberKind:
		text, err := v.MarshalJSON()
		if err != nil {
			return syntax.NewFault(n.At, err.Error())
		}
		n.Form, n.Text = order.Number, string(text)
		if v.IncompleteKind() == cue.BoolKind {
			n.Form = order.Truth
		}
	case cue.StringKind:
		text, err := v.String()
		if err != nil {
			return syntax.NewFault(n.At, err.Error())
		}
		n.Form, n.Text = order.Scalar, text
	default:
		r.b.Flaws = append(r.b.Flaws, order.Flaw{Kind: order.Computed, At: n.At, Path: r.path.String(), Detail: "something that an order doesn't take"})
		n.Form, n.Unread = order.Null, true
	}
	return nil
}

// workedGroup reads the fields of v.
func (r *reader) workedGroup(n *order.Node, v cue.Value, exprs []ast.Expr, depth int) *syntax.Fault {
	n.Form = order.Map
	var known entries
	for _, e := range exprs {
		if lit, ok := e.(*ast.StructLit); ok {
			n.Fixed = false
			r.literals(&known, lit.Elts)
		}
	}
	fields, err := v.Fields()
	if err != nil {
		return syntax.NewFault(n.At, err.Error())
	}
	mark := len(r.b.Stack)
	for fields.Next() {
		kid := order.Node{Name: fields.Selector().Unquoted(), Key: n.At}
		var values []ast.Expr
		if at, ok := known.at[kid.Name]; ok {
			kid.Key, values = known.list[at].key, known.list[at].values
		}
		r.path.Down(kid.Name, 0)
		if flt := r.worked(&kid, fields.Value(), values, n.At, depth+1); flt != nil {
			return flt
		}
		r.path.Up()
		r.b.Stack = append(r.b.Stack, kid)
	}
	n.Kids = r.b.Settle(mark)
	return nil
}

// literals adds the fields that stand in decls with a plain name to known.
func (r *reader) literals(known *entries, decls []ast.Decl) {
	for _, d := range decls {
		switch d := d.(type) {
		case *ast.Field:
			if name, what := fieldName(d); what == "" {
				known.add(r, name, d)
			}
		case *ast.EmbedDecl:
			if inner, ok := d.Expr.(*ast.StructLit); ok {
				r.literals(known, inner.Elts)
			}
		}
	}
}

// workedList reads the elements of v.
func (r *reader) workedList(n *order.Node, v cue.Value, exprs []ast.Expr, depth int) *syntax.Fault {
	n.Form = order.List
	var elts []ast.Expr
	for _, e := range exprs {
		lit, ok := e.(*ast.ListLit)
		if !ok {
			continue
		}
		n.Fixed = false
		elts = lit.Elts
		// What comes after an element that stands for many cannot be counted.
		if many := slices.IndexFunc(elts, isMany); many >= 0 {
			elts = elts[:many]
		}
		break
	}
	list, err := v.List()
	if err != nil {
		return syntax.NewFault(n.At, err.Error())
	}
	mark := len(r.b.Stack)
	for i := 0; list.Next(); i++ {
		var kid order.Node
		var values []ast.Expr
		if i < len(elts) {
			values = elts[i : i+1]
		}
		r.path.Down("", i)
		if flt := r.worked(&kid, list.Value(), values, n.At, depth+1); flt != nil {
			return flt
		}
		r.path.Up()
		r.b.Stack = append(r.b.Stack, kid)
	}
	n.Kids = r.b.Settle(mark)
	return nil
}

// isMany reports whether an element of a list may stand for any number of them.
func isMany(e ast.Expr) bool {
	switch e.(type) {
	case *ast.Comprehension, *ast.Ellipsis:
		return true
	}
	return false
}
