package house

import (
	"errors"
	"slices"
	"strings"

	"cuelang.org/go/cue"

	"cutgate/internal/form"
	"cutgate/internal/goods"
	"cutgate/internal/worksheet"
)

// kinds reads the shop's own kinds of goods.
func (r *reader) kinds(v cue.Value) error {
	all := goods.All()
	var asked []form.Kind
	for name, kind := range fields(v) {
		d, f := &goods.Declared{Name: name}, form.Kind{Name: name}
		p := path("kinds", d.Name)
		r.declares = append(r.declares, d.Name)
		if goods.All().Knows(d.Name) {
			r.fault(r.key(p), "%q is a kind that cutgate has itself: give yours another name", d.Name)
			continue
		}
		if err := r.declared(d, &f, kind); err != nil {
			return err
		}
		k, err := goods.Declare(d)
		if err == nil {
			var with *worksheet.Kinds
			if with, err = all.With(k); err == nil {
				all, asked = with, append(asked, f)
			}
		}
		if err != nil {
			r.misdeclared(p, d, err)
		}
	}
	if len(asked) == 0 || len(r.faults) > 0 {
		return nil
	}
	var err error
	if r.house.Form, err = form.With(asked); err != nil {
		return err
	}
	r.house.Own = r.declares
	r.house.Kinds, r.house.parts = all, kindsOf(r.house.Form, all)
	return nil
}

// declared reads one kind, and what its items are asked.
func (r *reader) declared(d *goods.Declared, f *form.Kind, v cue.Value) error {
	for role, named := range fields(field(v, "cloths")) {
		path, _ := named.String()
		d.Cloths = append(d.Cloths, goods.DeclaredCloth{Role: role, Field: path})
		f.Fields = append(f.Fields, form.KindField{Path: path, Says: "cloth of the " + role})
	}
	for term, said := range fields(field(v, "choices")) {
		c := goods.DeclaredChoice{Term: term}
		if err := decode(said, &c); err != nil {
			return err
		}
		d.Choices = append(d.Choices, c)
		f.Fields = append(f.Fields, form.KindField{Path: c.Field, Says: c.Term, Words: c.Words})
	}
	for name, to := range map[string]any{"steps": &d.Steps, "pieces": &d.Pieces, "outcomes": &d.Outcomes, "slips": &d.Slips, "marks": &d.Marks} {
		if err := decode(field(v, name), to); err != nil {
			return err
		}
	}
	for _, o := range d.Outcomes {
		if i := slices.IndexFunc(f.Fields, func(k form.KindField) bool { return k.Path == o.Field }); i >= 0 {
			f.Fields[i].Outcome = true
			continue
		}
		f.Fields = append(f.Fields, form.KindField{Path: o.Field, Says: o.Term, Outcome: true})
	}
	for _, p := range d.Pieces {
		if !slices.Contains(f.Pieces, p.Name) {
			f.Pieces = append(f.Pieces, p.Name)
		}
	}
	return nil
}

// misdeclared files what is wrong with a kind, at the row that is wrong.
func (r *reader) misdeclared(p string, d *goods.Declared, err error) {
	at, why := r.key(p), err.Error()
	if f := (*worksheet.Fault)(nil); errors.As(err, &f) {
		why = f.Error()
		row := func(list string, is func(i int) bool, n int) {
			for i := range n {
				if is(i) {
					at = r.key(element(path(p, list), i))
					return
				}
			}
		}
		switch f.Part {
		case "choice":
			at = r.key(path(p, "choices", f.Of))
		case "step":
			row("pieces", func(i int) bool { return strings.HasPrefix(f.Of, d.Pieces[i].Name+" ") }, len(d.Pieces))
			row("steps", func(i int) bool { return d.Steps[i].Term == f.Of }, len(d.Steps))
			row("steps", func(i int) bool {
				s := &d.Steps[i]
				return s.Term == f.Of && (strings.Contains(why, s.Formula) || s.When != "" && strings.Contains(why, s.When))
			}, len(d.Steps))
		case "piece":
			row("pieces", func(i int) bool { return d.Pieces[i].Name == f.Of }, len(d.Pieces))
		case "outcome":
			row("outcomes", func(i int) bool { return d.Outcomes[i].Term == f.Of }, len(d.Outcomes))
		case "slip":
			row("slips", func(i int) bool { return d.Slips[i].Of == f.Of }, len(d.Slips))
			row("slips", func(i int) bool { return d.Slips[i].Of == f.Of && strings.Contains(why, d.Slips[i].Formula) }, len(d.Slips))
		case "mark":
			row("marks", func(i int) bool { return d.Marks[i].Name == f.Of }, len(d.Marks))
		}
	}
	r.fault(at, "%s", why)
}

// Words are the kinds of item that an order may have under the house.
func (h *House) Words() []string {
	of := h.Form
	if of == nil {
		var err error
		if of, err = form.New(); err != nil {
			return nil // the compiled form is read at every start
		}
	}
	return of.Kinds()
}
