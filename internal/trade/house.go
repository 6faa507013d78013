package trade

import (
	"cutgate/internal/length"
	"cutgate/internal/mass"
)

// House is what a shop does where an order does not say. Every field is set in
// the tables, and a shop's own house rules replace single ones.
type House struct {
	Clearance      length.Length     `json:"clearance"` // foot to floor or sill
	BelowSill      length.Length     `json:"below_sill"`
	Puddle         length.Length     `json:"puddle"`          // cloth that lies on the floor
	FloorHemLeast  length.Length     `json:"floor_hem_least"` // least that a full-length curtain's bottom hem takes
	HighOffFloor   Gap               `json:"high_off_floor"`  // a curtain this far off the floor was meant to reach it
	NearRepeat     length.Length     `json:"near_repeat"`     // over whole repeats by no more than this
	ShrinkAsk      length.Ratio      `json:"shrink_ask"`      // a fiber known to shrink by this or more is asked about
	ShrinkLeast    length.Ratio      `json:"shrink_least"`    // less than this can't be measured, and is asked about
	ShrinkMost     length.Ratio      `json:"shrink_most"`     // a cloth that shrinks by more is washed before it is cut
	SelvedgeCover  length.Length     `json:"selvedge_cover"`  // beyond the selvedge, at a join
	SelvedgeHide   length.Length     `json:"selvedge_hide"`   // an allowance should pass the selvedge by
	LeastStrip     length.Length     `json:"least_strip"`     // narrowest finished strip of a joined panel
	NearWidth      length.Ratio      `json:"near_width"`      // over a whole width by less than this part of a width
	FullnessSlack  length.Ratio      `json:"fullness_slack"`  // an actual fullness may lie outside a heading's range by this, as widths are whole
	Pitch          length.Length     `json:"pitch"`           // of shower curtain holes
	PitchSlack     length.Length     `json:"pitch_slack"`
	FromSide       length.Length     `json:"from_side"`      // finished edge to the first hole
	EdgeToFlange   length.Length     `json:"edge_to_flange"` // least from the finished edge to a flange
	BoreLeast      length.Ratio      `json:"bore_least"`     // bore over rod
	BoreMost       length.Ratio      `json:"bore_most"`
	HoleEase       length.Length     `json:"hole_ease"`      // buttonhole over its hook
	StitchOff      length.Length     `json:"stitch_off"`     // furthest a stitch line lies from the inner fold
	MachineSews    length.Length     `json:"machine_sews"`   // thickest stack that the machine sews
	SellingMetric  length.Length     `json:"selling_metric"` // step that cloth is sold by
	SellingYards   length.Length     `json:"selling_yards"`
	StartRepeat    bool              `json:"start_repeat"`    // one more repeat on the order, to find the start of the motif
	Face           string            `json:"face"`            // of a curtain's widths, joined: "as made up", "trimmed" to the width asked for
	HalfDrop       string            `json:"half_drop"`       // "half on the order", "whole on the order", "half at joins", "half on each cut"
	Laid           string            `json:"laid"`            // how cloth is cut: "rows", "guillotine" or "free"
	LayTogether    bool              `json:"lay_together"`    // orders of one cloth
	Returns        string            `json:"returns"`         // "with fullness" or "after fullness"
	LiningShorter  length.Length     `json:"lining_shorter"`  // at the foot
	LiningNarrower length.Length     `json:"lining_narrower"` // a panel, in all
	HookDrop       length.Length     `json:"hook_drop"`       // top edge down to the hook's bearing
	PocketEase     length.Length     `json:"pocket_ease"`     // over the rod's circumference; half of it lies flat
	PleatGap       Gap               `json:"pleat_gap"`       // between pinch pleats
	TabGap         Gap               `json:"tab_gap"`
	StackShare     length.Ratio      `json:"stack_share"`    // of its flat cloth, that a curtain drawn back takes; of cloth whose class is not known
	StackLayer     length.Ratio      `json:"stack_layer"`    // more for a lining; twice that for an interlining
	WetFactor      length.Ratio      `json:"wet_factor"`     // mass of a wet shower curtain over a dry one
	ThreadWaste    length.Ratio      `json:"thread_waste"`   // a part of one, added
	OffFloor       Gap               `json:"off_floor"`      // of a shower curtain
	HoldsAsk       mass.Mass         `json:"holds_ask"`      // from this hanging mass up it is asked what the rod holds
	MinorFiber     length.Ratio      `json:"minor_fiber"`    // under this share a fiber is "other"
	FusingDots     int               `json:"fusing_dots"`    // the setting that fusing needs where none is stated
	WeightSpacing  length.Length     `json:"weight_spacing"` // between single weights in a light curtain's hem
	BiasLoss       length.Ratio      `json:"bias_loss"`      // of bias strip in joins, a part of one
	PipingJoin     length.Length     `json:"piping_join"`    // over the perimeter
	CushionFit     string            `json:"cushion_fit"`    // "tight", "plain", "snug" or "firm"
	RecessGap      length.Length     `json:"recess_gap"`     // a shade in a recess is narrower by this
	BoxingEase     length.Length     `json:"boxing_ease"`    // under the pad's depth
	ZipClear       length.Length     `json:"zip_clear"`      // sewn shut at each end of a cushion's zip
	BoxFold        length.Length     `json:"box_fold"`       // depth of one fold of a valance's box pleat
	LapLimit       length.Length     `json:"lap_limit"`      // longest drop where people sit
	DuvetEase      length.Length     `json:"duvet_ease"`     // cover over duvet
	PillowTuck     length.Length     `json:"pillow_tuck"`    // of a bedspread
	DeckInset      length.Length     `json:"deck_inset"`     // inside the spring's edge
	CornerPleat    length.Length     `json:"corner_pleat"`   // cloth in one pleat of a bed skirt
	Hems           []HouseHem        `json:"hems"`
	Sources        map[string]string `json:"sources"` // by the JSON name of the field above; hems carry their own
}

// A Gap is a least and a most distance.
type Gap struct {
	Least length.Length `json:"least"`
	Most  length.Length `json:"most"`
}

// A HouseHem is the hem a shop sews where the order does not say.
type HouseHem struct {
	Item   string        `json:"item"`  // kind of item
	Edge   string        `json:"edge"`  // "top", "bottom", "sides", "lining", "opening" or "edge", all round
	Where  string        `json:"where"` // "floor", "sill", "sheer", or "" for anywhere else
	Turn   length.Length `json:"turn"`
	Folds  int64         `json:"folds"`
	Source string        `json:"source"`
}

// HemFor returns the shop's hem for an edge of a kind of item. Where says how
// the item hangs or what it is made of; a place without a hem of its own takes
// the one for anywhere else. It returns nil if there is none.
func (t *Tables) HemFor(item, edge, where string) *HouseHem {
	var found *HouseHem
	for i := range t.House.Hems {
		h := &t.House.Hems[i]
		if h.Item != item || h.Edge != edge {
			continue
		}
		if h.Where == where {
			return h
		}
		if h.Where == "" {
			found = h
		}
	}
	return found
}

// Own reports whether a shop gives a house default itself, by its JSON name.
func (t *Tables) Own(field string) bool { return t.own[field] }

// SetOwn notes that a shop gives a house default itself, in tables that are being revised.
func (t *Tables) SetOwn(field string) { t.own[field] = true }

// SelfSource returns where a house default comes from, by its JSON name. A
// field that nobody vouches for is common practice.
func (t *Tables) SelfSource(field string) string {
	if s := t.House.Sources[field]; s != "" {
		return s
	}
	return Unsourced
}
