package house

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"cuelang.org/go/cue"
	"cuelang.org/go/cue/ast"
	"cuelang.org/go/cue/errors"
	"cuelang.org/go/cue/literal"
	"cuelang.org/go/cue/token"

	"cutgate/internal/finding"
)

// A Rule is a rule of the shop's own.
type Rule struct {
	ID      string // house/slug
	Level   finding.Level
	Items   []string // the kinds of item that it speaks of; all where there are none
	Message string   // with paths in braces
	Because string   // "" where the shop gives no reason
	Source  string   // who says so; "" for the shop
	Line    int      // that it stands on

	at    []step // the field to point at; none for the item
	paths [][]step
	pool  *pool
	index int // among the rules of its pool
}

// Title is what the rule is about, from its name: deep hems.
func (r *Rule) Title() string {
	return strings.ReplaceAll(r.slug(), "-", " ")
}

// slug is the rule's name in its topic.
func (r *Rule) slug() string { return strings.TrimPrefix(r.ID, ownTopic+"/") }

// inBraces finds the paths in a message.
var inBraces = regexp.MustCompile(`\{([^{}]*)\}`)

// rules reads the shop's own rules, and holds what they name against what there
// is. One without the shape of a rule was reported.
func (r *reader) rules(v, shape cue.Value) error {
	b := &pool{name: r.src.Name, text: r.src.Text[r.base:], whole: r.src.Text, unit: r.house.unit}
	for slug, own := range fields(v) {
		if own.Unify(shape).Validate() != nil {
			continue
		}
		p := path("rules", slug)
		var says struct {
			Level, At, Message, Because, Source string
			Items                               []string
		}
		for name, to := range map[string]any{"level": &says.Level, "at": &says.At, "message": &says.Message, "because": &says.Because, "source": &says.Source, "items": &says.Items} {
			if err := decode(field(own, name), to); err != nil {
				return fmt.Errorf("rule %s: %w", slug, err)
			}
		}
		rule := &Rule{
			ID: ownTopic + "/" + slug, Level: finding.Warning, Items: says.Items, Message: says.Message, Because: says.Because, Source: says.Source,
			Line: r.line(p), pool: b, index: len(b.rules),
		}
		if level, err := finding.ParseLevel(says.Level); err == nil {
			rule.Level = level
		}
		if !r.known(says.Items, path(p, "items")) {
			continue // what such an item has can't be said
		}
		parts, err := r.house.partsOf(says.Items)
		if err != nil {
			return err
		}
		if says.At != "" {
			rule.at = r.named(parts, says.At, path(p, "at"))
		}
		for _, m := range inBraces.FindAllStringSubmatch(says.Message, -1) {
			rule.paths = append(rule.paths, r.named(parts, m[1], path(p, "message")))
		}
		for _, name := range []string{"when", "check"} {
			v := field(own, name)
			e := r.places[path(p, name)].expr
			switch {
			case e == nil && !v.Exists():
				continue
			case e == nil || whole(e):
				b.keep.all = true
			default:
				b.keep.of(e)
			}
			r.names(parts, e, path(p, name), "")
			r.constraint(parts, v, path(p, name), "")
			r.references(v)
			r.roundabout(own, slug, e)
		}
		b.rules = append(b.rules, rule)
	}
	if len(b.rules) == 0 {
		return nil
	}
	r.house.Rules = b.rules
	return nil
}

// known files kinds of item that there are none of, and reports whether all can be had. One
// of the shop's own that is declared wrong was reported already.
func (r *reader) known(items []string, p string) bool {
	words, all := r.house.Words(), true
	for i, kind := range items {
		if slices.Contains(words, kind) {
			continue
		}
		if all = false; !slices.Contains(r.declares, kind) {
			r.fault(r.value(element(p, i)), "there is no kind of goods %q%s", kind, hint(kind, words, "one of "+and(words)))
		}
	}
	return all
}

// named returns the steps of a path, and files one that leads nowhere. p is
// where the path is written.
func (r *reader) named(parts *part, said, p string) []step {
	way, ok := steps(said)
	if !ok {
		r.fault(r.value(p), "%q is not the path of a field: write one such as hems.bottom.turn", said)
		return nil
	}
	found, lacks, has := parts.find(way)
	if found == nil {
		r.fault(r.value(p), "%s leads nowhere: there is no %s%s", said, lacks, hint(lacks, has, few(has)))
		return nil
	}
	return way
}

// references files references that lead nowhere. A field of the item can be
// referred to where the constraint names it, if only with _.
func (r *reader) references(v cue.Value) {
	for _, e := range errors.Errors(v.Validate(cue.Concrete(true))) {
		if format, args := e.Msg(); strings.HasPrefix(format, "undefined field") && len(args) > 0 {
			r.fault(r.offset(e.Position()), "there is no %v to refer to: name the field in the rule too, as in finished: length: _", args[0])
		}
	}
}

