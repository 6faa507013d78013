package form

import (
	"fmt"
	"slices"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

var missingField = &rule.Rule{
	ID:    "form/missing-field",
	Title: "required field is missing",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runMissingField,
	Doc: `
Checks
Whether the order, each cloth and each item has the fields it can't do without:
units, the width of a cloth, the kind of an item, its finished size.

Because
Other fields can be left out: they are worked out, or the house's usual is used.
Nothing can stand in for these.

Working
Each part of the form has a few required fields. One whose name is misspelt is not
reported again as missing. A column that a table lacks is reported once, at its
headings.

Source
common practice, no source
`,
}

func runMissingField(p *rule.Pass) {
	unknown := flaws(p, order.UnknownField)
	type column struct {
		headings source.Range
		field    string
	}
	lacking := map[column]bool{}
	for _, f := range flaws(p, order.MissingField) {
		if givenOtherwise(unknown, f) {
			continue
		}
		if at := p.Order.File.HeadingsOver(f.At.Start); lacksColumn(f) && !at.IsZero() {
			if said := (column{at, f.Name}); !lacking[said] {
				lacking[said] = true
				p.Report(finding.Finding{At: at, Path: path(f), Message: noColumn(f)})
			}
			continue
		}
		p.Report(finding.Finding{At: where(f), Path: path(f), Message: missing(p, f)})
	}
	for i := range p.Order.Items {
		o := &p.Order.Items[i]
		if of, words := styledBy(&o.Heading); of != "" && o.Kind.Value == "valance" && !o.Heading.Style.Set && o.Heading.Style.Node == nil {
			p.Report(finding.Finding{
				At:      o.Heading.At,
				Message: fmt.Sprintf("%s has %s and no %s: write %s.", begin(shownIn(o, "heading")), shownIn(o, "heading."+of), shownIn(o, "heading.style"), worksheet.Any(words)),
			})
		}
	}
}

// styledBy is a field of a valance's heading that its usual style does not have, and the
// styles that do; "" for none.
func styledBy(h *order.Heading) (field string, styles []string) {
	switch {
	case h.Sections.Set:
		return "sections", []string{"box pleat"}
	case h.Fold.Set:
		return "fold", []string{"box pleat"}
	case h.Ends.Set:
		return "ends", []string{"box pleat"}
	case h.Pleats.Set:
		return "pleats", []string{"box pleat", "pinch pleat"}
	case h.TakeUp.Set:
		return "take_up", []string{"box pleat", "pinch pleat"}
	case h.Pocket.Set:
		return "pocket", []string{"rod pocket"}
	case h.Header.Set:
		return "header", []string{"rod pocket"}
	}
	return "", nil
}

// shownIn is a field of an item as people are shown it: the last of its names, or the heading
// of its column.
func shownIn(o *order.Item, path string) string {
	if n := o.Kind.Node; n != nil && n.Cell {
		return "`" + heading(path) + "`"
	}
	return "`" + path[strings.LastIndex(path, ".")+1:] + "`"
}

// lacksColumn reports whether a field of an order, an item or a cloth is missing as its
// table has no column for it. One that has is blank in some row.
func lacksColumn(f *order.Flaw) bool {
	if f.Node == nil || !f.Node.Cell || f.InKey || strings.HasPrefix(f.Wanted, "{") && f.Name != "cloths" {
		return false
	}
	list, rest, deeper := strings.Cut(f.Path, "[")
	return f.Path == "" || list == "items" && deeper && strings.HasSuffix(rest, "]") || list == f.Path && strings.HasPrefix(f.Path, "cloths.")
}

// noColumn says that a table has no column for a field.
func noColumn(f *order.Flaw) string {
	write := "write " + f.Wanted + " in it for each row"
	switch f.Name {
	case "cloth":
		write = "write the name of each item's cloth in it"
	case "item":
		write = "write in it what each item is, such as curtain"
	case "cloths":
		return "This table lists no cloths: list them further down or on another sheet, under `cloth`, `width` and more headings."
	case "units":
		write = "write " + f.Wanted + " in it"
	}
	head := f.Name
	if strings.Contains(f.Path, ".") { // of a part of the item
		head = heading(f.Path + "." + f.Name)
	}
	return fmt.Sprintf("No column is headed `%s`: add one, and %s.", head, write)
}

// where is the place of the group that misses the field: its name, or its first
// field where it has no name.
func where(f *order.Flaw) source.Range {
	if n := f.Node; n != nil && f.At == n.At && n.Form == order.Map && len(n.Kids) > 0 {
		return n.Kids[0].Key
	}
	return f.At
}

// path is the path that the missing field would have.
func path(f *order.Flaw) string {
	switch {
	case f.Detail != "":
		return f.Path
	case f.Path == "":
		return f.Name
	}
	return f.Path + "." + f.Name
}

func missing(p *rule.Pass, f *order.Flaw) string {
	if f.Detail != "" {
		return fmt.Sprintf("`%s` is empty: list at least one.", f.Name)
	}
	in, write := group(f.Path), f.Wanted
	cell := f.Node != nil && f.Node.Cell
	blank := fmt.Sprintf("`%s` under %s is blank", f.Name, in)
	switch {
	case cell && f.Path == "cloths":
		blank = "`cloth` is blank"
	case cell:
		blank = fmt.Sprintf("`%s` is blank", heading(path(f)))
	case f.Path == "" || strings.HasPrefix(in, "this "):
		blank = fmt.Sprintf("`%s` is blank", f.Name)
	}
	lacks := fmt.Sprintf("%s has no `%s`", in, f.Name)
	if cell && strings.HasPrefix(f.Path, "items[") {
		in = "this item"
		lacks = fmt.Sprintf("%s has no `%s`", in, heading(path(f)))
	}
	if columns := columnsFor(f); cell && !f.InKey && columns != "" {
		return begin(lacks + ": " + columns + ".")
	}
	switch {
	case f.Name == "item":
		lacks = in + " does not say what it is"
		if !f.InKey {
			write = "`item`, " + write
		}
	case cell && f.Name == "cloth" && f.Words == nil && f.Path != "cloths":
		write = "the name of a cloth in this table"
	case f.Name == "cloth" && f.Words == nil && f.Path != "cloths":
		lacks, write = in+" names no cloth", "one of the names under `cloths`"
	case f.Name == "piece":
		write = which(p, f)
	case f.Name == "rule":
		lacks, write = in+" names no rule", "one, such as hole/odd-count"
	case f.Name == "because":
		lacks, write = in+" gives no reason", "it under `because`"
	case f.Path == "" && f.Name == "order":
		lacks, write = in+" has no number", "it under `order`"
	}
	if f.InKey && f.Path == "" && f.Name == "order" {
		write = "the order's number"
	}
	if f.InKey {
		return begin(fmt.Sprintf("%s: write %s.", blank, write))
	}
	return begin(fmt.Sprintf("%s: write %s.", lacks, write))
}

// columnsFor says in which columns of a table a group of an item is written, which
// a cell can't hold; "" for what is no group.
func columnsFor(f *order.Flaw) string {
	in, ok := strings.CutPrefix(f.Wanted, "{")
	if !ok || !strings.HasPrefix(f.Path, "items[") {
		return ""
	}
	var names []string
	for _, part := range strings.Split(strings.TrimSuffix(in, "}"), ",") {
		name, what, ok := strings.Cut(strings.TrimSpace(part), ": ")
		if !ok || what != "…" {
			return ""
		}
		names = append(names, "`"+heading(path(f)+"."+name)+"`")
	}
	if len(names) == 1 {
		return "write it in a column headed " + names[0]
	}
	return "write it in columns headed " + worksheet.All(names)
}

// fewPieces is how many kinds of piece a message lists.
const fewPieces = 12

// which says which piece a cut may be of: those of its item, where they are known.
func which(p *rule.Pass, f *order.Flaw) string {
	for i := range p.Sheet.Items {
		it := &p.Sheet.Items[i]
		if has := pieces(it); strings.HasPrefix(f.Path, fmt.Sprintf("items[%d].", i)) && 0 < len(has) && len(has) <= fewPieces {
			return oneOf(has)
		}
	}
	return "which piece it is, such as width or lining"
}

// pieces are the names of an item's pieces.
func pieces(it *worksheet.Item) (names []string) {
	for i := range it.Pieces {
		if name := it.Pieces[i].Name; !slices.Contains(names, name) {
			names = append(names, name)
		}
	}
	return names
}

// oneOf says which words to choose from.
func oneOf(words []string) string {
	if len(words) == 1 {
		return quote(words[0])
	}
	return "one of " + strings.Join(words, ", ")
}

// givenOtherwise reports whether a misspelt name in the same group was meant for
// the field, or it stands in another.
func givenOtherwise(unknown []*order.Flaw, missing *order.Flaw) bool {
	for _, f := range unknown {
		if slices.Contains(f.Elsewhere, path(missing)) {
			return true
		}
		if f.Nearest != missing.Name || missing.Node == nil {
			continue
		}
		for k := range missing.Node.Kids {
			if &missing.Node.Kids[k] == f.Node {
				return true
			}
		}
	}
	return false
}
