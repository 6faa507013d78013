package load

import (
	"fmt"
	"io"
	"os"
	"reflect"
	"strings"
	"sync"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/form"
	"cutgate/internal/length"
	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/syntax"
)

func loaderFor(t testing.TB) *Loader {
	t.Helper()
	l, err := New()
	if err != nil {
		t.Fatal(err)
	}
	return l
}

func read(t testing.TB, format Format, text string, opt Options) []*order.Order {
	t.Helper()
	orders := loaderFor(t).Orders(&source.File{Name: "test", Text: text}, format, opt)
	for _, o := range orders {
		if tt, ok := t.(*testing.T); ok {
			checkPlaces(tt, o)
		}
	}
	return orders
}

// outline writes a tree with what stands at its ranges: name(key)=value(place),
// with ! behind what is not edited.
func outline(f *source.File, n *order.Node) string {
	var b strings.Builder
	if n.Key.Len() > 0 {
		fmt.Fprintf(&b, "%s(%s)=", n.Name, f.Slice(n.Key))
	} else if n.Name != "" {
		fmt.Fprintf(&b, "%s=", n.Name)
	}
	switch n.Form {
	case order.Map, order.List:
		b.WriteByte("[{"[n.Form-order.List])
		for i := range n.Kids {
			if i > 0 {
				b.WriteByte(' ')
			}
			b.WriteString(outline(f, &n.Kids[i]))
		}
		b.WriteByte("]}"[n.Form-order.List])
	case order.Null:
		fmt.Fprintf(&b, "null<%s>", f.Slice(n.At))
	default:
		fmt.Fprintf(&b, "%s%q<%s>", []string{"", "", "#", "?"}[n.Form], n.Text, f.Slice(n.At))
	}
	if n.Unread {
		b.WriteByte('~')
	}
	if n.Fixed {
		b.WriteByte('!')
	}
	return b.String()
}

func TestTrees(t *testing.T) {
	tests := []struct {
		name   string
		format Format
		text   string
		want   string
	}{
		{"JSON", JSON, `{"a": "x\"y", "b": [1, -2.5e3, true, null], "c": {}}`,
			`{a(a)="x\"y"<x\"y> b(b)=[#"1"<1> #"-2.5e3"<-2.5e3> ?"true"<true> null<null>] c(c)={}}`},
		{"JSON after a mark", JSON, "\ufeff {\"é\": \"é\\u00e9\"}", `{é(é)="éé"<é\u00e9>}`},
		{"plain", YAML, "a: x y  # note\nb: 0147\nc: 2026-12-18\nd: yes\ne: true\nf: ~\ng: 1.50\nh: 1:30\n",
			`{a(a)="x y"<x y> b(b)=#"0147"<0147> c(c)="2026-12-18"<2026-12-18> d(d)="yes"<yes> e(e)=?"true"<true> f(f)=null<~> g(g)=#"1.50"<1.50> h(h)="1:30"<1:30>}`},
		{"over lines", YAML, "a: x\n  y # note\nb: z\n", "{a(a)=\"x y\"<x\n  y> b(b)=\"z\"<z>}"},
		{"quoted", YAML, "\"a b\" : 'it''s' # x\nc: \"q\\\"\"\n", `{a b(a b)="it's"<it''s> c(c)="q\""<q\">}`},
		{"block", YAML, "a: | # note\n  x\n  y\n\nb: >-\n   z\n", "{a(a)=\"x\\ny\\n\"<| # note\n  x\n  y> b(b)=\"z\"<>-\n   z>}"},
		{"flow", YAML, "a: {b: 10 1/2, \"c\": [x, 'y'], d: }\n", `{a(a)={b(b)="10 1/2"<10 1/2> c(c)=["x"<x> "y"<y>] d(d)=null<>}}`},
		{"wide characters", YAML, "é: {ü: ½, b: 1}\r\nc: d\r\n", `{é(é)={ü(ü)="½"<½> b(b)=#"1"<1>} c(c)="d"<d>}`},
		{"tags", YAML, "a: !!str 72\nb: !!int '3'\nc: !mine x\n", `{a(a)="72"<72> b(b)=#"3"<3> c(c)="x"<x>}`},
		{"aliases", YAML, "a: &h {b: 1}\nc: *h\nd: &n 2\n", `{a(a)={b(b)=#"1"<1>!}! c(c)={b(*h)=#"1"<*h>!}! d(d)=#"2"<2>}`},
		{"merged", YAML, "a: &h {b: 1, c: 2}\nd:\n  <<: *h\n  c: 3\n",
			`{a(a)={b(b)=#"1"<1>! c(c)=#"2"<2>!}! d(d)={c(c)=#"3"<3> b(*h)=#"1"<*h>!}}`},
		{"sequences", YAML, "- a: 1\n", `{a(a)=#"1"<1>}`},
		{"CUE", CUE, "a: \"x\" // note\nb: c: [1, -2, true, null,]\n\"d e\": 1_000\nf: #\"g\"#\n",
			`{a(a)="x"<x> b(b)={c(c)=[#"1"<1> #"-2"<-2> ?"true"<true> null<null>]} d e(d e)=#"1000"<1_000> f(f)="g"<g>}`},
		{"CUE in many lines", CUE, "a: \"\"\"\n\tx\n\ty\n\t\"\"\"\nb: 1\n", "{a(a)=\"x\\ny\"<x\n\ty> b(b)=#\"1\"<1>}"},
		{"CUE in several places", CUE, "a: b: 1\nc: 2\na: d: 3\n", `{a(a)={b(b)=#"1"<1> d(d)=#"3"<3>} c(c)=#"2"<2>}`},
		{"CUE references", CUE, "let x = 1\n_h: {b: y: 2}\n#d: 3\na: x\nb: _h.b\nc: #d\nd: a\n",
			`{a(a)=#"1"<x>!! b(b)={y(_h.b)=#"2"<_h.b>!}! c(c)=#"3"<#d>! d(d)=#"1"<a>!}`},
		{"CUE computes", CUE, "a: 1 + 2\nb: c\nd: {\n\tif true {e: 1}\n\tf: 2\n}\n", `{a(a)=null<1 + 2>~ b(b)=null<c>~! d(d)={f(f)=#"2"<2>}~}`},
		{"CUE that is JSON", CUE, `{"a": {"b": 1}}`, `{a(a)={b(b)=#"1"<1>}}`},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			o := read(t, tt.format, tt.text, Options{})[0]
			if o.Root == nil {
				t.Fatalf("not read: %s", o.Flaws[0].Detail)
			}
			got := outline(o.File, o.Root)
			if want := strings.ReplaceAll(tt.want, "!!", "!"); got != want {
				t.Errorf("got  %s\nwant %s", got, want)
			}
		})
	}
}

