package editor

import (
	"fmt"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// bath is an order with blanks, in part not on one line.
const bath = `order: TR-1
client: Otterborne Hall
market: CA
units: in
cloths:
  kelp: {width: 60, fiber: {cotton: 100}, sold_by: 1/4 yd, ordered: }
items:
  - item: shower curtain
    cloth: kelp
    finished: {width: 84, length: 78}
    hems: {top: {turn: 1 1/2}, bottom: {turn: 3}, sides: {turn: 1/2}}
    join: {layout: center and sides, seam: flat felled, allowance: 5/8}
    cuts:
      - {piece: center, width: , length: }
      - {piece: side, width: 14 1/4, length: }   # both
    holes:
      make: grommet
      count: 14
      from_side: 3
      spacing:
`

// at is the place of the n-th letter of what stands in a text.
func at(text, what string, n int) object {
	i := strings.Index(text, what)
	if i < 0 {
		panic(what)
	}
	i += n
	return object{"line": strings.Count(text[:i], "\n"), "character": i - (strings.LastIndex(text[:i], "\n") + 1)}
}

// golden compares with a file under testdata.
func golden(t *testing.T, name, got string) {
	t.Helper()
	path := filepath.Join("testdata", name)
	if os.Getenv("UPDATE") != "" {
		if err := os.MkdirAll("testdata", 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, []byte(got), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if d := cmp.Diff(string(want), got); d != "" {
		t.Errorf("%s: (-want +got)\n%s", name, d)
	}
}

// TestHoverCell hovers over cells of a table.
func TestHoverCell(t *testing.T) {
	const table = "order,units,item,cloth,finished width,finished length,hems top turn,hems bottom turn,hems sides turn,cut 1 piece,cut 1 length\n" +
		"TR-1,in,shower curtain,kelp,50,78,1 1/2,3,1/2,piece,87\n\ncloth,width\nkelp,60\n"
	const uri = "file:///bath.csv"
	e := start(t, &Server{})
	e.initialize(object{})
	e.open(uri, "csv", table)
	for what, want := range map[string]string{
		",87\n":   "cut length  worked out: 87 in",
		",78,":    "used for",
		",60\n":   "used for",
		",piece,": "one of piece, center",
	} {
		p := at(table, what, 2)
		hover := call[*struct{ Contents struct{ Value string } }](e, "textDocument/hover", object{"textDocument": object{"uri": uri}, "position": p})
		if hover == nil || !strings.Contains(hover.Contents.Value, want) {
			t.Errorf("over %s: %+v", what, hover)
		}
	}
}

// TestHover hovers over an order, for an editor that shows Markdown and for one
// that does not.
func TestHover(t *testing.T) {
	const uri = "file:///bath.yaml"
	for file, capabilities := range map[string]any{"hover.md": all, "hover.txt": object{}} {
		e := start(t, &Server{})
		e.initialize(capabilities)
		e.open(uri, "yaml", bath)
		var out strings.Builder
		for _, c := range []struct {
			what string
			n    int
		}{
			{"Otterborne", 3},               // a finding
			{"market", 0},                   // a name
			{"CA", 2},                       // behind what is found
			{"width: 60", 8},                // a choice that is worked with
			{"84", 0},                       // another
			{"turn: 3", 7},                  // one of a hem
			{"width: 14 1/4", 8},            // a stated outcome
			{"width: ,", 7},                 // a blank one
			{"length: }", 2},                // the name of a blank one
			{"center and sides", 4},         // a word
			{"hems:", 0},                    // a group
			{"- item: shower curtain", 10},  // the kind
			{"spacing:", 8},                 // a blank at the end
			{"# both", 3},                   // nothing
			{"sides: {turn", 0},             // with something left out
			{"holes:", 0},                   // with nothing left out
			{"from_side: 3", len("from_s")}, // the name of a choice
			{"ordered: ", len("ordered: ")}, // a blank that is reported in another unit
		} {
			p := at(bath, c.what, c.n)
			hover := call[*struct {
				Contents struct{ Kind, Value string }
				Range    place
			}](e, "textDocument/hover", object{"textDocument": object{"uri": uri}, "position": p})
			fmt.Fprintf(&out, "======== %d:%d in %s\n", p["line"], p["character"], strings.TrimSpace(c.what))
			if hover == nil {
				continue
			}
			fmt.Fprintf(&out, "%v %s\n%s\n", hover.Range, hover.Contents.Kind, hover.Contents.Value)
		}
		golden(t, file, out.String())
	}
}

// An action is a code action.
type action struct {
	Title, Kind string
	IsPreferred bool
	Diagnostics []struct{ Code string }
	Edit        struct {
		Changes         map[string][]edit
		DocumentChanges []struct {
			TextDocument struct {
				URI     string
				Version int
			}
			Edits []edit
		}
	}
}

type edit struct {
	Range   place
	NewText string
}

func (a action) String() string {
	s := a.Kind + " " + a.Title
	if a.IsPreferred {
		s += " (preferred)"
	}
	for _, d := range a.Diagnostics {
		s += " [" + d.Code + "]"
	}
	for uri, edits := range a.Edit.Changes {
		s += fmt.Sprintf(" %s: %q", uri, edits)
	}
	for _, c := range a.Edit.DocumentChanges {
		s += fmt.Sprintf(" %s %d: %q", c.TextDocument.URI, c.TextDocument.Version, c.Edits)
	}
	return s
}

func TestActions(t *testing.T) {
	const uri = "file:///a.yaml"
	whole := object{"start": object{"line": 0, "character": 0}, "end": object{"line": 99, "character": 0}}
	client := object{"start": at(order1, "client", 0), "end": at(order1, "client", 0)}
	inClient := object{"start": at(order1, "Otterborne", 4), "end": at(order1, "Otterborne", 4)}
	unversioned := object{"textDocument": all["textDocument"]}
	const (
		named   = `quickfix Name it Otterbourne Hall (preferred) [head/client-misspelt] file:///a.yaml 1: [{"1:8-1:23" "Otterbourne Hall"}]`
		market  = `quickfix Perhaps: Send it to the US [head/market-odd] file:///a.yaml 1: [{"2:8-2:10" "US"}]`
		certain = `source.fixAll Make every certain correction file:///a.yaml 1: [{"1:15-1:15" "u"}]`
	)
	for _, c := range []struct {
		name         string
		capabilities any
		at           any
		only         []string
		want         []string
	}{
		{"everywhere", all, whole, nil, []string{named, market, certain}},
		{"on a line without", all, client, nil, []string{certain}},
		{"in a finding", all, inClient, []string{"quickfix"}, []string{named}},
		{"of all kinds of source", all, whole, []string{"source"}, []string{certain}},
		{"of one kind", all, whole, []string{"source.fixAll"}, []string{certain}},
		{"of a kind that is below", all, whole, []string{"source.fixAll.more", "refactor"}, nil},
		{"without versions", unversioned, inClient, []string{"quickfix"}, []string{strings.Replace(named, " 1: ", ": ", 1)}},
		{"without actions", object{}, whole, nil, nil},
	} {
		e := start(t, &Server{})
		e.initialize(c.capabilities)
		e.open(uri, "yaml", order1)
		context := object{"diagnostics": []any{}}
		if c.only != nil {
			context["only"] = c.only
		}
		var got []string
		for _, a := range call[[]action](e, "textDocument/codeAction", object{"textDocument": object{"uri": uri}, "range": c.at, "context": context}) {
			got = append(got, a.String())
		}
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%s: (-want +got)\n%s", c.name, d)
		}
	}
}

// TestFillIn writes in what is worked out; the new text has nothing blank left and
// everything else as it was.
func TestFillIn(t *testing.T) {
	const uri = "file:///bath.yaml"
	e := start(t, &Server{})
	e.initialize(all)
	e.open(uri, "yaml", bath)
	list := call[[]action](e, "textDocument/codeAction", object{
		"textDocument": object{"uri": uri}, "range": object{"start": at(bath, "order", 0), "end": at(bath, "order", 0)},
		"context": object{"diagnostics": []any{}, "only": []string{"source.fillIn"}},
	})
	if len(list) != 1 || list[0].Title != "Make every certain correction and fill in what is worked out" {
		t.Fatalf("%v", list)
	}
	golden(t, "filled.yaml", apply(bath, list[0].Edit.DocumentChanges[0].Edits))
}

// apply makes edits of an ASCII text.
func apply(text string, edits []edit) string {
	lines := strings.SplitAfter(text, "\n")
	offset := func(p position) int { return len(strings.Join(lines[:p.Line], "")) + p.Character }
	out, done := "", 0
	for _, e := range edits {
		out += text[done:offset(e.Range.Start)] + e.NewText
		done = offset(e.Range.End)
	}
	return out + text[done:]
}

func TestHints(t *testing.T) {
	const uri = "file:///bath.yaml"
	e := start(t, &Server{})
	e.initialize(object{})
	e.open(uri, "yaml", bath)
	type hint struct {
		Position  position
		Label     string
		Tooltip   struct{ Value string }
		TextEdits []edit
	}
	ask := func(from, to int) (list []hint) {
		return call[[]hint](e, "textDocument/inlayHint", object{
			"textDocument": object{"uri": uri},
			"range":        object{"start": object{"line": from, "character": 0}, "end": object{"line": to, "character": 0}},
		})
	}
	var got []string
	filled := bath
	for _, h := range ask(0, 99) {
		got = append(got, fmt.Sprintf("%d:%d %s %q", h.Position.Line, h.Position.Character, h.Label, h.TextEdits[0].NewText))
	}
	if d := cmp.Diff([]string{
		`5:68 5 yd "5 yd"`,
		`13:31 60 "60"`,
		`13:41 87 "87"`,
		`14:45 87 "87"`,
		`19:14 6 " 6"`,
	}, got); d != "" {
		t.Errorf("(-want +got)\n%s", d)
	}
	if n := len(ask(13, 14)); n != 2 {
		t.Errorf("%d hints on the lines of the first cut", n)
	}
	if h := ask(19, 20); len(h) != 1 || !strings.HasPrefix(h[0].Tooltip.Value, "hole spacing  blank, worked out as 6 in\nworking:\n") {
		t.Errorf("%+v", h)
	}
	for left := ask(0, 99); len(left) > 0; left = ask(0, 99) { // each is gone once it is written in
		filled = apply(filled, left[0].TextEdits)
		e.change(uri, 2, object{"text": filled})
		if n := len(ask(0, 99)); n != len(left)-1 {
			t.Fatalf("%d hints are left of %d when one was written in:\n%s", n, len(left), filled)
		}
	}
}
