// Package order is the typed work order: every leaf is a value and the range it
// was read from.
//
// An order states choices (finished size, cloth, hems) and may state outcomes
// (cuts, spacing, cloth to buy). A leaf that was left blank has Set false, and
// its At is where it would go: the block it belongs to. What could not be taken
// as written is kept as a Flaw, so that nothing on the form is lost.
//
// The package knows neither file formats nor the trade's arithmetic.
package order

import (
	"strconv"

	"cutgate/internal/length"
	"cutgate/internal/mass"
	"cutgate/internal/source"
)

// An Order is one work order. Its `form` tags are the form's field names.
type Order struct {
	Block
	File  *source.File
	Root  *Node // the form as written; nil where nothing could be read
	Flaws []Flaw

	Writer Writer // of the syntax that it was read from
	large  *index // of the maps with many entries

	Number   Text                  `form:"order"`
	Client   Text                  `form:"client"`
	Due      Date                  `form:"due"`
	Units    Text                  `form:"units"`
	Market   Text                  `form:"market"`
	Use      Text                  `form:"use"`
	Notes    Text                  `form:"notes"`
	Cloths   []Entry[Cloth]        `form:"cloths"`
	Measured []Entry[Measurements] `form:"measured"`
	Items    []Item                `form:"items"`
	Waive    []Waiver              `form:"waive"`
}

// New returns an order as it is written, of which nothing is read yet.
func New(f *source.File, root *Node) *Order { return &Order{File: f, Root: root, large: new(index)} }

// An Entry is one named entry of a map, in the order of the file.
type Entry[T any] struct {
	Name string
	Key  source.Range
	Of   T
}

// A Block is where a group of fields stands.
type Block struct {
	At  source.Range // the whole group; for an absent one, the group that it would go into
	Key source.Range // its name, or where the name would go
	Set bool
}

// A Cloth is a cloth as the mill or the merchant states it.
type Cloth struct {
	Block
	Name       Text             `form:"name"`
	Fiber      []Entry[Percent] `form:"fiber"`
	Class      Text             `form:"class"`
	Width      Length           `form:"width"`
	Selvedge   Length           `form:"selvedge"`
	Weight     Areal            `form:"weight"`
	Thickness  Length           `form:"thickness"`
	Repeat     Repeat           `form:"repeat"`
	Nap        Text             `form:"nap"`
	Shrinks    Shrinks          `form:"shrinks"`
	Washed     Flag             `form:"washed"`
	Frays      Flag             `form:"frays"`
	EdgeStripe Flag             `form:"edge_stripe"`
	Damp       Text             `form:"damp"`
	Care       Care             `form:"care"`
	Fire       []Text           `form:"fire"`
	SoldBy     Length           `form:"sold_by"`
	Ordered    Length           `form:"ordered"`
	Laid       Text             `form:"laid"`
	Bolts      []Bolt           `form:"bolts"`
}

// A Repeat is the pattern's repeat along and across the cloth.
type Repeat struct {
	Block
	Length Length `form:"length"`
	Width  Length `form:"width"`
	Match  Text   `form:"match"`
}

// Shrinks is the part of the length and of the width that the first wash takes.
type Shrinks struct {
	Block
	Length Percent `form:"length"`
	Width  Percent `form:"width"`
}

// Care is what the cloth's care label allows.
type Care struct {
	Block
	Iron Setting     `form:"iron"`
	Wash Temperature `form:"wash"`
}

// A Bolt is one roll of a cloth, of one dye lot.
type Bolt struct {
	Block
	Lot    Text   `form:"lot"`
	Length Length `form:"length"`
}

// Measurements are what the cutter found at the bench.
type Measurements struct {
	Block
	Width   Length  `form:"width"`
	Repeat  Repeat  `form:"repeat"`
	Length  Length  `form:"length"`
	Shrinks Shrinks `form:"shrinks"`
	Flaws   []Fault `form:"flaws"`
}

