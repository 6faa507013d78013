package cells

import (
	"strconv"
	"strings"
	"unicode/utf8"
)

// The most that a part's XML may have; a workbook has a tenth of it.
const (
	maxDepth      = 200 // of elements in one another
	maxAttributes = 300 // of one element
)

// token is what a scanner has come to.
type token uint8

const (
	opening token = iota + 1 // an opening tag
	closing                  // a closing tag, also of an element that has no other
	chars                    // text between tags
)

// A scanner reads the XML of a part from tag to tag. It knows where each stands, so
// that the part can be changed as a text, and takes no memory to speak of. Names are
// without their prefix, as the elements of a workbook are told apart by where they
// stand.
type scanner struct {
	text       string
	kind       token
	start, end int // of the token
	name       string
	attributes []attribute // of the opening tag
	empty      bool        // the opening tag is a closing one as well: <c/>
	open       []element   // outermost first, with that of an opening tag, without that of a closing one
	cdata      bool        // the text is a CDATA section
	broken     bool        // it is not XML as workbooks have it
}

type attribute struct {
	name, value string
	start, end  int // in the text
}

// An element has its name with the prefix, and without.
type element struct{ qualified, name string }

func newScanner(text string) scanner {
	return scanner{text: text, end: len(text) - len(strings.TrimPrefix(text, "\ufeff"))}
}

// readable reports whether a text may be XML in UTF-8.
func readable(text string) bool {
	return utf8.ValidString(text) && strings.IndexFunc(text, unwritable) < 0
}

// unwritable reports whether XML has no way to write a character.
func unwritable(r rune) bool {
	return r < ' ' && r != '\t' && r != '\n' && r != '\r' || r == 0xfffe || r == 0xffff
}

// next goes on to the next token, and reports whether there is one. There is none
// after what is broken, or not whole.
func (s *scanner) next() bool {
	if s.kind == opening && s.empty {
		s.kind, s.start = closing, s.end
		s.open = s.open[:len(s.open)-1]
		return true
	}
	for !s.broken && s.end < len(s.text) {
		s.start = s.end
		rest := s.text[s.start:]
		switch {
		case rest[0] != '<':
			before, _, _ := strings.Cut(rest, "<")
			s.kind, s.cdata, s.end = chars, false, s.start+len(before)
			return true
		case strings.HasPrefix(rest, "</"):
			return s.closeTag()
		case strings.HasPrefix(rest, "<?"):
			s.skip("<?", "?>")
		case strings.HasPrefix(rest, "<!--"):
			s.skip("<!--", "-->")
		case strings.HasPrefix(rest, "<![CDATA["):
			s.skip("<![CDATA[", "]]>")
			s.kind, s.cdata = chars, true
			return !s.broken
		default:
			return s.openTag()
		}
	}
	s.broken = s.broken || len(s.open) > 0 || s.name == "" // there was no element
	return false
}

// skip goes on to after what begins and ends so.
func (s *scanner) skip(begin, end string) {
	from := s.start + len(begin)
	n := strings.Index(s.text[from:], end)
	if n < 0 {
		s.broken = true
		return
	}
	s.end = from + n + len(end)
}

func (s *scanner) closeTag() bool {
	s.skip("</", ">")
	last := len(s.open) - 1
	if s.broken || last < 0 || strings.TrimRight(s.text[s.start+2:s.end-1], space) != s.open[last].qualified {
		s.broken = true
		return false
	}
	s.kind, s.name, s.open = closing, s.open[last].name, s.open[:last]
	return true
}

// space is what stands between the words of a tag.
const space = " \t\r\n"

func (s *scanner) openTag() bool {
	s.kind, s.empty, s.attributes = opening, false, s.attributes[:0]
	s.end = s.start + 1
	whole := s.word()
	s.name = local(whole)
	s.open = append(s.open, element{whole, s.name})
	for whole != "" && len(s.open) <= maxDepth && len(s.attributes) <= maxAttributes {
		rest := strings.TrimLeft(s.text[s.end:], space)
		spaced := len(rest) < len(s.text)-s.end
		s.end = len(s.text) - len(rest)
		switch {
		case strings.HasPrefix(rest, ">"):
			s.end++
			return true
		case strings.HasPrefix(rest, "/>"):
			s.end, s.empty = s.end+2, true
			return true
		}
		if !spaced || !s.attribute() {
			break
		}
	}
	s.broken = true
	return false
}

