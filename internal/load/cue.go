package load

import (
	"fmt"
	"slices"
	"strings"

	"cuelang.org/go/cue/ast"
	"cuelang.org/go/cue/errors"
	"cuelang.org/go/cue/literal"
	"cuelang.org/go/cue/parser"
	"cuelang.org/go/cue/token"

	"cutgate/internal/order"
	"cutgate/internal/source"
)

// maxCUE is the longest CUE text that is read: its parser nests as deep as the
// text tells it to.
const maxCUE = 256 << 10

// maxSteps is how many declarations are looked through for what references
// stand for.
const maxSteps = 20_000_000

// A cueReader makes a tree of a CUE file without evaluating it: of literals, of
// groups that are spread over several places, and of references within the
// file. Whatever would have to be worked out is a flaw.
type cueReader struct {
	b       *builder
	text    string
	start   int // where the parsed text starts in the file's
	steps   int // declarations looked through so far
	opened  []ast.Expr
	shared  map[ast.Expr]bool // what references stand for: not edited, as the edit would change other places too
	way     way
	through bool         // reading what a reference stands for
	at      source.Range // that reference
}

// cue reads a CUE file.
func (b *builder) cue(trust bool) {
	r := &cueReader{b: b, text: b.f.Text}
	if strings.HasPrefix(r.text, byteOrderMark) {
		r.start = len(byteOrderMark)
	}
	if len(r.text) > maxCUE {
		b.unreadable(source.Range{}, "a CUE order may have 256 KiB at most")
		return
	}
	if at := tooNested(r.text); at >= 0 {
		flt := tooDeep(source.Range{Start: at, End: at + 1})
		b.unreadable(flt.at, flt.detail)
		return
	}
	file, err := parser.ParseFile(b.f.Name, r.text[r.start:])
	if err != nil {
		r.unreadable(err)
		return
	}
	r.share(file)
	if trust {
		r.evaluate(file)
		return
	}
	if !slices.ContainsFunc(file.Decls, says) {
		return
	}
	var n order.Node
	var flt *fault
	if list := onlyList(file.Decls); list != nil {
		flt = r.value(&n, []ast.Expr{list}, 0)
	} else {
		flt = r.group(&n, file.Decls, 0)
		n.At = r.spread(file.Decls)
	}
	if flt != nil {
		b.unreadable(flt.at, flt.detail)
		return
	}
	n.Bare = true
	b.finish(n)
}

// unreadable makes orders that say why CUE refused the text.
func (r *cueReader) unreadable(err error) {
	at, detail := source.Range{Start: len(r.text), End: len(r.text)}, err.Error()
	if all := errors.Errors(err); len(all) > 0 {
		format, args := all[0].Msg()
		detail = strings.TrimSpace(fmt.Sprintf(format, args...))
		places := errors.Positions(all[0])
		for _, p := range places {
			if p.IsValid() && p.Filename() == r.b.f.Name {
				at.Start = r.offset(p)
				break
			}
		}
		at.End = at.Start
		if at.Start < len(r.text) {
			at.End = r.wordEnd(at.Start)
		}
	}
	r.b.unreadable(at, detail)
}

// computed files a construct that would have to be worked out.
func (r *cueReader) computed(n ast.Node, what string) {
	r.b.flaws = append(r.b.flaws, order.Flaw{Kind: order.Computed, At: r.place(r.extent(n)), Path: r.way.path(""), Detail: what})
}

// An entry is a name and all values that are given for it.
type entry struct {
	name   string
	key    source.Range
	values []ast.Expr
	fields []*ast.Field
}

// entries are the entries of a group, in the order of their names' first place.
type entries struct {
	list []entry
	at   map[string]int
}

// add notes one more field of a name.
func (e *entries) add(r *cueReader, name string, f *ast.Field) {
	at, ok := e.at[name]
	if !ok {
		if e.at == nil {
			e.at = map[string]int{}
		}
		at = len(e.list)
		e.at[name] = at
		e.list = append(e.list, entry{name: name, key: r.extent(f.Label)})
	}
	e.list[at].values = append(e.list[at].values, f.Value)
	e.list[at].fields = append(e.list[at].fields, f)
}

// group reads declarations into n, a map.
func (r *cueReader) group(n *order.Node, decls []ast.Decl, depth int) *fault {
	n.Form, n.Bare, n.Fixed = order.Map, true, n.Fixed || r.through
	if depth > maxDepth {
		return tooDeep(r.place(r.spread(decls)))
	}
	var all entries
	r.collect(&all, n, decls)
	mark := len(r.b.stack)
	for _, e := range all.list {
		kid := order.Node{Name: e.name, Key: r.place(e.key), Bare: true}
		values := e.values
		if len(values) > 1 && !slices.ContainsFunc(values, func(v ast.Expr) bool { return !isStruct(v) }) {
			// Groups of one name are one group.
		} else if len(values) > 1 {
			for _, f := range e.fields[1:] {
				key := r.place(r.extent(f.Label))
				r.b.flaws = append(r.b.flaws, order.Flaw{
					Kind: order.Duplicate, At: key, Related: kid.Key, Path: r.way.path(e.name), Name: e.name, Text: e.name, InKey: true,
				})
			}
			values = values[:1]
		}
		r.way.down(e.name, 0)
		if flt := r.value(&kid, values, depth+1); flt != nil {
			return flt
		}
		r.way.up()
		r.b.stack = append(r.b.stack, kid)
	}
	n.Kids = r.b.settle(mark)
	return nil
}

