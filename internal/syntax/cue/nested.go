package cue

import (
	"bytes"
	"strings"

	"cuelang.org/go/cue/scanner"
	"cuelang.org/go/cue/token"

	"cutgate/internal/syntax"
)

// maxNested is how many brackets and names may lie in one another, and maxOpened how many
// brackets may be opened behind an interpolation. The parser's work grows with the square
// of these.
const (
	maxNested = 10 * syntax.MaxDepth
	maxOpened = 100 * syntax.MaxDepth
)

// TooNested returns where a text nests deeper than any order or house rules do, or -1: in
// brackets, or in names after names, as a: b: c: 1.
func TooNested(text string) int {
	// An attribute, as @name(…), would be one token, and slow where they nest.
	src := bytes.ReplaceAll([]byte(text), []byte("@"), []byte("+"))
	var s scanner.Scanner
	s.Init(token.NewFile("", -1, len(src)), src, nil, 0)
	brackets, names := 0, 0
	for {
		pos, tok, _ := s.Scan()
		switch tok {
		case token.EOF:
			return -1
		case token.LBRACE, token.LBRACK, token.LPAREN:
			brackets++
		case token.RBRACE, token.RBRACK, token.RPAREN:
			brackets = max(brackets-1, 0)
		case token.COLON:
			names++
		case token.COMMA:
			names = 0
		case token.INTERPOLATION:
			// Where the text goes on after it is for the parser to say, who may have
			// stumbled before: what closes is not counted from here on.
			return opensMore(text, pos.Offset())
		}
		if brackets+names > maxNested {
			return pos.Offset()
		}
	}
}

// opensMore returns where a text opens more than [maxOpened] brackets from a place on, or
// has more than [maxNested] names on a line, or -1.
func opensMore(text string, from int) int {
	opened, names := 0, 0
	for i := from; i < len(text); i++ {
		switch text[i] {
		case '{', '[', '(':
			opened++
		case ':':
			names++
		case '\n':
			if !strings.HasSuffix(strings.TrimRight(text[from:i], " \t\r"), ":") {
				names = 0
			}
		}
		if opened > maxOpened || names > maxNested {
			return i
		}
	}
	return -1
}
