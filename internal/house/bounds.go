package house

import (
	"math"
	"strconv"
	"strings"

	"cuelang.org/go/cue/ast"
	"cuelang.org/go/cue/literal"
	"cuelang.org/go/cue/token"
)

// How large a value of a file of house rules may become, in letters, digits or elements,
// and how many combinations choices may have. A rule compares a few numbers and words.
const (
	maxValue   = 64 << 10
	maxChoices = 500
	fewChoices = 16
	anItem     = 64 // about the size of what an item has in a field
)

// A bounder says how large what stands in a file can become, before it is evaluated.
type bounder struct {
	sizes   map[ast.Node]float64
	choices map[ast.Node]float64
}

func newBounder() *bounder { return &bounder{map[ast.Node]float64{}, map[ast.Node]float64{}} }

// bounded files what could grow too large.
func (r *reader) bounded(file *ast.File) {
	b := newBounder()
	ast.Walk(file, func(n ast.Node) bool {
		e, ok := n.(ast.Expr)
		if !ok {
			return true
		}
		if b.size(e) > maxValue && !b.within(e, func(x ast.Expr) bool { return b.size(x) > maxValue }) {
			r.fault(r.offset(e.Pos()), "this can grow to more than %d letters, digits or elements: a rule compares a few words and numbers", maxValue)
			return false
		}
		if b.choice(e) > maxChoices && !b.within(e, func(x ast.Expr) bool { return b.choice(x) > maxChoices }) {
			r.fault(r.offset(e.Pos()), "these choices have more than %d combinations: write them as rules of their own", maxChoices)
			return false
		}
		return true
	}, nil)
}

// within reports whether something holds for a part of an expression, or for what it
// refers to.
func (b *bounder) within(e ast.Expr, holds func(ast.Expr) bool) bool {
	found := false
	ast.Walk(e, func(n ast.Node) bool {
		x, ok := n.(ast.Expr)
		if ok && x != e {
			found = found || holds(x)
		}
		if id, ok := n.(*ast.Ident); ok {
			if to := stands(id); to != nil {
				found = found || holds(to)
			}
		}
		return !found
	}, nil)
	return found
}

// stands is what a name stands for in the file; nil for nothing.
func stands(id *ast.Ident) ast.Expr {
	switch n := id.Node.(type) {
	case *ast.Field:
		return n.Value
	case *ast.LetClause:
		return n.Expr
	case *ast.Alias:
		return n.Expr
	case *ast.ImportSpec:
		return nil
	case ast.Expr:
		return n
	}
	return nil
}

// memo keeps what was found of a node; one that refers to itself counts as a field.
func memo(known map[ast.Node]float64, n ast.Node, usual float64, find func() float64) float64 {
	if v, ok := known[n]; ok {
		return v
	}
	known[n] = usual
	v := find()
	known[n] = v
	return v
}

// size is the most letters, digits and elements that an expression can have.
func (b *bounder) size(e ast.Expr) float64 {
	if e == nil {
		return 0
	}
	return memo(b.sizes, e, anItem, func() float64 { return b.sizeOf(e) })
}

func (b *bounder) sizeOf(e ast.Expr) float64 {
	switch e := e.(type) {
	case *ast.BasicLit:
		return float64(len(e.Value))
	case *ast.Ident:
		if to := stands(e); to != nil {
			return b.size(to)
		}
		return anItem
	case *ast.ParenExpr:
		return b.size(e.X)
	case *ast.UnaryExpr:
		return b.size(e.X)
	case *ast.BinaryExpr:
		x, y := b.size(e.X), b.size(e.Y)
		switch e.Op {
		case token.MUL:
			return b.product(e, x, y)
		case token.AND:
			return math.Max(x, y)
		}
		return x + y
	case *ast.Interpolation:
		return b.sum(e.Elts)
	case *ast.ListLit:
		return float64(len(e.Elts)) + b.sum(e.Elts)
	case *ast.Ellipsis:
		return b.size(e.Type)
	case *ast.StructLit:
		n := 0.0
		for _, d := range e.Elts {
			switch d := d.(type) {
			case *ast.Field:
				n += 1 + b.size(d.Value)
			case *ast.EmbedDecl:
				n += b.size(d.Expr)
			case *ast.Comprehension:
				n += b.size(d.Value)
			}
		}
		return n
	case *ast.SelectorExpr:
		if f := b.field(e); f != nil {
			return b.size(f)
		}
		return anItem
	case *ast.IndexExpr:
		return b.size(e.X)
	case *ast.SliceExpr:
		return b.size(e.X)
	case *ast.Comprehension:
		return b.size(e.Value)
	case *ast.CallExpr:
		return b.call(e)
	}
	return anItem
}

