package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"io"
	"net/textproto"
	"os"
	"path/filepath"
	"strconv"
	"strings"
	"testing"
	"unicode"
)

// A name that would set the title of a terminal, colour what follows, begin a line of the
// program's own and turn the reading order round.
const (
	hostile      = "x\x1b]0;all clear\x07\x1b[31m\r\ncutgate: all clear\u202e\u2066\u2028\u0085\u009b2J\x7f\u200f\ufeff"
	hostileInCUE = `"x\u001b]0;all clear\u0007\u001b[31m\r\ncutgate: all clear\u202e\u2066\u2028\u0085\u009b2J\u007f\u200f\ufeff"`
)

// TestNamesAreHarmless prints names that would speak to a terminal through every command:
// what comes out for people has no character in it that moves, colours or turns anything,
// and each finding is one line of the report that promises so.
func TestNamesAreHarmless(t *testing.T) {
	t.Chdir(t.TempDir())
	folder := "orders" + hostile
	if err := os.Mkdir(folder, 0o777); err != nil {
		t.Skip(err)
	}
	name := filepath.Join(folder, "bath"+hostile+".json")
	inJSON, err := json.Marshal(hostile)
	if err != nil {
		t.Fatal(err)
	}
	text := strings.ReplaceAll(`{"order": NAME, "client": NAME, "due": NAME, "notes": NAME, "units": "in", NAME: 1,
"cloths": {NAME: {"name": NAME, "width": 60, "selvedge": "1/2", "fiber": {NAME: 100}}},
"waive": [{"rule": "fabric", "because": NAME, "by": NAME}, {"rule": NAME, "because": "as agreed"}],
"items": [{"item": "shower curtain", "id": NAME, "room": NAME, "notes": NAME, "cloth": NAME,
"finished": {"width": 84, "length": 78}, "hems": {"top": {"turn": "1 1/2"}, "bottom": {"turn": 3}, "sides": {"turn": "1/2"}},
"join": {"layout": "center and sides", "seam": "flat felled", "allowance": "5/8"},
"cuts": [{"piece": "center", "width": 60, "length": "84", "count": 1}, {"piece": NAME, "width": 3}]}]}`, "NAME", string(inJSON))
	write(t, name, text)
	table := filepath.Join(folder, "table"+hostile+".csv")
	write(t, table, "order,units,item,id,cloth,finished width,\""+hostile+"\"\nTR-1,in,napkin,\""+hostile+"\",lawn,wide,1\n")
	broken := filepath.Join(folder, "broken"+hostile+".yaml")
	write(t, broken, "order: {\n")
	write(t, filepath.Join(folder, "fixed"+hostile+".yaml"), strings.Replace(wrongOrder, "TR-3\n", "TR-3\nclient: \"\u202eevil\" # \u2066\n", 1))
	for _, dir := range []string{"ruled", "misruled"} {
		if err := os.Mkdir(dir, 0o777); err != nil {
			t.Fatal(err)
		}
		write(t, filepath.Join(dir, "order.json"), text)
	}
	write(t, "ruled/house.cue", "name: "+hostileInCUE+"\nrules: \"a-b\": {check: finished: width: 1, message: "+hostileInCUE+", because: "+hostileInCUE+"}\n")
	write(t, "misruled/house.cue", "levels: {"+hostileInCUE+": \"off\", \"hem\": "+hostileInCUE+"}\n"+hostileInCUE+": 1\n")
	list := filepath.Join(folder, "list"+hostile)
	write(t, list, name+"\x00gone"+hostile+".yaml\x00")
	write(t, "known"+hostile, "nothing")
	write(t, "kinds.cue", "kinds: {"+hostileInCUE+": {}, stool: {like: "+hostileInCUE+", choices: ["+hostileInCUE+"], steps: [{name: "+hostileInCUE+", formula: "+hostileInCUE+"}]}}\n")
	for _, args := range [][]string{
		{"lay", folder}, {"lay", name}, {"lay", "gone" + hostile}, {"lay", "--cloth", hostile, name}, {"lay", "--turn", hostile, name}, {"lay", "--mode", hostile, name},
		{"kinds", hostile}, {"kinds", "--house", "kinds.cue"}, {"kinds", "--house", "kinds.cue", "stool"},
		{"check", folder}, {"check", "--as", "lines", folder}, {"check", name}, {"check", "gone" + hostile}, {"check", "gone" + hostile + ".yaml"},
		{"check", "--paths", list}, {"check", "--paths", "gone" + hostile}, {"check", "--known", "known" + hostile, name},
		{"check", "--save-known", "known" + hostile, name}, {"check", "--save-known", name, name}, {"check", "--as", hostile}, {"check", "--hold-at", hostile},
		{"check", "--color", hostile}, {"check", "--largest", hostile}, {"check", "--largest", "1b", folder}, {"check", "--reads", hostile, name}, {"check", "--" + hostile},
		{"check", "ruled"}, {"check", "misruled"}, {"check", "--house", "gone" + hostile, name}, {"check", "--house", name, name}, {"check", "--as", "lines", "ruled"},
		{"ticket", name}, {"ticket", folder}, {"ticket", "ruled"}, {"ticket", "gone" + hostile},
		{"house"}, {"house", "ruled"}, {"house", "misruled"}, {"house", "gone" + hostile}, {"house", "--worked", name}, {"house", "--worked", "ruled"}, {"house", "--as", hostile},
		{"rules", hostile}, {"new", hostile}, {"new", "--as", hostile, "curtain"}, {"completion", hostile}, {"help", hostile}, {hostile}, {"editor", "--" + hostile},
		{"correct", "--diff", folder}, {"correct", "--diff", "--fill", "--likely", folder}, {"correct", folder}, {"correct", "--fill", "--likely", folder}, {"correct", "gone" + hostile},
		{"__complete", "check", folder}, {"__complete", "rules", hostile},
	} {
		out, said := runFor(t, args)
		for what, text := range map[string]string{"prints": out, "says": said} {
			if i := strings.IndexFunc(text, speaks); i >= 0 {
				t.Errorf("%.60q %s %q", args, what, text[max(0, i-40):min(len(text), i+20)])
			}
			for line := range strings.Lines(text) {
				if what == "prints" && strings.HasPrefix(line, "cutgate: all clear") {
					t.Errorf("%.60q %s a line of the name's own", args, what)
				}
				if what == "says" && args[0] != "__complete" && (!strings.HasPrefix(line, "cutgate: ") || strings.HasPrefix(line, "cutgate: all clear")) && !strings.Contains(line, " → ") && !strings.Contains(line, " left") {
					t.Errorf("%.60q %s a line of the name's own: %q", args, what, line)
				}
			}
		}
		if len(args) > 2 && args[2] == "lines" {
			for line := range strings.Lines(out) {
				if !strings.HasSuffix(line, "]\n") || !strings.HasPrefix(line, "orders") && !strings.HasPrefix(line, "ruled") {
					t.Errorf("%.60q prints a line that is no finding: %q", args, line)
				}
			}
		}
	}
}

