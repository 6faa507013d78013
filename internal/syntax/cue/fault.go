package cue

import "strings"

// sayings are beginnings of the parser's complaints, in plainer words.
var sayings = [...]struct{ parser, says string }{
	{"string literal not terminated", "a quote mark is not closed on its line"},
	{"missing ',' in struct literal", "this stands behind a field on its line; put a comma before another field, and words and lengths such as 9 1/2 in double quotes"},
	{"missing ',' in list literal", "a comma is missing between two entries, or words or a length such as 9 1/2 are not in double quotes"},
	{"hexadecimal escape", escape},
	{"octal escape", escape},
	{"unknown escape sequence", escape},
	{"escape sequence", escape},
	{"illegal character U+201", "words have to be in plain double quotes, as \"kelp\""},
	{"illegal character NUL", "it has a NUL byte, so it is not a text file"},
	{"illegal '_' in number", number},
	{"illegal hexadecimal number", number},
	{"illegal binary number", number},
	{"illegal octal number", number},
	{"illegal integer number", number},
	{"illegal exponent", number},
	{"illegal token '..'", number},
	{"illegal", "this can't stand here outside double quotes"},
	{"expected operand", "a value is missing before this"},
	{"invalid attribute", "an @ can't stand here outside double quotes"},
	{"attribute missing", "an @ can't stand here outside double quotes"},
	{"non-matching whitespace", "the lines of a text in three quote marks have to begin with the spaces that its last line begins with"},
}

const (
	escape = "a backslash in quotes has a special meaning; write it twice"
	number = "a number has to be plain, as 9.5, and can't begin with 0; put anything else in double quotes"
)

// said says what the parser complains of.
func said(complaint string) string {
	if strings.HasPrefix(complaint, "illegal character") && strings.HasSuffix(complaint, "in escape sequence") {
		return escape
	}
	for _, s := range sayings {
		if strings.HasPrefix(complaint, s.parser) {
			return s.says
		}
	}
	return strings.ReplaceAll(complaint, "'EOF'", "the end of the file")
}
