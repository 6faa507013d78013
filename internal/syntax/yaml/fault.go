package yaml

import (
	"fmt"
	"regexp"
	"strconv"
	"strings"
	"sync"
	"unicode/utf8"

	"go.yaml.in/yaml/v3"

	"cutgate/internal/source"
	"cutgate/internal/syntax"
)

const tabbed = "it is indented with a tab; use spaces"

const (
	escape    = "a backslash in double quotes has a special meaning; write it twice, or use single quotes"
	tagged    = "an entry that starts with ! has a special meaning; put it in quotes"
	directive = "a line that starts with % has a special meaning; put it in quotes"
)

// sayings are the parser's complaints in plainer words.
var sayings = [...]struct{ parser, says string }{
	{"did not find expected key", "this line does not line up with the fields above it"},
	{"did not find expected '-' indicator", "this line does not line up with the entries above it"},
	{"did not find expected ',' or '}'", "a { is not closed, or a comma is missing between its fields"},
	{"did not find expected ',' or ']'", "a [ is not closed, or a comma is missing between its entries"},
	{"mapping values are not allowed in this context", "a field can't start here; line it up with the others, or put words that contain a colon in quotes"},
	{"could not find expected ':'", "a name has no colon after it"},
	{"found unexpected end of stream", "a quote mark is not closed"},
	{"found character that cannot start any token", "an entry can't start with this character; put it in quotes"},
	{"found a tab character that violates indentation", tabbed},
	{"found a tab character where an indentation space is expected", tabbed},
	{"found incompatible YAML document", "its %YAML line asks for a version other than 1.1 or 1.2"},
	{"found unknown escape character", escape},
	{"did not find expected hexdecimal number", escape},
	{"found invalid Unicode character escape code", "a backslash in double quotes stands for half of a character, or for none; write the character itself"},
	{"mapping keys are not allowed in this context", "an entry can't start with ? here; put it in quotes"},
	{"did not find expected alphabetic or numeric character", "an entry that starts with & or * has to have a name behind it; put it in quotes"},
	{"did not find expected comment or line break", "nothing can stand behind a > or a | that starts an entry; put it in quotes"},
	{"found an indentation indicator equal to 0", "nothing can stand behind a > or a | that starts an entry; put it in quotes"},
	{"found unexpected document indicator", "a quote mark is not closed before the next order"},
	{"found undefined tag handle", tagged},
	{"did not find expected tag URI", tagged},
	{"did not find the expected '>'", tagged},
	{"did not find expected whitespace or line break", tagged},
	{"did not find expected '!'", tagged},
	{"did not find URI escaped octet", tagged},
	{"could not find expected directive name", directive},
	{"found unknown directive name", directive},
	{"found unexpected non-alphabetical character", directive},
	{"did not find expected whitespace", directive},
	{"did not find expected version number", directive},
	{"did not find expected digit or '.' character", directive},
	{"found extremely long version number", directive},
	{"found duplicate %YAML directive", directive},
	{"found duplicate %TAG directive", directive},
	{"block sequence entries are not allowed in this context", "a list entry can't go here"},
	{"control characters are not allowed", "it has a control character; take it out"},
	{"did not find expected <document start>", "this line belongs to nothing above it"},
	{"exceeded max depth of 10000", "fields are nested too deeply"},
	{noContent, "nothing stands here, or a tag or an anchor stands alone"},
}

const noContent = "did not find expected node content"

// unclosed returns the marks of a group in braces or brackets that begins on the first line
// of a text and never ends; "" if none does.
func unclosed(text string) string {
	line, _, _ := strings.Cut(text, "\n")
	for _, marks := range [...]string{"{}", "[]"} {
		open, quote := 0, byte(0)
		begun := strings.IndexByte(line, marks[0])
		for i := begun; i >= 0 && i < len(text); i++ {
			switch c := text[i]; {
			case quote != 0:
				if c == quote {
					quote = 0
				}
			case c == '"':
				quote = c
			case c == marks[0]:
				open++
			case c == marks[1]:
				open--
			}
			if open == 0 {
				if next := strings.IndexByte(text[i:], marks[0]); next >= 0 && i+next < len(line) {
					i += next - 1 // one more group on the line
					continue
				}
				break
			}
		}
		if open > 0 {
			return marks
		}
	}
	return ""
}

