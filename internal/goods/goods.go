// Package goods is the kinds of goods that cutgate works out, each declared once as
// a value: a file a kind. What several kinds share, a hem, a cut down the cloth, the
// iron, stands in blocks.go.
//
// # Law
//
// What is known of a kind stands here and nowhere else. Its working, its outcomes on
// the form, what is filled in, which value rests on which, the slips that people
// make and what a shop's own rules see are derived from it. Go stands where
// something is judgement or a sum over pieces, and says what it reads.
package goods

import (
	"sync"

	"cutgate/internal/length"
	ws "cutgate/internal/worksheet"
)

// All are the kinds in the order of the form, with the goods whose sizes are not worked
// out first. A kind is declared when it is wanted, as most orders are of one or two.
var All = sync.OnceValue(func() *ws.Kinds {
	return ws.KindsOf([]ws.Declaring{
		{Declare: unworked},
		{Name: "shower curtain", Declare: showerCurtain},
		{Name: "curtain", Declare: curtain},
		{Name: "valance", Declare: valance},
		{Name: "Roman shade", Declare: romanShade},
		{Name: "cushion cover", Declare: cushionCover},
		{Name: "tablecloth", Declare: tablecloth},
		{Name: "runner", Declare: runner},
		{Name: "placemat", Declare: placemat},
		{Name: "napkin", Declare: napkin},
		{Name: "duvet cover", Declare: duvetCover},
		{Name: "pillowcase", Declare: pillowcase},
		{Name: "bedspread", Declare: bedspread},
		{Name: "bed skirt", Declare: bedSkirt},
		{Name: "tie-back", Declare: tieBack},
		{Name: "cornice", Declare: cornice},
	}...)
})

// small and layers are pieces that a maker may add to most goods.
var (
	small = []string{"tab", "tie", "tie-back", "band", "strip", "end strip", "cuff", "long border", "short border",
		"piping strip", "piping square", "zip strip"}
	layers = []string{"lining", "interlining", "interfacing", "wadding", "liner"}
)

// unworked is goods whose sizes are not worked out: only what their cloths allow.
func unworked() *ws.Kind {
	k := &ws.Kind{Roles: []ws.Role{{Name: "face", Field: "cloth"}, {Name: "lining", Field: "lining.cloth"}, {Name: "interlining", Field: "interlining.cloth"}, {Name: "piping", Field: "piping.cloth"}}}
	press(k)
	return k
}

const inch = length.Inch

// in is sixteenths of an inch as a length; whole ones are in(16).
func in(sixteenths int64) length.Length {
	return inch.MulRatio(length.NewRatio(sixteenths, 16), length.Nearest)
}