func TestTrusted(t *testing.T) {
	text := "import \"strings\"\nlet w = 60\na: w + 2\nb: strings.ToUpper(\"x\")\nc: 3\nd: [for i in [1, 2] {n: i}]\n" +
		"e: {f: \"g\", if w > 50 {h: true}}\nj: 2.50 * 2\n"
	o := read(t, CUE, text, Options{TrustCUE: true})[0]
	want := `{a(a)=#"62"<w + 2>! b(b)="X"<strings.ToUpper("x")>! c(c)=#"3"<3> ` +
		`d(d)=[{n([for i in [1, 2] {n: i}])=#"1"<[for i in [1, 2] {n: i}]>!}! {n([for i in [1, 2] {n: i}])=#"2"<[for i in [1, 2] {n: i}]>!}!] ` +
		`e(e)={f(f)="g"<g> h({f: "g", if w > 50 {h: true}})=?"true"<{f: "g", if w > 50 {h: true}}>!} j(j)=#"5.00"<2.50 * 2>!}`
	if o.Root == nil {
		t.Fatal(o.Flaws)
	}
	if got := outline(o.File, o.Root); got != want {
		t.Errorf("got  %s\nwant %s", got, want)
	}
	for _, broken := range []string{"a: 1\na: 2\n", "a: string\n", "a: b\n"} {
		o := read(t, CUE, broken, Options{TrustCUE: true})[0]
		if o.Root != nil || len(o.Flaws) != 1 || o.Flaws[0].Kind != order.Unreadable {
			t.Errorf("%q: %v", broken, o.Flaws)
		}
	}
}

var kinds = [...]string{"unreadable", "computed", "duplicate", "unknown field", "other word", "missing field", "wrong kind",
	"unknown word", "bad spelling", "odd unit", "out of sense", "exchanged", "blank"}

