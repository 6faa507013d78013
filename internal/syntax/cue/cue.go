// Package cue reads orders in CUE, and writes edits in it.
//
// An order is read from its text alone, without an evaluator. Only one that
// computes its values is evaluated, and only where the caller trusts it.
package cue

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
	"cutgate/internal/syntax"
)

// maxCUE is the longest CUE text that is read: its parser nests as deep as the
// text tells it to.
const maxCUE = 256 << 10

// maxSteps is how many values are looked through for what references stand for.
const maxSteps = 20_000_000

// A reader makes a tree of a CUE file without evaluating it: of literals, of
// groups that are spread over several places, and of references within the
// file. Whatever would have to be worked out is a flaw.
type reader struct {
	syntax.Through[ast.Expr]
	b      *syntax.Builder
	text   string
	start  int                                 // where the parsed text starts in the file's
	steps  int                                 // values looked through so far
	shared map[ast.Expr]bool                   // what references stand for: not edited, as the edit would change other places too
	names  map[*ast.Decl]map[string][]ast.Expr // what a group gives for each name, by its first declaration
	path   syntax.Path
}

// Read reads a CUE file into m. Trusted, it is evaluated, which may take any time and
// memory.
func Read(f *source.File, m *order.Memory, trusted bool) []syntax.Root {
	b := syntax.NewBuilder(f, m, ",", "\n")
	defer b.Done()
	r := &reader{b: b, text: f.Text}
	r.read(trusted)
	return b.Roots
}

func (r *reader) read(trusted bool) {
	if strings.HasPrefix(r.text, syntax.ByteOrderMark) {
		r.start = len(syntax.ByteOrderMark)
	}
	if len(r.text) > maxCUE {
		r.b.Unreadable(syntax.NewFault(source.Range{}, "a CUE order can be at most 256 KiB"))
		return
	}
	if at := TooNested(r.text); at >= 0 {
		r.b.Unreadable(syntax.TooDeep(source.Range{Start: at, End: at + 1}))
		return
	}
	file, err := parser.ParseFile(r.b.File.Name, r.text[r.start:])
	if err != nil {
		r.unreadable(err)
		return
	}
	r.share(file)
	if trusted {
		r.evaluate(file)
		return
	}
	if !slices.ContainsFunc(file.Decls, isSaid) {
		return
	}
	var n order.Node
	var flt *syntax.Fault
	if list := onlyList(file.Decls); list != nil {
		flt = r.value(&n, []ast.Expr{list}, 0)
	} else {
		flt = r.group(&n, file.Decls, 0)
		n.At = r.spread(file.Decls)
	}
	if flt != nil {
		r.b.Unreadable(flt)
		return
	}
	r.b.Finish(n)
}

// unreadable makes orders that say why CUE refused the text.
func (r *reader) unreadable(err error) {
	at, detail := source.Range{Start: len(r.text), End: len(r.text)}, err.Error()
	if all := errors.Errors(err); len(all) > 0 {
		format, args := all[0].Msg()
		detail = strings.TrimSpace(fmt.Sprintf(format, args...))
		places := errors.Positions(all[0])
		for _, p := range places {
			if p.IsValid() && p.Filename() == r.b.File.Name {
				at.Start = r.offset(p)
				break
			}
		}
		at.End = at.Start
		if at.Start < len(r.text) {
			at.End = r.wordEnd(at.Start)
		}
	}
	r.b.Unreadable(syntax.NewFault(at, said(detail)))
}

