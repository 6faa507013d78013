// Package trade is the trade's tables as typed rows, each with where it comes
// from, and the look-ups in them. The values are in schema/trade.cue; the
// package holds none of its own and works nothing out.
package trade

import (
	"cutgate/internal/length"
	"cutgate/internal/mass"
)

// Tables are all tables of the trade, with the house's defaults.
type Tables struct {
	Fibers   []Fiber   `json:"fibers"`
	Classes  []Class   `json:"classes"` // lightest first
	Seams    []Seam    `json:"seams"`
	Headings []Heading `json:"headings"`
	Eyelets  []Eyelet  `json:"eyelets"` // smallest bore first
	Cords    []Cord    `json:"cords"`
	Fire     []Fire    `json:"fire"`
	Words    []Word    `json:"words"`
	House    House     `json:"house"`
}

// A Fiber is a generic fiber.
type Fiber struct {
	Name    string       `json:"name"`    // generic name, lower case
	Also    []string     `json:"also"`    // other generic names for the same
	Dots    int          `json:"dots"`    // the hottest setting it stands, 1 to 3
	Creases int          `json:"creases"` // the setting below which its creases stay in
	Shrinks length.Ratio `json:"shrinks"` // along the cloth, untreated; 0 where not known to
	Source  string       `json:"source"`
}

// A Class is a class of cloth by its weight, and what suits it.
type Class struct {
	Name      string      `json:"name"`
	Below     mass.Areal  `json:"below"`     // lighter than this; 0 for the heaviest class
	HemLeast  mass.Linear `json:"hem_least"` // the least hem mass that hangs straight
	Stitches  Span        `json:"stitches"`  // per inch
	Needle    Sizes       `json:"needle"`    // hundredths of a millimetre
	HemSource string      `json:"hem_source"`
	SewSource string      `json:"sew_source"`
	Source    string      `json:"source"`
}

// A Span is a least and a most.
type Span struct {
	Least length.Ratio `json:"least"`
	Most  length.Ratio `json:"most"`
}

// Sizes is a least and a most needle size.
type Sizes struct {
	Least int64 `json:"least"`
	Most  int64 `json:"most"`
}

// A Seam is a kind of seam.
type Seam struct {
	Name      string        `json:"name"`
	Least     length.Length `json:"least"`      // least allowance on each piece
	Most      length.Length `json:"most"`       // most that is usual
	Usual     length.Length `json:"usual"`      // allowance where none is stated
	Layers    int64         `json:"layers"`     // of cloth across the finished seam
	BothSides bool          `json:"both_sides"` // fit to be seen from both sides
	RawEdge   bool          `json:"raw_edge"`   // leaves an edge that wants finishing
	Source    string        `json:"source"`
}

// A Heading is a way to make the top of a curtain.
type Heading struct {
	Style     string        `json:"style"`
	Least     length.Ratio  `json:"least"` // fullness
	Most      length.Ratio  `json:"most"`
	Usual     length.Ratio  `json:"usual"`     // where none is stated
	Allowance length.Length `json:"allowance"` // cloth above the finished top, where none is stated
	Hangs     string        `json:"hangs"`     // "hooks", "holes", "tabs" or "pocket"
	Pleats    bool          `json:"pleats"`    // sewn pleats that are counted and spaced
	Source    string        `json:"source"`
}

// An Eyelet is a size of grommet.
type Eyelet struct {
	Bore   length.Length `json:"bore"`
	Flange length.Length `json:"flange"`
	Rod    length.Length `json:"rod"` // the thickest rod for it
	Source string        `json:"source"`
}

// A Cord is one limit of one market for a kind of cord.
type Cord struct {
	Market string        `json:"market"`
	Limit  string        `json:"limit"`  // "length", "loop" or "hold"
	Most   length.Length `json:"most"`   // the longest cord or loop; 0 where the limit is a height
	Height length.Length `json:"height"` // a loop above it, or a hold-down at it, is out of reach; 0 for any
	Says   string        `json:"says"`   // the limit in a sentence
	Source string        `json:"source"`
}

