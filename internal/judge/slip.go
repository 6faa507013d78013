package judge

import (
	"math"
	"math/rand/v2"
	"regexp"
	"strconv"
	"strings"

	"cutgate/internal/length"
)

// A kind is a way to write a number down wrong.
type kind struct {
	name string
	make func(*slipping) []string // none where the number has no place for it
}

// A slipping is a number on its way to be written down wrong.
type slipping struct {
	rng    *rand.Rand
	leaf   *leaf
	hems   []length.Length // turns of the same item's hems
	digits string          // the number's own text
	rest   string          // what follows it
	number length.Number
}

func newSlipping(rng *rand.Rand, l *leaf, hems []length.Length) *slipping {
	num, rest, err := length.ScanNumber(l.node.Text)
	if err != nil {
		return &slipping{rng: rng, leaf: l, hems: hems, rest: l.node.Text} // a length in several parts
	}
	own := strings.TrimSuffix(l.node.Text, rest)
	digits := strings.TrimRight(own, " ")
	return &slipping{rng: rng, leaf: l, hems: hems, digits: digits, rest: own[len(digits):] + rest, number: num}
}

// kinds are the ways that are tried on a number's text. They are those of anyone
// who copies numbers; the trade's own ways of reckoning wrong are not among them.
var kinds = []kind{
	{"digits swapped", func(s *slipping) (out []string) {
		for i := 0; i+1 < len(s.digits); i++ {
			if a, b := s.digits[i], s.digits[i+1]; isDigit(a) && isDigit(b) && a != b {
				out = append(out, s.digits[:i]+string([]byte{b, a})+s.digits[i+2:]+s.rest)
			}
		}
		return out
	}},
	{"digit dropped", func(s *slipping) (out []string) {
		for i := range len(s.digits) {
			if isDigit(s.digits[i]) {
				out = append(out, s.digits[:i]+s.digits[i+1:]+s.rest)
			}
		}
		return out
	}},
	{"digit doubled", func(s *slipping) (out []string) {
		for i := range len(s.digits) {
			if isDigit(s.digits[i]) {
				out = append(out, s.digits[:i+1]+s.digits[i:]+s.rest)
			}
		}
		return out
	}},
	{"ten times", func(s *slipping) []string { return s.times(10, 1) }},
	{"a tenth", func(s *slipping) []string { return s.times(1, 10) }},
	{"twice", func(s *slipping) []string { return s.times(2, 1) }},
	{"half", func(s *slipping) []string { return s.times(1, 2) }},
	{"in for cm, cm for in", func(s *slipping) []string {
		switch {
		case !s.small():
			return nil
		case s.metric():
			return s.times(100, 254)
		}
		return s.times(254, 100)
	}},
	{"mm for in, in for mm", func(s *slipping) []string {
		switch {
		case !s.small():
			return nil
		case s.metric():
			return s.times(10, 254)
		}
		return s.times(254, 10)
	}},
	{"a unit off", func(s *slipping) []string { return s.plus(step[s.metric()], -step[s.metric()]) }},
	{"half a unit off", func(s *slipping) []string { return s.plus(step[s.metric()]/2, -step[s.metric()]/2) }},
	{"fraction dropped", func(s *slipping) []string {
		if m := mixed.FindStringSubmatch(s.digits); m != nil && m[1] != "" {
			return []string{m[1] + s.rest}
		}
		return nil
	}},
	{"whole part dropped", func(s *slipping) []string {
		m := mixed.FindStringSubmatch(s.digits)
		switch {
		case m == nil || m[1] == "":
			return nil
		case m[2][0] == '.' || m[2][0] == ',':
			return []string{"0" + m[2] + s.rest}
		}
		return []string{strings.TrimLeft(m[2], " -") + s.rest}
	}},
	{"a stray whole number", func(s *slipping) []string {
		switch m := mixed.FindStringSubmatch(s.digits); {
		case m == nil || m[1] != "":
			return nil
		case strings.Contains(s.digits, "/"):
			return []string{"1 " + s.leaf.node.Text, "2 " + s.leaf.node.Text}
		}
		return []string{"1" + s.leaf.node.Text, "2" + s.leaf.node.Text}
	}},
	{"one more or less", func(s *slipping) []string {
		if n, ok := s.count(); ok && n > 1 {
			return []string{strconv.Itoa(n-1) + s.rest, strconv.Itoa(n+1) + s.rest}
		}
		return nil
	}},
	{"a hem more or less", func(s *slipping) []string {
		if len(s.hems) == 0 || s.leaf.value.n < 6*float64(s.hems[0]) {
			return nil
		}
		turn := s.hems[s.rng.IntN(len(s.hems))]
		return s.plus(turn, -turn, 2*turn, -2*turn)
	}},
	{"any other value", func(s *slipping) []string {
		by := math.Exp(s.rng.Float64()*1.4 - 0.7)
		if s.leaf.value.sort == size {
			grid := step[s.metric()] / 2
			if s.leaf.value.n < 4*float64(grid) {
				grid /= 4
			}
			l := length.Length(s.leaf.value.n*by).Round(grid, length.Nearest)
			return s.plus(l - length.Length(s.leaf.value.n))
		}
		if n, ok := s.count(); ok {
			if m := int(math.Round(float64(n) * by)); m-n > 1 || n-m > 1 {
				return []string{strconv.Itoa(m) + s.rest}
			}
			return nil
		}
		return []string{strconv.FormatFloat(significant(s.value()*by), 'f', -1, 64) + s.rest}
	}},
}