// told writes the flaws of orders, one a line.
func told(orders []*order.Order) string {
	var b strings.Builder
	for _, o := range orders {
		for _, f := range o.Flaws {
			place, _, _ := strings.Cut(o.File.Slice(f.At), "\n")
			if len(place) > 24 {
				place = place[:24] + "…"
			}
			fmt.Fprintf(&b, "%d: <%s> %s", o.File.Position(f.At.Start).Line, place, kinds[f.Kind])
			for _, part := range []struct{ name, text string }{
				{"of", f.Path}, {"name", f.Name}, {"near", f.Nearest}, {"as", f.Detail}} {
				if part.text != "" && !(part.name == "name" && strings.HasSuffix(f.Path, f.Name)) {
					fmt.Fprintf(&b, " %s %s", part.name, part.text)
				}
			}
			b.WriteByte('\n')
		}
	}
	return b.String()
}

// sound is the top of an order without flaws.
const sound = "order: 1\nunits: in\ncloths: {reef: {width: 60}}\nitems:\n- {item: napkin, cloth: reef, finished: {width: 20, length: 20}, hem: {turn: 1}"

func TestFlaws(t *testing.T) {
	tests := []struct{ name, text, want string }{
		{"sound", sound + "}", ""},
		{"missing", "units: in\ncloths: {a: {}}\nitems: [{item: napkin, cloth: a, hem: {turn: 1}}]",
			"1: <units: in> missing field name order\n" +
				"2: <a> missing field of cloths.a name width\n" +
				"3: <{item: napkin, cloth: a,…> missing field of items[0] name finished\n"},
		{"empty list", "order: 1\nunits: in\ncloths: {}\nitems: []\n",
			"4: <[]> missing field of items as the list is empty\n"},
		{"no units", strings.Replace(sound, "units: in\n", "", 1) + "}",
			"1: <order: 1> missing field name units\n"},
		{"other units", strings.Replace(sound, "units: in", "units: inches", 1) + "}",
			"2: <inches> other word of units near in\n"},
		{"unknown field", sound + ", colour: red}",
			"5: <colour> unknown field of items[0].colour\n"},
		{"near field", sound + ", quantty: 2}",
			"5: <quantty> unknown field of items[0].quantty near quantity\n"},
		{"field in another case", sound + ", Quantity: 2, near heat: true}",
			"5: <Quantity> other word of items[0].Quantity near quantity\n" +
				"5: <near heat> other word of items[0].near heat near near_heat\n"},
		{"field given in both spellings", sound + ", quantity: 1, Quantity: 2}",
			"5: <Quantity> unknown field of items[0].Quantity near quantity\n"},
		{"duplicate", sound + ", quantity: 1, quantity: 2}",
			"5: <quantity> duplicate of items[0].quantity\n"},
		{"unknown kind", strings.Replace(sound, "napkin", "nakpin", 1) + "}",
			"5: <nakpin> unknown word of items[0].item near napkin\n"},
		{"kind in another case", strings.Replace(sound, "napkin", "Napkins", 1) + "}",
			"5: <Napkins> other word of items[0].item near napkin\n"},
		{"no kind", strings.Replace(sound, "item: napkin, ", "", 1) + "}",
			"5: <{cloth: reef, finished: …> missing field of items[0] name item\n"},
		{"word", sound + ", press: {fusing: tapes}, near_heat: yes}",
			"5: <tapes> other word of items[0].press.fusing near tape\n" +
				"5: <yes> other word of items[0].near_heat near true\n"},
		{"wrong kinds", sound + ", press: 3, cuts: {piece: end}, id: [1], quantity: {}}",
			"5: <3> wrong kind of items[0].press\n" +
				"5: <{piece: end}> wrong kind of items[0].cuts\n" +
				"5: <[1]> wrong kind of items[0].id\n" +
				"5: <{}> wrong kind of items[0].quantity\n"},
		{"blank choices", sound + ", quantity: , press: ~}",
			"5: <> blank of items[0].quantity\n" +
				"5: <~> blank of items[0].press\n"},
		{"blank outcomes", sound + ", cuts: [{piece: piece, width: , length: null, count: ~}]}", ""},
		{"decimal comma", sound + ", cuts: [{piece: piece, width: 1,5 m}]}",
			"5: <5 m> unknown field of items[0].cuts[0].5 m near width as inside { } a comma ends a number, so put 1,5 m in quotes\n"},
		{"lengths", sound + ", cuts: [{piece: piece, width: 5 kg, length: wide}, {piece: piece, width: -1, length: 0}, {piece: piece, width: 2 km, length: 1/0 in}]}",
			"5: <5 kg> odd unit of items[0].cuts[0].width as it is a weight\n" +
				"5: <wide> bad spelling of items[0].cuts[0].length as write a measurement such as 68, 9 1/2 in, 6' 2\" or 1.5 m\n" +
				"5: <-1> out of sense of items[0].cuts[1].width\n" +
				"5: <0> out of sense of items[0].cuts[1].length\n" +
				"5: <2 km> bad spelling of items[0].cuts[2].width as “km” is not a unit here; write mm, cm, m, in, ft or yd\n" +
				"5: <1/0 in> bad spelling of items[0].cuts[2].length as it has a fraction over zero; write a denominator above zero\n"},
		{"fullness in percent", "order: 1\nunits: in\ncloths: {}\nitems: [{item: valance, cloth: a, heading: {style: wave, fullness: 200%}}]",
			"4: <200%> bad spelling of items[0].heading.fullness as some mean 2 to 1 by 100%, others 1 to 1; write the multiplier, such as 2\n"},
		{"counts", sound + ", cuts: [{piece: piece, count: 1.5}, {piece: piece, count: 3 in}, {piece: piece, count: 20000}]}",
			"5: <1.5> bad spelling of items[0].cuts[0].count as write a whole number in digits, with no unit\n" +
				"5: <3 in> odd unit of items[0].cuts[1].count as it is a length\n" +
				"5: <20000> out of sense of items[0].cuts[2].count\n"},
		{"cloth", "order: 1\nunits: in\ncloths: {a: {width: 60, weight: 240, shrinks: {width: 60%}, care: {iron: tepid, wash: 400 C}}}\n" + sound[strings.Index(sound, "items"):] + "}",
			"3: <240> bad spelling of cloths.a.weight as it has no unit; write a weight per area such as 240 g/m2 or 7 oz/yd2\n" +
				"3: <60%> out of sense of cloths.a.shrinks.width\n" +
				"3: <tepid> bad spelling of cloths.a.care.iron as write dots or a temperature, such as 2 dots, 150 C, 300 F or none\n" +
				"3: <400 C> out of sense of cloths.a.care.wash\n"},
		{"dates", "due: 2026-02-29\n" + sound + "}",
			"1: <2026-02-29> bad spelling of due as there is no such day\n"},
		{"empty", "",
			"1: <> unreadable as there is no order in this file\n"},
		{"comments", "# nothing\n---\n...\n",
			"1: <> unreadable as there is no order in this file\n"},
		{"a word", "order",
			"1: <order> wrong kind\n"},
		{"not lined up", "order: 1\nunits: in\n client: x\n",
			"3: <client: x> unreadable as a field can't start here; line it up with the others, or put words that contain a colon in quotes\n"},
		{"dedented", "a:\n  b: 1\n c: 2\n",
			"3: <c: 2> unreadable as this line does not line up with the fields above it\n"},
		{"open quote", "a: 1\nb: 'x\nc: 2\n",
			"2: <b: 'x> unreadable as a quote mark is not closed\n"},
		{"open brace", "a: {b: 1\nc: 2\n",
			"1: <a: {b: 1> unreadable as a { is not closed, or a comma is missing between its fields\n"},
		{"no anchor", "a: *b\n",
			"1: <*b> unreadable as nothing is called &b before this\n"},
		{"alias of itself", "a: &a {b: *a}\n",
			"1: <*a> unreadable as the alias *a stands inside what it stands for\n"},
		{"name that is a list", "[a]: 1\n",
			"1: <[a]> unreadable as a field's name must be one word, not a group or a list\n"},
		{"not UTF-8", "a: \xff",
			"1: <\xff> unreadable as it is not UTF-8; save it as UTF-8\n"},
		{"UTF-32", "\xff\xfe\x00\x00a\x00\x00\x00",
			"1: <\xff> unreadable as it is in UTF-32; save it as UTF-8\n"},
		{"UTF-32 without a mark", "a\x00\x00\x00",
			"1: <\x00> unreadable as it is in UTF-32; save it as UTF-8\n"},
		{"UTF-16", "a\x00:\x00",
			"1: <\x00> unreadable as it is in UTF-16; save it as UTF-8\n"},
		{"control character", "a: x\x01y\n",
			"1: <\x01> unreadable as it has a control character (U+0001); take it out\n"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			if diff := cmp.Diff(tt.want, told(read(t, YAML, tt.text, Options{}))); diff != "" {
				t.Errorf("-want +got\n%s", diff)
			}
		})
	}
}

