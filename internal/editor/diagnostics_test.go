package editor

import (
	"os"
	"path/filepath"
	"runtime"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/finding"
	"cutgate/internal/house"
	"cutgate/internal/lint"
	"cutgate/internal/rule"
)

// order1 is an order with a letter that takes two UTF-16 units before what is
// wrong.
const order1 = `order: "𝟙"
client: Otterborne Hall   # ½
market: CA
units: in
cloths: {kelp: {width: 60, ordered: 3/4 yd}}
items:
  - {item: napkin, cloth: kelp, finished: {width: 20, length: 20}, hem: {turn: 1/4, allowance: 1/2}}
`

// said1 is what is said of it.
var said1 = []string{
	"1:8-1:23 1 head/client-misspelt cutgate There is no Otterborne Hall. | write: Otterbourne Hall instead of Otterborne Hall | slip: a letter was left out (0:8-0:10 of this order)",
	"2:8-2:10 2 head/market-odd cutgate Ask where it goes. | perhaps: Send it to the US",
}

func TestDiagnostics(t *testing.T) {
	json := `{"order": "𝟙", "client": "Otterborne Hall", "units": "in", "cloths": {}, "items": []}`
	atJSON := strings.Replace(said1[0], "1:8-1:23 1", "0:27-0:42 1", 1)
	atJSON = strings.Replace(atJSON, "0:8-0:10 of", "0:11-0:13 of", 1)
	empty := "the list is empty"
	for _, c := range []struct {
		name, uri, language, text string
		want                      []string
	}{
		{"by the ending", "file:///a.yaml", "", order1, said1},
		{"by the ending, whatever the language", "file:///a.yaml", "json", order1, said1},
		{"by the language", "file:///orders/TR-1", "yaml", order1, said1},
		{"CR LF", "file:///a.yaml", "yaml", strings.ReplaceAll(order1, "\n", "\r\n"), said1},
		{"not saved yet", "untitled:Untitled-1", "plaintext", order1, said1},
		{"with a space and ü", "file:///wei%C3%9F%20ü/a.yaml", "yaml", order1, said1},
		{"several orders", "file:///a.yaml", "yaml", order1 + "---\n" + strings.Replace(order1, "CA", "US", 1), []string{
			said1[0], said1[1], strings.ReplaceAll(strings.ReplaceAll(said1[0], "1:8-1:23", "9:8-9:23"), "0:8-0:10", "8:8-8:10"),
		}},
		{"JSON", "file:///a.json", "json", json, []string{atJSON, "0:83-0:85 3 form/flawed cutgate A flaw: " + empty}},
		{"JSON Lines", "untitled:x", "jsonl", json + "\n" + json, []string{
			atJSON, "0:83-0:85 3 form/flawed cutgate A flaw: " + empty,
			strings.ReplaceAll(strings.Replace(atJSON, "0:27-0:42 1", "1:27-1:42 1", 1), "0:11-0:13", "1:11-1:13"),
			"1:83-1:85 3 form/flawed cutgate A flaw: " + empty,
		}},
		{"CSV", "file:///a.csv", "csv", "order,client,units,item,cloth,finished width,finished length,hem turn\n𝟙,Otterborne Hall,in,napkin,kelp,20,20,1\n\ncloth,width\nkelp,60\n", []string{
			strings.Replace(strings.Replace(said1[0], "1:8-1:23 1", "1:3-1:18 1", 1), "0:8-0:10", "1:0-1:2", 1),
		}},
		{"another table", "file:///a.csv", "csv", "code,price\n1,2\n", nil},
		{"CUE", "file:///a.cue", "cue", "order: \"1\"\nclient: \"Otterborne Hall\"\nunits: \"in\"\ncloths: kelp: width: 60\nitems: [{item: \"napkin\", cloth: \"kelp\", finished: {width: 20, length: 20}, hem: turn: 1}]\n", []string{
			strings.Replace(strings.Replace(said1[0], "1:8-1:23 1", "1:9-1:24 1", 1), "0:8-0:10", "0:8-0:9", 1),
		}},
		{"what can't be read", "file:///a.yaml", "yaml", "order: 1\nunits: in\nitems: [\n", []string{
			"2:0-2:8 3 form/flawed cutgate A flaw: a ] is missing: the [ on this line is not closed",
		}},
		{"what breaks a rule", "file:///a.yaml", "yaml", strings.Replace(order1, "Otterborne Hall", "Breaker", 1), []string{
			"0:0-0:11 1 <nil> cutgate This order was not checked: rule head/breaks crashed on order 𝟙 in /a.yaml: no such cloth",
		}},
		{"no order", "file:///b.yaml", "yaml", "services:\n  db: {image: x}\n", nil},
		{"no order, though it has items", "file:///b.yaml", "yaml", "kind: List\napiVersion: v1\nitems: []\n", nil},
		{"no order, though it has an order and a title", "file:///b.yaml", "yaml", "title: About\norder: 3\n", nil},
		{"no order, but the form of a list", "file:///b.yaml", "yaml", "type: array\nitems: {type: string}\n", nil},
		{"no order, and can't be read", "file:///b.yaml", "yaml", "services: [\n", nil},
		{"nothing", "file:///b.yaml", "yaml", "", nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			e := start(t, &Server{})
			e.initialize(all)
			e.open(c.uri, c.language, c.text)
			got := e.reported(c.uri, 1)
			if d := cmp.Diff(c.want, got.lines()); d != "" {
				t.Errorf("(-want +got)\n%s", d)
			}
			for _, d := range got.Diagnostics {
				if len(d.Tags) > 0 {
					t.Errorf("tags %v", d.Tags)
				}
			}
			e.tell("textDocument/didClose", object{"textDocument": object{"uri": c.uri}})
			if got := e.reported(c.uri, 0); len(got.Diagnostics) > 0 {
				t.Errorf("left after closing: %v", got.lines())
			}
		})
	}
}

