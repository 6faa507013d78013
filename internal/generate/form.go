package generate

import (
	"encoding/json"
	"regexp"
	"slices"
	"strconv"
	"strings"
)

// A block is a group of fields of the order form, in the order that they are
// written. A value is a string, a bool, nil for a blank, a *block, a []*block
// or a []string.
type block struct{ fields []field }

type field struct {
	name  string
	value any
}

// of makes a block of names and values by turns.
func of(pairs ...any) *block {
	b := &block{}
	for i := 0; i+1 < len(pairs); i += 2 {
		b.set(pairs[i].(string), pairs[i+1])
	}
	return b
}

// set fills a field in; a new one goes to the end.
func (b *block) set(name string, value any) {
	for i := range b.fields {
		if b.fields[i].name == name {
			b.fields[i].value = value
			return
		}
	}
	b.fields = append(b.fields, field{name, value})
}

// get returns a field's value; nil where it is blank or not there.
func (b *block) get(name string) any {
	for i := range b.fields {
		if b.fields[i].name == name {
			return b.fields[i].value
		}
	}
	return nil
}

// text returns what a field says; "" where it is blank or not there.
func (b *block) text(name string) string {
	s, _ := b.get(name).(string)
	return s
}

// blank reports whether a field is on the form and left open.
func (b *block) blank(name string) bool {
	return b != nil && slices.ContainsFunc(b.fields, func(f field) bool { return f.name == name && f.value == nil })
}

// at returns the block at the end of names; nil where there is none.
func (b *block) at(names ...string) *block {
	for _, name := range names {
		next, ok := b.get(name).(*block)
		if !ok {
			return nil
		}
		b = next
	}
	return b
}

// place returns the block and the name that a path such as items[0].cuts[1].width
// ends at; nil where the form has no such block.
func (b *block) place(path string) (in *block, name string) {
	for {
		head, rest, more := strings.Cut(path, ".")
		if !more {
			return b, path
		}
		name, index, listed := strings.Cut(head, "[")
		if !listed {
			b = b.at(name)
		} else {
			i, err := strconv.Atoi(strings.TrimSuffix(index, "]"))
			list, _ := b.get(name).([]*block)
			if err != nil || i >= len(list) {
				return nil, ""
			}
			b = list[i]
		}
		if b == nil {
			return nil, ""
		}
		path = rest
	}
}

// bareNumber is what JSON takes as a number.
var bareNumber = regexp.MustCompile(`^(0|[1-9][0-9]*)(\.[0-9]+)?$`)

// plainYAML is what YAML takes as plain text anywhere: no mark that means
// something to it, and none at the ends.
var plainYAML = regexp.MustCompile(`^[0-9A-Za-z½¼¾⅛⅜⅝⅞]([0-9A-Za-z½¼¾⅛⅜⅝⅞ ./_-]*[0-9A-Za-z½¼¾⅛⅜⅝⅞/])?$`)

// appendJSON appends v on one line.
func appendJSON(to []byte, v any) []byte {
	switch v := v.(type) {
	case nil:
		return append(to, "null"...)
	case bool:
		if v {
			return append(to, "true"...)
		}
		return append(to, "false"...)
	case string:
		if bareNumber.MatchString(v) {
			return append(to, v...)
		}
		return appendQuoted(to, v)
	case *block:
		to = append(to, '{')
		for i, f := range v.fields {
			if i > 0 {
				to = append(to, ',')
			}
			to = append(appendQuoted(to, f.name), ':')
			to = appendJSON(to, f.value)
		}
		return append(to, '}')
	case []*block:
		return appendList(to, v, ",", appendJSON)
	case []string:
		return appendList(to, v, ",", appendJSON)
	}
	panic("form: no such kind of value")
}

func appendList[T any](to []byte, list []T, comma string, each func([]byte, any) []byte) []byte {
	to = append(to, '[')
	for i, v := range list {
		if i > 0 {
			to = append(to, comma...)
		}
		to = each(to, v)
	}
	return append(to, ']')
}

func appendQuoted(to []byte, s string) []byte {
	quoted, err := json.Marshal(s)
	if err != nil {
		panic(err) // not reached: every string can be written
	}
	return append(to, quoted...)
}

// appendYAML appends the order as people type it: groups of plain values on one
// line, all else set out.
func appendYAML(to []byte, b *block, indent int) []byte {
	for i, f := range b.fields {
		if i > 0 || indent == 0 {
			to = append(to, strings.Repeat(" ", indent)...)
		}
		to = append(appendPlain(to, f.name), ':')
		to = appendSetOut(to, f.value, indent)
	}
	return to
}

// appendSetOut appends a field's value after its colon.
func appendSetOut(to []byte, v any, indent int) []byte {
	inner := indent + 2
	switch v := v.(type) {
	case *block:
		if !v.flat() {
			to = append(to, '\n')
			to = append(to, strings.Repeat(" ", inner)...)
			return appendYAML(to, v, inner)
		}
	case []*block:
		if len(v) == 0 {
			return append(to, " []\n"...)
		}
		to = append(to, '\n')
		for _, entry := range v {
			to = append(to, strings.Repeat(" ", inner)...)
			to = append(to, "- "...)
			if entry.flat() {
				to = append(appendFlow(to, entry), '\n')
			} else {
				to = appendYAML(to, entry, inner+2)
			}
		}
		return to
	case nil:
		return append(to, '\n')
	}
	return append(appendFlow(append(to, ' '), v), '\n')
}

// flat reports whether a block holds plain values only.
func (b *block) flat() bool {
	for _, f := range b.fields {
		switch f.value.(type) {
		case *block, []*block, []string:
			return false
		}
	}
	return true
}

// appendFlow appends v on one line of YAML.
func appendFlow(to []byte, v any) []byte {
	switch v := v.(type) {
	case string:
		return appendPlain(to, v)
	case *block:
		to = append(to, '{')
		for i, f := range v.fields {
			if i > 0 {
				to = append(to, ", "...)
			}
			to = append(appendPlain(to, f.name), ": "...)
			to = appendFlow(to, f.value)
		}
		return append(to, '}')
	case []string:
		return appendList(to, v, ", ", appendFlow)
	}
	return appendJSON(to, v)
}

func appendPlain(to []byte, s string) []byte {
	if plainYAML.MatchString(s) {
		return append(to, s...)
	}
	return appendQuoted(to, s)
}
