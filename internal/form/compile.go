package form

import (
	"errors"
	"fmt"
	"io/fs"
	"slices"
	"strings"

	"cuelang.org/go/cue"
	"cuelang.org/go/cue/ast"
	"cuelang.org/go/cue/build"
	"cuelang.org/go/cue/cuecontext"
	"cuelang.org/go/cue/literal"
	"cuelang.org/go/cue/parser"
	"cuelang.org/go/cue/token"
	"github.com/go-json-experiment/json"
	"github.com/go-json-experiment/json/jsontext"

	"cutgate/schema"
)

//go:generate env UPDATE=1 go test -run TestCompiled .

// Compile returns the content of schema/compiled.json for the schemas. The same
// schemas give the same bytes. It accepts a subset of CUE: closed groups with
// optional or required fields, embedded definitions, lists, any-name
// groups, null for outcomes, words, kinds told apart by their item, and leaf
// definitions with a @leaf attribute. Anything else is an error.
func Compile() ([]byte, error) {
	files, err := schemaFiles()
	if err != nil {
		return nil, err
	}
	var c compiled
	if c.Order, err = compileForm(files, "Order"); err != nil {
		return nil, fmt.Errorf("compile the order form: %w", err)
	}
	if c.Trade, err = tradeValue(files); err != nil {
		return nil, fmt.Errorf("work out the trade tables: %w", err)
	}
	if c.Allowances, err = allowances(files); err != nil {
		return nil, fmt.Errorf("read the allowances: %w", err)
	}
	out, err := json.Marshal(&c, json.Deterministic(true))
	if err != nil {
		return nil, fmt.Errorf("write the compiled schemas: %w", err)
	}
	return append(inRows(out), '\n'), nil
}

// inRows breaks compact JSON into lines, one for each group of the form and each
// row of a table.
func inRows(compact []byte) []byte {
	var out []byte
	depth, quoted, escaped := 0, false, false
	for _, c := range compact {
		switch {
		case escaped:
			escaped = false
		case quoted:
			quoted, escaped = c != '"', c == '\\'
		case c == '"':
			quoted = true
		case c == '{' || c == '[':
			depth++
		case c == '}' || c == ']':
			depth--
		}
		if out = append(out, c); !quoted && depth <= 3 && (c == ',' || c == '[') {
			out = append(out, '\n')
		}
	}
	return out
}

// schemaFiles parses the schemas, by name.
func schemaFiles() ([]*ast.File, error) {
	names, err := fs.Glob(schema.Files, "*.cue")
	if err != nil {
		return nil, err
	}
	slices.Sort(names)
	files := make([]*ast.File, len(names))
	for i, name := range names {
		text, err := schema.Files.ReadFile(name)
		if err != nil {
			return nil, err
		}
		if files[i], err = parser.ParseFile(name, text, parser.ParseComments); err != nil {
			return nil, fmt.Errorf("parse %s: %w", name, err)
		}
	}
	return files, nil
}

// schemaValue evaluates the schemas together.
func schemaValue(files []*ast.File) (cue.Value, error) {
	inst := build.NewContext().NewInstance("", nil)
	for _, f := range files {
		if err := inst.AddSyntax(f); err != nil {
			return cue.Value{}, err
		}
	}
	if err := inst.Complete(); err != nil {
		return cue.Value{}, err
	}
	v := cuecontext.New().BuildInstance(inst)
	return v, v.Err()
}

func tradeValue(files []*ast.File) (jsontext.Value, error) {
	v, err := schemaValue(files)
	if err != nil {
		return nil, err
	}
	v = v.LookupPath(cue.ParsePath("trade"))
	if !v.Exists() {
		return nil, nil
	}
	if err := v.Validate(cue.Concrete(true)); err != nil {
		return nil, err
	}
	return v.MarshalJSON()
}

// A compiler turns each definition into a group, once.
type compiler struct {
	defs map[string]*ast.Field
	form definition
	done map[string]bool
}