// TestNothingSaid opens what is never an order; what is said next is of one.
func TestNothingSaid(t *testing.T) {
	e := start(t, &Server{})
	e.initialize(all)
	e.open("file:///shop/house.cue", "cue", order1)
	e.open("file:///notes.txt", "plaintext", order1)
	e.open("file:///a.yaml", "yaml", order1)
	e.reported("file:///a.yaml", 1)
	for _, m := range e.aside {
		if m["method"] == "textDocument/publishDiagnostics" {
			t.Errorf("%v", m["params"])
		}
	}
}

// TestTyping changes a document letter by letter: nothing is said of an older
// version after a newer one, and the last is reported.
func TestTyping(t *testing.T) {
	e := start(t, &Server{})
	e.initialize(all)
	const uri = "file:///a.yaml"
	e.open(uri, "yaml", strings.Replace(order1, "Otterborne", "", 1))
	version := 1
	for i, letter := range "Otterborne" {
		version++
		at := object{"line": 1, "character": 8 + i}
		e.change(uri, version, object{"range": object{"start": at, "end": at}, "text": string(letter)})
	}
	if d := cmp.Diff(said1, e.reported(uri, version).lines()); d != "" {
		t.Error(d)
	}
	last := 0
	for _, m := range e.aside {
		if m["method"] == "textDocument/publishDiagnostics" {
			r := as[report](t, m["params"])
			if *r.Version < last {
				t.Errorf("version %d was reported after %d", *r.Version, last)
			}
			last = *r.Version
		}
	}
	e.change(uri, version+1, object{"text": strings.Replace(order1, "Otterborne", "Otterbourne", 1)})
	if d := cmp.Diff(said1[1:], e.reported(uri, version+1).lines()); d != "" {
		t.Error(d)
	}
}

