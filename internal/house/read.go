package house

import (
	"fmt"
	"regexp"
	"slices"
	"strings"

	"cuelang.org/go/cue"
	"cuelang.org/go/cue/ast"
	"cuelang.org/go/cue/build"
	"cuelang.org/go/cue/cuecontext"
	"cuelang.org/go/cue/errors"
	"cuelang.org/go/cue/parser"

	"cutgate/internal/finding"
	"cutgate/internal/form"
	"cutgate/internal/length"
	"cutgate/internal/source"
	"cutgate/internal/trade"
	"cutgate/schema"
)

// A reader is the state of reading one file of house rules.
type reader struct {
	src      *source.File
	ctx      *cue.Context
	base     int // where the parsed text starts in the file's
	faults   []Fault
	declares []string // the kinds that the file declares
	places   places
	house    *House
	tables   *trade.Tables // the edition that is filled in

	unitSaid bool // the file says what a bare number of a length means

	following []ast.Expr // what names stand for, from the outermost in
}

// Read reads the text of a house.cue. What the shop does not say stays as in the
// tables. The error is an [*Error] where something is wrong with the text.
func Read(name, text string, tables *trade.Tables, known []Known) (*House, error) {
	r := &reader{src: &source.File{Name: name, Text: text}, places: places{}, house: &House{File: name, Tables: tables, lines: map[string]int{}, given: map[string]any{}}}
	if err := r.read(known); err != nil {
		return nil, fmt.Errorf("reading %s: %w", name, err)
	}
	if len(r.faults) > 0 {
		e := &Error{name, r.faults}
		e.settle()
		return nil, e
	}
	return r.house, nil
}

// read reads the file as far as it can be; the error is a fault of the program.
func (r *reader) read(known []Known) error {
	file := r.parse()
	if file == nil {
		return nil
	}
	r.index(file.Decls, "")
	r.ctx = cuecontext.New()
	v := r.ctx.BuildFile(file)
	if err := v.Validate(); err != nil {
		r.wrong(err)
		return nil
	}
	schema, err := schemaOf(r.ctx)
	if err != nil {
		return err
	}
	r.check(schema.LookupPath(cue.ParsePath("#House")), v, "")
	if len(r.faults) == 0 {
		if s, err := field(v, "name").String(); err == nil {
			r.house.Name = s
		}
		if err := r.allowances(v); err != nil {
			return err
		}
	}
	r.house.unit = unit(v)
	r.unitSaid = field(v, "units").Exists()
	if err := r.kinds(field(v, "kinds")); err != nil {
		return err
	}
	if err := r.columns(field(v, "columns")); err != nil {
		return err
	}
	r.levels(field(v, "levels"), known)
	return r.rules(field(v, "rules"), schema.LookupPath(cue.ParsePath("#HouseRule")))
}

// fault files something that is wrong.
func (r *reader) fault(at int, format string, args ...any) {
	r.faults = append(r.faults, Fault{r.src.Position(at), fmt.Sprintf(format, args...)})
}

// wrong files what the evaluator finds wrong in the file by itself.
func (r *reader) wrong(err error) {
	for _, e := range errors.Errors(err) {
		at := 0
		for _, p := range append(errors.Positions(e), e.Position()) {
			if p.IsValid() && p.Filename() == r.src.Name {
				at = r.offset(p)
				break
			}
		}
		r.fault(at, "%s", sentence(e))
	}
}

// line is the line that the field with that path stands on.
func (r *reader) line(p string) int { return r.src.Position(r.key(p)).Line }

// schemaOf evaluates the definitions that house rules are made of. The tables' own
// values are not among them.
func schemaOf(ctx *cue.Context) (cue.Value, error) {
	inst := build.NewContext().NewInstance("schema", nil)
	for _, name := range []string{"house.cue", "leaf.cue", "trade.cue"} {
		text, err := schema.Files.ReadFile(name)
		if err != nil {
			return cue.Value{}, err
		}
		file, err := parser.ParseFile(name, text)
		if err != nil {
			return cue.Value{}, err
		}
		file.Decls = slices.DeleteFunc(file.Decls, func(d ast.Decl) bool {
			f, ok := d.(*ast.Field)
			if !ok {
				return false
			}
			label, _, err := ast.LabelName(f.Label)
			return err == nil && !strings.HasPrefix(label, "#")
		})
		if err := inst.AddSyntax(file); err != nil {
			return cue.Value{}, err
		}
	}
	v := ctx.BuildInstance(inst)
	return v, v.Err()
}

// slug is a name as rules and topics have it; another was reported already.
var slug = regexp.MustCompile("^[a-z][a-z0-9/-]*$")

// columns reads the headings of the shop's own columns.
func (r *reader) columns(v cue.Value) error {
	var own []string
	if !v.Exists() || v.Decode(&own) != nil { // what is wrong with them is filed already
		return nil
	}
	of := r.house.Form
	if of == nil {
		var err error
		if of, err = form.New(); err != nil {
			return err
		}
	}
	with := *of
	with.Columns = own
	r.house.Form = &with
	return nil
}

// levels reads how much each rule matters to the shop.
func (r *reader) levels(v cue.Value, known []Known) {
	var names []string
	for _, k := range known {
		topic, _, _ := strings.Cut(k.ID, "/")
		if !slices.Contains(names, topic) {
			names = append(names, topic)
		}
		names = append(names, k.ID)
	}
	for name, said := range fields(v) {
		p := path("levels", name)
		word, _ := said.String()
		level, _ := finding.ParseLevel(word)
		switch {
		case name == ownTopic || strings.HasPrefix(name, ownTopic+"/"):
			r.fault(r.key(p), "%s is the shop's own: set its level where the rule is written", name)
			continue
		case !slices.Contains(names, name) && slug.MatchString(name):
			what := "rule or topic"
			if strings.Contains(name, "/") {
				what = "rule"
			}
			r.fault(r.key(p), "there is no %s %s%s", what, name, hint(name, names, "cutgate rules lists them"))
			continue
		}
		r.house.Levels = append(r.house.Levels, Level{name, level, r.line(p)})
	}
	r.least(known)
}

// least files the levels that are lower than a rule may have, for all rules of
// a topic at once where the level is the topic's.
func (r *reader) least(known []Known) {
	set := r.house.LevelsByName()
	low := map[string][]Known{} // by the name that the level is set for
	for _, k := range known {
		name := k.ID
		level, ok := set[name]
		if !ok {
			name, _, _ = strings.Cut(k.ID, "/")
			level, ok = set[name]
		}
		if ok && level < k.Least {
			low[name] = append(low[name], k)
		}
	}
	for _, l := range r.house.Levels {
		list := low[l.Of]
		if len(list) == 0 {
			continue
		}
		who := list[0].ID
		if n := len(list) - 1; n > 0 {
			who += fmt.Sprintf(" and %d more", n)
		}
		can := "can be lowered to " + list[0].Least.String() + ", and no further"
		if list[0].Least == list[0].Level {
			can = "can't be lowered"
		}
		r.fault(r.value(path("levels", l.Of)), "%s %s: %s", who, can, list[0].Why)
	}
}

// unit is the unit of plain numbers of lengths in the shop's own rules.
func unit(v cue.Value) length.Unit {
	if said, err := field(v, "units").String(); err == nil {
		if u, ok := length.ParseUnit(said); ok {
			return u
		}
	}
	return length.MM
}
