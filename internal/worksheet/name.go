package worksheet

import "strings"

// Name says which quantity it is, in the trade's words.
type Name string

// The quantities.
const (
	FinishedWidth     Name = "finished width"
	FinishedLength    Name = "finished length"
	FinishedDiameter  Name = "finished diameter"
	FootGap           Name = "foot to floor"
	HemTakes          Name = "hem takes"
	RawCut            Name = "cut before the repeat"
	Repeats           Name = "repeats in a cut"
	CutLength         Name = "cut length"
	WastePerCut       Name = "waste per cut"
	UsableWidth       Name = "usable width"
	CenterShows       Name = "center shows"
	CutWidth          Name = "cut width"
	PieceCount        Name = "pieces to cut"
	FlatWidth         Name = "flat width"
	WidthsExact       Name = "widths before rounding"
	WidthsPerPanel    Name = "widths in a panel"
	Widths            Name = "widths"
	Fullness          Name = "fullness made"
	PanelWidth        Name = "panel width, flat"
	LiningCut         Name = "lining cut length"
	LiningWidths      Name = "lining widths"
	InterliningCut    Name = "interlining cut length"
	InterliningWidths Name = "interlining widths"
	HoleCount         Name = "holes"
	HoleSpacing       Name = "hole spacing"
	HoleInset         Name = "first hole from the side"
	HoleSlit          Name = "buttonhole length"
	PleatCount        Name = "pleats"
	PleatSpacing      Name = "pleat spacing"
	TakeUp            Name = "take-up of a pleat"
	PocketHeight      Name = "pocket height"
	TabCount          Name = "tabs"
	TabGap            Name = "gap between tabs"
	HemMass           Name = "hem weight"
	HangingMass       Name = "hanging mass"
	WetMass           Name = "hanging mass, wet"
	StackBack         Name = "stack-back"
	PressSetting      Name = "press setting"
	SeamBulk          Name = "seam bulk"
	Thread            Name = "thread"
	ClothNeeded       Name = "cloth needed"
	ClothToBuy        Name = "cloth to buy"
)

// Spoken is what people are told a term of a formula is, stated or not, where the term is
// no name for it; "" for others.
func Spoken(term string) string { return spoken[strings.TrimSuffix(term, " stated")] }

var spoken = map[string]string{
	"allowance":      "seam allowance",
	"band seam":      "band's allowance",
	"below the sill": "drop below the sill",
	"board":          "board width",
	"border":         "border width",
	"button":         "button's diameter",
	"cuff seam":      "cuff's allowance",
	"cuff shows":     "part of the cuff that shows",
	"deck head":      "deck's head hem",
	"foam under":     "undersize of the foam",
	"fold":           "depth of a fold",
	"into hem":       "part of the interlining in the hem",
	"liner narrower": "liner's narrowing",
	"liner shorter":  "liner's shortening",
	"lining less":    "lining's narrowing",
	"lining shorter": "lining's shortening",
	"lining turn":    "lining's turn",
	"mattress":       "mattress depth",
	"outside":        "outside width",
	"on the floor":   "length on the floor",
	"own ease":       "ease",
	"pleat":          "cloth in a pleat",
	"pocket takes":   "cloth a rod pocket takes",
	"pull":           "length of the cord",
	"recess":         "recess width",
	"ring edge":      "distance of the first rings from the side",
	"ring spacing":   "widest column spacing",
	"rod":            "rod diameter",
	"tab loop":       "tab drop",
	"tab seam":       "tabs' allowance",
	"thickness":      "board thickness",
	"tie seam":       "ties' allowance",
	"tie-back seam":  "tie-backs' allowance",
	"trim width":     "width of the window with its frame",
	"window":         "window width",
	"zip clear":      "part sewn shut at each end of the zip",
}
