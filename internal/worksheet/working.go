package worksheet

import (
	"strconv"
	"strings"

	"cutgate/internal/length"
)

// Working is the quantity's working, two lines a step: the formula in the
// trade's words, and the same with the numbers in and the result. What was worked
// out on the way to it comes first.
func (q *Quantity) Working(u length.Unit) []string {
	if q.Formula == "" {
		return q.Step(u)
	}
	var lines []string
	done := map[*Quantity]bool{}
	var step func(q *Quantity)
	step = func(q *Quantity) {
		if done[q] || q.Formula == "" {
			return
		}
		done[q] = true
		for _, t := range q.Terms {
			if t.via != nil {
				step(t.via)
			}
		}
		lines = append(lines, q.Step(u)...)
	}
	step(q)
	return lines
}

// Step is the quantity's own step of its working: its formula, and the same
// with the numbers in; just the value of one that is taken from the order.
func (q *Quantity) Step(u length.Unit) []string {
	if q.Formula == "" {
		return []string{q.Value.Format(u, q.Round)}
	}
	return []string{q.Words(), q.Figures(u)}
}

// Words is the formula in the trade's words.
func (q *Quantity) Words() string { return unbraced.Replace(q.Formula) }

var unbraced = strings.NewReplacer("{", "", "}", "")

// Figures is the formula with the numbers in, and its result.
func (q *Quantity) Figures(u length.Unit) string {
	figures := q.fill(func(v Value) string { return v.plain(u) })
	result := q.Value.Format(u, q.Round)
	if figures == result {
		return result
	}
	return figures + " = " + result
}

// fill is the formula with each term written by print.
func (q *Quantity) fill(print func(Value) string) string {
	var b strings.Builder
	rest, next := q.Formula, 0
	for {
		open := strings.IndexByte(rest, '{')
		if open < 0 || next >= len(q.Terms) {
			break
		}
		closing := open + strings.IndexByte(rest[open:], '}')
		b.WriteString(rest[:open])
		b.WriteString(print(q.Terms[next].Value))
		rest, next = rest[closing+1:], next+1
	}
	b.WriteString(rest)
	return b.String()
}

// plain prints a term of a formula: a length that is off the step by a hair is
// shown with as many decimals as tell so.
func (v Value) plain(u length.Unit) string {
	if v.Sort == Length {
		l := length.Length(v.N)
		if l.Round(length.Step(u), length.Nearest) != l {
			return length.RatioOf(l, u.Length()).Format(3) + " " + u.String()
		}
	}
	return v.Format(u, length.Nearest)
}

// Path is where the quantity stands among those of its order:
// items[0].cut length, cloths.reef.cloth to buy.
func (q *Quantity) Path() string {
	of := q.Of
	if q.Item < 0 {
		return "cloths." + of + "." + string(q.Name)
	}
	if of != "" {
		of += " "
	}
	return "items[" + strconv.Itoa(q.Item) + "]." + of + string(q.Name)
}