// A Fault is a stretch of the bolt that can't be used.
type Fault struct {
	Block
	From Length `form:"from"`
	To   Length `form:"to"`
	Bolt Count  `form:"bolt"`
}

// A Waiver sets a rule aside on purpose.
type Waiver struct {
	Block
	Rule    Text `form:"rule"`
	Because Text `form:"because"`
	By      Text `form:"by"`
	Until   Date `form:"until"`
}

// An Item is one thing to make. It has the fields of every kind of item; the
// shape check has seen to it that only those of its own kind are set.
type Item struct {
	Block
	Kind     Text     `form:"item"`
	ID       Text     `form:"id"`
	Room     Text     `form:"room"`
	Notes    Text     `form:"notes"`
	Quantity Count    `form:"quantity"`
	Cloth    Text     `form:"cloth"`
	Press    Press    `form:"press"`
	NearHeat Flag     `form:"near_heat"`
	Cuts     []Cut    `form:"cuts"`
	Waive    []Waiver `form:"waive"`

	Style       Text        `form:"style"`
	Shape       Text        `form:"shape"`
	Panels      Count       `form:"panels"`
	Finished    Finished    `form:"finished"`
	Hems        Hems        `form:"hems"`
	Hem         Hem         `form:"hem"`
	Opening     Hem         `form:"opening"`
	Join        Join        `form:"join"`
	FlatWidth   Length      `form:"flat_width"`
	Widths      Ratio       `form:"widths"`
	PanelWidth  Length      `form:"panel_width"`
	Holes       Holes       `form:"holes"`
	Rod         Rod         `form:"rod"`
	Tub         Tub         `form:"tub"`
	Track       Track       `form:"track"`
	Board       Board       `form:"board"`
	Hang        Hang        `form:"hang"`
	Heading     Heading     `form:"heading"`
	Lining      Lining      `form:"lining"`
	Interlining Interlining `form:"interlining"`
	Weights     Weights     `form:"weights"`
	Cord        Cord        `form:"cord"`
	HangingMass Mass        `form:"hanging_mass"`
	Liner       Liner       `form:"liner"`
	Band        Band        `form:"band"`
	Tabs        Tabs        `form:"tabs"`
	TieBacks    TieBacks    `form:"tie_backs"`

	CurtainLength Length `form:"curtain_length"`
	Mount         Text   `form:"mount"`
	Recess        Recess `form:"recess"`
	Headrail      Length `form:"headrail"`
	Sections      Count  `form:"sections"`
	Section       Length `form:"section"`
	Pockets       Count  `form:"pockets"`
	Flap          Length `form:"flap"`
	Pad           Size   `form:"pad"`
	Allowance     Length `form:"allowance"`
	Fit           Text   `form:"fit"`
	Boxing        Boxing `form:"boxing"`
	Zip           Zip    `form:"zip"`
	Piping        Piping `form:"piping"`
	Upholstered   Flag   `form:"upholstered"`
	Table         Size   `form:"table"`
	Bed           Size   `form:"bed"`
	Drop          Length `form:"drop"`
	Tuck          Length `form:"tuck"`
	Sides         Count  `form:"sides"`
	Fullness      Ratio  `form:"fullness"`
	Pleats        Count  `form:"pleats"`
	Pleat         Length `form:"pleat"`
	Rings         Count  `form:"rings"`

	Ease        Length   `form:"ease"`
	Run         Text     `form:"run"`
	Motif       Text     `form:"motif"`
	Hook        Length   `form:"hook"`
	Made        Text     `form:"made"`
	Corners     Text     `form:"corners"`
	Oval        Text     `form:"oval"`
	DropEnds    Length   `form:"drop_ends"`
	DropFoot    Length   `form:"drop_foot"`
	Seated      Flag     `form:"seated"`
	Overhang    Length   `form:"overhang"`
	Border      Border   `form:"border"`
	TurnGap     Length   `form:"gap"`
	Back        Part     `form:"back"`
	Wadding     Part     `form:"wadding"`
	Interfacing Part     `form:"interfacing"`
	Closure     Closure  `form:"closure"`
	Ends        Text     `form:"ends"`
	EndTurn     Length   `form:"end_turn"`
	Ties        Ties     `form:"ties"`
	Filling     Filling  `form:"filling"`
	Window      Opening  `form:"window"`
	Over        Opening  `form:"over"`
	TopWrap     Length   `form:"top_wrap"`
	PocketTakes Length   `form:"pocket_takes"`
	Columns     Columns  `form:"columns"`
	Duvet       Size     `form:"duvet"`
	Faces       Count    `form:"faces"`
	Pillow      Size     `form:"pillow"`
	FlapHem     Hem      `form:"flap_hem"`
	Flange      Length   `form:"flange"`
	Cuff        Cuff     `form:"cuff"`
	HeadHem     Length   `form:"head_hem"`
	Quilted     Flag     `form:"quilted"`
	Clearance   Length   `form:"clearance"`
	EndHem      Length   `form:"end_hem"`
	Deck        Deck     `form:"deck"`
	Template    Template `form:"template"`
	Trim        Opening  `form:"trim"`
	Wrap        Length   `form:"wrap"`
}

