package main

import (
	"testing"
	"testing/fstest"

	"cutgate/internal/finding"
	"cutgate/internal/rule"
)

func TestExampleOf(t *testing.T) {
	r := &rule.Rule{ID: "head/client-named", Level: finding.Note, Run: func(p *rule.Pass) {
		if c := p.Order.Client; c.Set {
			p.Report(finding.Finding{At: c.At, Message: "The client is named."})
		}
	}}
	fixtures := fstest.MapFS{"head/testdata/client-named.txtar": {Data: []byte(`Prose.
-- right/order.yaml --
order: 1
-- wrong/order.json --
{"client": "Mill"}
-- wrong/order.yaml --
client: Mill
-- wrong/want --
order.yaml:1:9: The client is named.
`)}}
	ex, err := exampleOf(r, nil, fixtures)
	if err != nil || ex == nil {
		t.Fatalf("no example: %v", err)
	}
	if got := ex.Sheet.Order.File.Text; got != "client: Mill\n" || len(ex.Found) != 1 {
		t.Errorf("the example is %q with %d findings", got, len(ex.Found))
	}
	if _, err := exampleOf(&rule.Rule{ID: "head/other"}, nil, fixtures); err == nil {
		t.Error("no error for a rule without a fixture")
	}
}
