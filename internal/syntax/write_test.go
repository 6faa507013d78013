package syntax_test

import (
	"strings"
	"testing"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/syntax/cue"
	"cutgate/internal/syntax/json"
	"cutgate/internal/syntax/yaml"
)

// orderOf makes an order of a text whose root is a map with one field; the text
// marks the field's value with « and », and with ‹ and › its name where it has
// one.
func orderOf(marked string) (o *order.Order, key, at source.Range) {
	var marks [4]int
	for i, m := range []string{"‹", "›", "«", "»"} {
		at := strings.Index(marked, m)
		if at < 0 {
			at = strings.Index(marked, "«")
		} else {
			marked = marked[:at] + marked[at+len(m):]
		}
		marks[i] = at
	}
	o = &order.Order{File: &source.File{Name: "order", Text: marked}}
	o.Root = &order.Node{Form: order.Map, At: source.Range{Start: 0, End: len(marked)}}
	return o, source.Range{Start: marks[0], End: marks[1]}, source.Range{Start: marks[2], End: marks[3]}
}

func TestSet(t *testing.T) {
	for _, c := range []struct {
		by         order.Writer
		name, text string
		node       order.Node
		to, want   string
	}{
		{yaml.Writer{}, "plain", "width: «13 5/8»\n", order.Node{}, "14 1/4", "width: 14 1/4\n"},
		{yaml.Writer{}, "plain number", "count: «12»\n", order.Node{Form: order.Number}, "14", "count: 14\n"},
		{yaml.Writer{}, "plain with a mark at its end", "width: «6»\n", order.Node{}, `6' 2"`, "width: 6' 2\"\n"},
		{yaml.Writer{}, "plain comma in a block", "width: «1,5 m»\n", order.Node{}, "1,6 m", "width: 1,6 m\n"},
		{yaml.Writer{}, "plain comma in brackets", "{width: «1.5 m»}", order.Node{}, "1,6 m", `{width: "1,6 m"}`},
		{yaml.Writer{}, "plain quote in front", "width: «6»\n", order.Node{}, `"six"`, "width: \"\\\"six\\\"\"\n"},
		{yaml.Writer{}, "plain comment", "notes: «a»\n", order.Node{}, "lot #2 or a #3", "notes: \"lot #2 or a #3\"\n"},
		{yaml.Writer{}, "plain map", "notes: «a»\n", order.Node{}, "top: down", "notes: \"top: down\"\n"},
		{yaml.Writer{}, "plain colon inside", "notes: «a»\n", order.Node{}, "10:30", "notes: 10:30\n"},
		{yaml.Writer{}, "plain dash", "notes: «a»\n", order.Node{}, "- a", "notes: \"- a\"\n"},
		{yaml.Writer{}, "plain minus", "width: «1»\n", order.Node{}, "-1", "width: -1\n"},
		{yaml.Writer{}, "plain null", "notes: «a»\n", order.Node{}, "null", "notes: \"null\"\n"},
		{yaml.Writer{}, "plain nothing", "notes: «a»\n", order.Node{}, "", "notes: \"\"\n"},
		{yaml.Writer{}, "plain newline", "notes: «a»\n", order.Node{}, "a\nb", "notes: \"a\\nb\"\n"},
		{yaml.Writer{}, "plain truth", "steam: «yes»\n", order.Node{}, "true", "steam: true\n"},
		{yaml.Writer{}, "blank", "width:«»\n", order.Node{Form: order.Null}, "14", "width: 14\n"},
		{yaml.Writer{}, "blank with a space", "width: «»\n", order.Node{Form: order.Null}, "14", "width: 14\n"},
		{yaml.Writer{}, "blank before a comment", "width:«» # across\n", order.Node{Form: order.Null}, "14", "width: 14 # across\n"},
		{yaml.Writer{}, "blank that touches a comment", "width: «»# across\n", order.Node{Form: order.Null}, "14", "width: 14 # across\n"},
		{yaml.Writer{}, "blank with room before a comment", "width: «»     # across\n", order.Node{Form: order.Null}, "14", "width: 14   # across\n"},
		{yaml.Writer{}, "blank with too little room", "width: «»  # across\n", order.Node{Form: order.Null}, "14 1/4", "width: 14 1/4 # across\n"},
		{yaml.Writer{}, "double quotes in YAML", "width: \"«10»\"\n", order.Node{Quote: '"'}, `10½"`, "width: \"10½\\\"\"\n"},
		{yaml.Writer{}, "single quotes in YAML", "width: '«6 ft»'\n", order.Node{Quote: '\''}, `6' 2"`, "width: '6'' 2\"'\n"},
		{json.Writer{}, "number in JSON", `{"width": «13»}`, order.Node{Form: order.Number}, "14.5", `{"width": 14.5}`},
		{json.Writer{}, "fraction for a number in JSON", `{"width": «13»}`, order.Node{Form: order.Number}, "14 1/4", `{"width": "14 1/4"}`},
		{json.Writer{}, "leading zero in JSON", `{"order": «13»}`, order.Node{Form: order.Number}, "013", `{"order": "013"}`},
		{json.Writer{}, "quotes in JSON", `{"width": "«13 in»"}`, order.Node{Quote: '"'}, `6' 2"`, `{"width": "6' 2\""}`},
		{json.Writer{}, "null in JSON", `{"width": «null»}`, order.Node{Form: order.Null}, "14 cm", `{"width": "14 cm"}`},
		{json.Writer{}, "truth in JSON", `{"steam": «false»}`, order.Node{Form: order.Truth}, "true", `{"steam": true}`},
		{json.Writer{}, "quoted truth in JSON", `{"steam": "«yes»"}`, order.Node{Quote: '"'}, "true", `{"steam": true}`},
		{json.Writer{}, "control character in JSON", `{"notes": "«»"}`, order.Node{Quote: '"'}, "\x01", `{"notes": "\u0001"}`},
	} {
		o, _, at := orderOf(c.text)
		c.node.At = at
		if got := finding.Apply(o.File.Text, []finding.Edit{c.by.Set(o, &c.node, c.to)}); got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}

func TestSetKey(t *testing.T) {
	for _, c := range []struct {
		by         order.Writer
		name, text string
		to, want   string
	}{
		{yaml.Writer{}, "plain", "‹drop›: «78»\n", "length", "length: 78\n"},
		{yaml.Writer{}, "quoted in YAML", "'‹drop›': «78»\n", "the cook's", "'the cook''s': 78\n"},
		{yaml.Writer{}, "odd in YAML", "‹drop›: «78»\n", "a: b", "\"a: b\": 78\n"},
		{json.Writer{}, "JSON", `{"‹drop›": «78»}`, "length", `{"length": 78}`},
		{cue.Writer{}, "CUE", "‹drop›: «78»\n", "length", "length: 78\n"},
		{cue.Writer{}, "odd in CUE", "‹drop›: «78»\n", "sea blue", "\"sea blue\": 78\n"},
	} {
		o, key, at := orderOf(c.text)
		n := &order.Node{At: at, Key: key}
		if got := finding.Apply(o.File.Text, []finding.Edit{c.by.Rename(o, n, c.to)}); got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}
