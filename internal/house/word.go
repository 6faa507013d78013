package house

import (
	"fmt"
	"slices"
	"strings"

	"cuelang.org/go/cue"
	"cuelang.org/go/cue/errors"

	"cutgate/internal/order"
)

// leaves says in words what a value of each of the schema's definitions is.
var leaves = map[string]string{
	"#Text":          "words in quotes",
	"#Exact":         `a length with its unit, such as "5/8 in" or "12 mm"`,
	"#Number":        `a plain number in quotes, such as "2.25"`,
	"#Share":         `a part of one in quotes, such as "0.05" for 5 percent`,
	"#Grammage":      `a weight of cloth, such as "240 g/m2"`,
	"#RunningWeight": `a weight along a length, such as "45 g/m"`,
	"#Kilograms":     `a mass, such as "5 kg"`,
	"#Source":        "who says so, in a few words, without brackets and web addresses",
	"#FieldPath":     "the path of a field, such as hems.bottom.turn",
}

// wanted says in words what may stand where shape does, and gives the words
// themselves where it is one of several.
func wanted(shape cue.Value) (says string, words []string) {
	if _, ref := shape.ReferencePath(); len(ref.Selectors()) > 0 {
		sels := ref.Selectors()
		if s, ok := leaves[sels[len(sels)-1].String()]; ok {
			return s, nil
		}
	}
	if words = wordsOf(shape); words != nil {
		return "one of " + or(words), words
	}
	switch shape.IncompleteKind() {
	case cue.BoolKind:
		return "true or false", nil
	case cue.IntKind:
		return "a whole number" + span(shape), nil
	case cue.StringKind:
		return "words in quotes", nil
	case cue.StructKind:
		return "fields in braces", nil
	case cue.ListKind:
		return "a list in square brackets", nil
	}
	return "another value", nil
}

// span says between which numbers a whole number lies, where both are given.
func span(shape cue.Value) string {
	var least, most string
	var look func(v cue.Value)
	look = func(v cue.Value) {
		op, args := v.Expr()
		switch {
		case op == cue.AndOp:
			for _, a := range args {
				look(a)
			}
		case op == cue.GreaterThanEqualOp && len(args) == 1:
			least = fmt.Sprint(args[0])
		case op == cue.LessThanEqualOp && len(args) == 1:
			most = fmt.Sprint(args[0])
		}
	}
	look(shape)
	if least == "" || most == "" {
		return ""
	}
	return " from " + least + " to " + most
}

// wordsOf returns the texts that shape is a choice between, or nil where it is
// anything else.
func wordsOf(shape cue.Value) []string {
	shape = cue.Dereference(shape)
	if op, args := shape.Expr(); op == cue.OrOp {
		var words []string
		for _, a := range args {
			more := wordsOf(a)
			if more == nil {
				return nil
			}
			for _, w := range more {
				if !slices.Contains(words, w) { // a default is one of the words too
					words = append(words, w)
				}
			}
		}
		return words
	}
	if s, err := shape.String(); err == nil && shape.IsConcrete() {
		return []string{s}
	}
	return nil
}

// nearest returns which of the names a person may have meant, or "": one that
// lacks its topic only, or else one a few letters off.
func nearest(name string, names []string) string {
	if len(name) > 64 {
		return ""
	}
	hyphens := strings.NewReplacer(" ", "-", "_", "-")
	fold := func(s string) string { return hyphens.Replace(strings.ToLower(s)) }
	name = fold(name)
	if i := slices.IndexFunc(names, func(n string) bool { return strings.HasSuffix(n, "/"+name) }); i >= 0 {
		return names[i]
	}
	return order.Closest(name, names, max(len(name)/3, min(2, len(name)/2))+1, fold)
}

// hint asks whether the nearest name was meant, or else says what can be.
func hint(name string, names []string, otherwise string) string {
	if n := nearest(name, names); n != "" {
		return ": did you mean " + n + "?"
	}
	if otherwise == "" {
		return ""
	}
	return ": " + otherwise
}

// and and or join names as a sentence does.
func and(list []string) string { return join(list, " and ") }
func or(list []string) string  { return join(list, " or ") }

func join(list []string, last string) string {
	quoted := make([]string, len(list))
	for i, s := range list {
		if quoted[i] = s; s == "" {
			quoted[i] = `""`
		}
	}
	n := len(quoted) - 1
	if n < 1 {
		return strings.Join(quoted, "")
	}
	return strings.Join(quoted[:n], ", ") + last + quoted[n]
}

// sentence says an evaluator's error in the words of someone who writes house
// rules, as far as it is of a kind that they run into.
func sentence(e errors.Error) string {
	format, args := e.Msg()
	said := strings.TrimSpace(fmt.Sprintf(format, args...))
	switch {
	case strings.HasPrefix(format, "reference ") && len(args) > 0:
		return fmt.Sprintf("nothing in this file is called %v: give it a value, or put the words in quotes", args[0])
	case strings.HasPrefix(format, "conflicting values") && len(args) > 1:
		return fmt.Sprintf("two values that don't agree, %v and %v: keep one", args[0], args[1])
	case strings.HasPrefix(format, "expected ") || strings.HasPrefix(format, "missing "):
		return "this can't be read as CUE: " + strings.ReplaceAll(said, "'EOF'", "the end of the file")
	}
	return said
}
