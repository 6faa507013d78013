package ticket

import (
	"cmp"
	"strconv"
	"strings"

	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/worksheet"
)

// panel gives the size of one of several panels.
func (t *ticket) panel(it *worksheet.Item) string {
	q := it.Get(worksheet.PanelWidth)
	if it.Panels < 2 || !it.Has(string(worksheet.FinishedWidth)) {
		return ""
	}
	text := t.length(it.Length(string(worksheet.FinishedWidth)).Div(it.Panels, length.Nearest)) + " wide as it hangs"
	if q != nil {
		text += ", " + t.says(q) + " flat"
	}
	return text
}

// window gives what was measured at the window.
func (t *ticket) window(it *worksheet.Item) string {
	o := &it.Order.Track
	var parts []string
	carrier, level := cmp.Or(o.Kind.Value, "track"), cmp.Or(o.Kind.Value, "track or pole")
	for _, p := range []struct {
		leaf       order.Length
		what, more string
	}{{o.Width, carrier, ""}, {o.Return, "returns of", ""}, {o.Overlap, "overlap", ""}, {o.AboveFloor, level, " above the floor"}, {o.AboveSill, level, " above the sill"}, {o.Diameter, "pole", " thick"}} {
		if p.leaf.Set {
			parts = append(parts, p.what+" "+t.length(p.leaf.Value)+p.more)
		}
	}
	return strings.Join(parts, ", ")
}

// hands says which edge is the leading edge, in a pair of panels with joins.
func (t *ticket) hands(it *worksheet.Item) string {
	if it.Heading == nil || len(it.Joined) == 0 || it.Panels != 2 {
		return ""
	}
	return "right-hand panel: the leading edge is at the left; left-hand panel: at the right"
}

// lining says how a lining lies behind the face.
func (t *ticket) lining(it *worksheet.Item) string {
	bagged := it.Order.Lining.Made.Value == "bagged" // cut and sewn to the size of the face
	if !it.Has("lining shorter") || it.Cloth("lining") == nil || bagged {
		return ""
	}
	text := "its foot " + t.length(it.Length("lining shorter")) + " above the foot of the face"
	if l := it.Length("lining narrower"); l > 0 {
		text += ", " + t.length(l.Div(it.Panels, length.Nearest)) + " narrower than the panel"
	}
	return text
}

// liner says how a shower curtain's liner is hemmed.
func (t *ticket) liner(it *worksheet.Item) {
	if it.HemCalled("liner sides") == nil || it.Cloth("liner") == nil {
		return
	}
	label := "liner"
	for _, edge := range [...]string{"sides", "bottom", "top"} {
		if h := it.HemCalled("liner " + edge); h != nil {
			if text := t.fold(h); text != "" {
				t.row(label, edge+" "+text)
				label = ""
			}
		}
	}
	if q := it.Get("liner hole spacing"); q != nil && len(it.Holes) > 0 {
		text := worksheet.Many(len(it.Holes), "hole") + ", " + t.says(q) + " from center to center"
		if side := it.Get("liner from side"); side != nil {
			text += ", the first " + t.says(side) + " from its side"
		}
		t.row(label, text)
	}
}

// sewing gives the needle and the stitches for the weight of the cloth, and the thread.
func (t *ticket) sewing(it *worksheet.Item) string {
	var parts []string
	if it.Face != nil && it.Face.Class != nil {
		c := it.Face.Class
		if c.Needle.Most > 0 {
			parts = append(parts, "needle "+t.needle(c.Needle.Least)+" to "+t.needle(c.Needle.Most))
		}
		if !c.Stitches.Most.IsZero() {
			if least, most := c.StitchLengths(); t.work.Unit.Metric() {
				parts = append(parts, "stitches "+least.Format(1)+" to "+most.Format(1)+" mm long")
			} else {
				parts = append(parts, c.Stitches.Least.Format(1)+" to "+c.Stitches.Most.Format(1)+" stitches to the inch")
			}
		}
	}
	if q := it.Get(worksheet.Thread); q != nil {
		parts = append(parts, "thread "+t.bought(q)+" for each")
	}
	return strings.Join(parts, ", ")
}

// needle gives a needle by both of its numbers, as 90/14.
func (t *ticket) needle(metric int64) string {
	text := strconv.FormatInt(metric, 10)
	for i := range t.work.Tables.Needles {
		if n := &t.work.Tables.Needles[i]; n.Metric == metric {
			return text + "/" + strconv.FormatInt(n.Number, 10)
		}
	}
	return text
}

