package worksheet

import "cutgate/internal/length"

// sewing works out the thickest stack that the machine meets, and the thread of
// the joins and hems.
func (w *worker) sewing(it *Item) {
	c := it.Face
	if c == nil || !c.Order.Thickness.Set {
		return
	}
	thick := c.Order.Thickness.Value
	if it.Seam != nil && it.Joins > 0 && it.Bottom.Takes > 0 && it.Seam.Layers > 0 {
		layers := it.Bottom.Folds + 1
		it.SeamBulk = w.put(SeamBulk, "", LengthOf(thick.Mul(it.Seam.Layers*layers)), length.Nearest, Common,
			"{layers in the seam} × {layers in the hem} × {thickness}",
			num("layers in the seam", it.Seam.Layers), num("layers in the hem", layers), len1("thickness", thick))
	}
	stitches := it.Order.Join.Stitches
	lock := w.Tables.Stitch("301")
	if lock == nil || !stitches.Set || it.CutLength == nil {
		return
	}
	rows := int64(1)
	if it.Seam != nil && it.Seam.Trim > 0 {
		rows = 2 // French and felled seams are sewn twice
	}
	seams := it.CutLength.Value.Length().Mul(rows * it.Joins * it.Panels)
	if it.FinishedLength != nil {
		seams += it.FinishedLength.Value.Length().Mul(2 * it.Panels) // the side hems
	}
	for i := range it.Pieces {
		if p := &it.Pieces[i]; p.Cloth == c {
			seams += p.Width.Value.Length().Mul(p.Count.Value.N) // the bottom hem
		}
	}
	per := length.RatioOf(thick, length.Inch).Mul(length.NewRatio(2, 1)).Mul(stitches.Value).Add(length.NewRatio(lock.Base, 1))
	waste := w.Tables.House.ThreadWaste
	total := seams.MulRatio(per, length.Up).MulRatio(one.Add(waste), length.Up)
	it.Thread = w.put(Thread, "", LengthOf(total), length.Up, lock.Source,
		"{seams and hems} × ({base} + 2 × {thickness in inches} × {stitches to the inch}) × (1 + {waste})",
		len1("seams and hems", seams), num("base", lock.Base), rat("thickness in inches", length.RatioOf(thick, length.Inch)),
		rat("stitches to the inch", stitches.Value), rat("waste", waste))
}