// definitions returns the schemas' definitions by name.
func definitions(files []*ast.File) map[string]*ast.Field {
	defs := map[string]*ast.Field{}
	for _, f := range files {
		for _, d := range f.Decls {
			if field, ok := d.(*ast.Field); ok {
				if name, _, err := ast.LabelName(field.Label); err == nil && strings.HasPrefix(name, "#") {
					defs[name] = field
				}
			}
		}
	}
	return defs
}

// allowances returns the fields of #Allowances, which say what a shop does when an order
// does not. Each must have a remark, except lists and groups.
func allowances(files []*ast.File) (list []allowance, err error) {
	d := definitions(files)["#Allowances"]
	if d == nil {
		return nil, nil
	}
	body, ok := d.Value.(*ast.StructLit)
	if !ok {
		return nil, at(d, "#Allowances is no group of fields")
	}
	for _, decl := range body.Elts {
		f, ok := decl.(*ast.Field)
		if !ok {
			return nil, at(decl, "%T is no allowance", decl)
		}
		switch f.Value.(type) {
		case *ast.ListLit, *ast.StructLit:
			continue
		}
		name, _, err := ast.LabelName(f.Label)
		if err != nil {
			return nil, err
		}
		a := allowance{Name: name, Says: remark(f)}
		if a.Says == "" {
			return nil, at(f, "%s has no remark that says what it is", name)
		}
		if id, ok := f.Value.(*ast.Ident); ok {
			a.Share = id.Name == "#Share"
		}
		list = append(list, a)
	}
	return list, nil
}

func compileForm(files []*ast.File, start string) (definition, error) {
	c := compiler{defs: definitions(files), done: map[string]bool{}}
	c.form.Start = start
	s, err := c.reference("#" + start)
	if err == nil && s.Group != start {
		err = fmt.Errorf("#%s is no group of fields", start)
	}
	return c.form, err
}

// at adds to an error its place in the schemas.
func at(n ast.Node, format string, args ...any) error {
	return fmt.Errorf("%v: %s", n.Pos(), fmt.Sprintf(format, args...))
}

// reference compiles the definition that a name refers to.
func (c *compiler) reference(name string) (Shape, error) {
	def, ok := c.defs[name]
	if !ok {
		return Shape{}, fmt.Errorf("%s is not defined", name)
	}
	for _, a := range def.Attrs {
		if key, body := a.Split(); key == "leaf" {
			return Shape{Leaf: body}, nil
		}
	}
	return c.shape(def.Value, name[1:])
}

// shape compiles an expression; a group in it gets the given name.
func (c *compiler) shape(e ast.Expr, name string) (Shape, error) {
	switch e := e.(type) {
	case *ast.ParenExpr:
		return c.shape(e.X, name)
	case *ast.Ident:
		return c.reference(e.Name)
	case *ast.BasicLit:
		word, err := literal.Unquote(e.Value)
		if e.Kind != token.STRING || err != nil {
			return Shape{}, at(e, "%s is no word", e.Value)
		}
		return Shape{Words: []string{word}}, nil
	case *ast.BinaryExpr:
		return c.choice(e, name)
	case *ast.ListLit:
		return c.list(e, name)
	case *ast.StructLit:
		if of := anyName(e); of != nil {
			s, err := c.shape(of, name)
			return Shape{Named: &s}, err
		}
		return Shape{Group: name}, c.group(e, name)
	}
	return Shape{}, at(e, "%T is more than the order form may say", e)
}

// choice compiles a disjunction.
func (c *compiler) choice(e *ast.BinaryExpr, name string) (Shape, error) {
	var all Shape
	var rest []Shape
	for _, x := range alternatives(e) {
		if lit, ok := x.(*ast.BasicLit); ok && lit.Kind == token.NULL {
			all.Blank = true
			continue
		}
		s, err := c.shape(x, name)
		if err != nil {
			return Shape{}, err
		}
		rest = append(rest, s)
	}
	switch {
	case len(rest) == 1:
		blank := all.Blank
		all = rest[0]
		all.Blank = blank
	case !slices.ContainsFunc(rest, func(s Shape) bool { return s.Words == nil || s.Blank }):
		for _, s := range rest {
			all.Words = append(all.Words, s.Words...)
		}
	case !slices.ContainsFunc(rest, func(s Shape) bool { return s.Group == "" }):
		for _, s := range rest {
			all.Kinds = append(all.Kinds, s.Group)
		}
		all.By = "item"
	default:
		return Shape{}, at(e, "a choice is between words, or between kinds of item")
	}
	return all, nil
}

