// Package table checks table linen: how far a cloth hangs down, where it is joined,
// and whether small pieces can be hemmed, turned out and laid as they are meant to.
package table
