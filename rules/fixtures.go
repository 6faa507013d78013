package rules

import "embed"

// Fixtures has the rules' fixtures, as topic/testdata/slug.txtar: each has orders
// that its rule finds something in.
//
//go:embed */testdata/*.txtar
var Fixtures embed.FS
