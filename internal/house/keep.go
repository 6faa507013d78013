package house

import (
	"strings"

	"cuelang.org/go/cue/ast"
	"cuelang.org/go/cue/token"
)

// A keep says which parts of an item a house's rules speak of, so that the
// evaluator is given no others: an item has a hundred fields, and a rule speaks
// of three.
type keep struct {
	all    bool
	fields map[string]*keep
	list   *keep
}

// field returns the keep of a field, nil where the field is not spoken of.
func (k *keep) field(name string) *keep {
	if k == nil || k.all {
		return k
	}
	return k.fields[name]
}

// element returns the keep of the elements of a list. A list is kept at its
// length.
func (k *keep) element() *keep {
	if k.all || k.list == nil {
		return &keep{all: k.all}
	}
	return k.list
}

// of adds what a constraint speaks of. Where it can't be told, it is all.
func (k *keep) of(e ast.Expr) {
	switch e := e.(type) {
	case *ast.ParenExpr:
		k.of(e.X)
	case *ast.StructLit:
		for _, d := range e.Elts {
			k.declared(d)
		}
	case *ast.ListLit:
		if k.list == nil {
			k.list = &keep{}
		}
		for _, x := range e.Elts {
			if more, ok := x.(*ast.Ellipsis); ok {
				x = more.Type
			}
			if x != nil {
				k.list.of(x)
			}
		}
	case *ast.BinaryExpr:
		if e.Op != token.AND && e.Op != token.OR {
			k.all = true
			return
		}
		k.of(e.X)
		k.of(e.Y)
	default:
		k.all = true
	}
}

func (k *keep) declared(d ast.Decl) {
	switch d := d.(type) {
	case *ast.CommentGroup:
	case *ast.EmbedDecl:
		k.of(d.Expr)
	case *ast.Comprehension:
		k.of(d.Value)
	case *ast.LetClause:
	case *ast.Field:
		name, _, err := ast.LabelName(d.Label)
		if err != nil || strings.HasPrefix(name, "#") {
			k.all = true
			return
		}
		if k.fields == nil {
			k.fields = map[string]*keep{}
		}
		if k.fields[name] == nil {
			k.fields[name] = &keep{}
		}
		k.fields[name].of(d.Value)
	default:
		k.all = true
	}
}

// whole reports whether a constraint may hang on fields that it does not name:
// it closes a group, counts fields or compares groups.
func whole(e ast.Expr) (found bool) {
	ast.Walk(e, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.CallExpr:
			_, ours := n.Fun.(*ast.Ident)
			found = found || ours
		case *ast.Ident:
			found = found || strings.HasPrefix(n.Name, "#")
		case *ast.BinaryExpr:
			_, x := n.X.(*ast.BasicLit)
			_, y := n.Y.(*ast.BasicLit)
			found = found || (n.Op == token.EQL || n.Op == token.NEQ) && !x && !y
		}
		return !found
	}, nil)
	return found
}