// hang says where the foot hangs, and what the item weighs.
func (t *ticket) hang(it *worksheet.Item) string {
	var parts []string
	switch to := it.Order.Hang.To; to.Value {
	case "":
	case "puddle":
		parts = append(parts, "puddles on the floor")
	case "below sill":
		parts = append(parts, "below the sill")
	default:
		parts = append(parts, "to the "+to.Value)
	}
	if q := it.Get(worksheet.FootGap); q != nil {
		if gap := q.Value.Length(); gap < 0 {
			t.told[q] = true
			parts = append(parts, t.length(-gap)+" of it on the floor")
		} else {
			parts = append(parts, t.says(q)+" from foot to floor")
		}
	}
	if q := it.Get(worksheet.HangingMass); q != nil {
		text := "weighs " + t.says(q) + " hanging"
		switch uncounted := it.Uncounted(); len(uncounted) {
		case 0:
		case 1:
			text += " without the " + uncounted[0]
		default:
			text += " without " + worksheet.All(uncounted)
		}
		parts = append(parts, text)
	}
	if q := it.Get(worksheet.WetMass); q != nil {
		parts = append(parts, t.says(q)+" wet")
	}
	if q := it.Get(worksheet.StackBack); q != nil {
		parts = append(parts, "drawn back it takes "+t.says(q))
	}
	return strings.Join(parts, ", ")
}

// fold says how an edge is turned; "" if it has no hem.
func (t *ticket) fold(h *worksheet.Hem) string {
	if h.Takes == 0 {
		return ""
	}
	text := t.length(h.Turn) + ", turned " + times(h.Folds)
	if o := h.Order; o != nil {
		if o.First.Set && o.First.Value != h.Turn {
			text = t.length(o.First.Value) + " first, then " + text
		}
		if o.Stitch.Set {
			text += ", stitched " + t.length(o.Stitch.Value) + " from the inner fold"
		}
		if o.Corners.Value != "" {
			text += ", corners " + strings.Replace(o.Corners.Value, "mitred", "mitered", 1)
		}
	}
	text += "; uses " + t.length(h.Takes)
	if h.House {
		text += " (usual hem, not stated)"
	}
	return text
}

func times(n int64) string {
	switch n {
	case 1:
		return "once"
	case 2:
		return "twice"
	}
	return strconv.FormatInt(n, 10) + " times"
}

// seams says how widths or pieces are joined, and where.
func (t *ticket) seams(it *worksheet.Item, washed string) string {
	if it.Joins <= 0 || it.Seam == nil {
		return ""
	}
	text := it.Seam.Name + ", " + t.length(taken(it)) + " from each piece"
	if it.Has("width to join") {
		text += ", once each width is cut down to " + t.length(it.Length("width to join")) + " for the pattern to meet"
	}
	j := &it.Order.Join
	if it.Seam.Name == "French" && !j.FirstRow.Set && !j.Trim.Set {
		text += ": wrong sides together first, and trimmed; then right sides together, so that both rows take that much"
	}
	if j.FirstRow.Set {
		text += ", first row at " + t.length(j.FirstRow.Value)
	}
	if j.Trim.Set {
		text += ", one edge trimmed to " + t.length(j.Trim.Value)
	}
	if j.Finish.Value != "" {
		text += ", raw edges: " + j.Finish.Value
	}
	if len(it.Joined) > 0 {
		from := "the left finished edge"
		if it.Heading != nil { // half widths go at the return
			from = "the leading edge"
			if it.Panels == 2 {
				from += ", where the panels meet"
			}
		}
		text += "; " + before(washed, ": ") + t.positions(it.Joined) + " from " + from
		if flat := it.Get(worksheet.PanelWidth); it.Heading != nil && flat != nil {
			back := make([]length.Length, len(it.Joined))
			for i, l := range it.Joined {
				back[len(back)-1-i] = flat.Value.Length() - l
			}
			text += "; " + t.positions(back) + " from the return edge"
		}
	}
	return text
}

// taken returns what a join takes from each piece. Whole widths are joined inside the
// selvedge, or where their pattern meets; the pieces of a flat panel are cut narrower instead.
func taken(it *worksheet.Item) length.Length {
	if it.Get(worksheet.FlatWidth) == nil || !it.Has("join margin") {
		return it.Allowance
	}
	usable := it.Get(worksheet.UsableWidth)
	if usable == nil {
		return max(it.Allowance, it.Length("join margin"))
	}
	width := it.Face.Washed
	if it.Has("joined width") {
		width = it.Length("joined width")
	}
	return (width - usable.Value.Length()).Div(2, length.Nearest)
}

