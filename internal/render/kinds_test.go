package render

import (
	"testing"

	"cutgate/internal/worksheet"
)

// A slip that is worked out anew for cloth that shrinks or has a repeat is listed once.
func TestKnownSlips(t *testing.T) {
	k := &worksheet.Kind{Slips: []worksheet.Slipping{
		{Of: "cut length", Name: "the hem was left out", Formula: "({length}) ÷ (1 - {shrinkage})"},
		{Of: "cut length", Name: "the hem was left out", Formula: "{length}"},
		{Of: "cut length", Name: "the hem was left out, and the repeat was ignored", Formula: "{length}"},
		{Of: "cut width", Name: "the hem was left out", Formula: "{width}"},
		{Of: "cut width", Formula: "{width} + 1"},
	}}
	list := knownSlips(k)
	if len(list) != 2 || list[0].Formula != "{length}" || list[1].Of != "cut width" {
		t.Errorf("the slips listed are %v", list)
	}
}