// TestEditorIsHarmless opens an order with such names in an editor and asks all that may
// be asked of it: no text that is shown to people moves, colours or turns anything.
func TestEditorIsHarmless(t *testing.T) {
	t.Chdir(t.TempDir())
	inJSON, err := json.Marshal(hostile)
	if err != nil {
		t.Fatal(err)
	}
	text := strings.ReplaceAll(`{"order": NAME, "client": NAME, "units": "in", NAME: 1,
"cloths": {NAME: {"name": NAME, "width": 60, "selvedge": "1/2", "fiber": {NAME: 100}}},
"waive": [{"rule": NAME, "because": "as agreed"}],
"items": [{"item": "shower curtain", "id": NAME, "cloth": NAME, "finished": {"width": 84, "length": 78},
"hems": {"top": {"turn": "1 1/2"}, "bottom": {"turn": 3}, "sides": {"turn": "1/2"}},
"join": {"layout": "center and sides", "seam": "flat felled", "allowance": "5/8"},
"cuts": [{"piece": "center", "width": 60, "length": "84", "count": null}, {"piece": NAME, "width": 3}]}]}`, "NAME", string(inJSON))
	write(t, "house.cue", "name: "+hostileInCUE+"\nrules: \"a-b\": {check: finished: width: 1, message: "+hostileInCUE+", because: "+hostileInCUE+"}\nlevels: "+hostileInCUE+": \"off\"\n")
	for _, houses := range []string{"--no-house", "--house=house.cue"} {
		in, to, err := os.Pipe()
		if err != nil {
			t.Fatal(err)
		}
		from, out, err := os.Pipe()
		if err != nil {
			t.Fatal(err)
		}
		done := make(chan int, 1)
		go func() {
			done <- run([]string{"editor", houses}, streams{in, out, out})
			out.Close()
		}()
		send := func(message map[string]any) {
			message["jsonrpc"] = "2.0"
			body, err := json.Marshal(message)
			if err != nil {
				t.Error(err)
			}
			fmt.Fprintf(to, "Content-Length: %d\r\n\r\n%s", len(body), body)
		}
		type object = map[string]any
		send(object{"id": 0, "method": "initialize", "params": object{"capabilities": object{}}})
		send(object{"method": "initialized", "params": object{}})
		name := "file:///orders/a.json"
		send(object{"method": "textDocument/didOpen", "params": object{"textDocument": object{"uri": name, "languageId": "json", "version": 1, "text": text}}})
		last := 0
		ask := func(method string, params object) {
			last++
			params["textDocument"] = object{"uri": name}
			send(object{"id": last, "method": "textDocument/" + method, "params": params})
		}
		all := object{"start": object{"line": 0, "character": 0}, "end": object{"line": 9, "character": 0}}
		for line := range 7 {
			for character := 0; character < 120; character += 10 {
				at := object{"line": line, "character": character}
				ask("hover", object{"position": at})
				ask("completion", object{"position": at})
			}
		}
		ask("codeAction", object{"range": all, "context": object{"diagnostics": []any{}}})
		ask("inlayHint", object{"range": all})
		asked := last
		r := bufio.NewReader(from)
		told, shown := false, 0
		for asked > 0 || !told {
			head, err := textproto.NewReader(r).ReadMIMEHeader()
			if err != nil {
				t.Fatal(err)
			}
			n, err := strconv.Atoi(head.Get("Content-Length"))
			if err != nil {
				t.Fatal(err)
			}
			body := make([]byte, n)
			if _, err := io.ReadFull(r, body); err != nil {
				t.Fatal(err)
			}
			var m object
			if err := json.Unmarshal(body, &m); err != nil {
				t.Fatal(err)
			}
			if id, ok := m["id"].(float64); ok && id > 0 {
				asked--
			}
			told = told || m["method"] == "textDocument/publishDiagnostics"
			forPeople("", m, func(key, text string) {
				shown++
				if i := strings.IndexFunc(text, speaks); i >= 0 {
					t.Errorf("%s: %v %s: %q", houses, m["method"], key, text[max(0, i-40):min(len(text), i+20)])
				}
			})
		}
		if shown < 20 {
			t.Errorf("%s: only %d texts are shown", houses, shown)
		}
		send(object{"id": last + 1, "method": "shutdown"})
		send(object{"method": "exit"})
		go func() { _, _ = io.Copy(io.Discard, from) }()
		if code := <-done; code != 0 {
			t.Errorf("%s: exit code %d", houses, code)
		}
		to.Close()
	}
}

