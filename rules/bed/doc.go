// Package bed checks what covers and surrounds a bed: how it fits the mattress, the
// spring and the floor.
package bed
