package cells

import (
	"cmp"
	"strconv"
	"strings"

	"cutgate/internal/source"
)

// A shared formula is one that cells have in common, as it stands in the first.
type shared struct {
	formula     string
	column, row int
}

// at is the formula as it is in another cell: references without a $ move with it.
func (f *shared) at(column, row int) string {
	var b strings.Builder
	b.Grow(len(f.formula) + 8)
	for rest := f.formula; rest != ""; {
		n := literal(rest)
		if n > 0 {
			b.WriteString(rest[:n])
			rest = rest[n:]
			continue
		}
		for n < len(rest) && inName(rest[n]) {
			n++
		}
		before, word, after := f.formula[:len(f.formula)-len(rest)], rest[:n], rest[n:]
		if after == "" || after[0] != '(' && after[0] != '!' { // it is no function and no sheet
			word = movedWord(word, column-f.column, row-f.row, strings.HasSuffix(before, ":") || strings.HasPrefix(after, ":"))
		}
		b.WriteString(word)
		rest = after
	}
	return b.String()
}

// literal is how much of the start of a formula is no name: what stands in quotes or
// in brackets, or else one character.
func literal(formula string) int {
	switch c := formula[0]; {
	case c == '"' || c == '\'':
		if n := strings.IndexByte(formula[1:], c); n >= 0 {
			return n + 2
		}
		return len(formula)
	case c == '[':
		depth := 0
		for i := range len(formula) {
			switch formula[i] {
			case '[':
				depth++
			case ']':
				depth--
			}
			if depth == 0 {
				return i + 1
			}
		}
		return len(formula)
	case !inName(c):
		return 1
	}
	return 0
}

// inName reports whether a name or a reference may have such a byte.
func inName(c byte) bool {
	return c >= 0x80 || c >= '0' && c <= '9' || c|0x20 >= 'a' && c|0x20 <= 'z' || c == '$' || c == '_' || c == '.' || c == '\\'
}

// movedWord moves a reference: B2, and in a range also B or 2. Any other word stays.
func movedWord(word string, columns, rows int, ranged bool) string {
	if len(word) > len("$XFD$1048576") {
		return word
	}
	rest, fixedColumn := strings.CutPrefix(word, "$")
	letters := strings.TrimRight(rest, "$0123456789")
	rest, fixedRow := strings.CutPrefix(rest[len(letters):], "$")
	if letters == "" && fixedColumn { // $2
		fixedColumn, fixedRow = false, true
	}
	column, row, ok := coordinates(cmp.Or(letters, "A") + cmp.Or(rest, "1"))
	if !ok || (letters == "" || rest == "") && !ranged || letters == "" && rest == "" {
		return word
	}
	var b strings.Builder
	write := func(n, by, last int, fixed bool, name func(int) string) bool {
		if fixed {
			b.WriteByte('$')
		} else {
			n += by
		}
		b.WriteString(name(n))
		return n >= 1 && n <= last
	}
	if letters != "" && !write(column, columns, lastColumn, fixedColumn, source.ColumnName) ||
		rest != "" && !write(row, rows, lastRow, fixedRow, strconv.Itoa) {
		return "#REF!"
	}
	return b.String()
}