// TestHalfTyped adds a field at the end of an order, letter by letter: what was found
// before stays, beside what is said of the letters.
func TestHalfTyped(t *testing.T) {
	for _, c := range []struct{ uri, language, text, typed, before string }{
		{"file:///a.yaml", "yaml", order1, "notes: x", ""},
		{"file:///a.json", "json", `{"order": "1", "units": "in", "market": "CA", "cloths": {}, "items": [{"item": "napkin"}]}`, `, "notes": "x"`, "}"},
		{"file:///a.cue", "cue", "order: \"1\"\nunits: \"in\"\nmarket: \"CA\"\ncloths: {}\nitems: [{item: \"napkin\"}]\n", `notes: "x"`, ""},
	} {
		t.Run(c.language, func(t *testing.T) {
			e := start(t, &Server{})
			e.initialize(all)
			at := strings.LastIndex(c.text, c.before)
			e.open(c.uri, c.language, c.text)
			e.reported(c.uri, 1)
			half := 0
			for i := range c.typed {
				text := c.text[:at] + c.typed[:i+1] + c.text[at:]
				e.change(c.uri, i+2, object{"text": text})
				lines := strings.Join(e.reported(c.uri, i+2).lines(), "\n")
				if !strings.Contains(lines, "Ask where it goes.") {
					t.Errorf("%q: %s", text, lines)
				}
				if strings.Contains(lines, "form/flawed") {
					half++
				}
			}
			if half < 3 {
				t.Errorf("only %d of the texts can't be read", half)
			}
		})
	}
}

// TestHouse edits house rules while an order under them is open.
// openUnderHouses is open, with house rules.
func openUnderHouses() (*lint.Checker, error) {
	c, err := open()
	if err == nil {
		c.Houses = &house.Finder{Tables: c.Tables, Known: lint.Settable(c.Rules)}
	}
	return c, err
}

