package goods

import (
	"slices"

	ws "cutgate/internal/worksheet"
)

// Turned cloth, which some call railroaded: its width runs up the curtain, so that a
// panel is cut in one piece, as long as it is wide. Sheers are woven wide for it.

// upright and turned are the guards for how the face is run.
const upright, turned = "run: across", "run: along"

// wholePanel is a panel with its side hems, before they are turned.
const wholePanel = "{panel width, flat} + 2 × {side hem}"

const noJoins = ws.Common + ": of turned cloth a panel is cut in one piece"

// runs adds the words for how the cloths of a curtain are run.
func runs(k *ws.Kind) {
	k.Given = append(k.Given,
		ws.Given{Term: "run stated", From: []string{"run"}, Usually: ws.Silent},
		ws.Given{Term: "lining run", From: []string{"lining.run"}, Usually: "across"},
		ws.Given{Term: "interlining run", From: []string{"interlining.run"}, Usually: "across"},
		ws.Given{Term: "nap", From: []string{"face/nap"}, Usually: ws.Silent},
		ws.Given{Term: "widths stated", Sort: ws.Ratio, From: []string{"widths"}},
		ws.Given{Term: "lining widths stated", Sort: ws.Ratio, From: []string{"lining.widths"}})
	k.Steps = append(k.Steps, ws.Step{Term: "run", Word: curtainRun, Reads: []string{"run stated"}})
}

// curtainRun is how the face is run. Where that is not said the cuts may say it: upright
// cloth is cut in widths, turned cloth in pieces.
func curtainRun(it *ws.Item) string {
	if stated := it.Order.Run.Value; stated != "" {
		return stated
	}
	piece := false
	for i := range it.Order.Cuts {
		switch it.Order.Cuts[i].Piece.Value {
		case "width":
			return "across"
		case "piece":
			piece = true
		}
	}
	if piece {
		return "along"
	}
	return "across"
}

// turnedPieces adds the panels of a curtain that are cut in one piece each, from turned
// cloth, and what lies along their edges.
func turnedPieces(k *ws.Kind) {
	plain := func(top string) string { return "{finished length} + {" + top + "} + {bottom hem}" }
	banded := func(top string) string { return "{finished length} - {band depth} + {" + top + "} + {band seam}" }
	ways := [...]struct {
		when, top string
		up        func(top string) string
		slips     func(top string) []ws.Slipping
	}{
		{"heading allowance, no band depth", "heading allowance", plain, faceSlips},
		{"no heading allowance, no band depth", "top hem", plain, faceSlips},
		{"heading allowance, band depth", "heading allowance", banded, bandSlips},
		{"no heading allowance, band depth", "top hem", banded, bandSlips},
	}
	var rows []piece
	for _, w := range ways {
		rows = append(rows, piece{"piece", "face", w.up(w.top), wholePanel, "{panels}", both(turned, w.when)})
	}
	pieces(k, rows...)
	rounder(k, "piece")
	cite(k, noJoins, "piece")
	slips(k,
		slip{"piece cut length", "the side hems were left out", "{panel width, flat}"},
		slip{"piece cut length", "this is for all panels together", "2 × {side hem} × {panels} + {panel width, flat} × {panels}"})
	for _, p := range [][2]string{{"no band depth", "{finished length}"}, {"band depth", "{finished length} - {band depth}"}} {
		k.Panels = append(k.Panels, ws.Paneling{Name: thePanel, Role: "face", Pieces: "piece", When: both(turned, p[0]), Across: "{panel width, flat}", Along: p[1], Main: true, Turned: true, Left: "leading edge", Right: "return edge"})
	}
	edgings(k,
		edging{"piece", "band depth", "", "", "", "seam {band seam} seam to the band"},
		edging{"piece", "heading allowance", "", "", "turn {heading allowance} heading", ""},
		edging{"piece", "", "hem sides", "hem sides", "hem top", "hem bottom"})
	for _, w := range ways {
		for _, s := range w.slips(w.top) {
			slipsWhen(k, both(turned, w.when, s.When), slip{"piece cut width", s.Name, s.Formula})
		}
	}
}

// turnedLayer adds to the pieces of a layer behind what they are where its cloth is
// turned: one for each panel.
func turnedLayer(k *ws.Kind, role, up, each, when string) {
	wide := role + " cut width"
	made := &ws.Kind{}
	cutTo(made, wide, ws.CutWidth, piece{name: role, role: role, when: when}, up, role+" shrinkage across")
	made.Steps = append(made.Steps, ws.Step{Term: role + " count", Name: ws.PieceCount, Of: role, When: both(when, wide), Formula: "{panels}", Sort: ws.Count, Source: noJoins})
	for _, s := range slices.Backward(made.Steps) { // before what they are of upright cloth
		stepsBefore(k, s.Term, s)
	}
	slipsOf := func(of, name, formula string) {
		k.Slips = append(k.Slips, ws.Slipping{Of: of, When: both(when, "no "+role+" shrinkage, no "+role+" shrinkage across, no "+role+" repeat"), Name: name, Formula: formula})
	}
	slipsOf(wide, "it was cut like the face", "{piece cut width}")
	slipsOf(role+" cut length", "this is for all panels together", "("+each+") × {panels}")
	if role == "lining" {
		slipsOf(wide, "its hem was left out", "{finished length} - {lining shorter} + 0 × {its hem}")
		slipsOf(wide, "the shortening was left out", "{finished length} [+ {its hem}]")
	}
}
