package goods

import (
	"strings"

	ws "cutgate/internal/worksheet"
)

// What the pictures of the pieces show: which hem or seam lies along which edge.

// An edging is the edges of some pieces or panels, as [ws.Edging] has them.
type edging struct{ of, when, top, foot, left, right string }

// allRound is one making along all edges.
func allRound(of, when, edge string) edging { return edging{of, when, edge, edge, edge, edge} }

func edgings(k *ws.Kind, rows ...edging) {
	for _, r := range rows {
		k.Edgings = append(k.Edgings, ws.Edging{Of: r.of, When: r.when, Top: r.top, Foot: r.foot, Left: r.left, Right: r.right})
	}
}

// outline says what shape pieces have that are not cut square; radius is that of a
// rounded corner, at the raw edge.
func outline(k *ws.Kind, of, when string, shape ws.Shape, radius string) {
	k.Edgings = append(k.Edgings, ws.Edging{Of: of, When: when, Shape: shape, Radius: radius})
}

// thePanel is the name of an item's own panel.
const thePanel = "panel"

// joinedPanel adds the panel that is joined from a kind's pieces, and the edges of those:
// at the sides the panel's, and seams between. Rows of edgings say its top and foot.
func joinedPanel(k *ws.Kind, when, across, along, side string) {
	k.Panels = append(k.Panels, ws.Paneling{Name: thePanel, Role: "face", Pieces: "piece/center/side", When: when, Across: across, Along: along, Main: true})
	const join = "seam {seam allowance}"
	edgings(k,
		edging{thePanel, "", "", "", side, side},
		edging{"center", "", "", "", join, join},
		edging{"side", "", "", "", side, join},
		edging{"piece", "{joins} = 0", "", "", side, side},
		edging{"piece", "", "", "", "raw seam or outer edge", "raw seam or outer edge"})
}

// panelParts are the names of a kind's panel and of its pieces.
const panelParts = thePanel + "/piece/center/side"

// layerPanel adds the panel of a layer behind, as it is joined.
func layerPanel(k *ws.Kind, l layer) {
	r := l.role
	k.Panels = append(k.Panels, ws.Paneling{Name: asOne(r), Role: r, Pieces: strings.Join([]string{r, r + " center", r + " side"}, "/"), When: r + " across", Across: "{" + r + " across}", Along: "{" + r + " along}", Raw: true})
	if !l.abut {
		edgings(k, edging{r + " center", "", "", "", "seam {seam allowance}", "seam {seam allowance}"}, edging{r + " side", "", "", "", "", "seam {seam allowance}"})
	}
	k.Placings = append(k.Placings, ws.Placing{Mark: "joins", From: "the left cut edge of the " + r + " as joined", Of: asOne(r), Edge: ws.Foot, Raw: true, Through: true})
}

// asOne is the name of a layer's panel.
func asOne(role string) string { return role + " as joined" }

// layerParts are the names of a layer's panel and of its pieces.
func layerParts(role string) string {
	return strings.Join([]string{asOne(role), role, role + " center", role + " side"}, "/")
}

// placed says where on the pictures the places of marks lie.
func placed(k *ws.Kind, rows ...ws.Placing) { k.Placings = append(k.Placings, rows...) }