// roundabout files references by which a rule reads what it says itself, as
// rules.short.check.finished.length, where it means what the item has.
func (r *reader) roundabout(rule cue.Value, slug string, e ast.Expr) {
	if e == nil {
		return
	}
	ast.Walk(e, func(n ast.Node) bool {
		x, ok := n.(ast.Expr)
		if !ok {
			return true
		}
		way := wayOf(x)
		if len(way) < 4 || way[0] != "rules" || way[1] != slug || way[2] != "when" && way[2] != "check" {
			return true
		}
		var sels []cue.Selector
		for _, name := range way[2:] {
			sels = append(sels, cue.Str(name))
		}
		if to := rule.LookupPath(cue.MakePath(sels...)); to.Exists() && !to.IsConcrete() {
			r.fault(r.offset(x.Pos()), "%s is what the rule says, and never what an item has: write %s", strings.Join(way, "."), strings.Join(way[3:], "."))
		}
		return false
	}, nil)
}

// wayOf is the names of a path that is written out from a name of the file, as
// rules.short.check or rules["short"].check; nil for anything else.
func wayOf(e ast.Expr) []string {
	switch e := e.(type) {
	case *ast.Ident:
		if e.Node != nil {
			return []string{e.Name}
		}
	case *ast.SelectorExpr:
		if name, _, err := ast.LabelName(e.Sel); err == nil {
			if way := wayOf(e.X); way != nil {
				return append(way, name)
			}
		}
	case *ast.IndexExpr:
		if lit, ok := e.Index.(*ast.BasicLit); ok && lit.Kind == token.STRING {
			if name, err := literal.Unquote(lit.Value); err == nil {
				if way := wayOf(e.X); way != nil {
					return append(way, name)
				}
			}
		}
	}
	return nil
}

// few lists what can be named, where it is not too much to list.
func few(names []string) string {
	if len(names) == 0 || len(names) > 16 {
		return ""
	}
	return "there is " + and(names)
}

// names files names in a constraint that no item has, wherever they are written
// out: under a condition too. p is where it is written, in is its path from the
// item.
func (r *reader) names(at *part, e ast.Expr, p, in string) {
	switch e := e.(type) {
	case *ast.Ident:
		if of := r.enter(e); of != nil {
			r.names(at, of, p, in)
			r.leave()
		}
	case *ast.ParenExpr:
		r.names(at, e.X, p, in)
	case *ast.BinaryExpr:
		r.names(at, e.X, p, in)
		r.names(at, e.Y, p, in)
	case *ast.ListLit:
		for i, x := range e.Elts {
			if more, ok := x.(*ast.Ellipsis); ok && at.list != nil {
				r.names(at.list, more.Type, p, element(in, 0))
			} else if at.list != nil {
				r.names(at.list, x, element(p, i), element(in, i))
			}
		}
	case *ast.StructLit:
		for _, d := range e.Elts {
			switch d := d.(type) {
			case *ast.EmbedDecl:
				r.names(at, d.Expr, p, in)
			case *ast.Comprehension:
				r.names(at, d.Value, p, in)
			case *ast.Field:
				name, _, err := ast.LabelName(d.Label)
				if err != nil || strings.HasPrefix(name, "_") || strings.HasPrefix(name, "#") {
					continue
				}
				if to := r.field(at, name, r.offset(d.Label.Pos()), in); to != nil {
					r.bare(to, d.Value, path(in, name))
					r.names(to, d.Value, path(p, name), path(in, name))
				}
			}
		}
	}
}

// bare files the numbers that a length is compared with where nothing says what they
// are in. A length is nothing in every unit, and what it is divided by has none.
func (r *reader) bare(at *part, e ast.Expr, in string) {
	if !at.length || r.unitSaid {
		return
	}
	switch e := e.(type) {
	case *ast.Ident:
		if of := r.enter(e); of != nil {
			r.bare(at, of, in)
			r.leave()
		}
	case *ast.ParenExpr:
		r.bare(at, e.X, in)
	case *ast.UnaryExpr:
		r.bare(at, e.X, in)
	case *ast.BinaryExpr:
		if e.Op != token.MUL && e.Op != token.QUO {
			r.bare(at, e.X, in)
			r.bare(at, e.Y, in)
		}
	case *ast.BasicLit:
		if (e.Kind == token.INT || e.Kind == token.FLOAT) && strings.Trim(e.Value, "0.") != "" {
			r.fault(r.offset(e.Pos()), "%s is a length, and nothing says what %s is in: add units: \"in\", \"cm\" or \"mm\" to this file", in, e.Value)
		}
	}
}

