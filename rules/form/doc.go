// Package form checks how the order form is filled in: unknown names and words,
// numbers that can't be read, and names that lead nowhere.
//
// What can't be read counts as not given, so nothing else is reported for it; what
// was read is still checked by all other rules.
package form

import (
	"strconv"
	"strings"
	"unicode"
	"unicode/utf8"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/source"
)

// flaws returns the form's flaws of one kind, in the order of the form. What is
// written once and stands in other places by an alias or a reference has its
// flaw once.
func flaws(p *rule.Pass, kind order.FlawKind) (list []*order.Flaw) {
	type said struct{ name, text, wanted string }
	fixed := map[said]bool{}
	for i := range p.Order.Flaws {
		f := &p.Order.Flaws[i]
		if f.Kind != kind {
			continue
		}
		if f.Node != nil && f.Node.Fixed {
			is := said{f.Name, f.Text, f.Wanted}
			if fixed[is] {
				continue
			}
			fixed[is] = true
		}
		list = append(list, f)
	}
	return list
}

// mostShown is how many characters of what was written a message repeats.
const mostShown = 40

// quote is what was written, as a message repeats it: on one line, and not at
// length.
func quote(text string) string { return "“" + clip(text) + "”" }

func clip(text string) string {
	text = source.Show(strings.Join(strings.Fields(text), " "))
	if utf8.RuneCountInString(text) <= mostShown {
		return text
	}
	return string([]rune(text)[:mostShown-1]) + "…"
}

// says is what a flaw's field holds, as the end of a sentence.
func says(f *order.Flaw) string {
	switch {
	case f.Node != nil && f.Node.Form == order.Map:
		return "is given in parts"
	case f.Node != nil && f.Node.Form == order.List:
		return "is a list"
	case strings.TrimSpace(f.Text) == "":
		return "is empty"
	}
	return "says " + quote(f.Text)
}

// field is what the flaw's field is called in a message: in a table, by its
// column's heading.
func field(f *order.Flaw) string {
	switch {
	case f.Name != "" && !f.InKey && f.Node != nil && f.Node.Cell && heading(f.Path) != "":
		return "`" + clip(heading(f.Path)) + "`"
	case f.Name != "":
		return "`" + clip(f.Name) + "`"
	case f.Path == "":
		return "the order"
	}
	return group(f.Path)
}

// calledAt is what a stated value is called: by its column's heading in a table.
func calledAt(p *rule.Pass, n *order.Node, name string) string {
	if n.Cell {
		return "`" + clip(heading(p.Order.PathAt(n.At))) + "`"
	}
	return name
}

// heading is the heading of the column for the field at a path: hem turn for
// items[0].hem.turn, cut 2 width for items[0].cuts[1].width.
func heading(path string) string {
	switch list, rest, _ := strings.Cut(path, "."); {
	case strings.HasPrefix(list, "items["), list == "cloths":
		path = rest
		if list == "cloths" {
			_, path, _ = strings.Cut(rest, ".")
		}
	case list == "measured":
		_, path, _ = strings.Cut(rest, ".")
		path = "measured." + path
	}
	var words []string
	for _, name := range strings.Split(path, ".") {
		if list, entry, ok := strings.Cut(name, "["); ok {
			n, _ := strconv.Atoi(strings.TrimSuffix(entry, "]"))
			name = strings.TrimSuffix(list, "s") + " " + strconv.Itoa(n+1)
		}
		words = append(words, strings.ReplaceAll(name, "_", " "))
	}
	return strings.Join(words, " ")
}

// grouped reports whether what is wanted is a group of fields or a list.
func grouped(wanted string) bool {
	return strings.HasPrefix(wanted, "{") || strings.HasPrefix(wanted, "a list")
}

// group is what the group of fields at a path is called in a message.
func group(path string) string {
	name := path[strings.LastIndexByte(path, '.')+1:]
	switch list, _, entry := strings.Cut(name, "["); {
	case name == "":
		return "the order"
	case !entry:
		return "`" + clip(name) + "`"
	case list == "items":
		return "this item"
	case list == "":
		return "this entry"
	case list == "waive":
		return "this waiver"
	default:
		return "this " + strings.TrimSuffix(strings.ReplaceAll(clip(list), "_", " "), "s")
	}
}

// begin is text as a sentence begins.
func begin(text string) string {
	first, size := utf8.DecodeRuneInString(text)
	return string(unicode.ToUpper(first)) + text[size:]
}

// and adds a flaw's detail to a message, as a sentence of its own.
func and(message, detail string) string {
	if detail == "" {
		return message
	}
	return message + " " + strings.TrimSuffix(begin(detail), ".") + "."
}

// nearest returns which of the names a person may have meant, or "". Same says
// that it differs in its spaces, hyphens and capitals only.
func nearest(name string, names []string) (near string, same bool) {
	plain := fold(name)
	below := min(max(2, len(plain)/3)+1, len(plain))
	if len(plain) > 64 || len(plain) < 2 {
		below = min(1, len(plain))
	}
	near = order.Closest(plain, names, below, fold)
	return near, near != "" && fold(near) == plain
}

func fold(name string) string {
	return strings.Map(func(r rune) rune {
		switch r {
		case ' ', '-', '_':
			return -1
		}
		return unicode.ToLower(r)
	}, name)
}

// workedOut offers what was worked out for an outcome that can't be taken as written.
func workedOut(p *rule.Pass, f *order.Flaw, out *finding.Finding) {
	b := p.Sheet.OutcomeOf(f.Path)
	if b == nil || f.Node == nil {
		return
	}
	right := p.Sheet.Written(b, f.Node)
	out.Corrected, out.Working, out.Source = right, b.Working(p.Sheet.Unit), b.Source
	out.Fixes = p.Likely(f.Node, right, "Write "+right+", as worked out")
}
