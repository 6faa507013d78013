package goods

import (
	"fmt"
	"math/big"
	"strings"
	"testing"

	ws "cutgate/internal/worksheet"
)

// evaluate works out a formula with its numbers: + - × ÷, brackets, "rounded
// up", "rounded down", "rounded", "rounded up to a half" before a bracket, and
// ", made even" at the end. It is an independent reading of the working that
// people are shown.
func evaluate(t *testing.T, q *ws.Quantity) *big.Rat {
	t.Helper()
	p := &reader{q: q, text: q.Formula}
	v := p.sum()
	if strings.TrimSpace(p.text) == ", made even" {
		p.text = ""
		if n := new(big.Rat).Quo(v, big.NewRat(2, 1)); !n.IsInt() {
			v.Add(v, big.NewRat(1, 1))
		}
	}
	if p.err == nil && strings.TrimSpace(p.text) != "" {
		p.err = fmt.Errorf("left over: %q", p.text)
	}
	if p.err != nil {
		t.Errorf("%s: formula %q: %v", q.Path(), q.Formula, p.err)
		return nil
	}
	return v
}

type reader struct {
	q    *ws.Quantity
	text string
	next int
	err  error
}

func (p *reader) word(w string) bool {
	p.text = strings.TrimLeft(p.text, " ")
	if strings.HasPrefix(p.text, w) {
		p.text = p.text[len(w):]
		return true
	}
	return false
}

func (p *reader) sum() *big.Rat {
	v := p.product()
	for {
		switch {
		case p.word("+ "):
			v.Add(v, p.product())
		case p.word("- "):
			v.Sub(v, p.product())
		default:
			return v
		}
	}
}

func (p *reader) product() *big.Rat {
	v := p.single()
	for {
		switch {
		case p.word("×"):
			v.Mul(v, p.single())
		case p.word("÷"):
			d := p.single()
			if d.Sign() == 0 {
				p.err = fmt.Errorf("division by zero")
				return v
			}
			v.Quo(v, d)
		default:
			return v
		}
	}
}

func (p *reader) single() *big.Rat {
	switch {
	case p.word("rounded up to a half"):
		return round(p.single(), 2, 1)
	case p.word("rounded up"):
		return round(p.single(), 1, 1)
	case p.word("rounded down"):
		return round(p.single(), 1, 0)
	case p.word("rounded"):
		v := p.single()
		return round(v.Add(v, big.NewRat(1, 2)), 1, 0)
	case p.word("square root"):
		root := new(big.Float).SetPrec(200).SetRat(p.single())
		v, _ := root.Sqrt(root).Rat(nil)
		return v
	case p.word("the larger of ("):
		return p.either(1)
	case p.word("the smaller of ("):
		return p.either(-1)
	case p.word("π"):
		return big.NewRat(355, 113)
	case p.word("("):
		v := p.sum()
		if !p.word(")") {
			p.err = fmt.Errorf("no closing bracket before %q", p.text)
		}
		return v
	case p.word("{"):
		end := strings.IndexByte(p.text, '}')
		name := p.text[:end]
		p.text = p.text[end+1:]
		if p.next >= len(p.q.Terms) {
			p.err = fmt.Errorf("no number for {%s}", name)
			return new(big.Rat)
		}
		term := p.q.Terms[p.next]
		p.next++
		if term.Name != name {
			p.err = fmt.Errorf("{%s} is given as %q", name, term.Name)
		}
		return exact(term.Value)
	}
	p.text = strings.TrimLeft(p.text, " ")
	i := 0
	for i < len(p.text) && '0' <= p.text[i] && p.text[i] <= '9' {
		i++
	}
	v, ok := new(big.Rat).SetString(p.text[:i])
	if !ok {
		if p.err == nil {
			p.err = fmt.Errorf("no number at %q", p.text)
		}
		p.text = ""
		return big.NewRat(1, 1)
	}
	p.text = p.text[i:]
	return v
}

// either is the larger or the smaller of two that stand in brackets.
func (p *reader) either(sign int) *big.Rat {
	a := p.sum()
	if !p.word(",") {
		p.err = fmt.Errorf("no comma before %q", p.text)
	}
	b := p.sum()
	if !p.word(")") {
		p.err = fmt.Errorf("no closing bracket before %q", p.text)
	}
	if b.Cmp(a)*sign > 0 {
		return b
	}
	return a
}

// round rounds v to whole 1/parts, up or down.
func round(v *big.Rat, parts, up int64) *big.Rat {
	x := new(big.Rat).Mul(v, big.NewRat(parts, 1))
	n := new(big.Int).Div(x.Num(), x.Denom())
	if up == 1 && !x.IsInt() {
		n.Add(n, big.NewInt(1))
	}
	return new(big.Rat).SetFrac(n, big.NewInt(parts))
}

// exact is a value in metres, grams, grams to the metre or square metre, or as
// it is.
func exact(v ws.Value) *big.Rat {
	switch v.Sort {
	case ws.Length:
		return big.NewRat(v.N, 1_000_000_000)
	case ws.Mass, ws.Linear, ws.Areal:
		return big.NewRat(v.N, 1_000_000)
	case ws.Ratio, ws.Percent:
		return big.NewRat(v.R.Num, max(v.R.Den, 1))
	}
	return big.NewRat(v.N, 1)
}