// heading says how the top is gathered, pleated or hung.
func (t *ticket) heading(it *worksheet.Item) {
	if it.Heading == nil {
		return
	}
	text := it.Heading.Style
	for _, part := range []struct {
		q     *worksheet.Quantity
		after string
	}{
		{it.Get(worksheet.Fullness), " fullness"}, {it.Get(worksheet.PleatCount), " pleats a panel"}, {it.Get(worksheet.PleatSpacing), " between pleats"},
		{it.Get(worksheet.TakeUp), " to each pleat"}, {it.Get(worksheet.PocketHeight), " pocket, measured flat"}, {it.Get(worksheet.TabCount), " tabs a panel"}, {it.Get(worksheet.TabGap), " between tabs"},
	} {
		if part.q != nil {
			text += ", " + t.says(part.q) + part.after
		}
	}
	h := &it.Order.Heading
	for _, part := range []struct {
		leaf  order.Length
		after string
	}{{h.HookDrop, " from hooks to top"}, {h.Header, " header above the pocket"}, {h.Tape, " tape"}, {h.TabDrop, " from pole to top"}} {
		if part.leaf.Set {
			text += ", " + t.length(part.leaf.Value) + part.after
		}
	}
	t.row("heading", text)
	if it.Has("heading allowance") && it.Length("heading allowance") > 0 {
		t.row("", t.length(it.Length("heading allowance"))+" of cloth above the finished top, to fold over")
	}
	if it.Get(worksheet.TabCount) != nil && it.Length("tab width") > 0 {
		t.row("", "tabs "+t.length(it.Length("tab width"))+" wide, "+t.length(it.Length("tab loop"))+" from pole to top, "+t.length(it.Length("tab end"))+" sewn in at each end")
	}
}

// holes says what holes there are, and where each lies on a panel.
func (t *ticket) holes(it *worksheet.Item, washed string) {
	h := &it.Order.Holes
	if !h.Set || len(it.Holes) == 0 {
		return
	}
	text := worksheet.Many(len(it.Holes), h.Make.Value)
	if it.Panels > 1 {
		text += " a panel"
	}
	if q := it.Get(worksheet.HoleCount); q != nil {
		t.told[q] = true
	}
	if q := it.Get(worksheet.HoleSpacing); q != nil {
		text += ", " + t.says(q) + " from center to center"
	}
	if h.FromTop.Set {
		text += ", centers " + t.length(h.FromTop.Value) + " below the finished top"
	}
	if q := it.Get(worksheet.HoleSlit); q != nil {
		text += ", slits " + t.says(q) + " long"
	}
	t.row("holes", text)
	if !h.FromTop.Set {
		t.row("", "centers below the finished top")
		t.rows[len(t.rows)-1].Measured = true
	}
	from := "the left finished edge"
	if it.Heading != nil {
		from = "the leading edge"
	}
	if h.Make.Value == "buttonhole" && h.Backing.Value != "none" {
		t.row("", "back them with "+cmp.Or(h.Backing.Value, "interfacing")+" before they are sewn")
	}
	t.row("", before(washed, ", ")+"from "+from+": "+t.positions(it.Holes), it.Holes...)
}

// press gives the setting of the iron and what goes with it.
func (t *ticket) press(it *worksheet.Item) string {
	o := &it.Order.Press
	var parts []string
	q := it.Get(worksheet.PressSetting)
	dots, bare := int64(0), o.Setting.Value.None || it.Face != nil && it.Face.NoIron() // of the face
	if s := t.says(q); bare {
		parts = append(parts, "no iron")
	} else if s != "" {
		if dots = q.Value.N; o.Setting.Set {
			dots = min(dots, t.work.Dots(o.Setting.Value))
		}
		parts = append(parts, s)
		if cool := t.coolest(it, q.Value.N); cool != "" {
			parts[0] += ", for the " + cool
		}
	}
	if o.Steam.Set {
		parts = append(parts, choose(o.Steam.Value, "steam", "no steam"))
	}
	if o.Cloth.Set {
		parts = append(parts, choose(o.Cloth.Value, "through a press cloth", "no press cloth"))
	}
	if f := o.Fusing.Value; f != "" && f != "none" {
		parts = append(parts, "fusible "+f)
	}
	text := strings.Join(parts, ", ")
	for _, l := range it.Layers() { // one that stands less than the item is pressed with
		says := ""
		switch stands := t.work.Stands(l.Cloth); {
		case bare:
		case l.NoIron():
			says = "no iron on the " + l.Role
		case l.Apart && stands > 0 && (stands < dots || dots == 0):
			says = "the " + l.Role + ": " + t.value(worksheet.DotsOf(stands))
		}
		if says != "" && !strings.Contains(text, says) {
			text = before(text, "; ") + says
		}
	}
	if it.Face != nil && it.Face.Order.Nap.Value == "one way" && !bare { // a print that runs one way has no pile
		text = before(text, "; ") + "a pile from the back, on a needle board or a towel, without weight"
	}
	return text
}

// coolest names the layers that an item is pressed cooler for than its face stands.
func (t *ticket) coolest(it *worksheet.Item, dots int64) string {
	var names []string
	if it.Face == nil || t.work.Stands(it.Face) <= dots {
		return ""
	}
	for _, l := range it.Layers() {
		if !l.Apart && t.work.Stands(l.Cloth) == dots {
			names = append(names, l.Role)
		}
	}
	return worksheet.All(names)
}