func TestFlawsOfOtherFormats(t *testing.T) {
	tests := []struct {
		name   string
		format Format
		text   string
		want   string
	}{
		{"JSON duplicate", JSON, `{"order": 1, "order": 2, "units": "in", "cloths": {"a": {"width": 1}, "a": {"width": 1}}, "items": [null]}`,
			"1: <order> duplicate of order\n" +
				"1: <a> duplicate of cloths.a\n" +
				"1: <null> blank of items[0]\n"},
		{"JSON cut short", JSON, `{"order": `,
			"1: <> unreadable as it ends too early; a bracket or a quote mark is not closed\n"},
		{"JSON comma", JSON, "{\n  \"order\" 1}",
			"2: <1> unreadable as a name has no colon after it\n"},
		{"empty JSON", JSON, " \n",
			"1: <> unreadable as there is no order in this file\n"},
		{"deep JSON", JSON, strings.Repeat("[", 1<<20),
			"1: <[> unreadable as groups lie more than 100 deep in one another\n"},
		{"CUE duplicate", CUE, "order: 1\norder: 2\nunits: \"in\"\ncloths: {}\nitems: [...]\n",
			"2: <order> duplicate of order\n" +
				"5: <...> computed of items as an ellipsis (...)\n"},
		{"CUE syntax", CUE, "a: {\n",
			"2: <> unreadable as expected '}', found the end of the file\n"},
		{"CUE cycle", CUE, "a: b\nb: a\n",
			"1: <b> unreadable as the reference stands inside what it stands for\n"},
		{"CUE constructs", CUE, "import \"list\"\na: \"\\(b)\"\nb: 1 | 2\nc: list.Max([1])\nd?: 1\n[string]: _\ne: a & b\nf: >1\ng: x[0]\nh: 'x'\ni: *1 | 2\n",
			"1: <import \"list\"> computed as an import\n" +
				"2: <a> unknown field of a\n" +
				"2: <\"\\(b)\"> computed of a as an interpolation (\\(…))\n" +
				"3: <b> unknown field of b\n" +
				"3: <1 | 2> computed of b as a choice (|)\n" +
				"4: <c> unknown field of c\n" +
				"4: <list.Max([1])> computed of c as a call of a function\n" +
				"5: <d?: 1> computed as an optional field (?)\n" +
				"6: <[string]: _> computed as a pattern ([…]:)\n" +
				"7: <e> unknown field of e\n" +
				"7: <a & b> computed of e as a unification (&)\n" +
				"8: <f> unknown field of f\n" +
				"8: <>1> computed of f as a constraint (>)\n" +
				"9: <g> unknown field of g\n" +
				"9: <x[0]> computed of g as an index ([…])\n" +
				"10: <h> unknown field of h\n" +
				"10: <'x'> computed of h as bytes in single quotes; words take double quotes\n" +
				"11: <i> unknown field of i\n" +
				"11: <*1 | 2> computed of i as a choice (|)\n"},
		{"no CUE", CUE, "package x\n",
			"1: <> unreadable as there is no order in this file\n"},
		{"deep CUE", CUE, "a: " + strings.Repeat("[", 5000),
			"1: <[> unreadable as groups lie more than 100 deep in one another\n"},
		{"deep names", CUE, strings.Repeat("a: ", 50_000) + "1",
			"1: <:> unreadable as groups lie more than 100 deep in one another\n"},
		{"long CUE", CUE, strings.Repeat("// note\n", 1<<16),
			"1: <> unreadable as a CUE order can be at most 256 KiB\n"},
		{"deep YAML", YAML, strings.Repeat("[", 1<<20),
			"1: <[[[[[[[[[[[[[[[[[[[[[[[[…> unreadable as fields are nested too deeply\n"},
		{"YAML bomb", YAML, bomb("&%[1]c ", "*"),
			"6: <*e> unreadable as its aliases stand for more than 100,000 values\n"},
		{"CUE bomb", CUE, bomb("", ""),
			"6: <e> unreadable as its references stand for more than 100,000 values\n"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			start := time.Now()
			got := told(read(t, tt.format, tt.text, Options{}))
			if diff := cmp.Diff(tt.want, got); diff != "" {
				t.Errorf("-want +got\n%s", diff)
			}
			if took := time.Since(start); took > 10*time.Second {
				t.Errorf("took %v", took)
			}
		})
	}
}

