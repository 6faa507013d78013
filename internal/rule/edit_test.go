package rule

import (
	"strings"
	"testing"

	"cutgate/internal/finding"
	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

// passOver makes a pass over a text whose root is a map with one field; the text
// marks the field's value with « and », and with ‹ and › its name where it has
// one.
func passOver(t *testing.T, marked string) (*Pass, source.Range, source.Range) {
	t.Helper()
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
	o := &order.Order{File: &source.File{Name: "order", Text: marked}}
	o.Root = &order.Node{Form: order.Map, At: source.Range{Start: 0, End: len(marked)}}
	return NewPass(&worksheet.Sheet{Order: o}), source.Range{Start: marks[0], End: marks[1]}, source.Range{Start: marks[2], End: marks[3]}
}

func TestSet(t *testing.T) {
	for _, c := range []struct {
		name, text string
		node       order.Node
		to, want   string
	}{
		{"plain", "width: «13 5/8»\n", order.Node{}, "14 1/4", "width: 14 1/4\n"},
		{"plain number", "count: «12»\n", order.Node{Form: order.Number}, "14", "count: 14\n"},
		{"plain with a mark at its end", "width: «6»\n", order.Node{}, `6' 2"`, "width: 6' 2\"\n"},
		{"plain comma in a block", "width: «1,5 m»\n", order.Node{}, "1,6 m", "width: 1,6 m\n"},
		{"plain comma in brackets", "{width: «1.5 m»}", order.Node{}, "1,6 m", `{width: "1,6 m"}`},
		{"plain quote in front", "width: «6»\n", order.Node{}, `"six"`, "width: \"\\\"six\\\"\"\n"},
		{"plain comment", "notes: «a»\n", order.Node{}, "lot #2 or a #3", "notes: \"lot #2 or a #3\"\n"},
		{"plain map", "notes: «a»\n", order.Node{}, "top: down", "notes: \"top: down\"\n"},
		{"plain colon inside", "notes: «a»\n", order.Node{}, "10:30", "notes: 10:30\n"},
		{"plain dash", "notes: «a»\n", order.Node{}, "- a", "notes: \"- a\"\n"},
		{"plain minus", "width: «1»\n", order.Node{}, "-1", "width: -1\n"},
		{"plain null", "notes: «a»\n", order.Node{}, "null", "notes: \"null\"\n"},
		{"plain nothing", "notes: «a»\n", order.Node{}, "", "notes: \"\"\n"},
		{"plain newline", "notes: «a»\n", order.Node{}, "a\nb", "notes: \"a\\nb\"\n"},
		{"plain truth", "steam: «yes»\n", order.Node{}, "true", "steam: true\n"},
		{"blank", "width:«»\n", order.Node{Form: order.Null}, "14", "width: 14\n"},
		{"blank with a space", "width: «»\n", order.Node{Form: order.Null}, "14", "width: 14\n"},
		{"blank before a comment", "width:«» # across\n", order.Node{Form: order.Null}, "14", "width: 14 # across\n"},
		{"blank that touches a comment", "width: «»# across\n", order.Node{Form: order.Null}, "14", "width: 14 # across\n"},
		{"blank with room before a comment", "width: «»     # across\n", order.Node{Form: order.Null}, "14", "width: 14   # across\n"},
		{"blank with too little room", "width: «»  # across\n", order.Node{Form: order.Null}, "14 1/4", "width: 14 1/4 # across\n"},
		{"double quotes in YAML", "width: \"«10»\"\n", order.Node{Quote: '"'}, `10½"`, "width: \"10½\\\"\"\n"},
		{"single quotes in YAML", "width: '«6 ft»'\n", order.Node{Quote: '\''}, `6' 2"`, "width: '6'' 2\"'\n"},
		{"number in JSON", `{"width": «13»}`, order.Node{Form: order.Number, Bare: true}, "14.5", `{"width": 14.5}`},
		{"fraction for a number in JSON", `{"width": «13»}`, order.Node{Form: order.Number, Bare: true}, "14 1/4", `{"width": "14 1/4"}`},
		{"leading zero in JSON", `{"order": «13»}`, order.Node{Form: order.Number, Bare: true}, "013", `{"order": "013"}`},
		{"quotes in JSON", `{"width": "«13 in»"}`, order.Node{Quote: '"', Bare: true}, `6' 2"`, `{"width": "6' 2\""}`},
		{"null in JSON", `{"width": «null»}`, order.Node{Form: order.Null, Bare: true}, "14 cm", `{"width": "14 cm"}`},
		{"truth in JSON", `{"steam": «false»}`, order.Node{Form: order.Truth, Bare: true}, "true", `{"steam": true}`},
		{"quoted truth in JSON", `{"steam": "«yes»"}`, order.Node{Quote: '"', Bare: true}, "true", `{"steam": true}`},
		{"control character in JSON", `{"notes": "«»"}`, order.Node{Quote: '"', Bare: true}, "\x01", `{"notes": "\u0001"}`},
	} {
		p, _, at := passOver(t, c.text)
		c.node.At = at
		if got := finding.Apply(p.Order.File.Text, []finding.Edit{p.Set(&c.node, c.to)}); got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}

func TestSetKey(t *testing.T) {
	for _, c := range []struct {
		name, text string
		bare       bool
		to, want   string
	}{
		{"plain", "‹drop›: «78»\n", false, "length", "length: 78\n"},
		{"quoted in YAML", "'‹drop›': «78»\n", false, "the cook's", "'the cook''s': 78\n"},
		{"odd in YAML", "‹drop›: «78»\n", false, "a: b", "\"a: b\": 78\n"},
		{"JSON", `{"‹drop›": «78»}`, true, "length", `{"length": 78}`},
		{"CUE", "‹drop›: «78»\n", true, "length", "length: 78\n"},
		{"odd in CUE", "‹drop›: «78»\n", true, "sea blue", "\"sea blue\": 78\n"},
	} {
		p, key, at := passOver(t, c.text)
		n := &order.Node{At: at, Key: key, Bare: c.bare}
		if got := finding.Apply(p.Order.File.Text, []finding.Edit{p.SetKey(n, c.to)}); got != c.want {
			t.Errorf("%s: got %q, want %q", c.name, got, c.want)
		}
	}
}

func TestEditable(t *testing.T) {
	p, _, _ := passOver(t, "a: «1»")
	for want, n := range map[bool]*order.Node{true: {}, false: {Fixed: true}} {
		if got := p.Editable(n); got != want {
			t.Errorf("%+v: got %t", n, got)
		}
	}
	if p.Editable(nil) {
		t.Error("a node that is not there can't be edited")
	}
}
