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

var valuesDisagree = &rule.Rule{
	ID:    "form/values-disagree",
	Title: "stated figures disagree, and any of them may be wrong",
	Level: finding.Error,
	Fix:   rule.Never,
	Run:   runValuesDisagree,
	Doc: `
Checks
Stated figures that can't all be right, where the rest of the order does not show
which is wrong: 13 holes at 6 in, on a top that takes 14 at 6 in or 13 at 6 1/2.

Because
If the wrong one is changed, the order agrees with itself and the mistake can no
longer be seen.

Working
Each figure is tried with others that may have been meant. Each reading is weighed by
how easily its slips are made. Where none is well ahead, the likeliest are shown,
likeliest first; where several figures for one field do about as well, up to three of
them. An unlikely figure, such as a cloth 14 m wide, is asked about even where nothing
contradicts it. Where there is more cloth than needed, and nothing else, it is a warning.

Correction
None is made: correct the figure that is wrong.

Source
I. P. Fellegi and D. Holt, A systematic approach to automatic edit and imputation, 1976:
the fewest changes that make a record agree with itself
`,
}

func runValuesDisagree(p *rule.Pass) {
	for i := range p.Sheet.Disagreements {
		d := &p.Sheet.Disagreements[i]
		first := &d.Readings[0].Writes[0]
		f := finding.Finding{At: first.Node.At, Stated: first.Node.Text, Corrected: first.Text, Slip: first.Slip.String()}
		if d.More && !d.Beyond {
			f.Level = finding.Warning // nothing is spoilt by it
		}
		var says []string
		or := ", or "
		for k := range d.Readings {
			parts := reading(p, &d.Readings[k], d.Beyond)
			says = append(says, strings.Join(parts, ", and "))
			if len(parts) > 1 {
				or = "; or "
			}
			for j := range d.Readings[k].Writes {
				w := &d.Readings[k].Writes[j]
				if w == first && len(w.Or) > 0 {
					f.Related = append(f.Related, finding.Related{Range: w.Node.At, Message: "or it may be " + either(w.Node, w.Or)})
				}
				if w != first {
					f.Related = append(f.Related, finding.Related{Range: w.Node.At, Message: related(p, k, j, w)})
				}
			}
		}
		switch {
		case d.Beyond:
			f.Message = fmt.Sprintf("The %s can hardly be %s: %s. Check it.", calledAt(p, first.Node, first.Name), rule.WithUnit(first.Node, first.Node.Text), says[0])
		case len(says) == 1:
			f.Message = fmt.Sprintf("The order's figures disagree: probably %s. Check it.", says[0])
		default:
			f.Message = fmt.Sprintf("The order's figures disagree: either %s. Correct whichever is wrong.", strings.Join(says, or))
		}
		if w := d.Off; w != nil && !d.Beyond {
			f.Message += fmt.Sprintf(" As the order stands, the %s comes to %s, not %s.", calledAt(p, w.Node, w.Quantity.Called()),
				w.Quantity.Value.Format(p.Sheet.Unit, w.Quantity.Round), rule.WithUnit(w.Node, w.Node.Text))
			f.Related = append(f.Related, finding.Related{Range: w.Node.At, Message: "what does not go with them"})
		}
		if d.Instead != nil {
			f.Message += instead(d.Instead)
		} else {
			f.Message += onUsualHem(p, f.Related, f.At)
		}
		if of := heated(d); of != nil {
			f.Message += " Until that is settled, press at " + of.Text + " or cooler, and try a scrap first: cloth that melts onto the iron burns the hand that cleans it off."
		}
		p.Report(f)
	}
}

// instead says what else the order might say, so that its figures agree.
func instead(a *worksheet.Alternative) string {
	if a.Field == "piece" {
		return fmt.Sprintf(" Or this row is of the %s, not the %s.", a.Text, a.Taken)
	}
	if a.Field == "quantity" {
		return fmt.Sprintf(" Or %s are ordered, and all of them are counted: the order does not say. Then write `quantity: %[1]s`, and what is cut for one.", a.Text)
	}
	text := fmt.Sprintf(" They agree too if `%s` is %s", a.Field, a.Text)
	if a.Taken != "" {
		return text + ": the order does not say, and " + a.Taken + " was taken."
	}
	return text + ", which the order does not say."
}

