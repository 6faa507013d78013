package house_test

import (
	"errors"
	"os"
	"os/exec"
	"path/filepath"
	"strings"
	"testing"
	"time"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/house"
)

// served makes the test itself the process that evaluates rules.
const served = "CUTGATE_TEST_SERVE"

func TestMain(m *testing.M) {
	if os.Getenv(served) != "" {
		if err := house.Serve(os.Stdin, os.Stdout, os.Exit); err != nil {
			os.Exit(1)
		}
		os.Exit(0)
	}
	os.Exit(m.Run())
}

// serving is the test's own process, started by a command that tests may spoil.
func serving() *exec.Cmd {
	c := exec.Command(os.Args[0])
	c.Env = append(os.Environ(), served+"=1")
	return c
}

// finder finds the one house of that text.
func finder(t *testing.T, text string) *house.Finder {
	t.Helper()
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, house.FileName), []byte(text), 0o600); err != nil {
		t.Fatal(err)
	}
	t.Chdir(dir)
	return &house.Finder{File: house.FileName, Tables: usual(), Known: known, Apart: serving}
}

// TestBounds holds that what could grow without bound is refused before it is evaluated,
// at its place and at once.
func TestBounds(t *testing.T) {
	rule := func(check string) string { return "rules: x: {\n\tcheck: " + check + "\n\tmessage: \"m\"\n}\n" }
	double := func(first, next string, n int) string {
		text := "_a0: " + first + "\n"
		for i := range n {
			text += strings.NewReplacer("NEW", "_a"+string(rune('1'+i)), "OLD", "_a"+string(rune('0'+i))).Replace("NEW: " + next + "\n")
		}
		return text
	}
	for name, c := range map[string]struct{ text, want string }{
		"a repeated text, squared": {"import \"strings\"\n_a: \"abcdefghij\"*100000\n" + rule(`notes: strings.Replace(_a, "a", _a, -1)`), "house.cue:2:5: this can grow to more than 65536"},
		"a text in itself":         {"import \"strings\"\n" + double(`"aaaaaaaaaaaaaaaaaaaa"`, `strings.Replace(OLD, "a", OLD, -1)`, 4) + rule("notes: _a4"), "this can grow"},
		"nested interpolation":     {double("\""+strings.Repeat("a", 200)+"\"", `"\(OLD)\(OLD)\(OLD)\(OLD)\(OLD)\(OLD)\(OLD)\(OLD)"`, 4) + rule("notes: _a4"), "house.cue:4:6: this can grow"},
		"a range":                  {"import \"list\"\n" + rule("cuts: list.MaxItems(len(list.Range(0,100000000,1)))"), "house.cue:3:33: this can grow"},
		"a range without numbers":  {"import \"list\"\n" + rule("{quantity: _, cuts: list.MaxItems(len(list.Range(0, quantity, 1)))}"), "this can grow"},
		"a repeated list":          {rule("cuts: [1, 2]*1000000"), "this can grow"},
		"repeated by a field":      {rule(`{quantity: _, notes: "ab"*quantity}`), "this can grow"},
		"joined texts":             {"import \"strings\"\n_a: \"" + strings.Repeat("a", 300) + "\"\n" + rule(`notes: strings.Join(strings.Split(_a, ""), _a)`), "this can grow"},
		"digits":                   {"import \"math\"\n" + rule("quantity: <math.Pow(12345, 100000)"), "this can grow"},
		"eight choices of four":    {double("{b: 1} | {b: 2} | {b: 3} | {b: 4}", "{c: 1} | {c: 2} | {c: 3} | {c: 4}", 7) + rule("_a0 & _a1 & _a2 & _a3 & _a4 & _a5 & _a6 & _a7"), "house.cue:10:9: these choices have more than 500 combinations"},
		"a little of each":         {"import \"strings\"\nimport \"list\"\n" + rule(`{room: _, notes: !="\(room)" & strings.MaxRunes(2*40), cuts: list.MaxItems(len(list.Range(0, 3, 1))+40)}`), ""},
	} {
		t.Run(name, func(t *testing.T) {
			start := time.Now()
			h, err := finder(t, c.text).In(".")
			if took := time.Since(start); took > 8*time.Second {
				t.Errorf("it took %v", took)
			}
			if c.want == "" {
				if err != nil || len(h.Rules) != 1 {
					t.Errorf("it is refused: %v", err)
				}
				return
			}
			if wrong := (*house.Error)(nil); !errors.As(err, &wrong) || !strings.Contains(err.Error(), c.want) {
				t.Errorf("the error is %v, want %q", err, c.want)
			}
		})
	}
}

