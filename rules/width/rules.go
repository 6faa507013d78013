package width

import "cutgate/internal/rule"

// Rules are the topic's rules: the whole hanging first, then its pieces.
//
// width/join-in-middle is left out: a join down the middle is a fault on table
// and bed goods only, and the worksheet does not work out their pieces yet.
func Rules() []*rule.Rule {
	return []*rule.Rule{
		finishedWidthOff,
		flatWidthOff,
		widthsOff,
		liningWidthsOff,
		nearlyAWidth,
		panelsOff,
		cutWidthOff,
		countOff,
		stripNarrow,
		panelLostInSeams,
		widerThanCloth,
	}
}
