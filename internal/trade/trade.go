// Package trade is the trade's tables as typed rows, each with where it comes
// from, and the look-ups in them.
//
// Its law: the values are in schema/trade.cue and nowhere else. The package
// holds none of its own and works nothing out; what a row means for an order is
// for others to say.
package trade

import (
	"cutgate/internal/length"
	"cutgate/internal/mass"
)

// Unsourced is the source of a figure that many use and nobody published.
const Unsourced = "common practice, no source"

// Tables are all tables of the trade, with the house's defaults, in one of two
// editions: the one for inch orders or the one for metric orders.
type Tables struct {
	Fibers   []Fiber   `json:"fibers"`
	Settings []Setting `json:"settings"` // coolest first
	Classes  []Class   `json:"classes"`  // lightest first
	Needles  []Needle  `json:"needles"`  // finest first
	Seams    []Seam    `json:"seams"`
	Stitches []Stitch  `json:"stitches"`
	Headings []Heading `json:"headings"`
	Eyelets  []Eyelet  `json:"eyelets"` // smallest bore first
	Chains   []Chain   `json:"chains"`  // lightest first
	Cords    []Cord    `json:"cords"`   // market by market
	Fire     []Fire    `json:"fire"`
	Words    []Word    `json:"words"`
	House    House     `json:"house"`

	metric bool
	other  *Tables         // the other edition
	own    map[string]bool // what of the house is the shop's own, by its JSON names
}

// A Fiber is a generic fiber.
type Fiber struct {
	Name    string       `json:"name"`    // generic name, lower case
	Also    []string     `json:"also"`    // other generic names for the same
	Brands  []string     `json:"brands"`  // trade names, which are no generic names
	Dots    int          `json:"dots"`    // the hottest setting it stands, 1 to 3; 0 for no iron
	Creases int          `json:"creases"` // the setting below which its creases stay in
	Shrinks length.Ratio `json:"shrinks"` // along the cloth, untreated, as a part of one; 0 where not known to
	Across  length.Ratio `json:"across"`  // the same across the cloth
	Absorbs bool         `json:"absorbs"` // takes up water: a cloth of it stays wet
	Named   bool         `json:"named"`   // may be named on a label under the least share, for what it does
	Source  string       `json:"source"`  // of Dots

	CreaseSource string `json:"crease_source"`
	ShrinkSource string `json:"shrink_source"` // "" where Shrinks is 0
}

// A Setting is a setting of the iron.
type Setting struct {
	Dots    int    `json:"dots"`
	Celsius int64  `json:"celsius"` // the sole plate's most, in degrees
	Steam   bool   `json:"steam"`   // safe with steam
	Source  string `json:"source"`
}

// A Class is a class of cloth by its weight, and what suits it.
type Class struct {
	Name      string       `json:"name"`
	Below     mass.Areal   `json:"below"`     // lighter than this; 0 for the heaviest class
	HemLeast  mass.Linear  `json:"hem_least"` // the least hem mass that hangs straight
	Stack     length.Ratio `json:"stack"`     // of its flat cloth, that a curtain drawn back takes
	Stitches  Span         `json:"stitches"`  // per inch
	Needle    Sizes        `json:"needle"`    // hundredths of a millimetre
	HemSource string       `json:"hem_source"`
	SewSource string       `json:"sew_source"` // of Stitches and Needle
	Source    string       `json:"source"`     // of Below
}

// StitchLengths are the shortest and the longest stitch that suits a class, in millimetres.
func (c *Class) StitchLengths() (least, most length.Ratio) {
	inch := length.RatioOf(length.Inch, length.Millimetre)
	return inch.Quo(c.Stitches.Most), inch.Quo(c.Stitches.Least)
}

// A Span is a least and a most number.
type Span struct {
	Least length.Ratio `json:"least"`
	Most  length.Ratio `json:"most"`
}

// Sizes is a least and a most needle size, in hundredths of a millimetre.
type Sizes struct {
	Least int64 `json:"least"`
	Most  int64 `json:"most"`
}

// A Needle is a needle by both of its numbers.
type Needle struct {
	Metric int64  `json:"metric"` // hundredths of a millimetre
	Number int64  `json:"number"` // the other number on the packet
	Source string `json:"source"`
}

