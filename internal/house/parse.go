package house

import (
	"regexp"
	"slices"
	"strings"

	"cuelang.org/go/cue/ast"
	"cuelang.org/go/cue/errors"
	"cuelang.org/go/cue/literal"
	"cuelang.org/go/cue/parser"
	"cuelang.org/go/cue/token"

	syntax "cutgate/internal/syntax/cue"
)

// What a file of house rules may have at most. A shop's own file needs a
// hundredth of it; a file that happens to lie above somebody's orders must not
// keep the program busy.
const (
	maxText  = 256 << 10
	maxNodes = 200_000 // with every reference counted as what it stands for
)

// mayImport are the packages of CUE's own that rules may use.
var mayImport = []string{"list", "math", "strings"}

const byteOrderMark = "\ufeff"

// parse reads the syntax of a file of house rules. It returns nil and files
// faults where it can't be used.
func (r *reader) parse() *ast.File {
	text := r.src.Text
	if strings.HasPrefix(text, byteOrderMark) {
		r.base = len(byteOrderMark)
	}
	if len(text) > maxText {
		r.fault(0, "house rules can be at most 256 KiB")
		return nil
	}
	if at := syntax.TooNested(text); at >= 0 {
		r.fault(at, "brackets or names are nested too deeply")
		return nil
	}
	file, err := parser.ParseFile(r.src.Name, text[r.base:])
	if err != nil {
		for _, e := range errors.Errors(err) {
			r.fault(r.offset(e.Position()), "%s", sentence(e))
		}
		return nil
	}
	before := len(r.faults)
	r.imports(file)
	r.plain(file)
	r.operators(file)
	r.patterns(file)
	if len(r.faults) == before {
		r.bounded(file)
	}
	if len(r.faults) > before {
		return nil
	}
	return file
}

// imports files imports of other packages than rules may use.
func (r *reader) imports(file *ast.File) {
	for spec := range file.ImportSpecs() {
		name, err := literal.Unquote(spec.Path.Value)
		if err == nil && !slices.Contains(mayImport, name) {
			r.fault(r.offset(spec.Pos()), "house rules can't import %q: rules may use %s", name, and(mayImport))
		}
	}
}

// plain files what could make a short file a long work: loops, and references to
// references that stand for very much together.
func (r *reader) plain(file *ast.File) {
	ast.Walk(file, func(n ast.Node) bool {
		if loop, ok := n.(*ast.ForClause); ok {
			r.fault(r.offset(loop.Pos()), "house rules have no loops: write [...{}] for what every element of a list must agree with")
		}
		return true
	}, nil)
	if (&scale{known: map[ast.Node]int{}}).of(file) > maxNodes {
		r.fault(0, "the references in this file expand to too much: write out what a rule needs")
	}
}

// A scale weighs syntax: the nodes of a tree, with each reference as heavy as
// what it stands for.
type scale struct {
	known map[ast.Node]int // 0 for one that is being weighed
}

func (s *scale) of(n ast.Node) int {
	if w, ok := s.known[n]; ok {
		return w
	}
	s.known[n] = 0
	w := 0
	ast.Walk(n, func(n ast.Node) bool {
		if w++; w > maxNodes {
			return false
		}
		if id, ok := n.(*ast.Ident); ok && id.Node != nil {
			w += s.of(id.Node)
		}
		return w <= maxNodes
	}, nil)
	s.known[n] = w
	return w
}

// operators files comparisons that take only the first number of a sum for what
// they compare with: >=length/20 compares with length.
func (r *reader) operators(file *ast.File) {
	ast.Walk(file, func(n ast.Node) bool {
		sum, ok := n.(*ast.BinaryExpr)
		if !ok {
			return true
		}
		switch sum.Op {
		case token.ADD, token.SUB, token.MUL, token.QUO:
		default:
			return true
		}
		for x := sum.X; ; {
			switch e := x.(type) {
			case *ast.BinaryExpr:
				x = e.X
				continue
			case *ast.UnaryExpr:
				switch e.Op {
				case token.LSS, token.LEQ, token.GTR, token.GEQ, token.NEQ, token.MAT, token.NMAT:
					r.fault(r.offset(e.Pos()), "put what comes after %s in parentheses: %s(a + b), not %sa + b", e.Op, e.Op, e.Op)
				}
			}
			return false
		}
	}, nil)
}

// patterns files patterns that can't be read, as nothing would match them.
func (r *reader) patterns(file *ast.File) {
	ast.Walk(file, func(n ast.Node) bool {
		var e ast.Expr
		var op token.Token
		switch n := n.(type) {
		case *ast.UnaryExpr:
			e, op = n.X, n.Op
		case *ast.BinaryExpr:
			e, op = n.Y, n.Op
		}
		if op != token.MAT && op != token.NMAT {
			return true
		}
		if name, ok := e.(*ast.Ident); ok {
			e = stands(name)
		}
		if lit, ok := e.(*ast.BasicLit); ok && lit.Kind == token.STRING {
			if text, err := literal.Unquote(lit.Value); err == nil {
				if _, err := regexp.Compile(text); err != nil {
					r.fault(r.offset(lit.Pos()), "this pattern can't be used: %s", strings.TrimPrefix(err.Error(), "error parsing regexp: "))
				}
			}
		}
		return true
	}, nil)
}

// offset returns where in the file's text a position is.
func (r *reader) offset(p token.Pos) int {
	if !p.IsValid() || p.Filename() != r.src.Name {
		return 0
	}
	return r.base + p.Offset()
}
