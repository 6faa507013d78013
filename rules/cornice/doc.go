// Package cornice checks the covers of cornices: whether the cloth goes round the board,
// the box over the window's frame, and how the cloth is run.
package cornice
