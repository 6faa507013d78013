// Package schema holds the order form, the house rules, the report's shape and
// the trade's tables in CUE, as bytes: it is where each of them is defined, and
// it interprets none of them.
package schema

import "embed"

// Files has every .cue file of this folder, all of one CUE package.
//
//go:embed *.cue
var Files embed.FS
