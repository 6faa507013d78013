package hem

import (
	"fmt"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/mass"
	"cutgate/internal/rule"
	"cutgate/internal/worksheet"
)

var hangsLight = &rule.Rule{
	ID:    "hem/hangs-light",
	Title: "bottom hem is too light to hang straight",
	Level: finding.Note,
	Fix:   rule.Sometimes,
	Asked: true,
	Each:  runHangsLight,
	Doc: `
Checks
The mass of the stated bottom hem, with its chain or tape, against the least that
hangs straight in cloth of its class. Hems with single weights, with a chain of
unknown mass or with interlining are not checked.

Because
A light foot flares, blows about and clings. The hem's weight is decided when the
piece is cut; after that only a chain helps.

Working
hem mass = cloth weight × hem takes + chain, per length of hem, ≥ the least for the
class.

Correction
Shown: two folds, where one is stated and two would do. Likely: a deeper turn, where at
most double the stated one is enough, or a heavier chain, where one is stated; these too
are only shown where the stated cuts agree with the turn. Where no chain is stated, one
that would do is shown.

Source
Common practice, no source, for the least of each class; The Sewing Divas, Lead
weight hem, for what chains and tapes weigh.
`,
}

func runHangsLight(p *rule.Pass, it *worksheet.Item) {
	least, ok := light(p, it)
	if !ok {
		return
	}
	weighs, turn, u := it.Get(worksheet.HemMass), &it.Bottom.Order.Turn, p.Sheet.Unit
	if !turn.Set || p.Sheet.Doubted(turn.Node, it.Bottom.Order.Folds.Node, it.Face.Order.Weight.Node) {
		return
	}
	f := finding.Finding{
		At: turn.At,
		Message: fmt.Sprintf("The bottom hem weighs only %s; %s cloth needs %s to hang straight.",
			weighs.Value.Format(u, length.Nearest), it.Face.Class.Name, least.Format(u, length.Nearest)),
		Stated: turn.Node.Text, Working: weighs.Working(u), Source: it.Face.Class.HemSource,
	}
	if it.Bottom.Folds == 1 && it.Bottom.Order.Folds.Set && weighs.Value.N*2 >= least.N {
		f.Fixes = finding.Advice("Fold the hem twice, or turn it deeper") // it may have been meant to be
		p.Report(f)
		return
	}
	if deeper := deeperTurn(it, least); deeper > 0 && deeper <= 2*turn.Value {
		deeper = deeper.Round(bench(u), length.Up)
		f.Corrected = turn.Node.LengthStyle().Print(deeper, length.Up)
		f.Fixes = append(f.Fixes, p.Likely(turn.Node, f.Corrected, "Turn it "+deeper.Format(u, length.Up)+" deep")...)
	}
	chain := &it.Order.Weights.Mass
	missing := mass.Linear(least.N - weighs.Value.N)
	if heavier := p.Tables.ChainFor(missing + chain.Value); heavier != nil {
		v := worksheet.LinearOf(heavier.Mass)
		v.As = least.As
		title := "Put a chain of " + v.Format(u, length.Nearest) + " in the hem"
		if chain.Set {
			f.Fixes = append(f.Fixes, p.Likely(chain.Node, chain.Node.MassStyle().PrintLinear(heavier.Mass), title)...)
		} else {
			f.Fixes = append(f.Fixes, finding.Fix{Title: title})
		}
	}
	p.Report(f)
}

// deeperTurn is the turn by which the hem weighs enough; 0 where it can't be
// told from the turn alone.
func deeperTurn(it *worksheet.Item, least worksheet.Value) length.Length {
	h := &it.Bottom
	if h.Order.First.Set || h.Folds < 1 {
		return 0
	}
	const metre = int64(length.Metre) // both masses are by the metre
	n, ok := length.MulDiv(least.N-int64(it.Order.Weights.Mass.Value), metre, int64(it.Face.Order.Weight.Value)*h.Folds, length.Up)
	if !ok {
		return 0
	}
	return length.Length(n)
}

// bench is the step that people measure a hem by.
func bench(u length.Unit) length.Length {
	if u.Metric() {
		return 5 * length.Millimetre
	}
	return length.Inch / 4
}
