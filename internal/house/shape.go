package house

import "cuelang.org/go/cue"

// check holds a value against its shape, field by field, so that everything that
// is wrong is reported at once and in the words of the file. p is the value's path.
func (r *reader) check(shape, v cue.Value, p string) {
	switch {
	case shape.IncompleteKind() == cue.StructKind:
		if open(shape) && v.IncompleteKind() == cue.BottomKind {
			return // a constraint that hangs on what an item has
		}
		if v.IncompleteKind() != cue.StructKind {
			r.unlike(shape, v, p)
			return
		}
		r.checkGroup(shape, v, p)
	case shape.IncompleteKind() == cue.ListKind:
		if v.IncompleteKind() != cue.ListKind {
			r.unlike(shape, v, p)
			return
		}
		r.checkList(shape, v, p)
	default:
		if !v.IsConcrete() {
			says, _ := wanted(shape)
			r.fault(r.value(p), "%s is not a plain value: write %s", p, says)
			return
		}
		if v.Unify(shape).Validate(cue.Concrete(true)) != nil {
			r.unlike(shape, v, p)
		}
	}
}

// unlike files a value that is not what belongs there.
func (r *reader) unlike(shape, v cue.Value, p string) {
	says, words := wanted(shape)
	if s, err := v.String(); err == nil {
		if n := nearest(s, words); n != "" {
			r.fault(r.value(p), "%s is %q: did you mean %q?", p, s, n)
			return
		}
		r.fault(r.value(p), "%s is %q: it takes %s", p, s, says)
		return
	}
	r.fault(r.value(p), "%s takes %s", p, says)
}

func (r *reader) checkGroup(shape, v cue.Value, p string) {
	if open(shape) {
		return // constraints, which are looked at with the rule
	}
	given := map[string]bool{}
	for name, said := range fields(v) {
		given[name] = true
		of, names := r.fieldOf(shape, name)
		if !of.Exists() {
			r.unknown(p, name, names)
			continue
		}
		r.check(of, said, path(p, name))
	}
	for it, err := shape.Fields(cue.Optional(true)); err == nil && it.Next(); {
		if it.Selector().ConstraintType() == cue.RequiredConstraint && !given[it.Selector().Unquoted()] {
			says, _ := wanted(it.Value())
			r.fault(r.key(p), "%s needs %s: %s", p, it.Selector().Unquoted(), says)
		}
	}
}

// unknown files a name that the group does not have.
func (r *reader) unknown(p, name string, names []string) {
	in := p
	if in == "" {
		in = "house rules"
	}
	if len(names) == 0 {
		r.fault(r.key(path(p, name)), "%s can't have %s: a name is small letters and digits, with hyphens between words", in, name)
		return
	}
	otherwise := ""
	if len(names) < 16 {
		otherwise = "it may have " + and(names)
	}
	r.fault(r.key(path(p, name)), "there is no %s in %s%s", name, in, hint(name, names, otherwise))
}

// open reports whether any fields may stand in a group.
func open(shape cue.Value) bool {
	it, err := shape.Fields(cue.Optional(true), cue.Patterns(true))
	return err == nil && !it.Next()
}

// fieldOf returns the shape of the field of that name, which does not exist
// where the group has no such field, and the names that the group has.
func (r *reader) fieldOf(shape cue.Value, name string) (of cue.Value, names []string) {
	for it, err := shape.Fields(cue.Optional(true), cue.Patterns(true)); err == nil && it.Next(); {
		sel := it.Selector()
		if sel.ConstraintType() == cue.PatternConstraint {
			pattern := sel.Pattern()
			if pattern.Unify(r.ctx.Encode(name)).Validate(cue.Concrete(true)) == nil {
				return it.Value(), nil
			}
			names = append(names, wordsOf(pattern)...)
			continue
		}
		if sel.Unquoted() == name {
			return it.Value(), nil
		}
		names = append(names, sel.Unquoted())
	}
	return cue.Value{}, names
}

func (r *reader) checkList(shape, v cue.Value, p string) {
	of := shape.LookupPath(cue.MakePath(cue.AnyIndex))
	list, err := v.List()
	if err != nil {
		r.unlike(shape, v, p)
		return
	}
	n := 0
	for ; list.Next(); n++ {
		r.check(of, list.Value(), element(p, n))
	}
	if n == 0 && v.Unify(shape).Validate() != nil {
		r.fault(r.value(p), "%s is empty: leave it out, or name one", p)
	}
}
