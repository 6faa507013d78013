package worksheet

import (
	"cutgate/internal/lay"
	"cutgate/internal/slab"
)

// Memory is what the parts of sheets lie in that take the most room. It serves one
// goroutine at a time. The zero value is ready.
type Memory struct {
	cloths     slab.Slab[Cloth]
	items      slab.Slab[Item]
	cells      slab.Slab[cell]
	quantities slab.Slab[Quantity]
	all        slab.Slab[*Quantity]
	terms      slab.Slab[Term]
	stated     slab.Slab[Stated]
	choices    slab.Slab[Choice]
	cones      slab.Slab[cone]
	numbers    slab.Slab[int]
	pieces     slab.Slab[lay.Piece]
}

// Reset takes the memory of all sheets back, which nobody may read any more.
func (m *Memory) Reset() {
	m.cloths.Reset()
	m.items.Reset()
	m.cells.Reset()
	m.quantities.Reset()
	m.all.Reset()
	m.terms.Reset()
	m.stated.Reset()
	m.choices.Reset()
	m.cones.Reset()
	m.numbers.Reset()
	m.pieces.Reset()
}