// Calls are the places where an item names a cloth, set or not, those of its cuts last.
func (it *Item) Calls(yield func(*Text) bool) {
	for _, call := range [...]*Text{&it.Cloth, &it.Lining.Cloth, &it.Interlining.Cloth, &it.Piping.Cloth, &it.Back.Cloth, &it.Wadding.Cloth,
		&it.Interfacing.Cloth, &it.Border.Cloth, &it.Cuff.Cloth, &it.Deck.Cloth,
		&it.Join.SideCloth, &it.Liner.Cloth, &it.Band.Cloth, &it.Tabs.Cloth, &it.Heading.TabCloth, &it.TieBacks.Cloth} {
		if !yield(call) {
			return
		}
	}
	for i := range it.Cuts {
		if !yield(&it.Cuts[i].Cloth) {
			return
		}
	}
}

// Part is a part of an item that is cut from a cloth of its own.
type Part struct {
	Block
	Cloth Text `form:"cloth"`
}

// Border is a border that is sewn round a piece.
type Border struct {
	Block
	Width Length `form:"width"`
	Spare Length `form:"spare"`
	Cloth Text   `form:"cloth"`
}

// Closure is how a cover is closed.
type Closure struct {
	Block
	Kind    Text   `form:"kind"`
	Overlap Length `form:"overlap"`
	Hem     Hem    `form:"hem"`
	Closed  Length `form:"closed"`
	AtMost  Length `form:"at_most"`
	Spacing Length `form:"spacing"`
	Count   Count  `form:"count"`
	Button  Length `form:"button"`
}

// Ties are the ties of a cushion.
type Ties struct {
	Block
	Count     Count  `form:"count"`
	Width     Length `form:"width"`
	Length    Length `form:"length"`
	Allowance Length `form:"allowance"`
}

// Filling is what a cover is filled with.
type Filling struct {
	Block
	Under Length `form:"under"`
}

// Opening is a window, its frame, or what hangs beneath.
type Opening struct {
	Block
	Width      Length `form:"width"`
	Projection Length `form:"projection"`
}

// Columns are the columns of rings of a Roman shade.
type Columns struct {
	Block
	Edge    Length `form:"edge"`
	AtMost  Length `form:"at_most"`
	Spacing Length `form:"spacing"`
	Count   Count  `form:"count"`
}

// Cuff is the band at a pillowcase's opening.
type Cuff struct {
	Block
	Shows     Length `form:"shows"`
	Cloth     Text   `form:"cloth"`
	Allowance Length `form:"allowance"`
	End       Length `form:"end"`
}

