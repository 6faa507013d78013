package ticket

import (
	"slices"

	"cutgate/internal/finding"
	"cutgate/internal/length"
	"cutgate/internal/worksheet"
)

// A Document is a ticket. Names in it are the order's own text, which may have any
// characters in it; renderers must make it harmless.
type Document struct {
	Number   string // of the order; "" for none
	Client   string
	Due      string // as written on the order; "" for none
	Verdict  finding.Verdict
	Reasons  []Row // why not to cut, or what to ask first: the place in the file and the message
	Waived   []Row // waived errors: the place in the file, the message, and who waived it, why and until when
	Notes    string
	House    *finding.House // the shop's own rules in force; nil for none
	Items    []Item
	Cloths   []Row // by the name of the cloth: what to buy, and which bolts to cut from
	Unit     length.Unit
	Cautions []string
	Workings []Group // of each item, then of each cloth
}

// An Item is one thing to make: its size, its pieces, and how they are made up. Items
// that are alike are merged into one.
type Item struct {
	ID, Kind, Room string
	Alike          []string // the names of the other items made in the same way
	Make           int64    // how many in all, with those that are alike
	Rows           []Row    // in the order of the job
	Pictures       []Picture
	Checks         []string // what to measure on the finished item, and what it should be
}

// A Picture is a piece, or a joined panel, with its caption.
type Picture struct {
	Pattern *worksheet.Pattern
	Text    string
	Stage   Stage // the stage it belongs to: Cut, or Join for a joined panel
}

// A Row is a labeled line. One without a label continues the row above it.
type Row struct {
	Stage       Stage
	Label, Text string
	Marks       []length.Length // the places it lists, from the left finished edge
	Measured    bool            // to be measured at the bench and written down
}

// A Stage is a part of the job.
type Stage uint8

// The stages, in the order of the job.
const (
	Measure Stage = iota
	Cut
	Join
	Hems // of edges that are not named by their side
	Sides
	Foot
	Top
	Marks
	Holes
	MakeUp
	Press
	Hang
	Trims
	Figures
)

var stages = [...]string{"measure", "cut", "join", "hems", "side hems", "foot", "top", "marks", "holes", "make up", "press", "hang", "trims", "further figures"}

func (s Stage) String() string { return stages[s] }

// A Part is the rows of one stage, with the pictures to look at.
type Part struct {
	Stage    Stage
	Number   int // among the steps of the job; 0 if it is not one
	Rows     []Row
	Pictures []Picture
}

// Figures reports whether the part is the further figures.
func (p *Part) Figures() bool { return p.Stage == Figures }

// Parts returns the rows and the pictures of an item by the stages of the job.
func (it *Item) Parts() (list []Part) {
	for i, r := range it.Rows {
		if i == 0 || r.Stage != it.Rows[i-1].Stage {
			p := Part{Stage: r.Stage}
			if r.Stage < Trims {
				p.Number = len(list) + 1
			}
			list = append(list, p)
		}
		p := &list[len(list)-1]
		p.Rows = append(p.Rows, r)
	}
	for _, c := range it.Pictures {
		i := slices.IndexFunc(list, func(p Part) bool { return p.Stage == c.Stage })
		if i < 0 { // no row is about joining it
			i = max(0, slices.IndexFunc(list, func(p Part) bool { return p.Stage == Cut }))
		}
		if len(list) > 0 {
			list[i].Pictures = append(list[i].Pictures, c)
		}
	}
	return list
}

// A Group is the workings of an item, or of a cloth.
type Group struct {
	ID, Kind string // of an item; for a cloth its name and "cloth"
	Cloth    bool
	Workings []Working
}

// A Working is how a quantity was worked out.
type Working struct {
	Name, Value string
	Lines       []string // the formula in words, then in figures
	Source      string   // "" for none
}