// Fire is what a market asks of a furnishing's certificate.
type Fire struct {
	Market string   `json:"market"`
	Use    string   `json:"use"`    // "home", "public" or "nursery"
	Goods  string   `json:"goods"`  // "curtain", "upholstery" or "table"
	Claims []string `json:"claims"` // any one of these is looked for in a certificate's claims
	Says   string   `json:"says"`
	Source string   `json:"source"`
}

// A Word is another workroom's word for one of the form's.
type Word struct {
	Other string `json:"other"`
	Form  string `json:"form"`
	Where string `json:"where"` // "field", "value" or "both"
}

// House is what a shop does where an order does not say.
type House struct {
	Clearance      length.Length     `json:"clearance"` // foot to floor or sill
	BelowSill      length.Length     `json:"below_sill"`
	Puddle         length.Length     `json:"puddle"`
	SelvedgeCover  length.Length     `json:"selvedge_cover"` // beyond the selvedge, at a join
	SelvedgeHide   length.Length     `json:"selvedge_hide"`  // an allowance should pass the selvedge by
	LeastStrip     length.Length     `json:"least_strip"`    // narrowest finished strip of a joined panel
	NearWidth      length.Ratio      `json:"near_width"`     // over a whole width by less than this part of a width
	Pitch          length.Length     `json:"pitch"`          // of shower curtain holes
	PitchSlack     length.Length     `json:"pitch_slack"`
	FromSide       length.Length     `json:"from_side"`
	EdgeToFlange   length.Length     `json:"edge_to_flange"` // least from the finished edge to a flange
	BoreLeast      length.Ratio      `json:"bore_least"`     // bore over rod
	BoreMost       length.Ratio      `json:"bore_most"`
	HoleEase       length.Length     `json:"hole_ease"`
	StitchOff      length.Length     `json:"stitch_off"`     // furthest a stitch line lies from the inner fold
	MachineSews    length.Length     `json:"machine_sews"`   // thickest stack that the machine sews
	SellingMetric  length.Length     `json:"selling_metric"` // step that cloth is sold by
	SellingYards   length.Length     `json:"selling_yards"`
	StartRepeat    bool              `json:"start_repeat"`    // one more repeat on the order, to find the start of the motif
	HalfDrop       string            `json:"half_drop"`       // "half on the order", "whole on the order", "half at joins"
	Returns        string            `json:"returns"`         // "with fullness" or "after fullness"
	LiningShorter  length.Length     `json:"lining_shorter"`  // at the foot
	LiningNarrower length.Length     `json:"lining_narrower"` // a panel, in all
	HookDrop       length.Length     `json:"hook_drop"`
	PocketEase     length.Length     `json:"pocket_ease"`
	PleatGap       Gap               `json:"pleat_gap"` // between pinch pleats
	TabGap         Gap               `json:"tab_gap"`
	StackPerWidth  length.Length     `json:"stack_per_width"`
	WetFactor      length.Ratio      `json:"wet_factor"`
	ThreadWaste    length.Ratio      `json:"thread_waste"`
	OffFloor       Gap               `json:"off_floor"`   // of a shower curtain
	MinorFiber     length.Ratio      `json:"minor_fiber"` // under this share a fiber is "other"
	Hems           []HouseHem        `json:"hems"`
	Sources        map[string]string `json:"sources"` // by the JSON name of the field above
}

// A Gap is a least and a most distance.
type Gap struct {
	Least length.Length `json:"least"`
	Most  length.Length `json:"most"`
}

// A HouseHem is the hem a shop sews where the order does not say.
type HouseHem struct {
	Item   string        `json:"item"`  // kind of item
	Edge   string        `json:"edge"`  // "top", "bottom", "sides", "lining"
	Where  string        `json:"where"` // "floor", "sill", "sheer" or ""
	Turn   length.Length `json:"turn"`
	Folds  int64         `json:"folds"`
	Source string        `json:"source"`
}