// TestApart holds rules that are evaluated in a process of their own to find what they
// find in this one, in the same words.
func TestApart(t *testing.T) {
	const rules = `rules: "a-b": {
	check: {room: _, notes: !="\(room)", finished: {length: _, width: <=(length+0), diameter!: _}, hems: bottom: turn: >=5000 | >=6000}
	message: "{finished.width} {hems.bottom.turn}"
}
rules: "b-c": {when: finished: width: >(1+1000000), check: room: "nowhere", message: "m"}
rules: "c-d": {check: quantity: >=(1+1000), message: "{quantity}"}
units: "mm"
`
	var lists [2][]any
	started := 0
	for i := range lists {
		f := finder(t, rules)
		if f.Apart = nil; i == 1 {
			f.Apart = func() *exec.Cmd { started++; return serving() }
		}
		h, err := f.In(".")
		if err != nil {
			t.Fatal(err)
		}
		for _, s := range sheets(t, h, curtains) {
			for _, r := range h.Rules {
				for _, got := range agreed(t, r, s) {
					lists[i] = append(lists[i], got)
				}
				if len(lists[1]) == 1 && started > 1 {
					t.Error("the file is read again for its first order")
				}
			}
		}
	}
	if d := cmp.Diff(lists[0], lists[1]); d != "" || len(lists[0]) == 0 {
		t.Errorf("%d findings in this process: (-here +apart)\n%s", len(lists[0]), d)
	}
}

// TestEnded holds that a process which does not answer, or ends, is reported at the rule's
// line, and that nothing waits for it again.
func TestEnded(t *testing.T) {
	text := "name: \"Tern\"\nrules: \"a-b\": {\n\tcheck: {room: _, notes: !=\"\\(room)\"}\n\tmessage: \"m\"\n}\n"
	for name, c := range map[string]struct {
		command []string
		want    string
	}{
		"ends at once":  {[]string{"true"}, "more than 512 MiB of memory, so it was stopped"},
		"never answers": {[]string{"sleep", "60"}, "longer than 10s, so it was stopped"},
	} {
		t.Run(name, func(t *testing.T) {
			if _, err := exec.LookPath(c.command[0]); err != nil {
				t.Skip(err)
			}
			f := finder(t, text)
			f.Apart = func() *exec.Cmd { return exec.Command(c.command[0], c.command[1:]...) }
			for range 2 {
				start := time.Now()
				_, err := f.In(".")
				if err == nil || !strings.HasPrefix(err.Error(), "house.cue:3:1: ") || !strings.Contains(err.Error(), c.want) {
					t.Errorf("the error is %v", err)
				}
				if took := time.Since(start); took > 15*time.Second {
					t.Errorf("it took %v", took)
				}
			}
		})
	}
}

// TestOrderDeadline holds that a process which reads house rules, and then never answers
// for an order, is ended after two seconds, at the rule's line, and is not waited for again.
func TestOrderDeadline(t *testing.T) {
	f := finder(t, "rules: \"a-b\": {\n\tcheck: {room: _, notes: !=\"\\(room)\"}\n\tmessage: \"m\"\n}\n")
	f.Apart = func() *exec.Cmd {
		return exec.Command("sh", "-c", `read request; echo '{"Line":2}'; echo '{}'; sleep 60`)
	}
	if _, err := exec.LookPath("sh"); err != nil {
		t.Skip(err)
	}
	h, err := f.In(".")
	if err != nil {
		t.Fatal(err)
	}
	list := sheets(t, h, curtains)
	for i, s := range append(list, list...) {
		start := time.Now()
		_, err := h.Rules[0].Check(s)
		if err == nil || !strings.HasPrefix(err.Error(), "house.cue:1:1: ") || !strings.Contains(err.Error(), "longer than 2s, so it was stopped") {
			t.Errorf("the error is %v", err)
		}
		if took := time.Since(start); took > 10*time.Second || i > 0 && took > time.Second {
			t.Errorf("order %d took %v", i, took)
		}
	}
}
