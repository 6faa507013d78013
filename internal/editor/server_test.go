package editor

import (
	"errors"
	"fmt"
	"io"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"
)

// Error codes as the protocol's specification has them, and JSON-RPC's.
const (
	notInitialized = -32002
	invalidRequest = -32600
	noSuchMethod   = -32601
	invalidParams  = -32602
	notJSON        = -32700
)

// failure is the code of an error response; 0 for a result.
func failure(m map[string]any) int {
	e, ok := m["error"].(map[string]any)
	if !ok {
		return 0
	}
	return int(e["code"].(float64))
}

func TestLifecycle(t *testing.T) {
	e := start(t, &Server{})
	if got := failure(e.ask("textDocument/hover", object{})); got != notInitialized {
		t.Errorf("a request before initialize: %d", got)
	}
	e.open("file:///a.yaml", "yaml", "order: 1\n") // passed over
	start := object{"processId": nil, "rootUri": nil, "capabilities": object{"general": object{"positionEncodings": []string{"utf-8", "utf-16"}}}}
	got := as[struct {
		Result struct {
			Capabilities map[string]any
			ServerInfo   struct{ Name string }
		}
	}](t, e.ask("initialize", start)).Result
	want := map[string]any{
		"positionEncoding":   "utf-16",
		"textDocumentSync":   map[string]any{"openClose": true, "change": 2.0, "save": true},
		"hoverProvider":      true,
		"inlayHintProvider":  true,
		"completionProvider": map[string]any{"triggerCharacters": []any{":", " ", "{", ",", `"`}},
	}
	if d := cmp.Diff(want, got.Capabilities); d != "" || got.ServerInfo.Name != "cutgate" {
		t.Errorf("%s: %s", got.ServerInfo.Name, d)
	}
	e.tell("initialized", object{})
	for _, c := range []struct {
		method string
		params any
		want   int
	}{
		{"initialize", start, invalidRequest},
		{"textDocument/rename", object{"textDocument": object{"uri": "file:///a.yaml"}, "position": object{"line": 0, "character": 0}, "newName": "x"}, noSuchMethod},
		{"house/nonsense", object{}, noSuchMethod},
		{"$/nonsense", object{}, noSuchMethod},
		{"textDocument/hover", object{"textDocument": object{"uri": "file:///a.yaml"}, "position": object{"line": 0, "character": 0}}, 0},
		{"textDocument/hover", []int{1}, invalidParams},
	} {
		if got := failure(e.ask(c.method, c.params)); got != c.want {
			t.Errorf("%s: error %d, want %d", c.method, got, c.want)
		}
	}
	// What nobody waits for is passed over, whatever it is.
	e.tell("$/cancelRequest", object{"id": 999})
	e.tell("$/cancelRequest", object{"id": "x"})
	e.tell("$/cancelRequest", object{})
	e.tell("$/setTrace", object{"value": "off"})
	e.tell("workspace/didChangeConfiguration", object{"settings": nil})
	e.tell("textDocument/didChange", object{"textDocument": object{"uri": "file:///never-opened.yaml", "version": 2}, "contentChanges": []any{object{"text": ""}}})
	e.tell("textDocument/didClose", object{"textDocument": object{"uri": "file:///never-opened.yaml"}})
	e.tell("textDocument/didOpen", object{"textDocument": 7})
	e.tell("nonsense", nil)
	if m := e.ask("shutdown", nil); m["error"] != nil || len(m) != 3 || m["result"] != nil {
		t.Errorf("shutdown: %v", m)
	}
	if got := failure(e.ask("textDocument/hover", object{})); got != invalidRequest {
		t.Errorf("a request after shutdown: %d", got)
	}
	e.tell("exit", nil)
	if err := <-e.end; err != nil {
		t.Error(err)
	}
}

// TestFraming goes by the base protocol: headers, a blank line, as many bytes as
// the one of them says.
func TestFraming(t *testing.T) {
	e := start(t, &Server{})
	e.write(`{"jsonrpc": "2.0", "id": 1, `)
	if m := e.next("an answer", func(map[string]any) bool { return true }); failure(m) != notJSON || m["id"] != nil {
		t.Errorf("what is no JSON: %v", m)
	}
	e.write(`{"jsonrpc": "2.0", "id": 1}`)
	if m := e.next("an answer", func(map[string]any) bool { return true }); failure(m) != invalidRequest {
		t.Errorf("what is no message: %v", m)
	}
	// In pieces, with the other header, with bytes that are more than characters.
	body := `{"jsonrpc":"2.0","id":"ü","method":"initialize","params":{"processId":null,"rootUri":null,"capabilities":{}}}`
	message := fmt.Sprintf("Content-Type: application/vscode-jsonrpc; charset=utf-8\r\nContent-Length: %d\r\n\r\n%s", len(body), body)
	for i := range len(message) {
		if _, err := io.WriteString(e.to, message[i:i+1]); err != nil {
			t.Fatal(err)
		}
	}
	e.next("the answer", func(m map[string]any) bool { return m["id"] == "ü" && m["error"] == nil })
}

// TestLeaving ends without shutdown: with exit, with the end of the input, and with
// a message that has no length.
func TestLeaving(t *testing.T) {
	for name, leave := range map[string]func(*editor){
		"exit":                    func(e *editor) { e.tell("exit", nil) },
		"exit before initialize":  func(e *editor) { e.tell("exit", nil) },
		"the end of the input":    func(e *editor) { e.to.Close() },
		"half a message":          func(e *editor) { io.WriteString(e.to, "Content-Length: 10\r\n\r\n{"); e.to.Close() },
		"a message of no length":  func(e *editor) { io.WriteString(e.to, "Content-Type: x\r\n\r\n{}") },
		"a message of odd length": func(e *editor) { io.WriteString(e.to, "Content-Length: many\r\n\r\n{}") },
	} {
		t.Run(name, func(t *testing.T) {
			e := start(t, &Server{})
			if !strings.Contains(name, "before") {
				e.initialize(all)
				e.open("file:///a.yaml", "yaml", order1)
			}
			leave(e)
			if err := <-e.end; !errors.Is(err, ErrLeft) {
				t.Error(err)
			}
		})
	}
}

// TestEndAfterShutdown ends the input in place of exit.
func TestEndAfterShutdown(t *testing.T) {
	e := start(t, &Server{})
	e.initialize(all)
	e.ask("shutdown", nil)
	e.to.Close()
	if err := <-e.end; err != nil {
		t.Error(err)
	}
}
