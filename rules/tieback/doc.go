// Package tieback checks tie-backs.
package tieback
