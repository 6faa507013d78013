package editor

import (
	"path/filepath"
	"slices"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/load"
)

// completed is what is offered at the bar of a text, each as the text would be with it.
func completed(t *testing.T, language, text string) (labels, texts []string) {
	t.Helper()
	offset := strings.Index(text, "|")
	text = text[:offset] + text[offset+1:]
	e := start(t, &Server{})
	e.initialize(all)
	const uri = "untitled:order"
	e.open(uri, language, text)
	line := strings.Count(text[:offset], "\n")
	items := call[[]struct {
		Label, FilterText, SortText string
		TextEdit                    struct {
			Range   place
			NewText string
		}
	}](e, "textDocument/completion", object{
		"textDocument": object{"uri": uri},
		"position":     object{"line": line, "character": offset - (strings.LastIndex(text[:offset], "\n") + 1)},
	})
	lines := strings.Split(text, "\n")
	for _, i := range items {
		at := i.TextEdit.Range
		l := lines[line]
		labels = append(labels, i.Label)
		texts = append(texts, strings.TrimSpace(l[:at.Start.Character]+i.TextEdit.NewText+l[at.End.Character:]))
		if at.Start.Line != line || at.End.Line != line || !strings.HasPrefix(i.FilterText, i.TextEdit.NewText) {
			t.Errorf("%+v", i)
		}
	}
	return labels, texts
}

// TestCompletionOfOwnKind holds that a shop's own kind of goods is offered, with its fields,
// words and pieces.
func TestCompletionOfOwnKind(t *testing.T) {
	dir, err := filepath.Abs("../../testdata/houses/lantern-yard")
	if err != nil {
		t.Fatal(err)
	}
	e := start(t, &Server{Open: openUnderHouses})
	e.initialize(all)
	uri := "file://" + filepath.ToSlash(dir) + "/new.yaml"
	text := "order: LY-1\nunits: cm\ncloths: {velvet: {width: 140}}\nitems:\n  - item: \n"
	e.open(uri, "yaml", text)
	offered := func(line, character int) (labels []string) {
		for _, i := range call[[]struct{ Label string }](e, "textDocument/completion", object{"textDocument": object{"uri": uri}, "position": object{"line": line, "character": character}}) {
			labels = append(labels, i.Label)
		}
		return labels
	}
	if got := offered(4, len("  - item: ")); !slices.Contains(got, "headboard cover") {
		t.Errorf("the kinds offered are %q", got)
	}
	text = strings.Replace(text, "item: ", "item: headboard cover", 1) + "    cloth: velvet\n    cuts: [{piece: }]\n    \n"
	e.open(uri, "yaml", text)
	if got := offered(6, len("    cuts: [{piece: ")); !slices.Equal(got, []string{"front", "back"}) {
		t.Errorf("the pieces offered are %q", got)
	}
	if got := offered(7, 4); !slices.Contains(got, "board") || slices.Contains(got, "heading") {
		t.Errorf("the fields offered are %q", got)
	}
	e.open(uri, "yaml", strings.TrimSuffix(text, "    \n")+"    board: {width: 150, height: 60, depth: 8}\n    back: {cloth: velvet}\n    quantity: 2\n")
	said := func(line, character int) string {
		return call[struct{ Contents struct{ Value string } }](e, "textDocument/hover", object{"textDocument": object{"uri": uri}, "position": object{"line": line, "character": character}}).Contents.Value
	}
	for what, at := range map[string][2]int{"board height": {7, len("    board: {width: 150, h")}, "cloth of the back": {8, len("    back: {c")}, "1 unless stated": {9, 6}} {
		if got := said(at[0], at[1]); !strings.Contains(got, what) || strings.Contains(got, "box") {
			t.Errorf("over a field of it stands %q, without %q", got, what)
		}
	}
}

const begun1 = `order: TR-1
units: in
cloths:
  kelp: {width: 60}
  sateen: {width: 54}
items:
  - item: shower curtain
    cloth: kelp
    finished: {width: 84, length: 78}
`