// Deck is the part of a bed skirt that lies under the mattress.
type Deck struct {
	Block
	Cloth   Text   `form:"cloth"`
	Inset   Length `form:"inset"`
	HeadHem Length `form:"head_hem"`
}

// Template is the shape of a shaped tie-back.
type Template struct {
	Block
	Low    Length `form:"low"`
	High   Length `form:"high"`
	Margin Length `form:"margin"`
	Rise   Length `form:"rise"`
}

// Finished is the size of the finished thing.
type Finished struct {
	Block
	Width    Length `form:"width"`
	Length   Length `form:"length"`
	Diameter Length `form:"diameter"`
}

// Size is the size of what is covered: a pad, a table, a bed.
type Size struct {
	Block
	Width    Length `form:"width"`
	Length   Length `form:"length"`
	Depth    Length `form:"depth"`
	Diameter Length `form:"diameter"`
	Around   Length `form:"around"`
	Height   Length `form:"height"`
	Mattress Length `form:"mattress"`
	Posts    Flag   `form:"posts"`
}

// Hems are the hems of a hanging.
type Hems struct {
	Block
	Top    Hem `form:"top"`
	Bottom Hem `form:"bottom"`
	Sides  Hem `form:"sides"`
}

// A Hem is a turned edge.
type Hem struct {
	Block
	Turn      Length `form:"turn"`
	Folds     Count  `form:"folds"`
	First     Length `form:"first"`
	Stitch    Length `form:"stitch"`
	Allowance Length `form:"allowance"`
	Corners   Text   `form:"corners"`
}

// A Join is how pieces or widths are joined.
type Join struct {
	Block
	Layout    Text   `form:"layout"`
	Seam      Text   `form:"seam"`
	Allowance Length `form:"allowance"`
	Trim      Length `form:"trim"`
	FirstRow  Length `form:"first_row"`
	Finish    Text   `form:"finish"`
	Stitches  Ratio  `form:"stitches"`
	Needle    Count  `form:"needle"`
	SideCloth Text   `form:"side_cloth"`
}

// Band is a band along the foot of a hanging.
type Band struct {
	Block
	Depth     Length `form:"depth"`
	Cloth     Text   `form:"cloth"`
	Allowance Length `form:"allowance"`
}

// Liner is a shower curtain's liner.
type Liner struct {
	Block
	Cloth    Text   `form:"cloth"`
	Shorter  Length `form:"shorter"`
	Narrower Length `form:"narrower"`
	Hems     Hems   `form:"hems"`
	Holes    Holes  `form:"holes"`
	FromSide Length `form:"from_side"`
}

// Tabs are the tabs along the top of a shower curtain.
type Tabs struct {
	Block
	Count     Count  `form:"count"`
	Cloth     Text   `form:"cloth"`
	Width     Length `form:"width"`
	Drop      Length `form:"drop"`
	End       Length `form:"end"`
	Allowance Length `form:"allowance"`
	Gap       Length `form:"gap"`
}

// TieBacks are the tie-backs that are made with a curtain.
type TieBacks struct {
	Block
	Count     Count  `form:"count"`
	Width     Length `form:"width"`
	Length    Length `form:"length"`
	Cloth     Text   `form:"cloth"`
	Allowance Length `form:"allowance"`
}

// A Cut is one size of piece to cut; its count is for one of the item.
type Cut struct {
	Block
	Piece  Text   `form:"piece"`
	Cloth  Text   `form:"cloth"`
	Width  Length `form:"width"`
	Length Length `form:"length"`
	Count  Count  `form:"count"`
}

// Holes are the holes along a top edge.
type Holes struct {
	Block
	Make     Text   `form:"make"`
	Count    Count  `form:"count"`
	Spacing  Length `form:"spacing"`
	FromSide Length `form:"from_side"`
	FromTop  Length `form:"from_top"`
	Bore     Length `form:"bore"`
	Flange   Length `form:"flange"`
	Grip     Length `form:"grip"`
	Hook     Length `form:"hook"`
	Ease     Length `form:"ease"`
	Slit     Length `form:"slit"`
	Backing  Text   `form:"backing"`
}

