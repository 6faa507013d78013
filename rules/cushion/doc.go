// Package cushion is the rules of cushion covers: their pads, how they close, and their
// boxing.
package cushion