// onUsualHem says that an outcome at one of a finding's places is worked from a bottom hem that
// is not stated, so that the usual one may be what is wrong; "" where none is.
func onUsualHem(p *rule.Pass, related []finding.Related, at source.Range) string {
	for i := range p.Sheet.Items {
		it := &p.Sheet.Items[i]
		h := &it.Order.Hems
		if it.Bottom.Order != &h.Bottom || it.Bottom.Turn <= 0 || h.Top.Set || h.Bottom.Set || h.Sides.Set {
			continue
		}
		if slices.ContainsFunc(p.Sheet.StatedFrom(i, "bottom hem"), func(of *worksheet.Stated) bool {
			return of.Node.At == at || slices.ContainsFunc(related, func(r finding.Related) bool { return r.Range == of.Node.At })
		}) {
			return fmt.Sprintf(" No hems are stated: the usual ones were taken, %s at the foot. Write `hems` if others are meant.", p.Show(it.Bottom.Takes))
		}
	}
	return ""
}

// heated is the setting of the iron, where it may be too hot.
func heated(d *worksheet.Disagreement) *worksheet.Write {
	for i := range d.Readings {
		for j := range d.Readings[i].Writes {
			if w := &d.Readings[i].Writes[j]; w.Quantity != nil && w.Quantity.Name == worksheet.PressSetting {
				return w
			}
		}
	}
	return nil
}

// reading is what a reading takes for wrong, figure by figure. Its first value was named
// before where it is beyond all sense.
func reading(p *rule.Pass, r *worksheet.Reading, beyond bool) (parts []string) {
	for i := range r.Writes {
		w := &r.Writes[i]
		if w.Follows && i > 0 {
			continue
		}
		s := fmt.Sprintf("the %s should be %s, not %s", calledAt(p, w.Node, w.Name), values(w), rule.WithUnit(w.Node, w.Node.Text))
		if beyond && i == 0 {
			s = "it should probably be " + values(w)
		}
		if slip := w.Slip.String(); slip != "" && len(w.Or) == 0 && !swappedWithLater(r, i) {
			s += " (" + slip + ")"
		}
		parts = append(parts, s)
	}
	return parts
}

// swappedWithLater reports whether a value was swapped with one that the reading names
// after it, which says so too.
func swappedWithLater(r *worksheet.Reading, i int) bool {
	slip := r.Writes[i].Slip.String()
	return (slip == worksheet.TwoSwapped || slip == worksheet.SidesSwapped) &&
		slices.ContainsFunc(r.Writes[i+1:], func(w worksheet.Write) bool { return !w.Follows && len(w.Or) == 0 && w.Slip.String() == slip })
}

// related says of a figure, where it stands, how it goes with the readings: "or" begins
// another one, "and" and "then" go on with it.
func related(p *rule.Pass, reading, nth int, w *worksheet.Write) string {
	switch {
	case w.Follows:
		return fmt.Sprintf("then the %s should be %s", calledAt(p, w.Node, w.Name), rule.WithUnit(w.Node, w.Text))
	case reading == 0 || nth > 0:
		return fmt.Sprintf("and the %s should be %s", calledAt(p, w.Node, w.Name), values(w))
	}
	return fmt.Sprintf("or the %s should be %s", calledAt(p, w.Node, w.Name), values(w))
}

// values are the values that a field may be meant to have, with the slip that would
// explain each where there are several.
func values(w *worksheet.Write) string {
	if len(w.Or) == 0 {
		return rule.WithUnit(w.Node, w.Text)
	}
	return either(w.Node, append([]worksheet.Write{*w}, w.Or...))
}

// either is one of several values of a field, and the slip that would explain each, said
// once of those in a row that it explains.
func either(n *order.Node, list []worksheet.Write) string {
	var texts []string
	for i := range list {
		text, slip := rule.WithUnit(n, list[i].Text), list[i].Slip.String()
		if slip != "" && (i+1 == len(list) || list[i+1].Slip.String() != slip) {
			text += " (" + slip + ")"
		}
		texts = append(texts, text)
	}
	return worksheet.Any(texts)
}
