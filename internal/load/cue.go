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

// says reports whether a declaration is a part of what a file says.
func says(d ast.Decl) bool {
	switch d.(type) {
	case *ast.Package, *ast.ImportDecl, *ast.LetClause, *ast.Attribute, *ast.CommentGroup:
		return false
	}
	return true
}

// share notes what the references in the file stand for.
func (r *cueReader) share(file *ast.File) {
	r.shared = map[ast.Expr]bool{}
	ast.Walk(file, func(n ast.Node) bool {
		switch n := n.(type) {
		case *ast.SelectorExpr:
			values, _ := r.targets(n, 0)
			for _, v := range values {
				r.shared[v] = true
			}
			return false
		case *ast.Ident:
			if n.Node == nil {
				break
			}
			values, _ := r.targets(n, 0)
			for _, v := range values {
				r.shared[v] = true
			}
		}
		return true
	}, nil)
	r.steps = 0
}

// tooNested returns where a text nests deeper than any order does, or -1: in
// brackets, or in names after names, as a: b: c: 1. The parser has no such
// limit. It counts what stands in texts and comments too, and so speaks only
// where there is far too much.
func tooNested(text string) int {
	brackets, names, note := 0, 0, false
	last := byte(0) // the last byte that is not blank
	for i := 0; i < len(text); i++ {
		switch text[i] {
		case '{', '[', '(':
			brackets++
		case '}', ']', ')':
			brackets = max(brackets-1, 0)
			names = 0
		case ',':
			names = 0
		case ':':
			names++
		case '/':
			note = note || last == '/'
		case '\n':
			if !note && last != ':' {
				names = 0
			}
			note = false
			continue
		case ' ', '\t', '\r':
			continue
		}
		last = text[i]
		if brackets > 10*maxDepth || names > 100*maxDepth {
			return i
		}
	}
	return -1
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

// offset returns a position's place in the file.
func (r *cueReader) offset(p token.Pos) int {
	if !p.IsValid() {
		return len(r.text)
	}
	return min(r.start+p.Offset(), len(r.text))
}

// wordEnd returns where the word, or else the character, at i ends.
func (r *cueReader) wordEnd(i int) int {
	for k, c := range r.text[i:] {
		if c != '_' && c != '#' && (c < '0' || c > '9') && (c|0x20 < 'a' || c|0x20 > 'z') {
			if k > 0 {
				return i + k
			}
			return i + len(string(c))
		}
	}
	return len(r.text)
}

// place is where something stands: at the reference, where it is read through
// one.
func (r *cueReader) place(at source.Range) source.Range {
	if r.through {
		return r.at
	}
	return at
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

// trimmed returns at without the white space at its ends.
func (r *cueReader) trimmed(at source.Range) source.Range {
	inner := r.text[at.Start:at.End]
	at.Start += len(inner) - len(strings.TrimLeft(inner, " \t\r\n"))
	at.End = at.Start + len(strings.TrimSpace(inner))
	return at
}

// decimal returns a number as everybody writes it: CUE also has 1_000, 0x3c
// and 2K.
func decimal(lit string) string {
	if isNumber(lit) {
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
		return "bytes in single quotes: a text takes double ones"
	case *ast.BottomLit:
		return "an error (_|_)"
	}
	return "something that is worked out"
}

// reference reads what e stands for, at e.
func (r *cueReader) reference(n *order.Node, e ast.Expr, depth int) *fault {
	was, wasAt := r.through, r.at
	if !r.through {
		r.through, r.at = true, r.extent(e)
	}
	defer func() { r.through, r.at = was, wasAt }()
	n.Fixed = true
	if slices.Contains(r.opened, e) {
		return &fault{r.at, "the reference stands inside what it stands for"}
	}
	r.opened = append(r.opened, e)
	defer func() { r.opened = r.opened[:len(r.opened)-1] }()
	values, what := r.targets(e, 0)
	if what != "" {
		r.computed(e, what)
		n.Form, n.Unread = order.Null, true
		return nil
	}
	if len(values) > 1 && slices.ContainsFunc(values, func(v ast.Expr) bool { return !isStruct(v) }) {
		values = values[:1] // its duplicates are filed where they stand
	}
	return r.value(n, values, depth+1)
}

// targets returns the values that a reference stands for, or what is wrong with
// it.
func (r *cueReader) targets(e ast.Expr, depth int) (values []ast.Expr, what string) {
	if r.steps++; r.steps > maxSteps || depth > maxDepth {
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
func (r *cueReader) members(e ast.Expr, depth int) (decls []ast.Decl, what string) {
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
func (r *cueReader) named(decls []ast.Decl, name string) []ast.Expr {
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

func isStruct(e ast.Expr) bool { _, ok := e.(*ast.StructLit); return ok }

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

// spread returns the range from the first to the last of decls.
func (r *cueReader) spread(decls []ast.Decl) source.Range {
	var at source.Range
	for i, d := range decls {
		one := r.extent(d)
		if i == 0 {
			at = one
			if _, ok := d.(*ast.Package); ok && len(decls) > 1 {
				at.Start = r.extent(decls[1]).Start
			}
		}
		at.End = max(at.End, one.End)
	}
	return at
}

// extent returns the range of n. The tree is asked for starts only, and for
// closing brackets.
func (r *cueReader) extent(n ast.Node) source.Range {
	start := r.offset(leftmost(n).Pos())
	end := start
	switch n := n.(type) {
	case *ast.BasicLit:
		end = r.follow(start, n.Value)
	case *ast.Ident:
		end = r.follow(start, n.Name)
	case *ast.StructLit:
		if n.Rbrace.IsValid() && n.Lbrace.IsValid() {
			end = r.offset(n.Rbrace) + 1
		} else if len(n.Elts) > 0 {
			end = r.spread(n.Elts).End
		}
	case *ast.ListLit:
		end = r.offset(n.Rbrack) + 1
	case *ast.Field:
		end = r.extent(n.Value).End
	case *ast.EmbedDecl:
		return r.extent(n.Expr)
	case *ast.UnaryExpr:
		end = r.extent(n.X).End
	case *ast.SelectorExpr:
		end = r.extent(n.Sel).End
	case *ast.BinaryExpr:
		end = r.extent(n.Y).End
	case *ast.Interpolation:
		end = start
		for _, x := range n.Elts {
			end = max(end, r.extent(x).End)
		}
	default:
		if p := n.End(); p.IsValid() {
			end = r.offset(p)
		}
	}
	end = min(max(start, end), len(r.text))
	if end == start && start < len(r.text) {
		end = r.wordEnd(start)
	}
	if _, ok := n.(ast.Label); ok && end-start >= 2 && r.text[start] == '"' && r.text[end-1] == '"' {
		if _, isLit := n.(*ast.BasicLit); isLit && r.text[end:] != "" && strings.HasPrefix(strings.TrimLeft(r.text[end:], " \t"), ":") {
			return source.Range{Start: start + 1, End: end - 1}
		}
	}
	return source.Range{Start: start, End: end}
}

// leftmost returns the part of n that it starts with. The tree's own way of
// asking is slow where expressions lie deep in one another.
func leftmost(n ast.Node) ast.Node {
	for {
		switch e := n.(type) {
		case *ast.BinaryExpr:
			n = e.X
		case *ast.SelectorExpr:
			n = e.X
		case *ast.IndexExpr:
			n = e.X
		case *ast.SliceExpr:
			n = e.X
		case *ast.CallExpr:
			n = e.Fun
		default:
			return n
		}
	}
}

// follow returns where a token ends that starts at i: the parser takes carriage
// returns out of it.
func (r *cueReader) follow(i int, token string) int {
	for k := 0; k < len(token) && i < len(r.text); i++ {
		if r.text[i] == token[k] {
			k++
		} else if r.text[i] != '\r' {
			break
		}
	}
	return i
}