// bomb is a text of seven lines that stands for 9⁷ values. Each line names
// itself with anchor and the one before it with alias.
func bomb(anchor, alias string) string {
	var b strings.Builder
	for line := range 7 {
		name := 'a' + rune(line)
		fmt.Fprintf(&b, "%c: ", name)
		if anchor != "" {
			fmt.Fprintf(&b, anchor, name)
		}
		b.WriteByte('[')
		for i := range 9 {
			if i > 0 {
				b.WriteString(", ")
			}
			if line == 0 {
				b.WriteString("1")
			} else {
				fmt.Fprintf(&b, "%s%c", alias, name-1)
			}
		}
		b.WriteString("]\n")
	}
	return b.String()
}

// values lists what is set in an order, without places.
func values(v reflect.Value, path string) []string {
	switch {
	case v.Kind() == reflect.Slice:
		var all []string
		for i := range v.Len() {
			all = append(all, values(v.Index(i), fmt.Sprintf("%s[%d]", path, i))...)
		}
		return all
	case v.Kind() != reflect.Struct:
		return nil
	}
	if set := v.FieldByName("Set"); set.IsValid() && v.FieldByName("Value").IsValid() {
		if !set.Bool() {
			return nil
		}
		return []string{fmt.Sprintf("%s = %v", path, v.FieldByName("Value"))}
	}
	var all []string
	if name := v.FieldByName("Name"); name.IsValid() && name.Kind() == reflect.String {
		path += "{" + name.String() + "}"
		return values(v.FieldByName("Of"), path)
	}
	for i := range v.NumField() {
		if f := v.Type().Field(i); f.Tag.Get("form") != "" {
			all = append(all, values(v.Field(i), path+"."+f.Name)...)
		}
	}
	return all
}