// A Seam is a kind of seam.
type Seam struct {
	Name      string        `json:"name"`
	Least     length.Length `json:"least"`      // least allowance on each piece
	Most      length.Length `json:"most"`       // most that is usual
	Usual     length.Length `json:"usual"`      // allowance where none is stated
	Trim      length.Length `json:"trim"`       // what is left of the trimmed edge where none is stated; 0 for an untrimmed seam
	Layers    int64         `json:"layers"`     // of cloth across the finished seam
	BothSides bool          `json:"both_sides"` // fit to be seen from both sides
	RawEdge   bool          `json:"raw_edge"`   // leaves an edge that wants finishing
	Source    string        `json:"source"`
}

// A Stitch is a stitch type. An inch of seam takes Base + 2 × thickness ×
// stitches per inch inches of thread, with the thickness in inches.
type Stitch struct {
	Name   string `json:"name"` // by number: "301" is the lockstitch
	Base   int64  `json:"base"`
	Source string `json:"source"`
}

// A Heading is a way to make the top of a curtain.
type Heading struct {
	Style     string        `json:"style"`
	Least     length.Ratio  `json:"least"` // fullness
	Most      length.Ratio  `json:"most"`
	Usual     length.Ratio  `json:"usual"`      // where none is stated
	SheerMost length.Ratio  `json:"sheer_most"` // fullness of a sheer; not less than Most
	Allowance length.Length `json:"allowance"`  // cloth above the finished top, where none is stated
	Hangs     string        `json:"hangs"`      // "hooks", "holes", "tabs" or "pocket"
	Pleats    bool          `json:"pleats"`     // sewn pleats that are counted and spaced
	Source    string        `json:"source"`     // of Least, Most and Usual

	SheerSource     string `json:"sheer_source"`
	AllowanceSource string `json:"allowance_source"`
}

// An Eyelet is a size of grommet.
type Eyelet struct {
	Bore   length.Length `json:"bore"`   // inside diameter
	Flange length.Length `json:"flange"` // outside diameter
	Rod    length.Length `json:"rod"`    // the thickest rod for it; 0 where it takes a hook
	Source string        `json:"source"`
}

// A Chain is a chain or lead tape that is sold for hems.
type Chain struct {
	Mass   mass.Linear `json:"mass"`
	Source string      `json:"source"`
}

// A Cord is one limit of one market for a kind of cord.
type Cord struct {
	Market string        `json:"market"`
	Limit  string        `json:"limit"`  // "length", "loop", "share", "hold" or "lowest"
	Most   length.Length `json:"most"`   // of a length or loop: the longest
	Under  bool          `json:"under"`  // just Most is too long already, and just Height still in reach
	Share  length.Ratio  `json:"share"`  // of a share: the longest cord as a part of the shade's length
	Height length.Length `json:"height"` // above the floor: a loop from here up is out of reach, a hold-down or lowest point is here or higher; 0 for any
	Blinds bool          `json:"blinds"` // of a standard for blinds, which tracks for curtains are not under
	Of     string        `json:"of"`     // of a hold: what is held down, "loops" or "cords"
	Says   string        `json:"says"`   // the limit in a sentence
	Source string        `json:"source"`
}

// Fire is what a market asks of a furnishing's certificate.
type Fire struct {
	Market string   `json:"market"`
	Use    string   `json:"use"`    // "home", "public" or "nursery"
	Goods  string   `json:"goods"`  // "curtain", "upholstery" or "table"
	Claims []string `json:"claims"` // any one of these is looked for in a certificate's claims; none where no certificate is asked for
	Says   string   `json:"says"`
	Source string   `json:"source"`
}

// A Word is another workroom's word for one of the form's. It is meant only
// where the form's word can stand and the other cannot: "eyelet" is a heading's
// own word, and another word for a hole's "grommet".
type Word struct {
	Other string `json:"other"`
	Form  string `json:"form"`
	Where string `json:"where"` // "field", "value", "both", "iron" for what an iron is set to, or "goods" for a kind

	By []string `json:"by,omitempty"` // of goods: it is meant where the item has one of these fields
}