// faultOf returns where the parser stopped in text, which it read from start,
// and why.
func faultOf(text string, start int, err error) *syntax.Fault {
	said := strings.TrimPrefix(err.Error(), "yaml: ")
	line := 1
	if rest, ok := strings.CutPrefix(said, "line "); ok {
		if number, after, ok := strings.Cut(rest, ": "); ok {
			if n, err := strconv.Atoi(number); err == nil {
				line, said = n, after
			}
		}
	}
	detail := said
	for _, s := range sayings {
		if said == s.parser {
			detail = s.says
		}
	}
	lines := lineStarts(text, start)
	switch {
	case said == "control characters are not allowed":
		for i, c := range text[start:] {
			if c < ' ' && !isBlank(c) || c == 0x7f || c > 0x7f && c < 0xa0 && c != 0x85 || c == 0xfeff || c&^1 == 0xfffe {
				detail = fmt.Sprintf("it has a control character (U+%04X); take it out", c)
				if c&^1 == 0xfffe {
					detail = fmt.Sprintf("it has U+%X, which is no character; take it out", c)
				}
				return syntax.NewFault(source.Range{Start: start + i, End: start + i + utf8.RuneLen(c)}, detail)
			}
		}
	case strings.HasPrefix(said, "unknown anchor"):
		if _, name, ok := strings.Cut(said, "'"); ok {
			name, _, _ = strings.Cut(name, "'")
			if i := strings.Index(text[start:], "*"+name); i >= 0 {
				i += start
				return syntax.NewFault(source.Range{Start: i, End: i + 1 + len(name)}, "nothing is called &"+name+" before this")
			}
		}
	case strings.HasPrefix(said, "did not find expected"):
		// The parser names the line on which the group starts.
		line = firstBad(text, start, lines, said)
	}
	line = min(max(line, 1), len(lines))
	if c, size := utf8.DecodeLastRuneInString(text[:lines[line-1]]); c == 0x85 || c == 0x2028 || c == 0x2029 {
		end := lines[line-1]
		return syntax.NewFault(source.Range{Start: end - size, End: end}, fmt.Sprintf("an invisible character (U+%04X) ends the line here; take it out", c))
	}
	if at, says := slipped(text, lines, line, said); says != "" {
		return syntax.NewFault(at, says)
	}
	at := source.Range{Start: lines[line-1], End: len(text)}
	if line < len(lines) {
		at.End = lines[line]
	}
	whole := text[at.Start:at.End]
	if said == noContent {
		if marks := unclosed(text[at.Start:]); marks != "" {
			detail = "a " + marks[1:] + " is missing: the " + marks[:1] + " on this line is not closed"
		}
	}
	lead := whole[:len(whole)-len(strings.TrimLeft(whole, " \t"))]
	if strings.Contains(lead, "\t") {
		detail = tabbed
	}
	at.Start += len(lead)
	at.End = at.Start + len(strings.TrimRight(text[at.Start:at.End], " \t\r\n\u0085\u2028\u2029"))
	return syntax.NewFault(at, detail)
}

// slipped looks on a line that the parser refuses, or on the one before it, for a slip that
// it has no word for.
func slipped(text string, lines []int, line int, said string) (at source.Range, says string) {
	lineAt := func(n int) source.Range {
		if n < len(lines) {
			return source.Range{Start: lines[n-1], End: lines[n]}
		}
		return source.Range{Start: lines[n-1], End: len(text)}
	}
	own := lineAt(line)
	look, says := own, "put a plain space behind this colon"
	pattern := unspaced
	switch {
	case said == "could not find expected ':'":
	case strings.HasPrefix(said, "mapping values") && line > 1 && strings.Count(text[own.Start:own.End], ":") == 1:
		look = lineAt(line - 1) // which this one seems to go on with
	case strings.HasPrefix(said, "did not find expected"):
		pattern, says = apostrophe, "a single quote mark inside single quotes ends them; write it twice, or use double quotes"
	default:
		return at, ""
	}
	m := pattern().FindStringSubmatchIndex(strings.TrimRight(text[look.Start:look.End], "\r\n"))
	if m == nil {
		return at, ""
	}
	return source.Range{Start: look.Start + m[2], End: look.Start + m[3]}, says
}

var (
	unspaced = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`^[ -]*[A-Za-z_][A-Za-z_ ]*(:)[^ \t:/][^:]*$`)
	})
	apostrophe = sync.OnceValue(func() *regexp.Regexp {
		return regexp.MustCompile(`[:,{\[-] *'[^']*[\pL\d](')[\pL\d]`)
	})
)

// firstBad returns the first line with which the text up to it is refused in
// the same words.
func firstBad(text string, start int, lines []int, said string) int {
	low, high := 1, len(lines)
	for low < high {
		mid := (low + high) / 2
		if refused(text[start:lines[mid]], said) {
			high = mid
		} else {
			low = mid + 1
		}
	}
	return low
}

func refused(text, said string) bool {
	dec := yaml.NewDecoder(strings.NewReader(text))
	for {
		if _, err := document(dec); err != nil {
			return strings.HasSuffix(err.Error(), said)
		}
	}
}
