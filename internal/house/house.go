// Package house reads a shop's house rules from its house.cue: the allowances
// that it keeps in place of the tables', how much each rule matters to it, its own
// columns and kinds of goods, and rules of its own, which are CUE constraints over
// an item as it was worked out.
//
// # Law
//
// A house is read once and never changes. What it gives is the tables, the levels,
// the form and the kinds; the evaluator is started again only for rules of its own,
// so that a house without any costs nothing for an order. What its values could grow
// to is worked out before they are evaluated, and what computes is evaluated in a
// process of its own where the [Finder] has one, so that no house ends the program or
// keeps it. Whatever is wrong with a house is an [Error] with places in its file,
// never a guess: a shop's rules are taken as they are written or not at all.
//
// # What it is not
//
// It knows no other rules than by their names and levels, which it is handed,
// and reports nothing by itself.
package house

import (
	"cutgate/internal/finding"
	"cutgate/internal/form"
	"cutgate/internal/length"
	"cutgate/internal/trade"
	"cutgate/internal/worksheet"
)

// FileName is what a file of house rules is called.
const FileName = "house.cue"

// ownTopic is the topic of the shop's own rules.
const ownTopic = "house"

// A House is the house rules of one shop.
type House struct {
	File   string           // the name of the file, as people are shown it
	Name   string           // of the shop; "" where it gives none
	Tables *trade.Tables    // the trade's, with the shop's own allowances in their place
	Levels []Level          // in the order of the file
	Rules  []*Rule          // the shop's own, in the order of the file
	Form   *form.Form       // the order form, with the shop's own kinds of item and columns; nil without any
	Kinds  *worksheet.Kinds // of goods, with the shop's own; nil without any
	Own    []string         // the shop's own kinds of goods, in the order of the file

	unit  length.Unit      // of plain numbers of lengths in its rules
	parts map[string]*part // of its kinds of item, where it has kinds of its own
	lines map[string]int   // by the path of what the shop sets, as "headings.goblet.most"
	given map[string]any   // what it sets, as it is written
}

// A Level is what the shop sets for a rule or for a topic.
type Level struct {
	Of    string // the rule or the topic
	Level finding.Level
	Line  int
}

// A Known is a rule that a house can set a level for.
type Known struct {
	ID    string // topic/slug
	Level finding.Level
	Least finding.Level // the lowest level that a house may give it
	Why   string        // it is not to be lower
}

// LevelsByName returns the levels by the rule or the topic that they are of.
func (h *House) LevelsByName() map[string]finding.Level {
	levels := make(map[string]finding.Level, len(h.Levels))
	for _, l := range h.Levels {
		levels[l.Of] = l.Level
	}
	return levels
}
