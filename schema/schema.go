// Package schema holds the order form, the house rules, the report's shape and
// the trade's tables in CUE, as bytes: it is where each of them is defined, and
// it interprets none of them.
package schema

import "embed"

// Files has every .cue file of this folder, all of one CUE package.
//
//go:embed *.cue
var Files embed.FS

// Compiled is the order form and the trade's tables, compiled from Files to
// JSON so that a run need not evaluate them. It is made by go generate.
//
//go:embed compiled.json
var Compiled []byte
