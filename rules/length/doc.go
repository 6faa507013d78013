// Package length checks what is measured down the cloth: cuts, finished
// lengths, how far a foot hangs from the floor, and what repeat, shrinkage and
// hooks do to them.
package length
