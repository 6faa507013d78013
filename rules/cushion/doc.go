// Package cushion checks cushion covers: their pads, how they close, and their boxing.
package cushion