// Reach is how far a grommet lies around its center: half its flange, or half its bore
// where no flange is stated. It is 0 for a buttonhole.
func (h *Holes) Reach() length.Length {
	switch {
	case h.Make.Value != "grommet":
		return 0
	case h.Flange.Set:
		return max(h.Flange.Value, h.Bore.Value).Div(2, length.Up)
	}
	return h.Bore.Value.Div(2, length.Up)
}

// Press is how the work is pressed.
type Press struct {
	Block
	Setting  Setting     `form:"setting"`
	Steam    Flag        `form:"steam"`
	Cloth    Flag        `form:"cloth"`
	Fusing   Text        `form:"fusing"`
	FusingAt Temperature `form:"fusing_at"`
}

// A Rod is what a shower curtain hangs from.
type Rod struct {
	Block
	Length     Length `form:"length"`
	Diameter   Length `form:"diameter"`
	AboveFloor Length `form:"above_floor"`
	Holds      Mass   `form:"holds"`
}

// A Tub is the bath that a shower curtain hangs at.
type Tub struct {
	Block
	Rim    Length `form:"rim"`
	Inside Flag   `form:"inside"`
}

// A Track, or a pole, is what a curtain hangs from.
type Track struct {
	Block
	Kind       Text   `form:"kind"`
	Width      Length `form:"width"`
	Return     Length `form:"return"`
	Overlap    Length `form:"overlap"`
	AboveFloor Length `form:"above_floor"`
	AboveSill  Length `form:"above_sill"`
	Diameter   Length `form:"diameter"`
	Holds      Mass   `form:"holds"`
	WallLeft   Length `form:"wall_left"`
	WallRight  Length `form:"wall_right"`
}

// A Board is what a valance is fixed to.
type Board struct {
	Block
	Width      Length `form:"width"`
	Return     Length `form:"return"`
	Depth      Length `form:"depth"`
	StapleTurn Length `form:"staple_turn"`
	EndTurn    Length `form:"end_turn"`
	Height     Length `form:"height"`
	Thickness  Length `form:"thickness"`
	Inside     Length `form:"inside"`
}

// Hang is where the foot of a curtain comes to.
type Hang struct {
	Block
	To        Text   `form:"to"`
	Clearance Length `form:"clearance"`
}

// A Heading is how the top of a curtain is made.
type Heading struct {
	Block
	Style        Text   `form:"style"`
	Fullness     Ratio  `form:"fullness"`
	Returns      Text   `form:"returns"`
	Allowance    Length `form:"allowance"`
	HookDrop     Length `form:"hook_drop"`
	Tape         Length `form:"tape"`
	Pleats       Count  `form:"pleats"`
	Spacing      Length `form:"spacing"`
	TakeUp       Length `form:"take_up"`
	Header       Length `form:"header"`
	Pocket       Length `form:"pocket"`
	Ease         Length `form:"ease"`
	Tabs         Count  `form:"tabs"`
	TabWidth     Length `form:"tab_width"`
	TabDrop      Length `form:"tab_drop"`
	TabEnd       Length `form:"tab_end"`
	TabAllowance Length `form:"tab_allowance"`
	TabCloth     Text   `form:"tab_cloth"`
	Gap          Length `form:"gap"`
	Turn         Length `form:"turn"`
	Sections     Count  `form:"sections"`
	Ends         Text   `form:"ends"`
	Fold         Length `form:"fold"`
	Touching     Flag   `form:"touching"`
}

// A Lining hangs behind a face cloth.
type Lining struct {
	Block
	Cloth    Text   `form:"cloth"`
	Hem      Hem    `form:"hem"`
	Shorter  Length `form:"shorter"`
	Narrower Length `form:"narrower"`
	Widths   Ratio  `form:"widths"`
	Made     Text   `form:"made"`
	Inset    Length `form:"inset"`
	Turn     Length `form:"turn"`
	Run      Text   `form:"run"`
}

