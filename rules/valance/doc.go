// Package valance checks valances: whether their pleats fit the board, the board its
// window, and their depth the curtain beneath.
package valance
