package cue

import (
	"cuelang.org/go/cue/ast"

	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/syntax"
)

// share notes what the references in the file stand for.
func (r *reader) share(file *ast.File) {
	r.shared, r.names = map[ast.Expr]bool{}, map[*ast.Decl]map[string][]ast.Expr{}
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
			groups, what := r.members(x, depth+1)
			if what != "" {
				return nil, what
			}
			for _, decls := range groups {
				values = append(values, r.named(decls, name)...)
			}
		}
		if values == nil {
			return nil, "the name " + name + ", which is not there"
		}
		return values, ""
	}
	return nil, construct(e)
}

// members returns the declarations of the groups that e is or stands for.
func (r *reader) members(e ast.Expr, depth int) (groups [][]ast.Decl, what string) {
	switch e := e.(type) {
	case *ast.StructLit:
		return [][]ast.Decl{e.Elts}, ""
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
			groups = append(groups, more...)
		}
		return groups, ""
	}
	return nil, construct(e)
}

// named returns all values that decls give for a name.
func (r *reader) named(decls []ast.Decl, name string) []ast.Expr {
	if len(decls) == 0 {
		return nil
	}
	names, ok := r.names[&decls[0]]
	if !ok {
		names = map[string][]ast.Expr{}
		r.index(names, decls)
		r.names[&decls[0]] = names
	}
	r.steps += len(names[name])
	return names[name]
}

// index adds the values that decls give to those of each name.
func (r *reader) index(names map[string][]ast.Expr, decls []ast.Decl) {
	for _, d := range decls {
		switch d := d.(type) {
		case *ast.Field:
			if name, what := fieldName(d); what == "" {
				names[name] = append(names[name], d.Value)
			}
		case *ast.EmbedDecl:
			if inner, ok := d.Expr.(*ast.StructLit); ok {
				r.index(names, inner.Elts)
			}
		}
	}
}
