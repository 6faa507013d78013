package form

import (
	"fmt"
	"slices"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var misreadChoice = &rule.Rule{
	ID:    "form/misread-choice",
	Title: "choice that the rest of the order speaks against",
	Level: finding.Error,
	Fix:   rule.Sometimes,
	Asked: true,
	Run:   runMisreadChoice,
	Doc: `
Checks
Whether stated outcomes that look wrong are all right for another value of one
choice: a finished length of 76 where cut, hem and cloth fit 79.

Because
One number written down wrong is likelier than several that are wrong in the same
way; and cutting by the wrong one spoils all of the cloth.

Working
Each choice is tried with the values that it may have been meant to have: those that
a slip of writing would have made what stands there, and those that would make a
stated outcome right. The one that explains what disagrees by the likeliest slips is
told here where it is well ahead of every other reading; else form/values-disagree
tells of both.

Correction
Which of the two is meant is for the person to say, so the choice is only changed
on request; a finished size, or what else a client ordered, only where no other reading
comes near.

Source
common practice, no source
`,
}

func runMisreadChoice(p *rule.Pass) {
	done := map[*order.Node]bool{}
	for i := range p.Sheet.Misread {
		m := &p.Sheet.Misread[i]
		if done[m.Node] {
			continue
		}
		var names []string
		f := finding.Finding{At: m.At, Stated: m.Node.Text, Corrected: m.Corrected, Slip: m.Slip.String()}
		for k := range m.Agree {
			a := &m.Agree[k]
			if name := a.Quantity.Called(); !slices.Contains(names, name) {
				names = append(names, name)
			}
			f.Related = append(f.Related, finding.Related{Range: a.At, Message: "right for " + m.Corrected})
		}
		verb := "fit"
		if len(m.Agree) == 1 {
			verb = "fits"
		}
		if len(m.Agree) == 0 {
			f.Message = fmt.Sprintf("The %s says %s; the rest of the order fits %s: is that what is meant?", m.Name, m.Node.Text, m.Corrected)
		} else {
			f.Message = fmt.Sprintf("The %s says %s, but %s %s %s: is that what is meant?",
				m.Name, m.Node.Text, list(names, len(m.Agree)), verb, m.Corrected)
		}
		title := fmt.Sprintf("Make the %s %s", m.Name, m.Corrected)
		if m.Units {
			f.Message = fmt.Sprintf("The order's units say %s, but its numbers make sense in %s: is that what they are in?", m.Node.Text, inWords[m.Corrected])
			if len(m.Agree) > 0 {
				f.Message = fmt.Sprintf("The order's units say %s, but %s %s when its numbers are read in %s: is that what they are in?",
					m.Node.Text, list(names, len(m.Agree)), strings.Replace(verb, "fit", "agree", 1), inWords[m.Corrected])
			}
		}
		var edits []finding.Edit
		if p.Editable(m.Node) {
			edits = append(edits, p.Set(m.Node, m.Corrected))
		}
		if with := swappedWith(p, m); with != nil {
			done[with.Node] = true
			f.Message = fmt.Sprintf("The %s says %s and the %s %s; the rest of the order fits them the other way round: were they swapped?",
				m.Name, m.Node.Text, with.Name, with.Node.Text)
			title = fmt.Sprintf("Swap the %s and the %s", m.Name, with.Name)
			f.Related = append(f.Related, finding.Related{Range: with.At, Message: "swapped with it: should be " + with.Corrected})
			if p.Editable(with.Node) {
				edits = append(edits, p.Set(with.Node, with.Corrected))
			}
		}
		if len(edits) > 0 {
			f.Fixes = []finding.Fix{{Title: title, Sureness: finding.Shown, Edits: edits}}
			if m.FarAhead {
				f.Fixes[0].Sureness = finding.Likely
			}
		}
		p.Report(f)
	}
}

// inWords are the units of an order, spelled out.
var inWords = map[string]string{"in": "inches", "cm": "centimeters", "mm": "millimeters", "m": "meters", "ft": "feet", "yd": "yards"}

// swappedWith is the choice that a choice was swapped with; nil where it was not.
func swappedWith(p *rule.Pass, m *worksheet.Misread) *worksheet.Misread {
	for i := range p.Sheet.Misread {
		if x := &p.Sheet.Misread[i]; m.With != nil && x.Node == m.With {
			return x
		}
	}
	return nil
}

// list names the outcomes; where all have one name it says how many they are.
func list(names []string, n int) string {
	switch {
	case n == 1:
		return "the stated " + names[0]
	case len(names) == 1:
		return fmt.Sprintf("%d stated values of %s", n, names[0])
	}
	last := len(names) - 1
	return "the stated " + strings.Join(names[:last], ", ") + " and " + names[last]
}
