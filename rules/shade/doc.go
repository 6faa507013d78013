// Package shade checks Roman shades: how they fold, whether they hang clear, and where
// their cords run.
package shade
