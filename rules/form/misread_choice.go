package form

import (
	"fmt"
	"slices"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var misreadChoice = &rule.Rule{
	ID:    "form/misread-choice",
	Title: "stated figure that the rest of the order contradicts",
	Level: finding.Error,
	Fix:   rule.Sometimes,
	Asked: true,
	Run:   runMisreadChoice,
	Doc: `
Checks
Whether figures that look wrong would all be right if one that they are worked out from
were different: a finished length of 76 where cut, hem and cloth fit 79.

Because
One number written down wrong is likelier than several wrong in the same way, and
cutting by the wrong one spoils all the cloth.

Working
Each figure that others are worked out from is tried with others that may have been
meant: those that a slip of the pen would turn into what is written, and those that would
make a stated cut, count or length right. Two figures that stand together on the form are
tried the other way round. The one that explains the contradiction by the likeliest slips
is reported here if it is well ahead of every other; if not, form/values-disagree reports
the likeliest few.

Correction
Only you can say what is meant, so it is changed only with --likely. A finished size, or
anything else the client ordered, is changed only where no other reading comes near.

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
		name := calledAt(p, m.Node, m.Name)
		right, stated := rule.WithUnit(m.Node, m.Corrected), rule.WithUnit(m.Node, m.Node.Text)
		f := finding.Finding{At: m.At, Stated: m.Node.Text, Corrected: m.Corrected, Slip: m.Slip.String()}
		for k := range m.Agree {
			a := &m.Agree[k]
			if name := a.Quantity.Called(); !slices.Contains(names, name) {
				names = append(names, name)
			}
			agrees := "agrees with " + right
			if m.Units {
				agrees = "agrees in " + inWords[m.Corrected]
			}
			f.Related = append(f.Related, finding.Related{Range: a.At, Message: agrees})
		}
		if len(m.Agree) == 0 {
			f.Message = fmt.Sprintf("Should the %s be %s, not %s? The rest of the order would then be right.", name, right, stated)
		} else {
			f.Message = fmt.Sprintf("Should the %s be %s, not %s? %s would then be right.",
				name, right, stated, begin(list(names, len(m.Agree))))
		}
		title := fmt.Sprintf("Make the %s %s", name, right)
		if m.Units {
			title = "Set the units to " + inWords[m.Corrected]
			f.Message = fmt.Sprintf("The order says its numbers are in %s; are they in %s? They would then make sense.", inWords[m.Node.Text], inWords[m.Corrected])
			if len(m.Agree) > 0 {
				f.Message = fmt.Sprintf("The order says its numbers are in %s; are they in %s? %s would then be right.",
					inWords[m.Node.Text], inWords[m.Corrected], begin(list(names, len(m.Agree))))
			}
		}
		f.Message += onUsualHem(p, f.Related, f.At)
		var edits []finding.Edit
		if p.Editable(m.Node) {
			edits = append(edits, p.Set(m.Node, m.Corrected))
		}
		if with := swappedWith(p, m); with != nil {
			done[with.Node] = true
			other := calledAt(p, with.Node, with.Name)
			f.Message = fmt.Sprintf("Were the %s (%s) and the %s (%s) swapped? The rest of the order fits them the other way round.",
				name, stated, other, rule.WithUnit(with.Node, with.Node.Text))
			title = fmt.Sprintf("Swap the %s and the %s", name, other)
			f.Related = append(f.Related, finding.Related{Range: with.At, Message: "swapped with it: it should be " + rule.WithUnit(with.Node, with.Corrected)})
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
		if len(m.Agree) > 1 && m.Slip == nil && !m.Units && m.With == nil { // it may be what was changed
			f.Fixes = append(f.Fixes, finding.Fix{Title: fmt.Sprintf("If %s is right, blank the figures that agree with %s, and fill them in again", stated, right)})
		}
		p.Report(f)
	}
}

// inWords are the units of an order, spelled out.
var inWords = map[string]string{"in": "inches", "cm": "centimeters", "mm": "millimeters", "m": "meters", "ft": "feet", "yd": "yards"}

// swappedWith is what a choice was swapped with; nil where it was not.
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
	case len(names) == 1 && n == 2:
		return "both figures stated for the " + names[0]
	case len(names) == 1:
		return fmt.Sprintf("the %d figures stated for the %s", n, names[0])
	}
	return "the stated " + worksheet.All(names)
}