// enter returns what a name stands for that the file itself gives to a value, with let
// or as a field of its own; nil for any other, and for one that is being followed.
func (r *reader) enter(name *ast.Ident) ast.Expr {
	own := name.Name != "_" && (strings.HasPrefix(name.Name, "_") || strings.HasPrefix(name.Name, "#"))
	var of ast.Expr
	switch n := name.Node.(type) {
	case *ast.LetClause:
		of = n.Expr
	case *ast.Field:
		if own {
			of = n.Value
		}
	case ast.Expr:
		if own {
			of = n
		}
	}
	if of == nil || slices.Contains(r.following, of) {
		return nil
	}
	r.following = append(r.following, of)
	return of
}

// leave ends what enter began.
func (r *reader) leave() { r.following = r.following[:len(r.following)-1] }

// field returns the part of that name, or files that there is none.
func (r *reader) field(of *part, name string, at int, in string) *part {
	to := of.fields[name]
	if to == nil {
		to = of.any
	}
	if to == nil && of.kind&cue.StructKind != 0 {
		r.fault(at, "no item has %s%s", path(in, name), hint(name, of.names, few(of.names)))
	}
	return to
}

// constraint files names in a constraint that no item has, and values of
// another kind than the field's. p is where it is written, in is its path from
// the item.
func (r *reader) constraint(at *part, v cue.Value, p, in string) {
	if !v.Exists() {
		return
	}
	if op, args := v.Expr(); op == cue.OrOp || op == cue.AndOp {
		for _, a := range args {
			r.constraint(at, a, p, in)
		}
		return
	}
	kind := v.IncompleteKind()
	if kind == cue.BottomKind {
		return // what is wrong with it was told, or hangs on an item's value
	}
	if kind&at.kind == 0 {
		r.fault(r.position(v, p), "%s is %s: it can't be %s", in, kindWords(at), a(kind))
		return
	}
	switch {
	case kind == cue.StructKind:
		r.constraints(at, v, p, in)
	case kind == cue.ListKind && at.list != nil:
		if any := v.LookupPath(cue.MakePath(cue.AnyIndex)); any.Exists() {
			r.constraint(at.list, any, p, element(in, 0))
		}
		list, err := v.List()
		for i := 0; err == nil && list.Next(); i++ {
			r.constraint(at.list, list.Value(), element(p, i), element(in, i))
		}
	case at.words != nil:
		if s, err := v.String(); err == nil && !slices.Contains(at.words, s) {
			r.fault(r.position(v, p), "%s is never %q%s", in, s, hint(s, at.words, "it is one of "+or(at.words)))
		}
	}
}

// constraints files what is wrong in the fields of a group.
func (r *reader) constraints(at *part, v cue.Value, p, in string) {
	for it, err := v.Fields(cue.Optional(true), cue.Patterns(true)); err == nil && it.Next(); {
		sel := it.Selector()
		if sel.ConstraintType() == cue.PatternConstraint {
			if at.any != nil {
				r.constraint(at.any, it.Value(), p, in+"[string]")
			}
			continue
		}
		name := sel.Unquoted()
		if to := at.fields[name]; to != nil {
			r.constraint(to, it.Value(), path(p, name), path(in, name))
		} else if at.any != nil {
			r.constraint(at.any, it.Value(), path(p, name), path(in, name))
		} else if _, ok := r.places[path(p, name)]; !ok { // it came by a reference, so that no other place was reported
			told := len(r.faults)
			r.field(at, name, r.key(path(p, name)), in)
			if len(r.faults) > told && slices.ContainsFunc(r.faults[:told], func(f Fault) bool { return f.Message == r.faults[told].Message }) {
				r.faults = r.faults[:told] // it was reported where it is written
			}
		}
	}
}

// position is where a value is written, or else where the field with the path p
// is.
func (r *reader) position(v cue.Value, p string) int {
	if pos := v.Pos(); pos.IsValid() && pos.Filename() == r.src.Name {
		if at, ok := r.places[p]; ok && at.key == r.offset(pos) {
			return at.value
		}
		return r.offset(pos)
	}
	return r.value(p)
}

// kindWords says what kind of value a field has.
func kindWords(p *part) string {
	switch p.kind {
	case cue.NumberKind:
		return "a plain number"
	case cue.StringKind:
		return "words in quotes"
	case cue.BoolKind:
		return "true or false"
	case cue.ListKind:
		return "a list"
	case cue.StructKind:
		return "a group of fields in braces"
	}
	return "something else"
}

func a(kind cue.Kind) string { return kindWords(&part{kind: numbers(kind)}) }

// numbers takes whole numbers and others for numbers.
func numbers(kind cue.Kind) cue.Kind {
	if kind&^cue.NumberKind == 0 {
		return cue.NumberKind
	}
	return kind
}