func TestCompletion(t *testing.T) {
	hem := []string{"turn", "folds", "first", "stitch", "allowance", "corners"}
	for _, c := range []struct {
		name, language, text string
		want                 []string
		first                string // the line with the first of them
	}{
		{"names in a block", "yaml", begun1 + "    hems:\n      bottom:\n        |\n", hem, "turn:"},
		{"names in a block, begun", "yaml", begun1 + "    hems:\n      bottom:\n        turn: 3\n        fo|\n      top: {turn: 1}\n", hem[1:], "folds:"},
		{"a name that has its colon", "yaml", begun1 + "    hems:\n      bottom:\n        tu|rm: 3\n", hem, "turn: 3"},
		{"names in braces", "yaml", begun1 + "    hems: {bottom: {turn: 3, |}}\n", hem[1:], "hems: {bottom: {turn: 3, folds: }}"},
		{"names in braces that are not closed", "yaml", begun1 + "    hems: {bottom: {turn: 3, fo|\n    join: {seam: plain}\n", hem[1:], "hems: {bottom: {turn: 3, folds:"},
		{"names of a cut", "yaml", begun1 + "    cuts:\n      - {piece: side, |}\n", []string{"cloth", "width", "length", "count"}, "- {piece: side, cloth: }"},
		{"names behind a dash", "yaml", begun1 + "    cuts:\n      - |\n", []string{"piece", "cloth", "width", "length", "count"}, "- piece:"},
		{"words", "yaml", begun1 + "    join: {seam: |, allowance: 5/8}\n", []string{"plain", "French", "flat felled"}, "join: {seam: plain, allowance: 5/8}"},
		{"words in a block", "yaml", begun1 + "    join:\n      seam: flat f|\n      allowance: 5/8\n", []string{"plain", "French", "flat felled"}, "seam: plain"},
		{"words in quotes", "yaml", begun1 + "    join: {seam: \"fl|\"}\n", []string{"plain", "French", "flat felled"}, `join: {seam: "plain"}`},
		{"words behind a colon", "yaml", begun1 + "    join:\n      seam:|\n", []string{"plain", "French", "flat felled"}, "seam: plain"},
		{"words in braces that are not closed", "yaml", begun1 + "    join: {allowance: 5/8, seam: |\n", []string{"plain", "French", "flat felled"}, "join: {allowance: 5/8, seam: plain"},
		{"words in a cell", "csv", "order,item,cloth,join seam\nTR-1,shower curtain,kelp,fl|\n", []string{"plain", "French", "flat felled"}, "TR-1,shower curtain,kelp,plain"},
		{"cloths in a cell", "csv", "order;item;cloth;quantity\nTR-1;napkin;|;1\n\ncloth;width\nkelp;60\n", []string{"kelp"}, "TR-1;napkin;kelp;1"},
		{"nothing in a row of values", "csv", "order,item,cloth,id\nTR-1,napkin,kelp,|\n", nil, ""},
		{"what care may hold", "yaml", strings.Replace(begun1, "width: 60", "width: 60, care: {|}", 1), []string{"iron", "wash"}, "kelp: {width: 60, care: {iron: }}"},
		{"what care may hold, begun", "yaml", strings.Replace(begun1, "width: 60", "width: 60, care: {i|}", 1), []string{"iron", "wash"}, "kelp: {width: 60, care: {iron: }}"},
		{"settings of the iron", "yaml", strings.Replace(begun1, "width: 60", "width: 60, care: {iron: |}", 1), []string{"1 dot", "2 dots", "3 dots", "none"}, "kelp: {width: 60, care: {iron: 1 dot}}"},
		{"truth", "yaml", begun1 + "    tub: {inside: |}\n", []string{"true", "false"}, "tub: {inside: true}"},
		{"cloths", "yaml", strings.Replace(begun1, "cloth: kelp", "cloth: |", 1), []string{"kelp", "sateen"}, "cloth: kelp"},
		{"cloths that were measured", "yaml", begun1 + "measured:\n  kelp: {width: 59}\n  |\n", []string{"sateen"}, "sateen:"},
		{"kinds", "yaml", "order: 1\nunits: in\nitems:\n  - item: Rom|\n", []string{
			"shower curtain", "curtain", "valance", "Roman shade", "cushion cover", "tablecloth", "runner", "placemat", "napkin", "duvet cover", "pillowcase",
			"bedspread", "bed skirt", "tie-back", "cornice",
		}, "- item: shower curtain"},
		{"rules", "yaml", begun1 + "waive:\n  - {rule: |, because: of it}\n", []string{
			"head", "head/client-misspelt", "head/market-odd", "head/breaks", "form", "form/flawed",
		}, "- {rule: head, because: of it}"},
		{"the top", "yaml", "order: 1\n|\nunits: in\n", []string{"cloths", "items", "client", "due", "market", "use", "notes", "measured", "waive"}, "cloths:"},
		{"the second of two orders", "yaml", begun1 + "---\norder: 2\nunits: |\n", []string{"in", "cm", "mm", "m", "ft", "yd"}, "units: in"},
		{"behind a fault elsewhere", "yaml", strings.Replace(begun1, "finished: {width: 84, length: 78}", "join: {seam: |}\n    finished: {width: 84, length: 78", 1), []string{"plain", "French", "flat felled"}, "join: {seam: plain}"},
		{"an order that is only begun", "yaml", "# new\n|", []string{"order", "units", "cloths", "items", "client", "due", "market", "use", "notes", "measured", "waive"}, "order:"},
		{"what is no order", "yaml", "services: {db: {image: x}}\n|\n", nil, ""},
		{"a length has no words", "yaml", begun1 + "    join: {allowance: |}\n", nil, ""},
		{"a text has no words", "yaml", begun1 + "    room: |\n", nil, ""},
		{"a comment", "yaml", begun1 + "    # seam: |\n", nil, ""},
		{"behind a closed quote", "yaml", begun1 + "    join: {seam: \"plain\"|}\n", nil, ""},
		{"JSON names", "json", `{"order": "1", "units": "in", "cloths": {"kelp": {"width": 60, |}}}`, []string{
			"name", "fiber", "class", "selvedge", "weight", "thickness", "repeat", "nap", "shrinks", "washed", "frays", "edge_stripe", "damp", "care", "fire",
			"sold_by", "ordered", "laid", "bolts",
		}, `{"order": "1", "units": "in", "cloths": {"kelp": {"width": 60, "name": }}}`},
		{"JSON names in quotes", "json", "{\"order\": \"1\", \"units\": \"in\",\n\"cloths\": {\"kelp\": {\"repeat\": {\n\"le|\"\n}}}}", []string{"length", "width", "match"}, `"length":`},
		{"JSON names before others", "json", "{\"order\": \"1\", \"units\": \"in\",\n\"cloths\": {\"kelp\": {\"repeat\": {\n|\n\"width\": 3}}}}", []string{"length", "match"}, `"length":`},
		{"JSON words", "json", `{"order": "1", "units": |`, []string{"in", "cm", "mm", "m", "ft", "yd"}, `{"order": "1", "units": "in"`},
		{"JSON words in quotes", "json", `{"order": "1", "units": "i|"}`, []string{"in", "cm", "mm", "m", "ft", "yd"}, `{"order": "1", "units": "in"}`},
		{"JSON words in a quote that is open", "json", "{\"order\": \"1\",\n\"units\": \"i|", []string{"in", "cm", "mm", "m", "ft", "yd"}, `"units": "in"`},
		{"a line of JSON Lines", "jsonl", "{\"order\": \"1\", \"units\": \"in\"}\n{\"order\": \"2\", \"units\": |}\n{\"order\"", []string{"in", "cm", "mm", "m", "ft", "yd"}, `{"order": "2", "units": "in"}`},
		{"CUE names", "cue", "order: \"1\"\nunits: \"in\"\ncloths: kelp: {\n\twidth: 60\n\trepeat: {|}\n}\n", []string{"length", "width", "match"}, "repeat: {length: }"},
		{"CUE words", "cue", "order: \"1\"\nunits: \"i|\"\n", []string{"in", "cm", "mm", "m", "ft", "yd"}, `units: "in"`},
	} {
		t.Run(c.name, func(t *testing.T) {
			labels, texts := completed(t, c.language, c.text)
			if d := cmp.Diff(c.want, labels); d != "" {
				t.Errorf("(-want +got)\n%s", d)
			}
			if len(texts) > 0 && texts[0] != c.first {
				t.Errorf("the first makes %q, want %q", texts[0], c.first)
			}
		})
	}
}

