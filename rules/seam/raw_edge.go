package seam

import (
	"cutgate/internal/finding"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var rawEdge = &rule.Rule{
	ID:    "seam/raw-edge",
	Title: "plain seam leaves raw edges in cloth that frays",
	Level: finding.Warning,
	Fix:   rule.Sometimes,
	Asked: true,
	Each:  runRawEdge,
	Doc: `
Checks
The finish of a plain seam in flat goods, such as shower curtains, tablecloths
and bedspreads, where the order says the cloth frays.

Because
The edges of a plain seam are open. In cloth that frays they ravel back to the stitches in
the first few washes, and the seam opens.

Working
A plain seam in cloth that frays is overlocked, bound or zigzagged. Curtains and
valances are not checked: their full widths are joined at the selvedges, which don't
fray, and linings cover the rest.

Correction
Likely, where the finish is given as none: overlocked. Where no finish is given, the maker
has to say which.

Source
common practice, no source
`,
}

func runRawEdge(p *rule.Pass, it *worksheet.Item) {
	j := &it.Order.Join
	hangs := it.Order.Kind.Value == "curtain" || it.Order.Kind.Value == "valance"
	if hangs || it.Face == nil || !it.Face.Order.Frays.Value || !sewn(it) || !j.Seam.Set || !kindOf(p, it).RawEdge {
		return
	}
	f := finding.Finding{Source: worksheet.Common, Related: []finding.Related{{Range: it.Face.Order.Frays.At, Message: it.Face.Name + " frays"}}}
	switch {
	case !j.Finish.Set:
		f.At = j.Seam.At
		f.Message = "This cloth frays, and nothing says how the edges of its plain seam are finished: overlocked, bound or zigzagged?"
		f.Fixes = finding.Advice("Write how the seam is finished, or use a French or flat felled one")
	case j.Finish.Value == "none":
		f.At, f.Stated, f.Corrected = j.Finish.At, "none", "overlocked"
		f.Message = "The raw edges of a plain seam ravel in cloth that frays; overlock, bind or zigzag them."
		f.Fixes = p.Likely(j.Finish.Node, "overlocked", "Overlock the seam's edges")
	default:
		return
	}
	p.Report(f)
}
