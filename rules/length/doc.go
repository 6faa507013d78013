// Package length checks what is measured down the cloth: cuts, finished
// lengths, and how far a foot hangs from the floor.
package length
