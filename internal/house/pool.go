package house

import (
	"fmt"
	"reflect"
	"slices"
	"strings"
	"sync"

	"cuelang.org/go/cue"
	"cuelang.org/go/cue/cuecontext"
	"cuelang.org/go/cue/errors"
	"cuelang.org/go/cue/format"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

// maxUses is how many orders an evaluator is used for: it keeps a little of
// each.
const maxUses = 5000

// A pool has the evaluators of a house's own rules. Each is used by one
// goroutine at a time.
type pool struct {
	name, text string
	whole      string // the text with its byte-order mark
	unit       length.Unit
	rules      []*Rule
	keep       keep   // what the rules speak of
	apart      *apart // nil where the rules only compare, and are evaluated in this process
	idle       sync.Pool
}

// An evaluator has the rules' constraints, and the items of the order that it
// saw last, as the rules of one order come one after the other.
type evaluator struct {
	ctx   *cue.Context
	when  []cue.Value // by rule; not existing where a rule has none
	check []cue.Value
	uses  int
	sheet *worksheet.Sheet
	items []seen
	away  *process // in place of the context and the constraints
}

// seen is an item as the rules see it.
type seen struct {
	value value
	cue   cue.Value // where it is evaluated in this process
	text  string    // as CUE, where it is not
}

// take returns an evaluator that looks at the sheet.
func (b *pool) take(s *worksheet.Sheet) (*evaluator, error) {
	e, _ := b.idle.Get().(*evaluator)
	if e == nil || e.uses > maxUses {
		if b.apart == nil {
			e = b.make()
		} else {
			away, err := b.apart.take(b)
			if err != nil {
				return nil, err
			}
			e = &evaluator{away: away}
		}
	}
	if e.sheet != s {
		e.uses++
		e.sheet, e.items = s, make([]seen, len(s.Items))
		if e.away != nil {
			e.away.left = orderWithin
		}
	}
	return e, nil
}

// make starts an evaluator.
func (b *pool) make() *evaluator {
	e := &evaluator{ctx: cuecontext.New()}
	all := e.ctx.CompileString(b.text, cue.Filename(b.name))
	for _, r := range b.rules {
		v := field(field(all, "rules"), r.slug())
		e.when = append(e.when, field(v, "when"))
		e.check = append(e.check, field(v, "check"))
	}
	return e
}

// item returns an item as the rules see it.
func (b *pool) item(e *evaluator, i int) *seen {
	it := &e.items[i]
	if it.value.kids == nil {
		it.value = newViewer(e.sheet, b.unit).item(&e.sheet.Items[i])
		if e.away == nil {
			it.cue = e.ctx.BuildExpr(it.value.syntax(&b.keep))
		} else if text, err := format.Node(it.value.syntax(&b.keep)); err == nil { // it is sound, as it was made here
			it.text = string(text)
		}
	}
	return it
}

// Check returns where the order's items don't agree with the rule. The findings
// bear its level; who files them stamps its name. The error is an [*Error] where the
// rule takes more than it may to evaluate.
func (r *Rule) Check(s *worksheet.Sheet) (found []finding.Finding, err error) {
	var e *evaluator
	var list []*seen
	var items []*worksheet.Item
	for i := range s.Items {
		it := &s.Items[i]
		if it.Unread || !it.Order.Kind.Set || len(r.Items) > 0 && !slices.Contains(r.Items, it.Order.Kind.Value) {
			continue
		}
		if e == nil {
			if e, err = r.pool.take(s); err != nil {
				return nil, err
			}
		}
		list, items = append(list, r.pool.item(e, i)), append(items, it)
	}
	if e == nil {
		return nil, nil
	}
	answers, err := r.answers(e, list)
	if err != nil {
		return nil, err
	}
	for i := range answers {
		if broken := breaches(&answers[i], list[i]); len(broken) > 0 {
			found = append(found, r.finding(s, items[i], &list[i].value, broken))
		}
	}
	r.pool.idle.Put(e)
	return found, nil
}

// answers holds items against the rule.
func (r *Rule) answers(e *evaluator, list []*seen) ([]answer, error) {
	answers := make([]answer, len(list))
	if e.away == nil {
		for i, it := range list {
			answers[i] = evaluate(e.when[r.index], e.check[r.index], it.cue)
		}
		return answers, nil
	}
	req := request{Rule: r.index}
	for _, it := range list {
		req.Items = append(req.Items, it.text)
	}
	e.away.line = r.Line
	answers, err := e.away.ask(r.pool.name, req, orderWithin)
	if err == nil && len(answers) != len(list) {
		err = fmt.Errorf("evaluating %s: %d answers for %d items", r.pool.name, len(answers), len(list))
	}
	if err != nil {
		return nil, r.pool.apart.breaks(err)
	}
	return answers, nil
}

// agrees reports whether an item has all that when names, and agrees with it.
func agrees(when, item cue.Value) bool {
	both := when.Unify(item)
	return both.Validate(cue.Concrete(true)) == nil && within(both, item)
}

// within reports whether all fields of a value are fields of another.
func within(v, of cue.Value) bool {
	if v.IncompleteKind() != cue.StructKind {
		return true
	}
	for it, err := v.Fields(cue.Optional(true)); err == nil && it.Next(); {
		sel := it.Selector()
		if sel.ConstraintType() == cue.OptionalConstraint {
			continue
		}
		if to := field(of, sel.Unquoted()); !to.Exists() || !within(it.Value(), to) {
			return false
		}
	}
	return true
}

// A breach is where an item doesn't agree with a rule.
type breach struct {
	path  string
	wants []string // what the rule wants there; none where a field is lacking, or where it can't be told
	lacks bool
}

// clashes returns where an item doesn't agree with a constraint.
func clashes(check, item cue.Value) (a answer) {
	both := check.Unify(item)
	for _, err := range errors.Errors(both.Validate()) {
		c := clash{Path: pathOf(check, err)}
		format, args := err.Msg()
		if invalid := strings.HasPrefix(format, "invalid value"); len(args) > 1 && (invalid || strings.HasPrefix(format, "conflicting values")) {
			c.Invalid, c.First, c.Second = invalid, fmt.Sprint(args[0]), fmt.Sprint(args[1])
		}
		a.Clashes = append(a.Clashes, c)
	}
	a.Lacks = lacking(nil, both, item, "")
	return a
}

// breaches says what an answer comes to for an item.
func breaches(a *answer, it *seen) []breach {
	var list []breach
	for j := range a.Clashes {
		c := &a.Clashes[j]
		i := slices.IndexFunc(list, func(b breach) bool { return b.path == c.Path })
		if i < 0 {
			i = len(list)
			list = append(list, breach{path: c.Path})
		}
		if want := c.wants(&it.value); want != "" && !slices.Contains(list[i].wants, want) {
			list[i].wants = append(list[i].wants, want)
		}
	}
	// Of a choice between groups, the parts say more than the whole.
	if told := slices.DeleteFunc(slices.Clone(list), func(b breach) bool { return len(b.wants) == 0 }); len(told) > 0 {
		list = told
	}
	for _, p := range a.Lacks {
		list = append(list, breach{path: p, lacks: true})
	}
	return list
}

// lacking adds the fields that are marked with ! and are not there, of the
// groups that the item has.
func lacking(list []string, v, item cue.Value, p string) []string {
	if v.IncompleteKind() != cue.StructKind {
		return list
	}
	for it, err := v.Fields(cue.Optional(true)); err == nil && it.Next(); {
		name := it.Selector().Unquoted()
		switch it.Selector().ConstraintType() {
		case cue.RequiredConstraint:
			list = append(list, path(p, name))
		case cue.OptionalConstraint:
		default:
			if of := field(item, name); of.Exists() {
				list = lacking(list, it.Value(), of, path(p, name))
			}
		}
	}
	return list
}

// pathOf is the path of an error from the item.
func pathOf(check cue.Value, err errors.Error) string {
	names := err.Path()
	names = names[min(len(check.Path().Selectors()), len(names)):]
	p := ""
	for _, n := range names {
		if strings.Trim(n, "0123456789") == "" && p != "" {
			p += "[" + n + "]"
			continue
		}
		p = path(p, strings.Trim(n, `"`))
	}
	return p
}

// wants is what a constraint wants in the place of an item's value, as it is
// written; "" where that can't be told.
func (c *clash) wants(item *value) string {
	if c.Invalid {
		return c.Second
	}
	way, _ := steps(c.Path)
	if v := item.find(way); v != nil && (c.First == v.text || c.First == fmt.Sprintf("%q", v.text)) {
		return c.Second
	}
	return c.First
}

// finding says that an item doesn't agree with the rule.
func (r *Rule) finding(s *worksheet.Sheet, it *worksheet.Item, item *value, broken []breach) finding.Finding {
	f := finding.Finding{Level: r.Level, At: it.Order.Kind.At, Message: r.say(item), Source: r.origin()}
	if len(r.at) > 0 {
		at, node := placeOf(s, it, r.at)
		if !at.IsZero() {
			f.At = at
		}
		if node != nil {
			f.Stated = node.Text
		}
	}
	for _, b := range broken {
		f.Working = append(f.Working, b.say(item))
	}
	return f
}

// origin says where the rule is written, who says so and why.
func (r *Rule) origin() string {
	s := fmt.Sprintf("house rules, %s:%d", r.pool.name, r.Line)
	if r.Because != "" {
		s += ": " + r.Because
	}
	if r.Source != "" {
		s += "; " + r.Source
	}
	return s
}

// say is the rule's message, with the values in for their paths.
func (r *Rule) say(item *value) string {
	i := -1
	return inBraces.ReplaceAllStringFunc(r.Message, func(string) string {
		i++
		return shownAt(item, r.paths[i])
	})
}

// shownAt is the value at the end of a way, as people read it.
func shownAt(item *value, way []step) string {
	v := item.find(way)
	switch {
	case v == nil:
		return "none"
	case v.form == order.Map && v.kid("known_as") != nil:
		return v.kid("known_as").said
	case v.form == order.Map || v.form == order.List:
		var said []string
		for i := range v.kids {
			k := shownAt(&v.kids[i], nil)
			if v.form == order.Map {
				k = v.kids[i].name + " " + k
			}
			said = append(said, k)
		}
		return strings.Join(said, ", ")
	}
	return v.said
}

// say says the breach with the numbers that were compared.
func (b *breach) say(item *value) string {
	way, _ := steps(b.path)
	v := item.find(way)
	switch {
	case b.path == "":
		return "the item does not agree with the rule"
	case b.lacks || v == nil:
		return b.path + " is not stated"
	case v.text == "" && len(b.wants) == 0:
		return b.path + " does not agree with the rule"
	case len(b.wants) == 0:
		return b.path + ": " + v.text + " does not agree with the rule"
	}
	return b.path + ": " + v.text + ", wanted " + or(b.wants)
}

// placeOf is where a field of the item stands, or would go: of the order for
// one of the docket, of the cloth for one of its cloth. It is zero where the
// order has no such place. The node is that of a leaf that is stated.
func placeOf(s *worksheet.Sheet, it *worksheet.Item, way []step) (at source.Range, node *order.Node) {
	from := reflect.ValueOf(it.Order).Elem()
	if way[0].name == "docket" && len(way) > 1 {
		from, way = reflect.ValueOf(s.Order).Elem(), way[1:]
	}
	for _, w := range way {
		if leaf, ok := from.Addr().Interface().(*order.Text); ok { // the name of a cloth
			c := s.Cloth(leaf.Value)
			if c == nil || w.name == "known_as" {
				return at, node
			}
			from = reflect.ValueOf(c.Order).Elem()
			at, node = whereabouts(from)
		}
		next, ok := down(from, w)
		if !ok {
			return at, node
		}
		if from = next; from.Kind() == reflect.Struct { // a list stands where its group does
			at, node = whereabouts(from)
		}
	}
	return at, node
}

// down goes one step into a block, a list or a group of entries.
func down(from reflect.Value, s step) (reflect.Value, bool) {
	switch from.Kind() {
	case reflect.Struct:
		t := from.Type()
		for i := range t.NumField() {
			if t.Field(i).Tag.Get("form") == s.name {
				return from.Field(i), true
			}
		}
	case reflect.Slice:
		for i := range from.Len() {
			e := from.Index(i)
			of := e.FieldByName("Of")
			switch {
			case s.name == "" && i == s.index && !of.IsValid():
				return e, true
			case s.name != "" && of.IsValid() && e.FieldByName("Name").String() == s.name:
				return of, true
			}
		}
	}
	return reflect.Value{}, false
}

// whereabouts is where a leaf or a block stands, or would go.
func whereabouts(v reflect.Value) (at source.Range, node *order.Node) {
	at, _ = v.FieldByName("At").Interface().(source.Range)
	if n := v.FieldByName("Node"); n.IsValid() {
		node, _ = n.Interface().(*order.Node)
	}
	if key := v.FieldByName("Key"); key.IsValid() {
		if r, _ := key.Interface().(source.Range); !r.IsZero() {
			at = r
		}
	}
	return at, node
}
