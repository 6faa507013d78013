package cue

import (
	"slices"
	"strings"

	"cuelang.org/go/cue/ast"
	"cuelang.org/go/cue/literal"
	"cuelang.org/go/cue/token"

	"cutgate/internal/syntax"
)

// says reports whether a declaration is a part of what a file says.
func isSaid(d ast.Decl) bool {
	switch d.(type) {
	case *ast.Package, *ast.ImportDecl, *ast.LetClause, *ast.Attribute, *ast.CommentGroup:
		return false
	}
	return true
}

// fieldName returns the name of a field, or what it is instead of a plain one.
func fieldName(f *ast.Field) (name, what string) {
	label := f.Label
	if a, ok := label.(*ast.Alias); ok {
		if l, ok := a.Expr.(ast.Label); ok {
			label = l
		}
	}
	switch label.(type) {
	case *ast.Ident, *ast.BasicLit:
	case *ast.ListLit:
		return "", "a pattern ([…]:)"
	case *ast.Interpolation:
		return "", "an interpolation in a name"
	default:
		return "", "a name that is worked out"
	}
	name, _, err := ast.LabelName(label)
	switch {
	case err != nil:
		return "", "a name that is worked out"
	case f.Constraint == token.OPTION:
		return "", "an optional field (?)"
	case f.Constraint == token.NOT:
		return "", "a required field (!)"
	}
	return name, ""
}

// clause names what a comprehension starts with.
func clause(c *ast.Comprehension) string {
	switch c.Clauses[0].(type) {
	case *ast.ForClause:
		return "for"
	case *ast.IfClause:
		return "if"
	case *ast.LetClause:
		return "let"
	}
	return "try"
}

// decimal returns a number as everybody writes it: CUE also has 1_000, 0x3c
// and 2K.
func decimal(lit string) string {
	if syntax.IsNumber(lit) {
		return lit
	}
	var n literal.NumInfo
	if literal.ParseNum(lit, &n) != nil {
		return lit
	}
	return n.String()
}

// construct names what e is, for people.
func construct(e ast.Expr) string {
	switch e := e.(type) {
	case *ast.Interpolation:
		return `an interpolation (\(…))`
	case *ast.BinaryExpr:
		switch e.Op {
		case token.AND:
			return "a unification (&)"
		case token.OR:
			return "a choice (|)"
		}
		return "a calculation (" + e.Op.String() + ")"
	case *ast.UnaryExpr:
		switch e.Op {
		case token.MUL:
			return "a default (*)"
		case token.NOT:
			return "a negation (!)"
		}
		return "a constraint (" + e.Op.String() + ")"
	case *ast.CallExpr:
		return "a call of a function"
	case *ast.IndexExpr:
		return "an index ([…])"
	case *ast.SliceExpr:
		return "a slice ([…:…])"
	case *ast.Comprehension:
		return "a comprehension (" + clause(e) + ")"
	case *ast.BasicLit:
		return "bytes in single quotes; words take double quotes"
	case *ast.BottomLit:
		return "an error (_|_)"
	}
	return "something that is worked out"
}

// clash reports whether there are several values of one name that are no one group.
func clash(values []ast.Expr) bool {
	return len(values) > 1 && slices.ContainsFunc(values, func(v ast.Expr) bool { _, ok := v.(*ast.StructLit); return !ok })
}

// onlyList returns the list that a file consists of, or nil.
func onlyList(decls []ast.Decl) *ast.ListLit {
	var list *ast.ListLit
	for _, d := range decls {
		switch d := d.(type) {
		case *ast.EmbedDecl:
			l, ok := d.Expr.(*ast.ListLit)
			if !ok || list != nil {
				return nil
			}
			list = l
		case *ast.Field:
			if name, what := fieldName(d); what != "" || !strings.HasPrefix(name, "_") && !strings.HasPrefix(name, "#") {
				return nil
			}
		}
	}
	return list
}