// forPeople calls show with each text of a message that an editor shows to people. What
// is to be written into the order, and the names of files, are not such.
func forPeople(key string, v any, show func(key, text string)) {
	switch v := v.(type) {
	case map[string]any:
		for k, v := range v {
			switch k {
			case "newText", "insertText", "filterText", "sortText", "uri", "data", "edit", "textEdit":
			default:
				forPeople(k, v, show)
			}
		}
	case []any:
		for _, v := range v {
			forPeople(key, v, show)
		}
	case string:
		show(key, v)
	}
}

// speaks reports whether a terminal or an editor would do something else with a
// character than to show it. Lines may end.
func speaks(r rune) bool {
	return r != '\n' && r != '\t' && (unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || r == '\u2028' || r == '\u2029')
}

// runFor runs the program and returns what it prints, and what it says on standard
// error.
func runFor(t *testing.T, args []string) (out, said string) {
	t.Helper()
	open := func(name string) *os.File {
		f, err := os.OpenFile(filepath.Join(t.TempDir(), name), os.O_RDWR|os.O_CREATE|os.O_TRUNC, 0o600)
		if err != nil {
			t.Fatal(err)
		}
		return f
	}
	in, stdout, stderr := open("in"), open("out"), open("err")
	run(args, streams{in, stdout, stderr})
	in.Close()
	stdout.Close()
	stderr.Close()
	return read(t, stdout.Name()), read(t, stderr.Name())
}