func (b *bounder) sum(list []ast.Expr) (n float64) {
	for _, e := range list {
		n += b.size(e)
	}
	return n
}

// product is the size of a product: of numbers, the digits of both; of a text or a list
// and a number, as many times its size.
func (b *bounder) product(e *ast.BinaryExpr, x, y float64) float64 {
	switch {
	case b.repeats(e.X):
		return x * b.number(e.Y)
	case b.repeats(e.Y):
		return y * b.number(e.X)
	}
	return x + y
}

// repeats reports whether an expression is a text or a list, which a number repeats.
func (b *bounder) repeats(e ast.Expr) bool {
	return b.is(e, 0, func(e ast.Expr) bool {
		switch e := e.(type) {
		case *ast.BasicLit:
			return e.Kind == token.STRING
		case *ast.Interpolation, *ast.ListLit:
			return true
		case *ast.CallExpr:
			pkg, _ := called(e)
			return pkg == "strings" || pkg == "list"
		}
		return false
	})
}

// is reports whether something holds for one of what an expression is worked from.
func (b *bounder) is(e ast.Expr, depth int, holds func(ast.Expr) bool) bool {
	if depth > 20 || e == nil {
		return false
	}
	if holds(e) {
		return true
	}
	switch e := e.(type) {
	case *ast.ParenExpr:
		return b.is(e.X, depth+1, holds)
	case *ast.BinaryExpr:
		return b.is(e.X, depth+1, holds) || b.is(e.Y, depth+1, holds)
	case *ast.UnaryExpr:
		return b.is(e.X, depth+1, holds)
	case *ast.Ident:
		return b.is(stands(e), depth+1, holds)
	case *ast.SelectorExpr:
		return b.is(b.field(e), depth+1, holds)
	}
	return false
}

// number is the value of a number that is written out, or else one that is too large for
// anything.
func (b *bounder) number(e ast.Expr) float64 {
	switch e := e.(type) {
	case *ast.BasicLit:
		var n literal.NumInfo
		if literal.ParseNum(e.Value, &n) == nil {
			if v, err := strconv.ParseFloat(n.String(), 64); err == nil {
				return v
			}
		}
	case *ast.ParenExpr:
		return b.number(e.X)
	case *ast.UnaryExpr:
		if e.Op == token.SUB {
			return -b.number(e.X)
		}
	case *ast.Ident:
		if to, ok := stands(e).(*ast.BasicLit); ok {
			return b.number(to)
		}
	case *ast.BinaryExpr:
		x, y := b.number(e.X), b.number(e.Y)
		switch e.Op {
		case token.ADD:
			return x + y
		case token.SUB:
			return x - y
		case token.MUL:
			return x * y
		case token.QUO:
			return x / y
		}
	}
	return math.Inf(1)
}

// field is what stands in the field that a selector leads to, where that is written out.
func (b *bounder) field(e *ast.SelectorExpr) ast.Expr {
	name, _, err := ast.LabelName(e.Sel)
	var of ast.Expr
	switch x := e.X.(type) {
	case *ast.Ident:
		of = stands(x)
	case *ast.SelectorExpr:
		of = b.field(x)
	}
	group, ok := of.(*ast.StructLit)
	if err != nil || !ok {
		return nil
	}
	for _, d := range group.Elts {
		if f, ok := d.(*ast.Field); ok {
			if own, _, err := ast.LabelName(f.Label); err == nil && own == name {
				return f.Value
			}
		}
	}
	return nil
}