// collect adds the fields of decls to all. What is no plain field is filed, and
// makes n a map that is not all read.
func (r *cueReader) collect(all *entries, n *order.Node, decls []ast.Decl) {
	for _, d := range decls {
		switch d := d.(type) {
		case *ast.Field:
			name, what := fieldName(d)
			if what != "" {
				r.computed(d, what)
				n.Unread = true
				continue
			}
			if strings.HasPrefix(name, "_") || strings.HasPrefix(name, "#") {
				if _, quoted := d.Label.(*ast.BasicLit); !quoted {
					continue
				}
			}
			all.add(r, name, d)
		case *ast.EmbedDecl:
			if inner, ok := d.Expr.(*ast.StructLit); ok {
				r.collect(all, n, inner.Elts)
				continue
			}
			r.computed(d.Expr, "an embedded value")
			n.Unread = true
		case *ast.Comprehension:
			r.computed(d, "a comprehension ("+clause(d)+")")
			n.Unread = true
		case *ast.ImportDecl:
			r.computed(d, "an import")
		case *ast.Ellipsis:
			r.computed(d, "an ellipsis (...)")
		}
	}
}

// value reads what is given for one name: one expression, or several groups.
func (r *cueReader) value(n *order.Node, values []ast.Expr, depth int) *fault {
	n.Bare, n.Fixed = true, n.Fixed || r.through
	if r.through {
		if r.b.copies++; r.b.copies > maxCopies {
			return &fault{r.at, "its references stand for more than 100,000 values"}
		}
	}
	if !r.through && slices.ContainsFunc(values, func(v ast.Expr) bool { return r.shared[v] }) {
		n.Fixed = true
		defer fix(n)
	}
	if len(values) > 1 {
		var decls []ast.Decl
		for _, v := range values {
			decls = append(decls, v.(*ast.StructLit).Elts...)
		}
		n.At = r.place(r.extent(values[0]))
		return r.group(n, decls, depth)
	}
	e := values[0]
	n.At = r.place(r.extent(e))
	if depth > maxDepth {
		return tooDeep(n.At)
	}
	switch e := e.(type) {
	case *ast.ParenExpr:
		return r.value(n, []ast.Expr{e.X}, depth)
	case *ast.Alias:
		return r.value(n, []ast.Expr{e.Expr}, depth)
	case *ast.StructLit:
		return r.group(n, e.Elts, depth)
	case *ast.ListLit:
		return r.list(n, e, depth)
	case *ast.Ident, *ast.SelectorExpr:
		return r.reference(n, e, depth)
	}
	if r.literal(n, e) {
		return nil
	}
	r.computed(e, construct(e))
	n.Form, n.Unread = order.Null, true
	return nil
}

// list reads the elements of a list.
func (r *cueReader) list(n *order.Node, e *ast.ListLit, depth int) *fault {
	n.Form = order.List
	mark := len(r.b.stack)
	for i, x := range e.Elts {
		if more, ok := x.(*ast.Ellipsis); ok {
			r.computed(more, "an ellipsis (...)")
			n.Unread = true
			continue
		}
		var kid order.Node
		r.way.down("", i)
		if flt := r.value(&kid, []ast.Expr{x}, depth+1); flt != nil {
			return flt
		}
		r.way.up()
		r.b.stack = append(r.b.stack, kid)
	}
	n.Kids = r.b.settle(mark)
	return nil
}

// literal reads e if it is a literal, and reports whether it is.
func (r *cueReader) literal(n *order.Node, e ast.Expr) bool {
	minus := ""
	if u, ok := e.(*ast.UnaryExpr); ok && (u.Op == token.SUB || u.Op == token.ADD) {
		lit, ok := u.X.(*ast.BasicLit)
		if !ok || lit.Kind != token.INT && lit.Kind != token.FLOAT {
			return false
		}
		if u.Op == token.SUB {
			minus = "-"
		}
		e = lit
	}
	lit, ok := e.(*ast.BasicLit)
	if !ok {
		return false
	}
	switch lit.Kind {
	case token.NULL:
		n.Form = order.Null
	case token.TRUE, token.FALSE:
		n.Form, n.Text = order.Truth, lit.Value
	case token.INT, token.FLOAT:
		n.Form, n.Text = order.Number, minus+decimal(lit.Value)
	case token.STRING:
		said, err := literal.Unquote(lit.Value)
		open := len(lit.Value) - len(strings.TrimLeft(lit.Value, "#"))
		if err != nil || open == len(lit.Value) || lit.Value[open] != '"' {
			return false
		}
		n.Form, n.Text, n.Quote = order.Scalar, said, '"'
		quotes := 1
		if strings.HasPrefix(lit.Value[open:], `"""`) && len(lit.Value) >= 2*open+6 {
			quotes = 3
		}
		if !r.through && n.At.Len() >= 2*(open+quotes) {
			n.At.Start += open + quotes
			n.At.End -= open + quotes
			if quotes == 3 {
				n.At = r.trimmed(n.At)
			}
		}
	default:
		return false
	}
	return true
}