// An Interlining lies between face and lining.
type Interlining struct {
	Block
	Cloth   Text   `form:"cloth"`
	Shorter Length `form:"shorter"`
	Widths  Ratio  `form:"widths"`
	IntoHem Length `form:"into_hem"`
	Run     Text   `form:"run"`
}

// Weights are what is put into a bottom hem so that it hangs straight.
type Weights struct {
	Block
	Kind  Text   `form:"kind"`
	Mass  Linear `form:"mass"`
	Each  Mass   `form:"each"`
	Count Count  `form:"count"`
}

// A Cord is a cord that a person can reach.
type Cord struct {
	Block
	Kind       Text   `form:"kind"`
	Length     Length `form:"length"`
	LoopLength Length `form:"loop_length"`
	HeldAt     Length `form:"held_at"`
	Lowest     Length `form:"lowest"`
	Breakaway  Flag   `form:"breakaway"`
}

// A Recess is the opening that a shade hangs in.
type Recess struct {
	Block
	Width  Length `form:"width"`
	Height Length `form:"height"`
}

// Boxing is the band round the edge of a boxed cushion.
type Boxing struct {
	Block
	Layout Text   `form:"layout"`
	Ease   Length `form:"ease"`
	Run    Text   `form:"run"`
}

// A Zip is a zip fastener.
type Zip struct {
	Block
	Length         Length `form:"length"`
	Allowance      Length `form:"allowance"`
	Clear          Length `form:"clear"`
	RoundCorner    Length `form:"round_corner"`
	StripAllowance Length `form:"strip_allowance"`
}

// Piping is a covered cord in a seam.
type Piping struct {
	Block
	Cloth      Text   `form:"cloth"`
	Cord       Length `form:"cord"`
	Strip      Length `form:"strip"`
	Allowance  Length `form:"allowance"`
	Join       Length `form:"join"`
	Length     Length `form:"length"`
	BiasSquare Length `form:"bias_square"`
}

// A Leaf is one field: what it says and where.
type Leaf[T any] struct {
	Value T
	At    source.Range // the value as written, within its quotes; for a blank one, where it would go
	Set   bool
	Node  *Node // as written; nil for one that is not there
}

// Leave notes the node that the leaf was left blank with.
func (l *Leaf[T]) Leave(n *Node) { l.Node = n }

// The kinds of leaf.
type (
	Text    = Leaf[string]
	Flag    = Leaf[bool]
	Count   = Leaf[int64]
	Ratio   = Leaf[length.Ratio]
	Percent = Leaf[length.Ratio] // 3 % is 3/100
	Mass    = Leaf[mass.Mass]
	Areal   = Leaf[mass.Areal]
	Linear  = Leaf[mass.Linear]
	Date    = Leaf[string] // year-month-day
	// Length is in nanometres.
	Length = Leaf[length.Length]
	// Setting is what an iron is set to.
	Setting = Leaf[Heat]
	// Temperature is in thousandths of a degree Celsius.
	Temperature = Leaf[Heat]
)

// Heat is a setting of the iron: a number of dots, or a temperature.
type Heat struct {
	Dots  int   // 1 to 3; 0 where a temperature or none is meant
	Milli int64 // thousandths of a degree Celsius, where Dots is 0
	None  bool  // not to be ironed, or not pressed
	Deg   byte  // 'C' or 'F', as written, for a temperature
}

// String is the setting or the temperature as the form writes it.
func (h Heat) String() string {
	switch {
	case h.None:
		return "none"
	case h.Dots == 1:
		return "1 dot"
	case h.Dots > 1:
		return strconv.Itoa(h.Dots) + " dots"
	case h.Deg == 'F':
		return strconv.FormatInt((h.Milli*9/5+32_000+500)/1000, 10) + " F"
	}
	return strconv.FormatInt((h.Milli+500)/1000, 10) + " C"
}