// TestFormatsAgree reads one order in three formats: they say the same.
func TestFormatsAgree(t *testing.T) {
	var first []string
	for _, name := range []string{"docket.yaml", "docket.json", "docket.cue"} {
		text, err := os.ReadFile("testdata/" + name)
		if err != nil {
			t.Fatal(err)
		}
		format, ok := FormatOf(name)
		if !ok {
			t.Fatalf("no format for %s", name)
		}
		orders := read(t, format, string(text), Options{})
		if got := told(orders); got != "" || len(orders) != 1 {
			t.Fatalf("%s: %d orders\n%s", name, len(orders), got)
		}
		got := values(reflect.ValueOf(orders[0]).Elem(), "order")
		if first == nil {
			first = got
			if len(got) < 60 {
				t.Errorf("%d values only:\n%s", len(got), strings.Join(got, "\n"))
			}
		}
		if diff := cmp.Diff(first, got); diff != "" {
			t.Errorf("%s: -YAML +%v\n%s", name, format, diff)
		}
	}
}

// TestLeaves looks at what a leaf and a group keep beside their value.
func TestLeaves(t *testing.T) {
	text := "order: 1\nunits: in\ncloths:\n  reef: {width: 1.5 m, ordered: null}\nitems:\n- item: napkin\n  cloth: reef\n  hem: {turn: 1/2}\n" +
		"  finished: {width: 20, length: 20}\n  cuts: [{piece: piece, count: }]\n"
	o := read(t, YAML, text, Options{})[0]
	at := func(r source.Range) string { return o.File.Slice(r) }
	c := o.Cloths[0]
	it := &o.Items[0]
	for _, tt := range []struct{ what, got, want string }{
		{"a length", at(c.Of.Width.At), "1.5 m"},
		{"a blank outcome", at(c.Of.Ordered.At), "null"},
		{"its node", fmt.Sprint(c.Of.Ordered.Node != nil, c.Of.Ordered.Set), "true false"},
		{"an absent leaf", at(c.Of.Selvedge.At), "reef"},
		{"a leaf of an absent group", at(c.Of.Repeat.Width.At), "reef"},
		{"an entry", c.Name + " " + at(c.Key), "reef reef"},
		{"a group", at(it.Hem.At) + " " + at(it.Hem.Key), "{turn: 1/2} hem"},
		{"an absent group", fmt.Sprint(it.Press.Set, it.Press.At == it.At), "false true"},
		{"another kind's leaf", fmt.Sprint(it.FlatWidth.At == it.At), "true"},
		{"an unwritten outcome", fmt.Sprint(it.Cuts[0].Count.At.Start == strings.Index(text, "count: ")+7, it.Cuts[0].Count.At.Len()), "true 0"},
		{"the manner", c.Of.Width.Node.LengthStyle().Print(2*length.Metre, length.Nearest), "2 m"},
		{"a bare number", it.Finished.Width.Node.LengthStyle().Print(30*length.Inch, length.Nearest), "30"},
	} {
		if tt.got != tt.want {
			t.Errorf("%s: got %q, want %q", tt.what, tt.got, tt.want)
		}
	}
}