// alternatives returns the operands of a disjunction, in order.
func alternatives(e ast.Expr) []ast.Expr {
	if or, ok := e.(*ast.BinaryExpr); ok && or.Op == token.OR {
		return append(alternatives(or.X), alternatives(or.Y)...)
	}
	return []ast.Expr{e}
}

// list compiles [...T] and [T, ...T].
func (c *compiler) list(e *ast.ListLit, name string) (Shape, error) {
	n := len(e.Elts)
	if n == 0 || n > 2 {
		return Shape{}, at(e, "a list is [...T] or [T, ...T]")
	}
	more, ok := e.Elts[n-1].(*ast.Ellipsis)
	if !ok || more.Type == nil {
		return Shape{}, at(e, "a list is [...T] or [T, ...T]")
	}
	s, err := c.shape(more.Type, name)
	return Shape{List: &s, Least: n - 1}, err
}

// anyName returns T of [string]: T, or nil.
func anyName(e *ast.StructLit) ast.Expr {
	if len(e.Elts) != 1 {
		return nil
	}
	f, ok := e.Elts[0].(*ast.Field)
	if !ok {
		return nil
	}
	if label, ok := f.Label.(*ast.ListLit); ok && len(label.Elts) == 1 {
		if id, ok := label.Elts[0].(*ast.Ident); ok && id.Name == "string" {
			return f.Value
		}
	}
	return nil
}

// group compiles a closed group of fields.
func (c *compiler) group(e *ast.StructLit, name string) error {
	if c.done[name] {
		return nil
	}
	c.done[name] = true
	// Groups are listed in the order the form first uses them.
	place := len(c.form.Groups)
	c.form.Groups = append(c.form.Groups, Group{Name: name})
	fields, err := c.fields(e, name)
	c.form.Groups[place].Fields = fields
	return err
}

func (c *compiler) fields(e *ast.StructLit, name string) ([]Field, error) {
	var fields []Field
	for _, d := range e.Elts {
		switch d := d.(type) {
		case *ast.CommentGroup:
		case *ast.EmbedDecl:
			id, ok := d.Expr.(*ast.Ident)
			if !ok || c.defs[id.Name] == nil {
				return nil, at(d, "only definitions are embedded")
			}
			inner, ok := c.defs[id.Name].Value.(*ast.StructLit)
			if !ok {
				return nil, at(d, "%s is no group of fields", id.Name)
			}
			more, err := c.fields(inner, id.Name[1:])
			if err != nil {
				return nil, err
			}
			fields = append(fields, more...)
		case *ast.Field:
			label, _, err := ast.LabelName(d.Label)
			if err != nil {
				return nil, at(d, "a field has a plain name")
			}
			if d.Constraint == token.ILLEGAL {
				return nil, at(d, "%s must say ? or !", label)
			}
			s, err := c.shape(d.Value, name+"."+label)
			if err != nil {
				return nil, err
			}
			fields = append(fields, Field{Name: label, Need: d.Constraint == token.NOT, Is: s, Says: remark(d)})
		default:
			return nil, at(d, "%T is more than a group of fields may say", d)
		}
	}
	if len(fields) == 0 {
		return nil, errors.New(name + " has no fields")
	}
	return fields, nil
}

// remark returns the comment at the end of a field's line, or "".
func remark(f *ast.Field) (text string) {
	if _, ok := f.Value.(*ast.StructLit); ok {
		return "" // the comments inside a struct belong to its fields
	}
	ast.Walk(f, func(n ast.Node) bool {
		for _, c := range ast.Comments(n) {
			if c.Line {
				text = strings.TrimSpace(c.Text())
			}
		}
		return true
	}, nil)
	return text
}