// computed files a construct that would have to be worked out.
func (r *reader) computed(n ast.Node, what string) {
	r.b.Flaws = append(r.b.Flaws, order.Flaw{Kind: order.Computed, At: r.Place(r.extent(n)), Path: r.path.String(), Detail: what})
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
func (e *entries) add(r *reader, name string, f *ast.Field) {
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
func (r *reader) group(n *order.Node, decls []ast.Decl, depth int) *syntax.Fault {
	n.Form, n.Fixed = order.Map, n.Fixed || r.On
	if depth > syntax.MaxDepth {
		return syntax.TooDeep(r.Place(r.spread(decls)))
	}
	var all entries
	r.collect(&all, n, decls)
	mark := len(r.b.Stack)
	for _, e := range all.list {
		kid := order.Node{Name: e.name, Key: r.Place(e.key)}
		values := e.values
		clashes := clash(values)
		if clashes {
			for _, f := range e.fields[1:] {
				key := r.Place(r.extent(f.Label))
				r.b.Flaws = append(r.b.Flaws, order.Flaw{
					Kind: order.Duplicate, At: key, Related: kid.Key, Path: r.path.To(e.name), Name: e.name, Text: e.name, InKey: true,
				})
			}
			values = values[:1]
		}
		r.path.Down(e.name, 0)
		if flt := r.value(&kid, values, depth+1); flt != nil {
			return flt
		}
		r.path.Up()
		kid.Unread = kid.Unread || clashes && kid.Form != order.Map && kid.Form != order.List // nobody knows which is right
		r.b.Stack = append(r.b.Stack, kid)
	}
	n.Kids = r.b.Settle(mark)
	return nil
}

// collect adds the fields of decls to all. What is no plain field is filed, and
// makes n a map that is not all read.
func (r *reader) collect(all *entries, n *order.Node, decls []ast.Decl) {
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
func (r *reader) value(n *order.Node, values []ast.Expr, depth int) *syntax.Fault {
	n.Fixed = n.Fixed || r.On
	if r.On {
		if flt := r.Copy(r.At, "its references stand for"); flt != nil {
			return flt
		}
	}
	if !r.On && slices.ContainsFunc(values, func(v ast.Expr) bool { return r.shared[v] }) {
		n.Fixed = true
		defer syntax.Fix(n)
	}
	if len(values) > 1 {
		var decls []ast.Decl
		for _, v := range values {
			decls = append(decls, v.(*ast.StructLit).Elts...)
		}
		n.At = r.Place(r.extent(values[0]))
		return r.group(n, decls, depth)
	}
	e := values[0]
	n.At = r.Place(r.extent(e))
	if depth > syntax.MaxDepth {
		return syntax.TooDeep(n.At)
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
	if lit, ok := e.(*ast.BasicLit); ok && lit.Kind == token.STRING && !strings.HasPrefix(strings.TrimLeft(lit.Value, "#"), "'") {
		return r.misquoted(n.At, lit.Value)
	}
	r.computed(e, construct(e))
	n.Form, n.Unread = order.Null, true
	return nil
}

// list reads the elements of a list.
func (r *reader) list(n *order.Node, e *ast.ListLit, depth int) *syntax.Fault {
	n.Form = order.List
	mark := len(r.b.Stack)
	for i, x := range e.Elts {
		if more, ok := x.(*ast.Ellipsis); ok {
			r.computed(more, "an ellipsis (...)")
			n.Unread = true
			continue
		}
		var kid order.Node
		r.path.Down("", i)
		if flt := r.value(&kid, []ast.Expr{x}, depth+1); flt != nil {
			return flt
		}
		r.path.Up()
		r.b.Stack = append(r.b.Stack, kid)
	}
	n.Kids = r.b.Settle(mark)
	return nil
}

// misquoted is the fault of a text in double quotes that stands for no text.
func (r *reader) misquoted(at source.Range, written string) *syntax.Fault {
	is := func(half, first string) bool {
		return len(half) >= 6 && half[:2] == `\u` && half[2]|0x20 == 'd' && strings.IndexByte(first, half[3]|0x20) >= 0
	}
	for i := 0; i < len(written); i++ {
		if half := written[i:]; is(half, "89ab") && is(half[6:], "cdef") {
			i += 11
		} else if is(half, "89abcdef") {
			if !r.On && at.Len() == len(written) {
				at = source.Range{Start: at.Start + i, End: at.Start + i + 6}
			}
			return syntax.NewFault(at, half[:6]+" is half of a character; write the character itself")
		}
	}
	return syntax.NewFault(at, "this is not how words stand in double quotes")
}

// literal reads e if it is a literal, and reports whether it is.
func (r *reader) literal(n *order.Node, e ast.Expr) bool {
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
		if !r.On && n.At.Len() >= 2*(open+quotes) {
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