func TestSeveralOrders(t *testing.T) {
	tests := []struct {
		name   string
		format Format
		text   string
		want   string // the orders' numbers, ! for one that is not read
	}{
		{"documents", YAML, "order: 1\n---\norder: 2\n--- # none\n...\n---\norder: 3\n", "1 2 3"},
		{"a document that is not read", YAML, "order: 1\n---\norder: {\n---\norder: 3\n", "1 ! 3"},
		{"documents that are not read", YAML, "order: {\n---\norder: 2\n---\na: b: c\n--- \norder: \"4\n--- # x\norder: 5\n", "! 2 ! ! 5"},
		{"directives", YAML, "%YAML 1.2\n---\norder: 1\n...\n# none\n%YAML 1.2\n---\norder: 2\n", "1 2"},
		{"directives after one that is not read", YAML, "order: {\n...\n%TAG ! x\n%YAML 1.2\n---\norder: 2\n---\norder: 3\n", "! 2 3"},
		{"a later version", YAML, "%YAML 2.0\n---\norder: 1\n", "!"},
		{"three hyphens in a text", YAML, "order: |\n  ---\n---\norder: {\n", "---\n !"},
		{"list", YAML, "- order: 1\n- order: 2\n", "1 2"},
		{"values", JSON, "{\"order\": 1} {\"order\": 2}\n{\"order\" 3}", "1 2 !"},
		{"JSON list", JSON, `[{"order": 1}, {"order": 2}]`, "1 2"},
		{"lines", JSONLines, "\ufeff{\"order\": 1}\r\n\n{\"order\"\n{\"order\": 3}", "1 ! 3"},
		{"CUE list", CUE, "_x: 1\n[{order: _x}, {order: 2}]\n", "1 2"},
	}
	for _, tt := range tests {
		t.Run(tt.name, func(t *testing.T) {
			var got []string
			for _, o := range read(t, tt.format, tt.text, Options{}) {
				if o.Root == nil {
					got = append(got, "!")
					continue
				}
				got = append(got, o.Number.Value)
			}
			if s := strings.Join(got, " "); s != tt.want {
				t.Errorf("got %q, want %q", s, tt.want)
			}
		})
	}
}

func TestStream(t *testing.T) {
	long := strings.Repeat("x", 200_000)
	text := "{\"order\": 1}\r\n\n  \n{\"order\": \"" + long + "\"}\n{\"order\": 3}"
	var got []string
	err := syntax.Stream(strings.NewReader(text), "in.jsonl", func(f *source.File) bool {
		if text[f.Base:f.Base+len(f.Text)] != f.Text {
			t.Errorf("line %d is not at %d", f.FirstLine, f.Base)
		}
		o := loaderFor(t).Orders(f, JSON, Options{})[0]
		got = append(got, fmt.Sprintf("%s:%d %d", f.Name, f.FirstLine, len(o.Number.Value)))
		return true
	})
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"in.jsonl:1 1", "in.jsonl:4 200000", "in.jsonl:5 1"}
	if diff := cmp.Diff(want, got); diff != "" {
		t.Errorf("-want +got\n%s", diff)
	}
	n := 0
	err = syntax.Stream(strings.NewReader(text), "in.jsonl", func(*source.File) bool { n++; return false })
	if err != nil || n != 1 {
		t.Errorf("told to stop at the first line, it read %d: %v", n, err)
	}
	err = syntax.Stream(io.MultiReader(strings.NewReader("{}\n"), endless{}), "in.jsonl", func(*source.File) bool { return true })
	if err == nil || err.Error() != "read in.jsonl: line 2 does not end" {
		t.Errorf("of a line without an end: %v", err)
	}
}

// endless is a line without an end.
type endless struct{}

func (endless) Read(b []byte) (int, error) { return copy(b, xs), nil }

var xs = strings.Repeat("x", 1<<16)