// significant rounds to two figures.
func significant(x float64) float64 {
	two, err := strconv.ParseFloat(strconv.FormatFloat(x, 'g', 2, 64), 64)
	if err != nil {
		return x // not reached: what was just printed can be read
	}
	return two
}

// mixed is a number with a fraction: what stands before it, and the fraction.
var mixed = regexp.MustCompile(`^(\d*)([ -]?\d+/\d+|[½¼¾⅛⅜⅝⅞]|[.,]\d+)$`)

func isDigit(c byte) bool { return '0' <= c && c <= '9' }

func (s *slipping) metric() bool { return s.leaf.node.LengthStyle().Unit().Metric() }

// small reports whether it is a length in inches, centimetres or millimetres.
func (s *slipping) small() bool {
	u := s.leaf.node.LengthStyle().Unit()
	return s.leaf.value.sort == size && (u == length.In || u == length.CM || u == length.MM)
}

// value is the number itself, without what follows it.
func (s *slipping) value() float64 {
	v := s.number.Value()
	return float64(v.Num) / float64(max(1, v.Den))
}

// count is the number where it is a plain whole one.
func (s *slipping) count() (int, bool) {
	n, err := strconv.Atoi(s.digits)
	return n, err == nil && s.leaf.value.sort == number && s.rest == ""
}

// times is the number times a fraction, written as it was.
func (s *slipping) times(num, den int64) []string {
	by := length.NewRatio(num, den)
	if s.leaf.value.sort == size {
		l := length.Length(s.leaf.value.n)
		return s.plus(l.MulRatio(by, length.Nearest) - l)
	}
	v := s.number.Value().Mul(by)
	if _, ok := s.count(); ok && v.Num%max(1, v.Den) != 0 {
		return nil // nobody writes half a hole
	}
	return []string{s.number.Print(v, max(2, s.number.Places())) + s.rest}
}

// plus is the length with each of others added, written as it was.
func (s *slipping) plus(others ...length.Length) (out []string) {
	if s.leaf.value.sort != size {
		return nil
	}
	for _, o := range others {
		if l := length.Length(s.leaf.value.n) + o; l > 0 {
			out = append(out, s.leaf.node.LengthStyle().Print(l, length.Nearest))
		}
	}
	return out
}

// overlooked is how many times too large or too small a number is at most: whoever
// writes it sees more.
const overlooked = 100

// A slip is a number written otherwise.
type slip struct {
	kind string
	text string
}

// slips are what a number may be written as by mistake: of every kind that it has
// a place for, one that says something else than the number does.
func (s *Subject) slips(rng *rand.Rand, l *leaf) (out []slip) {
	if l.path == "units" {
		for _, u := range []length.Unit{length.In, length.CM, length.MM} {
			if u.String() != l.node.Text {
				out = append(out, slip{"units", u.String()})
			}
		}
		return out
	}
	own := newSlipping(rng, l, s.hems(l))
	for _, k := range kinds {
		texts := k.make(own)
		for _, i := range rng.Perm(len(texts)) {
			text := strings.TrimSpace(texts[i])
			v, ok := read(text, l.node.Unit)
			if !ok || overlooked < v.n/l.value.n || overlooked < l.value.n/v.n || len(text) > 1 && text[0] == '0' && isDigit(text[1]) ||
				printed.same(v, l.value, s.metric) {
				continue
			}
			out = append(out, slip{k.name, text})
			break
		}
	}
	return out
}

// hems are the turns of the hems on the item that a leaf is of.
func (s *Subject) hems(l *leaf) (out []length.Length) {
	item, _, _ := strings.Cut(l.path, "]")
	for i := range s.leaves {
		if h := &s.leaves[i]; h.name == "turn" && strings.HasPrefix(h.path, item+"].hems.") {
			out = append(out, length.Length(h.value.n))
		}
	}
	return out
}