// FuzzCursor types anywhere in anything: the word that a completion takes the place
// of holds the cursor, and is in the text.
// TestCompletionLists has long lists, of which some are looked for.
func TestCompletionLists(t *testing.T) {
	for _, c := range []struct {
		name, language, text string
		has, lacks           []string
		first                string
	}{
		{"headings", "csv", "order,item,clo|\nTR-1,napkin,kelp\n", []string{"cloth", "finished width", "hems bottom turn", "cut 1 width"}, []string{"order", "item"}, "order,item,client"},
		{"the first heading", "csv", "|", []string{"order", "item", "units"}, nil, "order"},
		{"headings over cloths", "csv", "order,item,cloth\nTR-1,napkin,kelp\n\ncloth,width,fiber,|\nkelp,60,,\n", []string{"selvedge", "measured width"}, []string{"cloth", "width"}, "cloth,width,fiber,order"},
		{"fibers", "yaml", strings.Replace(begun1, "width: 60", "width: 60, fiber: {cotton: 60, |}", 1), []string{"linen", "polyester"}, []string{"cotton"}, "kelp: {width: 60, fiber: {cotton: 60, linen: }}"},
		{"fibers in JSON", "json", `{"order": "1", "units": "in", "cloths": {"kelp": {"width": 60, "fiber": {|}}}}`, []string{"cotton"}, nil, `{"order": "1", "units": "in", "cloths": {"kelp": {"width": 60, "fiber": {"cotton": }}}}`},
	} {
		t.Run(c.name, func(t *testing.T) {
			labels, texts := completed(t, c.language, c.text)
			for _, l := range c.has {
				if !slices.Contains(labels, l) {
					t.Errorf("%s is not offered: %q", l, labels)
				}
			}
			for _, l := range c.lacks {
				if slices.Contains(labels, l) {
					t.Errorf("%s is offered", l)
				}
			}
			if len(texts) > 0 && texts[0] != c.first {
				t.Errorf("the first makes %q, want %q", texts[0], c.first)
			}
		})
	}
}

func FuzzCursor(f *testing.F) {
	f.Add(begun1, 40, byte(load.YAML))
	f.Add("{\"order\": \"1\", \"units\": \"i", 24, byte(load.JSON))
	f.Add("order: \"½\n- {a: '", 12, byte(load.YAML))
	f.Add("cloths: a: {\n", 3, byte(load.CUE))
	checker, err := open()
	if err != nil {
		f.Fatal(err)
	}
	f.Fuzz(func(t *testing.T, text string, offset int, format byte) {
		if len(text) > 1000 {
			return
		}
		offset = min(max(offset, 0), len(text))
		formats := load.Formats()
		c := cursorAt(checker, formats[int(format)%len(formats)].Format, text, offset)
		if c == nil {
			return
		}
		if c.word.Start < 0 || c.word.Start > offset || c.word.End < offset || c.word.End > len(text) {
			t.Errorf("%q: the word at %d is %v", text, offset, c.word)
		}
		if strings.Contains(text[c.word.Start:c.word.End], "\n") {
			t.Errorf("%q: the word at %d goes over lines", text, offset)
		}
	})
}