// attribute reads an attribute of the opening tag.
func (s *scanner) attribute() bool {
	start := s.end
	name := s.word()
	rest := strings.TrimLeft(s.text[s.end:], space)
	rest, equal := strings.CutPrefix(rest, "=")
	rest = strings.TrimLeft(rest, space)
	if name == "" || !equal || rest == "" || rest[0] != '"' && rest[0] != '\'' {
		return false
	}
	n := strings.IndexByte(rest[1:], rest[0])
	if n < 0 || strings.IndexByte(rest[1:1+n], '<') >= 0 {
		return false
	}
	s.end = len(s.text) - len(rest) + n + 2
	s.attributes = append(s.attributes, attribute{name, rest[1 : 1+n], start, s.end})
	return true
}

// word reads the name of an element or an attribute.
func (s *scanner) word() string {
	rest := s.text[s.end:]
	n := 0
	for n < len(rest) && strings.IndexByte(space+"=/><'\"!?&", rest[n]) < 0 {
		n++
	}
	s.end += n
	return rest[:n]
}

// local is a name without its prefix.
func local(name string) string { return name[strings.IndexByte(name, ':')+1:] }

// attr returns the value of an attribute of the opening tag; "" where it has none. Only
// an id, which is a relation's, may have a prefix.
func (s *scanner) attr(name string) string {
	for i := range s.attributes {
		if a := &s.attributes[i]; a.name == name || name == "id" && strings.HasSuffix(a.name, ":id") && a.name != "xmlns:id" {
			return s.plain(a.value)
		}
	}
	return ""
}

// is reports whether the token is the opening tag of an element that stands in such
// elements, the outermost of the XML left out.
func (s *scanner) is(path ...string) bool {
	if s.kind != opening || len(s.open) != len(path)+1 {
		return false
	}
	for i, name := range path {
		if s.open[i+1].name != name {
			return false
		}
	}
	return true
}

// content reads on to the end of the element whose opening tag the token is, and
// returns the texts that stand in it where among says so of what is open in it.
func (s *scanner) content(among func(inner []element) bool) string {
	text, more := "", []byte(nil)
	for depth := len(s.open); s.next() && len(s.open) >= depth; {
		if s.kind != chars || !among(s.open[depth:]) {
			continue
		}
		if text == "" {
			text = s.chars()
			continue
		}
		if more == nil {
			more = []byte(text)
		}
		more = append(more, s.chars()...)
	}
	if more != nil {
		return string(more)
	}
	return text
}

// directly is true of a text that stands in no element.
func directly(inner []element) bool { return len(inner) == 0 }

// chars is the text between the tags.
func (s *scanner) chars() string {
	text := s.text[s.start:s.end]
	if s.cdata {
		return newlines(text[len("<![CDATA[") : len(text)-len("]]>")])
	}
	return s.plain(newlines(text))
}

// newlines writes every line end as XML reads it, as LF.
func newlines(text string) string {
	if strings.IndexByte(text, '\r') < 0 {
		return text
	}
	return strings.NewReplacer("\r\n", "\n", "\r", "\n").Replace(text)
}

var entities = map[string]string{"lt": "<", "gt": ">", "amp": "&", "quot": `"`, "apos": "'"}

// plain is a text with its references resolved.
func (s *scanner) plain(text string) string {
	if strings.IndexByte(text, '&') < 0 {
		return text
	}
	var b strings.Builder
	for {
		before, rest, more := strings.Cut(text, "&")
		b.WriteString(before)
		if !more {
			return b.String()
		}
		name, _, ended := strings.Cut(rest[:min(len(rest), 12)], ";")
		char := entities[name]
		if number, numbered := strings.CutPrefix(name, "#"); numbered {
			char = numberedChar(number)
		}
		if !ended || char == "" {
			s.broken = true
			return ""
		}
		b.WriteString(char)
		text = rest[len(name)+1:]
	}
}

// numberedChar is the character that has a number, as 233 or xe9; "" for none.
func numberedChar(number string) string {
	base := 10
	if hex, ok := strings.CutPrefix(number, "x"); ok {
		number, base = hex, 16
	}
	n, err := strconv.ParseUint(number, base, 32)
	if err != nil || !utf8.ValidRune(rune(n)) || unwritable(rune(n)) {
		return ""
	}
	return string(rune(n))
}
