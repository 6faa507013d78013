package render

import (
	"strconv"
	"unicode/utf16"
	"unicode/utf8"

	"cutgate/internal/source"
)

// A jsonText is JSON that is being written, with a comma wherever one belongs.
// It escapes what it must, and what would speak to a terminal.
type jsonText struct{ b []byte }

// comma goes before a name or a value that is not the first.
func (j *jsonText) comma() {
	if n := len(j.b); n > 0 && j.b[n-1] != '{' && j.b[n-1] != '[' && j.b[n-1] != ':' && j.b[n-1] != '\n' {
		j.b = append(j.b, ',')
	}
}

func (j *jsonText) open(bracket byte) {
	j.comma()
	j.b = append(j.b, bracket)
}

func (j *jsonText) close(bracket byte) { j.b = append(j.b, bracket) }

// name begins a field.
func (j *jsonText) name(name string) {
	j.comma()
	j.quote(name)
	j.b = append(j.b, ':')
}

func (j *jsonText) text(name, value string) {
	j.name(name)
	j.quote(value)
}

// optional leaves out an empty text.
func (j *jsonText) optional(name, value string) {
	if value != "" {
		j.text(name, value)
	}
}

func (j *jsonText) number(name string, n int) {
	j.name(name)
	j.b = strconv.AppendInt(j.b, int64(n), 10)
}

func (j *jsonText) truth(name string, is bool) {
	j.name(name)
	j.b = strconv.AppendBool(j.b, is)
}

func (j *jsonText) texts(name string, list []string) {
	j.name(name)
	j.open('[')
	for _, s := range list {
		j.comma()
		j.quote(s)
	}
	j.close(']')
}

// optionalTexts leaves out an empty list.
func (j *jsonText) optionalTexts(name string, list []string) {
	if len(list) > 0 {
		j.texts(name, list)
	}
}

// braces writes an object; fields writes what is in it.
func (j *jsonText) braces(fields func()) {
	j.open('{')
	fields()
	j.close('}')
}

func (j *jsonText) object(name string, fields func()) {
	j.name(name)
	j.braces(fields)
}

// objects writes a list of n objects; fields writes what is in number i of them.
func (j *jsonText) objects(name string, n int, fields func(i int)) {
	j.name(name)
	j.open('[')
	for i := range n {
		j.open('{')
		fields(i)
		j.close('}')
	}
	j.close(']')
}

// optionalObjects leaves out an empty list.
func (j *jsonText) optionalObjects(name string, n int, fields func(i int)) {
	if n > 0 {
		j.objects(name, n, fields)
	}
}

// quote writes a string. A byte that is not UTF-8 becomes a replacement
// character.
func (j *jsonText) quote(s string) {
	const hex = "0123456789abcdef"
	j.b = append(j.b, '"')
	done := 0
	for i := 0; i < len(s); {
		c := s[i]
		if c >= utf8.RuneSelf {
			r, size := utf8.DecodeRuneInString(s[i:])
			switch {
			case r == utf8.RuneError && size == 1:
				j.b = append(append(j.b, s[done:i]...), "\ufffd"...)
				done = i + 1
			case source.Escaped(r):
				j.b = append(j.b, s[done:i]...)
				for _, u := range utf16.AppendRune(nil, r) {
					j.b = append(j.b, '\\', 'u', hex[u>>12], hex[u>>8&15], hex[u>>4&15], hex[u&15])
				}
				done = i + size
			}
			i += size
			continue
		}
		if c < ' ' || c == '"' || c == '\\' || c == 0x7f {
			j.b = append(j.b, s[done:i]...)
			switch c {
			case '"', '\\':
				j.b = append(j.b, '\\', c)
			case '\n':
				j.b = append(j.b, '\\', 'n')
			case '\t':
				j.b = append(j.b, '\\', 't')
			default:
				j.b = append(j.b, '\\', 'u', '0', '0', hex[c>>4], hex[c&15])
			}
			done = i + 1
		}
		i++
	}
	j.b = append(append(j.b, s[done:]...), '"')
}
