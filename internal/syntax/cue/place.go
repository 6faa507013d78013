package cue

import (
	"strings"

	"cuelang.org/go/cue/ast"
	"cuelang.org/go/cue/token"

	"cutgate/internal/source"
)

// offset returns a position's place in the file.
func (r *reader) offset(p token.Pos) int {
	if !p.IsValid() {
		return len(r.text)
	}
	return min(r.start+p.Offset(), len(r.text))
}

// wordEnd returns where the word, or else the character, at i ends.
func (r *reader) wordEnd(i int) int {
	for k, c := range r.text[i:] {
		if c != '_' && c != '#' && (c < '0' || c > '9') && (c|0x20 < 'a' || c|0x20 > 'z') {
			if k > 0 {
				return i + k
			}
			return i + len(string(c))
		}
	}
	return len(r.text)
}

// trimmed returns at without the white space at its ends.
func (r *reader) trimmed(at source.Range) source.Range {
	inner := r.text[at.Start:at.End]
	at.Start += len(inner) - len(strings.TrimLeft(inner, " \t\r\n"))
	at.End = at.Start + len(strings.TrimSpace(inner))
	return at
}

// spread returns the range from the first to the last of decls.
func (r *reader) spread(decls []ast.Decl) source.Range {
	var at source.Range
	for i, d := range decls {
		one := r.extent(d)
		if i == 0 {
			at = one
			if _, ok := d.(*ast.Package); ok && len(decls) > 1 {
				at.Start = r.extent(decls[1]).Start
			}
		}
		at.End = max(at.End, one.End)
	}
	return at
}

// extent returns the range of n. The tree is asked for starts only, and for
// closing brackets.
func (r *reader) extent(n ast.Node) source.Range {
	start := r.offset(leftmost(n).Pos())
	end := start
	switch n := n.(type) {
	case *ast.BasicLit:
		end = r.follow(start, n.Value)
	case *ast.Ident:
		end = r.follow(start, n.Name)
	case *ast.StructLit:
		if n.Rbrace.IsValid() && n.Lbrace.IsValid() {
			end = r.offset(n.Rbrace) + 1
		} else if len(n.Elts) > 0 {
			end = r.spread(n.Elts).End
		}
	case *ast.ListLit:
		end = r.offset(n.Rbrack) + 1
	case *ast.Field:
		end = r.extent(n.Value).End
	case *ast.EmbedDecl:
		return r.extent(n.Expr)
	case *ast.UnaryExpr:
		end = r.extent(n.X).End
	case *ast.SelectorExpr:
		end = r.extent(n.Sel).End
	case *ast.BinaryExpr:
		end = r.extent(n.Y).End
	case *ast.Interpolation:
		end = start
		for _, x := range n.Elts {
			end = max(end, r.extent(x).End)
		}
	default:
		if p := n.End(); p.IsValid() {
			end = r.offset(p)
		}
	}
	end = min(max(start, end), len(r.text))
	if end == start && start < len(r.text) {
		end = r.wordEnd(start)
	}
	if _, ok := n.(ast.Label); ok && end-start >= 2 && r.text[start] == '"' && r.text[end-1] == '"' {
		if _, isLit := n.(*ast.BasicLit); isLit && r.text[end:] != "" && strings.HasPrefix(strings.TrimLeft(r.text[end:], " \t"), ":") {
			return source.Range{Start: start + 1, End: end - 1}
		}
	}
	return source.Range{Start: start, End: end}
}

// leftmost returns the part of n that it starts with. The tree's own way of
// asking is slow where expressions lie deep in one another.
func leftmost(n ast.Node) ast.Node {
	for {
		switch e := n.(type) {
		case *ast.BinaryExpr:
			n = e.X
		case *ast.SelectorExpr:
			n = e.X
		case *ast.IndexExpr:
			n = e.X
		case *ast.SliceExpr:
			n = e.X
		case *ast.CallExpr:
			n = e.Fun
		default:
			return n
		}
	}
}

// follow returns where a token ends that starts at i: the parser takes carriage
// returns out of it.
func (r *reader) follow(i int, token string) int {
	for k := 0; k < len(token) && i < len(r.text); i++ {
		if r.text[i] == token[k] {
			k++
		} else if r.text[i] != '\r' {
			break
		}
	}
	return i
}
