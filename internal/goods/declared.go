package goods

import (
	"cmp"
	"errors"
	"fmt"
	"slices"
	"strings"

	ws "cutgate/internal/worksheet"
)

// Declared is a kind of goods as a shop writes it down.
type Declared struct {
	Name     string
	Cloths   []DeclaredCloth // but for the face's
	Choices  []DeclaredChoice
	Steps    []DeclaredStep
	Pieces   []DeclaredPiece
	Outcomes []DeclaredOutcome
	Slips    []DeclaredSlip
	Marks    []DeclaredMark
}

// The rows of a Declared, as those of the program's own kinds.
type (
	DeclaredCloth  struct{ Role, Field string }
	DeclaredChoice struct {
		Term, Field, Otherwise, Between string
		Words                           []string
		Ordered                         bool
	}
	DeclaredStep    struct{ Term, When, Formula, Round, Source string }
	DeclaredPiece   struct{ Name, Cloth, Across, Along, Count, When string }
	DeclaredOutcome struct{ Term, Field string }
	DeclaredSlip    struct{ Of, Name, Formula string }
	DeclaredMark    struct{ Name, From, When, Count, At string }
)

// shopsOwn is the source of what a shop says itself.
const shopsOwn = "the shop's own"

// Declare makes a kind of what a shop wrote down. The error is a [ws.Fault], which says
// which row is wrong; that the formulas go together is found by [ws.Kinds.With].
func Declare(d *Declared) (k *ws.Kind, err error) {
	k = &ws.Kind{Name: d.Name, Roles: []ws.Role{{Name: "face", Field: "cloth"}}, Adds: small, Layers: layers}
	for _, c := range d.Cloths {
		k.Roles = append(k.Roles, ws.Role{Name: c.Role, Field: c.Field, Else: "face"})
	}
	cloths(k)
	for _, c := range d.Choices {
		more := ""
		if c.Ordered {
			more = ordered
		}
		if err := try("choice", c.Term, func() { choices(k, choice{c.Term, c.Field, c.Otherwise, c.Between, more}) }); err != nil {
			return nil, err
		}
		if span := k.Given[len(k.Given)-1].Choice; span != nil && (span.Low > span.High || span.Least > span.Most) {
			return nil, &ws.Fault{Part: "choice", Of: c.Term, Err: errors.New("between " + c.Between + ": the least comes first")}
		}
	}
	for _, s := range d.Steps {
		if err := d.said(s.When); err != nil {
			return nil, &ws.Fault{Part: "step", Of: s.Term, Err: err}
		}
		if err := try("step", s.Term, func() { steps(k, step{s.Term, s.When, s.Formula, cmp.Or(s.Round, "up"), cmp.Or(s.Source, shopsOwn)}) }); err != nil {
			return nil, err
		}
	}
	var rows []piece
	for _, p := range d.Pieces {
		rows = append(rows, piece{p.Name, cmp.Or(p.Cloth, "face"), p.Across, p.Along, cmp.Or(p.Count, "1"), p.When})
		if k.Role(p.Cloth) < 0 && p.Cloth != "" {
			return nil, &ws.Fault{Part: "piece", Of: p.Name, Err: errors.New("there is no cloth " + p.Cloth)}
		}
		if err := d.said(p.When); err != nil {
			return nil, &ws.Fault{Part: "piece", Of: p.Name, Err: err}
		}
	}
	pieces(k, rows...)
	for _, o := range d.Outcomes {
		outcomes(k, outcome{o.Term, o.Field, ws.Size})
	}
	for _, s := range d.Slips {
		slips(k, slip{s.Of, s.Name, s.Formula})
	}
	for _, m := range d.Marks {
		if err := d.said(m.When); err != nil {
			return nil, &ws.Fault{Part: "mark", Of: m.Name, Err: err}
		}
		marks(k, mark{m.Name, m.From, m.When, m.Count, m.At})
	}
	press(k)
	return k, nil
}

// said finds a word in a guard that may not stand for its choice.
func (d *Declared) said(when string) error {
	for guard := range strings.SplitSeq(when, ",") {
		term, words, ok := strings.Cut(strings.TrimSpace(guard), ": ")
		i := slices.IndexFunc(d.Choices, func(c DeclaredChoice) bool { return c.Term == term && len(c.Words) > 0 })
		if !ok || i < 0 {
			continue
		}
		for word := range strings.SplitSeq(words, "/") {
			if may := d.Choices[i].Words; !slices.Contains(may, word) {
				return fmt.Errorf("when %q: %s can't be %q; it is one of %s", when, term, word, strings.Join(may, ", "))
			}
		}
	}
	return nil
}

// try does what a row asks for, and says why it can't be done.
func try(part, of string, do func()) (err error) {
	defer func() {
		if v := recover(); v != nil {
			why, ok := v.(misdeclared)
			if !ok {
				panic(v)
			}
			err = &ws.Fault{Part: part, Of: of, Err: errors.New(string(why))}
		}
	}()
	do()
	return nil
}
