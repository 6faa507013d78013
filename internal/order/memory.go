package order

import "cutgate/internal/slab"

// Memory is what the parts of orders lie in that take the most room. It serves one
// goroutine at a time. The zero value is ready.
type Memory struct {
	Nodes  slab.Slab[Node]
	Items  slab.Slab[Item]
	Cuts   slab.Slab[Cut]
	Cloths slab.Slab[Entry[Cloth]]
}

// Reset takes the memory of all orders back, which nobody may read any more.
func (m *Memory) Reset() {
	m.Nodes.Reset()
	m.Items.Reset()
	m.Cuts.Reset()
	m.Cloths.Reset()
}
