// Package hanging checks how a finished curtain hangs: its weight on the rod or
// track, whether it is wide enough for it, where its foot comes to in a bath, and
// where it goes when it is drawn back.
package hanging

import (
	"cutgate/internal/worksheet"
)

// load is the mass that hangs from the item's rod or track: of a shower curtain
// when it is wet. It is nil where a weight is not known.
func load(it *worksheet.Item) *worksheet.Quantity {
	if it.Get(worksheet.WetMass) != nil {
		return it.Get(worksheet.WetMass)
	}
	return it.Get(worksheet.HangingMass)
}

// rod is what the item hangs from, in the order's word.
func rod(it *worksheet.Item) string {
	switch {
	case !it.Order.Track.Set:
		return "rod"
	case it.Order.Track.Kind.Value == "pole":
		return "pole"
	}
	return "track"
}

// weighs says that the curtain weighs, and when.
func weighs(it *worksheet.Item) string {
	if it.Get(worksheet.WetMass) != nil {
		return "Wet, the curtain weighs about "
	}
	return "The curtain weighs about "
}
