package cue

import (
	"cuelang.org/go/cue/ast"

	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/syntax"
)

// share notes what the references in the file stand for.
func (r *reader) share(file *ast.File) {
	r.shared = map[ast.Expr]bool{}
	ast.Walk(file, func(n ast.Node) bool {
		_, selects := n.(*ast.SelectorExpr)
		if id, ok := n.(*ast.Ident); selects || ok && id.Node != nil {
			values, _ := r.targets(n.(ast.Expr), 0)
			for _, v := range values {
				r.shared[v] = true
			}
		}
		return !selects
	}, nil)
	r.steps = 0
}

// reference reads what e stands for, at e.
func (r *reader) reference(n *order.Node, e ast.Expr, depth int) *syntax.Fault {
	n.Fixed = true
	at := func() source.Range { return r.extent(e) }
	return r.Follow(e, "reference", at, func() *syntax.Fault {
		values, what := r.targets(e, 0)
		if what != "" {
			r.computed(e, what)
			n.Form, n.Unread = order.Null, true
			return nil
		}
		if clash(values) {
			values = values[:1] // its duplicates are filed where they stand
		}
		return r.value(n, values, depth+1)
	})
}

// targets returns the values that a reference stands for, or what is wrong with
// it.
func (r *reader) targets(e ast.Expr, depth int) (values []ast.Expr, what string) {
	if r.steps++; r.steps > maxSteps || depth > syntax.MaxDepth {
		return nil, "a reference that leads nowhere"
	}
	switch e := e.(type) {
	case *ast.ParenExpr:
		return r.targets(e.X, depth+1)
	case *ast.Ident:
		switch to := e.Node.(type) {
		case nil:
			return nil, "the name " + e.Name + ", which the file does not give"
		case *ast.LetClause:
			return []ast.Expr{to.Expr}, ""
		case *ast.Alias:
			return []ast.Expr{to.Expr}, ""
		case *ast.Field:
			return []ast.Expr{to.Value}, ""
		case *ast.ImportSpec:
			return nil, "an import"
		case ast.Expr:
			var decls []ast.Decl
			switch scope := e.Scope.(type) {
			case *ast.File:
				decls = scope.Decls
			case *ast.StructLit:
				decls = scope.Elts
			}
			if values = r.named(decls, e.Name); values == nil {
				values = []ast.Expr{to}
			}
			return values, ""
		}
		return nil, "the name " + e.Name
	case *ast.SelectorExpr:
		name, _, err := ast.LabelName(e.Sel)
		if err != nil {
			return nil, "a name that is worked out"
		}
		from, what := r.targets(e.X, depth+1)
		if what != "" {
			return nil, what
		}
		for _, x := range from {
			decls, what := r.members(x, depth+1)
			if what != "" {
				return nil, what
			}
			values = append(values, r.named(decls, name)...)
		}
		if values == nil {
			return nil, "the name " + name + ", which is not there"
		}
		return values, ""
	}
	return nil, construct(e)
}

// members returns the declarations of the group that e is or stands for.
func (r *reader) members(e ast.Expr, depth int) (decls []ast.Decl, what string) {
	switch e := e.(type) {
	case *ast.StructLit:
		return e.Elts, ""
	case *ast.ParenExpr:
		return r.members(e.X, depth)
	case *ast.Alias:
		return r.members(e.Expr, depth)
	case *ast.Ident, *ast.SelectorExpr:
		values, what := r.targets(e, depth+1)
		if what != "" {
			return nil, what
		}
		for _, v := range values {
			more, what := r.members(v, depth+1)
			if what != "" {
				return nil, what
			}
			decls = append(decls, more...)
		}
		return decls, ""
	}
	return nil, construct(e)
}

// named returns all values that decls give for a name.
func (r *reader) named(decls []ast.Decl, name string) []ast.Expr {
	r.steps += len(decls)
	var values []ast.Expr
	for _, d := range decls {
		switch d := d.(type) {
		case *ast.Field:
			if own, what := fieldName(d); what == "" && own == name {
				values = append(values, d.Value)
			}
		case *ast.EmbedDecl:
			if inner, ok := d.Expr.(*ast.StructLit); ok {
				values = append(values, r.named(inner.Elts, name)...)
			}
		}
	}
	return values
}
