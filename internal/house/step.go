package house

import (
	"strconv"
	"strings"
)

// A step is a field, or an element of a list, on the way to a value.
type step struct {
	name  string
	index int // of an element, where name is ""
}

func (s step) String() string {
	if s.name == "" {
		return "[" + strconv.Itoa(s.index) + "]"
	}
	return s.name
}

// steps splits a path such as cuts[1].width. It reports false for what is none.
func steps(p string) ([]step, bool) {
	var list []step
	for p != "" {
		switch {
		case p[0] == '[':
			digits, rest, ok := strings.Cut(p[1:], "]")
			n, err := strconv.Atoi(digits)
			if !ok || err != nil || n < 0 || len(list) == 0 {
				return nil, false
			}
			list, p = append(list, step{index: n}), rest
			continue
		case p[0] == '.' && len(list) > 0:
			p = p[1:]
		case len(list) > 0:
			return nil, false
		}
		if strings.HasPrefix(p, `"`) {
			quoted, err := strconv.QuotedPrefix(p)
			if err != nil || len(quoted) == 2 {
				return nil, false
			}
			name, err := strconv.Unquote(quoted)
			if err != nil {
				return nil, false
			}
			list, p = append(list, step{name: name}), p[len(quoted):]
			continue
		}
		end := strings.IndexAny(p, ".[")
		if end < 0 {
			end = len(p)
		}
		if end == 0 {
			return nil, false
		}
		list, p = append(list, step{name: p[:end]}), p[end:]
	}
	return list, len(list) > 0
}
