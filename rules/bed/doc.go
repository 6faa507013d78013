// Package bed is the rules of duvet covers, pillowcases, bedspreads and bed skirts.
package bed
