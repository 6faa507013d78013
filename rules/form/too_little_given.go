package form

import (
	"slices"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var tooLittleGiven = &rule.Rule{
	ID:    "form/too-little-given",
	Title: "too little stated to work an item out",
	Level: finding.Warning,
	Fix:   rule.Never,
	Run:   runTooLittleGiven,
	Doc: `
Checks
Whether an item says enough for at least one of its pieces. Its fields, cloths and
cautions are checked all the same.

Because
A cutter who reads CLEAR takes the order to have been worked through. Where it was
not, the cutter has to know.

Working
cutgate kinds KIND shows what goods are worked out from.

Source
common practice, no source
`,
}

// runTooLittleGiven reports items of which no piece could be worked out, or not how long
// the first is cut, for want of something that the form does not insist on.
func runTooLittleGiven(p *rule.Pass) {
	if slices.ContainsFunc(p.Order.Flaws, func(f order.Flaw) bool { return f.Kind != order.Blank }) {
		return
	}
	for i := range p.Sheet.Items {
		it := &p.Sheet.Items[i]
		lacks, piece := it.Lacks()
		if len(lacks) == 0 || it.Face == nil || it.Unread || p.Sheet.WordAsked(i) {
			continue
		}
		length := slices.Contains(lacks, "finished.length")
		if finished := slices.DeleteFunc(slices.Clone(lacks), func(f string) bool { return !strings.HasPrefix(f, "finished.") }); len(finished) > 0 {
			lacks = finished // which do in place of the others
		}
		for i := range lacks {
			lacks[i] = fieldOf(it, lacks[i])
		}
		what := "This " + it.Order.Kind.Value
		if piece != "" {
			what = "How the " + piece + " of this " + it.Order.Kind.Value + " is cut"
		}
		if level := hangsFrom(&it.Order.Hang, &it.Order.Track); level != "" && length {
			lacks[len(lacks)-1] += " or " + fieldOf(it, level)
		}
		p.Report(finding.Finding{At: it.Order.Kind.At, Message: what + " can't be worked out without " + worksheet.All(lacks) + "."})
	}
}

// hangsFrom is the height that the length of a curtain could be worked out from, of one
// that says where it ends; "" if there is none, or it is given.
func hangsFrom(hang *order.Hang, track *order.Track) string {
	switch to := hang.To.Value; {
	case track.AboveFloor.Set || track.AboveSill.Set:
	case to == "sill", to == "below sill":
		return "track.above_sill"
	case to == "floor", to == "puddle":
		return "track.above_floor"
	}
	return ""
}
