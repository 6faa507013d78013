package render_test

import (
	"testing"

	"cutgate/internal/finding"
	"cutgate/internal/render"
	"cutgate/internal/source"
)

// People are sent to the other places of a finding, and not to its own.
func TestRowsSendElsewhere(t *testing.T) {
	file := &source.File{Name: "a.yaml", Text: "width: 36\ncount: 90\n"}
	own, other := source.Range{Start: 7, End: 9}, source.Range{Start: 17, End: 19}
	f := finding.Finding{At: own, Message: "They disagree.", Related: []finding.Related{
		{Range: own, Message: "or 336 in"}, {Range: other, Message: "the count, perhaps 5"},
	}}
	var see []string
	for _, r := range render.Rows(file, &f) {
		if r.Label == render.LabelSee {
			see = append(see, r.Text)
		}
	}
	if len(see) != 1 || see[0] != "line 2: the count, perhaps 5" {
		t.Errorf("it says to see %q", see)
	}
}