// TestStreamPassesLongLines holds that a line of more than 16 MiB is reported, and the
// line behind it is read.
func TestStreamPassesLongLines(t *testing.T) {
	for _, size := range []int{16<<20 - 12, 16<<20 - 11, 17 << 20, 40 << 20} {
		text := "{\"order\": 1}\n{\"order\": \"é" + strings.Repeat("x", size-2) + "\n{\"order\": 3}\n"
		var got []string
		err := syntax.Stream(strings.NewReader(text), "in.jsonl", func(f *source.File) bool {
			if o := loaderFor(t).Orders(f, JSONLines, Options{})[0]; o.Root != nil {
				got = append(got, o.Number.Value)
			} else {
				got = append(got, fmt.Sprintf("%d at %d: %s", f.FirstLine, f.Base, o.Flaws[0].Detail))
			}
			return true
		})
		want := []string{"1", "2 at 13: it ends too early; a bracket or a quote mark is not closed", "3"}
		if size > 16<<20-12 {
			want[1] = "2 at 13: this line is longer than 16 MiB, so nothing of it was read"
		}
		if d := cmp.Diff(want, got); err != nil || d != "" {
			t.Errorf("%d: %v (-want +got)\n%s", size, err, d)
		}
	}
}

func TestFormats(t *testing.T) {
	for name, want := range map[string]Format{"a.YAML": YAML, "a.yml": YAML, "x/a.json": JSON, "a.jsonl": JSONLines, "a.ndjson": JSONLines, "a.cue": CUE} {
		if got, ok := FormatOf(name); !ok || got != want {
			t.Errorf("FormatOf(%q) = %v, %v", name, got, ok)
		}
	}
	if got, ok := FormatOf("a.txt"); ok {
		t.Errorf("FormatOf(a.txt) = %v", got)
	}
	for text, want := range map[string]Format{
		"":                          YAML,
		"order: 1\n":                YAML,
		"# a note\norder: 1\n":      YAML,
		"{order: 1}":                YAML,
		"{\"order\": 1}":            JSON,
		"\ufeff\n[\n{":              JSON,
		"{\"a\": 1}\n{\"a\": 2}\n":  JSONLines,
		"{\"a\": 1}\r\n{\"a\": 2}":  JSONLines,
		"{\n\"a\": 1}\n{\"a\": 2}":  JSON,
		"package x\n":               CUE,
		"// a note\norder: \"1\"\n": CUE,
		"#Hem: {turn: 1}\n":         CUE,
	} {
		if got := Sniff(text); got != want {
			t.Errorf("Sniff(%q) = %v, want %v", text, got, want)
		}
	}
}

func TestTables(t *testing.T) {
	tables, err := form.Tables()
	if err != nil {
		t.Fatal(err)
	}
	if len(tables.Fibers) == 0 || len(tables.Words) == 0 || tables.House.Clearance == 0 {
		t.Errorf("the tables are not all there: %d fibers, %d words", len(tables.Fibers), len(tables.Words))
	}
}

// TestTogether reads by many at once, for the race detector.
func TestTogether(t *testing.T) {
	text, err := os.ReadFile("testdata/docket.json")
	if err != nil {
		t.Fatal(err)
	}
	var wg sync.WaitGroup
	for range 8 {
		wg.Go(func() {
			for range 20 {
				if got := told(read(t, JSON, string(text), Options{})); got != "" {
					t.Error(got)
				}
			}
		})
	}
	wg.Wait()
}

// TestPlacesAfterBrokenDocument holds places in documents that stand behind one that
// can't be read to the whole file.
func TestPlacesAfterBrokenDocument(t *testing.T) {
	text := "\ufefforder: {\n---\n# second\norder: A-2\nclient: é*x\n...\n---\norder: &a A-3\nclient: *a\n---\nnotes: *lost\n"
	orders := read(t, YAML, text, Options{})
	if len(orders) != 4 {
		t.Fatalf("%d orders", len(orders))
	}
	for _, c := range []struct {
		at         source.Range
		want       string
		line, from int
	}{
		{orders[1].Number.At, "A-2", 4, 8}, {orders[1].Client.At, "é*x", 5, 9}, {orders[2].Number.At, "A-3", 8, 11}, {orders[3].Flaws[0].At, "*lost", 11, 8},
	} {
		if got, at := orders[0].File.Slice(c.at), orders[0].File.Position(c.at.Start); got != c.want || at.Line != c.line || at.Column != c.from {
			t.Errorf("%q at %v, want %q at %d:%d", got, at, c.want, c.line, c.from)
		}
	}
}