// called is the package and the name of what is called; no package for CUE's own.
func called(e *ast.CallExpr) (pkg, name string) {
	switch f := e.Fun.(type) {
	case *ast.Ident:
		return "", f.Name
	case *ast.SelectorExpr:
		if x, ok := f.X.(*ast.Ident); ok {
			name, _, _ := ast.LabelName(f.Sel)
			return x.Name, name
		}
	}
	return "", ""
}

// call is the size of what a call comes to.
func (b *bounder) call(e *ast.CallExpr) float64 {
	pkg, name := called(e)
	arg := func(i int) ast.Expr {
		if i < len(e.Args) {
			return e.Args[i]
		}
		return nil
	}
	switch pkg + "." + name {
	case "strings.Repeat", "list.Repeat":
		return b.size(arg(0)) * b.number(arg(1))
	case "strings.Replace":
		return b.size(arg(0)) * math.Max(1, b.size(arg(2)))
	case "strings.Join":
		return b.size(arg(0)) * (1 + b.size(arg(1)))
	case "list.Range":
		if n := math.Abs((b.number(arg(1)) - b.number(arg(0))) / b.number(arg(2))); n >= 0 {
			return n
		}
		return math.Inf(1)
	case "math.Pow":
		return b.size(arg(0)) * math.Max(1, b.number(arg(1)))
	}
	return anItem + b.sum(e.Args)
}

// choice is how many combinations the choices in an expression have.
func (b *bounder) choice(e ast.Expr) float64 {
	if e == nil {
		return 1
	}
	return memo(b.choices, e, 1, func() float64 {
		switch e := e.(type) {
		case *ast.ParenExpr:
			return b.choice(e.X)
		case *ast.UnaryExpr:
			return b.choice(e.X)
		case *ast.Ident:
			return b.choice(stands(e))
		case *ast.SelectorExpr:
			return b.choice(b.field(e))
		case *ast.BinaryExpr:
			switch e.Op {
			case token.OR:
				return b.choice(e.X) + b.choice(e.Y)
			case token.AND:
				return b.choice(e.X) * b.choice(e.Y)
			}
		case *ast.StructLit:
			n := 1.0
			for _, d := range e.Elts {
				if d, ok := d.(*ast.EmbedDecl); ok {
					n *= b.choice(d.Expr)
				}
			}
			return n
		}
		return 1
	})
}

// calm are the calls that only compare, and make nothing.
var calm = map[string]bool{
	"math.MultipleOf": true, "math.Abs": true, "math.Floor": true, "math.Ceil": true, "math.Round": true,
	"strings.MinRunes": true, "strings.MaxRunes": true, "strings.HasPrefix": true, "strings.HasSuffix": true, "strings.Contains": true,
	"list.MinItems": true, "list.MaxItems": true, "list.Contains": true, ".len": true, ".close": true,
}

// computes returns where a file first does more than to compare what an item has with
// what is written out, as only that is sure to take little time and memory; -1 where it
// does no more.
func computes(file *ast.File) (at token.Pos, does bool) {
	b := newBounder()
	ast.Walk(file, func(n ast.Node) bool {
		e, ok := n.(ast.Expr)
		if does || !ok {
			return !does
		}
		switch x := e.(type) {
		case *ast.Interpolation:
			does = true
		case *ast.CallExpr:
			pkg, name := called(x)
			does = !calm[strings.TrimSpace(pkg+"."+name)]
		case *ast.BinaryExpr:
			does = (x.Op == token.ADD || x.Op == token.MUL) && math.IsInf(b.number(x.X), 0) && math.IsInf(b.number(x.Y), 0)
		}
		if does = does || b.repeatsAny(e) || b.choice(e) > fewChoices; does {
			at = e.Pos()
		}
		return !does
	}, nil)
	return at, does
}

// repeatsAny reports whether an expression is a sum or a product of texts or lists.
func (b *bounder) repeatsAny(e ast.Expr) bool {
	x, ok := e.(*ast.BinaryExpr)
	return ok && (x.Op == token.ADD || x.Op == token.MUL) && (b.repeats(x.X) || b.repeats(x.Y))
}
