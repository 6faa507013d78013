package form

import (
	"fmt"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/source"
)

var missingField = &rule.Rule{
	ID:    "form/missing-field",
	Title: "field that must be given and is not",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runMissingField,
	Doc: `
Checks
Whether the fields are there without which an order, a cloth or an item means
nothing: units, the width of a cloth, the kind of an item, its finished size.

Because
The rest can be left out and is then worked out or taken from the house's own
practice. For these there is no such value.

Working
Each group of the form has a few fields that must be given. A field whose name
is misspelt in that group is not reported a second time as missing.

Source
common practice, no source
`,
}

func runMissingField(p *rule.Pass) {
	for _, f := range flaws(p, order.MissingField) {
		if givenOtherwise(p.Order, f) {
			continue
		}
		p.Report(finding.Finding{At: where(f), Path: path(f), Message: missing(f)})
	}
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

func missing(f *order.Flaw) string {
	switch {
	case f.InKey:
		return fmt.Sprintf("`%s` is left blank: %s must give %s.", f.Name, group(f.Path), f.Wanted)
	case f.Detail != "":
		return fmt.Sprintf("`%s` is an empty list: the order must have at least one.", f.Name)
	}
	in := group(f.Path)
	if strings.HasPrefix(f.Wanted, "a group") || strings.HasPrefix(f.Wanted, "a list") {
		return fmt.Sprintf("`%s` is missing: %s must have it.", f.Name, in)
	}
	return fmt.Sprintf("`%s` is missing: %s must give %s.", f.Name, in, f.Wanted)
}

// givenOtherwise reports whether a misspelt name in the same group was meant for
// the field.
func givenOtherwise(o *order.Order, missing *order.Flaw) bool {
	for i := range o.Flaws {
		f := &o.Flaws[i]
		if f.Kind != order.UnknownField || f.Nearest != missing.Name || missing.Node == nil {
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
