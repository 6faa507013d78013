// Package tieback is the rules of tie-backs.
package tieback