// TestHouseAlone has house rules open, and no order under them.
func TestHouseAlone(t *testing.T) {
	path := filepath.Join(t.TempDir(), house.FileName)
	at := "file://" + filepath.ToSlash(path)
	write := func(text string) {
		t.Helper()
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	e := start(t, &Server{Open: openUnderHouses})
	e.initialize(all)
	said := func(what, want string) {
		t.Helper()
		if lines := e.reported(at, 0).lines(); len(lines) != 1 || !strings.HasPrefix(lines[0], want) {
			t.Errorf("%s: %q", what, lines)
		}
	}
	wrong := "clearence: \"3/8 in\"\n"
	write(wrong)
	e.open(at, "cue", wrong)
	said("opened", "0:0-0:9 1 <nil> cutgate ")

	for version, want := range []string{"0:9-0:10 1 <nil> cutgate ", "0:8-0:15 1 <nil> cutgate "} {
		text := []string{"levels: {]\n", "levels: nothing\n"}[version]
		write(text)
		e.change(at, version+2, object{"text": text})
		e.tell("textDocument/didSave", object{"textDocument": object{"uri": at}})
		if lines := e.reported(at, 0).lines(); len(lines) > 0 {
			t.Errorf("what was wrong is left: %q", lines)
		}
		said(text, want)
	}

	write("levels: {}\n")
	e.tell("textDocument/didSave", object{"textDocument": object{"uri": at}})
	if lines := e.reported(at, 0).lines(); len(lines) > 0 {
		t.Errorf("left when it was mended: %q", lines)
	}
}

func TestHouse(t *testing.T) {
	dir := filepath.Join(t.TempDir(), "weiß ü")
	if err := os.Mkdir(dir, 0o777); err != nil {
		t.Fatal(err)
	}
	path := filepath.Join(dir, house.FileName)
	write := func(text string) {
		t.Helper()
		if err := os.WriteFile(path, []byte(text), 0o666); err != nil {
			t.Fatal(err)
		}
	}
	root := "file://" + strings.ReplaceAll(filepath.ToSlash(dir), " ", "%20") // ü as it is
	uri, at := root+"/a.yaml", root+"/house.cue"
	write(`levels: "head/market-odd": "off"`)
	e := start(t, &Server{Open: openUnderHouses})
	e.initialize(all)
	asked := e.next("the registration", func(m map[string]any) bool { return m["method"] == "client/registerCapability" })
	e.send(object{"id": asked["id"], "result": nil})
	registration := as[struct {
		Params struct {
			Registrations []struct {
				Method          string
				RegisterOptions struct {
					Watchers []struct{ GlobPattern string }
				}
			}
		}
	}](t, asked).Params.Registrations[0]
	if registration.Method != "workspace/didChangeWatchedFiles" || registration.RegisterOptions.Watchers[0].GlobPattern != "**/house.cue" {
		t.Errorf("%+v", registration)
	}
	e.open(uri, "yaml", order1)
	if d := cmp.Diff(said1[:1], e.reported(uri, 1).lines()); d != "" {
		t.Errorf("under a house: %s", d)
	}

	e.open(at, "cue", "levels: {}")
	write(`levels: {}`)
	e.tell("textDocument/didSave", object{"textDocument": object{"uri": at}})
	if d := cmp.Diff(said1, e.reported(uri, 1).lines()); d != "" {
		t.Errorf("after the house was saved: %s", d)
	}

	wrong := "levels: {}\nclearence: \"3/8 in\"\n"
	write(wrong)
	e.change(at, 2, object{"text": wrong})
	e.tell("textDocument/didSave", object{"textDocument": object{"uri": at}})
	got := e.reported(uri, 1).Diagnostics
	if len(got) != 1 || got[0].Severity != 1 || !strings.HasPrefix(got[0].Message, "The orders under "+path+" are not checked until it is fixed.\n"+path+":2:1: ") || got[0].Range.String() != "0:0-0:11" {
		t.Errorf("under a wrong house: %+v", got)
	}
	said := event[struct {
		Type    int
		Message string
	}](e, "window/showMessage")
	if said.Type != 1 || !strings.HasPrefix(said.Message, path+":2:1: ") {
		t.Errorf("%+v", said)
	}
	if lines := e.reported(at, 0).lines(); len(lines) != 1 || !strings.HasPrefix(lines[0], "1:0-1:9 1 <nil> cutgate ") {
		t.Errorf("in the house: %q", lines)
	}
	e.change(uri, 2, object{"text": order1})
	e.reported(uri, 2)
	for _, m := range e.aside {
		if m["method"] == "window/showMessage" {
			t.Errorf("said twice: %v", m["params"])
		}
	}

	if err := os.Remove(path); err != nil {
		t.Fatal(err)
	}
	e.tell("workspace/didChangeWatchedFiles", object{"changes": []any{object{"uri": at, "type": 3}}})
	if lines := e.reported(at, 0).lines(); len(lines) > 0 {
		t.Errorf("in the house that is gone: %q", lines)
	}
	if d := cmp.Diff(said1, e.reported(uri, 2).lines()); d != "" {
		t.Errorf("without a house: %s", d)
	}
}

// TestHouseDoubted has house rules that anybody may write to: that is said once, and the
// order is checked under them.
func TestHouseDoubted(t *testing.T) {
	if runtime.GOOS == "windows" {
		t.Skip("files have no modes of this kind here")
	}
	dir := t.TempDir()
	path := filepath.Join(dir, house.FileName)
	if err := os.WriteFile(path, []byte(`levels: "head/market-odd": "off"`), 0o600); err != nil {
		t.Fatal(err)
	}
	if err := os.Chmod(path, 0o666); err != nil {
		t.Fatal(err)
	}
	uri := "file://" + filepath.ToSlash(dir) + "/a.yaml"
	e := start(t, &Server{Open: openUnderHouses})
	e.initialize(all)
	e.open(uri, "yaml", order1)
	said := event[struct {
		Type    int
		Message string
	}](e, "window/showMessage")
	if said.Type != 2 || !strings.HasPrefix(said.Message, path+": anybody can change this file (mode 0666)") {
		t.Errorf("%+v", said)
	}
	if d := cmp.Diff(said1[:1], e.reported(uri, 1).lines()); d != "" {
		t.Errorf("under a house: %s", d)
	}
	e.change(uri, 2, object{"text": order1})
	e.tell("textDocument/didSave", object{"textDocument": object{"uri": "file://" + filepath.ToSlash(path)}})
	e.reported(uri, 2)
	for _, m := range e.aside {
		if m["method"] == "window/showMessage" {
			t.Errorf("said twice: %v", m["params"])
		}
	}
}

// TestSeverities has one for every level.
func TestSeverities(t *testing.T) {
	if len(severities) != len(finding.Levels())+1 {
		t.Errorf("%d severities", len(severities))
	}
}

// TestDaily takes a new checker when the day has changed.
func TestDaily(t *testing.T) {
	opened := 0
	e := start(t, &Server{Open: func() (*lint.Checker, error) {
		c, err := open()
		c.Today = "2001-01-01"
		opened++
		return c, err
	}})
	e.initialize(all)
	e.open("file:///a.yaml", "yaml", order1)
	e.reported("file:///a.yaml", 1)
	if opened != 2 {
		t.Errorf("%d checkers", opened)
	}
}

// TestSlow has a version that takes long to check: it is not reported once there
// is a newer one, and a question about it can be called off.
func TestSlow(t *testing.T) {
	began, goOn := make(chan bool), make(chan bool)
	slow := &rule.Rule{ID: "head/slow", Level: finding.Note, Run: func(p *rule.Pass) {
		if p.Order.Client.Value == "Slow" {
			began <- true
			<-goOn
			p.Report(finding.Finding{At: p.Order.Client.At, Message: "At last."})
		}
	}}
	e := start(t, &Server{Open: func() (*lint.Checker, error) { return lint.New([]*rule.Rule{client, slow}) }})
	e.initialize(all)
	const uri = "file:///a.yaml"
	e.open(uri, "yaml", order1)
	e.reported(uri, 1)
	e.change(uri, 2, object{"text": strings.Replace(order1, "Otterborne Hall", "Slow", 1)})
	<-began
	hover := object{"textDocument": object{"uri": uri}, "position": object{"line": 1, "character": 10}}
	e.send(object{"id": "waits", "method": "textDocument/hover", "params": hover})
	e.tell("$/cancelRequest", object{"id": "waits"})
	e.change(uri, 3, object{"text": order1})
	if got := e.ask("textDocument/hover", hover); got["result"] == nil {
		t.Errorf("a question about a newer version: %v", got)
	}
	goOn <- true
	const cancelled = -32800 // by the protocol's specification
	if m := e.next("the answer", func(m map[string]any) bool { return m["id"] == "waits" }); failure(m) != cancelled {
		t.Errorf("a question that was called off: %v", m)
	}
	if d := cmp.Diff(said1[:1], e.reported(uri, 3).lines()); d != "" {
		t.Error(d)
	}
	for _, m := range e.aside {
		if m["method"] == "textDocument/publishDiagnostics" {
			t.Errorf("reported too: %v", as[report](t, m["params"]).lines())
		}
	}
}

// TestBroken has a server that is broken itself: it says so and serves on.
func TestBroken(t *testing.T) {
	e := start(t, &Server{Open: func() (*lint.Checker, error) {
		c, err := open()
		c.Loader = nil
		return c, err
	}})
	e.initialize(all)
	e.open("file:///a.yaml", "yaml", order1)
	type message struct {
		Type    int
		Message string
	}
	if m := event[message](e, "window/logMessage"); m.Type != 1 || !strings.HasPrefix(m.Message, "checking /a.yaml crashed: ") {
		t.Errorf("%+v", m)
	}
	const internal = -32603 // by JSON-RPC
	for range 2 {
		got := e.ask("textDocument/completion", object{"textDocument": object{"uri": "file:///a.yaml"}, "position": object{"line": 0, "character": 0}})
		if failure(got) != internal {
			t.Errorf("%v", got)
		}
	}
}
