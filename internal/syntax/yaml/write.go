package yaml

import (
	"slices"
	"strings"
	"unicode/utf8"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/syntax"
)

// A Writer writes edits in YAML.
type Writer struct{}

// Set implements [order.Writer].
func (Writer) Set(o *order.Order, n *order.Node, text string) finding.Edit {
	at := n.At
	around := syntax.Around(o.File.Text, at, n.Quote)
	switch {
	case syntax.IsTruth(text):
		at = around
	case n.Quote == '\'' && strings.ContainsFunc(text, syntax.Unprintable):
		at, text = around, syntax.Quote(text) // single ones have no escapes
	case n.Quote != 0:
		text = within(text, n.Quote)
	default:
		text = spell(text, inFlow(o, at))
	}
	if n.Form == order.Null && at.Len() == 0 && n.Key.Len() > 0 && at.Start == n.Key.End {
		text = ": " + text // a name in braces may stand without its colon
		if syntax.Quoted(o.File.Text, n.Key) != 0 {
			at.Start, at.End = at.Start+1, at.End+1
		}
	}
	return edit(o, at, text)
}

// Rename implements [order.Writer].
func (Writer) Rename(o *order.Order, n *order.Node, name string) finding.Edit {
	if quote := syntax.Quoted(o.File.Text, n.Key); quote != 0 {
		name = within(name, quote)
	} else if misread(name, inFlow(o, n.Key)) {
		name = syntax.Quote(name)
	}
	return edit(o, n.Key, name)
}

// Add implements [order.Writer].
func (Writer) Add(o *order.Order, n *order.Node, fields []order.Added) (order.Addition, bool) {
	flow := false
	b, ok := syntax.NewBlock(o, n, fields, syntax.Manner{Note: "#", Commas: true, Value: func(text string) string { return spell(text, flow) }})
	if !ok {
		return order.Addition{}, false
	}
	if flow = b.Open || inFlow(o, n.At); b.Open {
		return b.Add()
	}
	for _, e := range slices.Backward(b.Entries) {
		// A dash before the first field stands where a space does before the others.
		if lead := strings.ReplaceAll(b.Lead(&e), "-", " "); strings.Trim(lead, " ") == "" {
			return b.Put(syntax.LineEnd(o.File.Text, e.At.End), &e, b.Newline()+lead, ""), true
		}
	}
	return order.Addition{}, false
}

// within writes text for the inside of a pair of quotes.
func within(text string, quote byte) string {
	if quote == '\'' {
		return strings.ReplaceAll(text, "'", "''")
	}
	return syntax.Escape(text)
}

// spell writes a value without quotes, or with them where it needs them.
func spell(text string, flow bool) string {
	if syntax.IsTruth(text) || !misread(text, flow) {
		return text
	}
	return syntax.Quote(text)
}

// misread reports whether YAML would take text without quotes for anything but
// that text: for a comment, a map, a list, an anchor, a null.
func misread(text string, flow bool) bool {
	if text == "" || text != strings.TrimSpace(text) || !utf8.ValidString(text) {
		return true
	}
	switch strings.ToLower(text) {
	case "~", "null", "---", "...":
		return true
	}
	if strings.IndexByte("!&*|>@`%#,[]{}\"'", text[0]) >= 0 {
		return true
	}
	if strings.IndexByte("-?:", text[0]) >= 0 && (len(text) == 1 || text[1] == ' ' || flow) {
		return true
	}
	if strings.HasSuffix(text, ":") || strings.Contains(text, ": ") || strings.Contains(text, " #") {
		return true
	}
	if flow && strings.ContainsAny(text, ",[]{}?:") { // the last two end a word there, before a comma
		return true
	}
	return strings.ContainsFunc(text, syntax.Unprintable)
}

// edit puts text at r, with a space before it where r is a blank that touches
// the mark of its field or of its list. A comment behind a blank keeps a space
// before it, and its column where there is room.
func edit(o *order.Order, r source.Range, text string) finding.Edit {
	if r.Len() > 0 {
		return finding.Edit{Range: r, Text: text}
	}
	if r.Start > 0 && strings.IndexByte(":-,", o.File.Text[r.Start-1]) >= 0 {
		text = " " + text
	}
	after := o.File.Text[r.Start:]
	if rest := strings.TrimLeft(after, " "); strings.HasPrefix(rest, "#") {
		room := len(after) - len(rest)
		if room == 0 {
			text += " "
		}
		r.End += max(0, min(room-1, utf8.RuneCountInString(text)))
	}
	return finding.Edit{Range: r, Text: text}
}

// inFlow reports whether the place lies in a YAML list or map that is written
// in brackets.
func inFlow(o *order.Order, at source.Range) bool {
	n := o.Root
	for n != nil {
		if n.Form == order.Map || n.Form == order.List {
			if s := o.File.Text[n.At.Start:n.At.End]; s != "" && (s[0] == '{' || s[0] == '[') {
				return true
			}
		}
		n = holder(n.Kids, at)
	}
	return false
}

// holder returns the node that the place is in, or nil.
func holder(nodes []order.Node, at source.Range) *order.Node {
	for i := range nodes {
		if n := &nodes[i]; n.At.Start <= at.Start && at.End <= n.At.End && n.At.Len() > 0 {
			return n
		}
	}
	return nil
}
