// Package width checks what is measured across the cloth: finished and flat
// widths, how many widths of cloth or pieces are joined, and how wide each is cut.
package width

import (
	"cutgate/internal/order"
	"cutgate/internal/source"
)

// joinPlace is where an item says how its pieces are joined, or how wide they
// come out where it leaves the layout to the shop.
func joinPlace(o *order.Item) source.Range {
	if o.Join.Layout.Set {
		return o.Join.Layout.At
	}
	if o.Finished.Width.Set {
		return o.Finished.Width.At
	}
	return o.Kind.At
}
