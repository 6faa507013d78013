package main

import (
	"encoding/json"
	"os"
	"path/filepath"
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
	for _, args := range [][]string{
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
			if i := strings.IndexFunc(text, func(r rune) bool {
				return r != '\n' && r != '\t' && (unicode.IsControl(r) || unicode.Is(unicode.Cf, r) || r == '\u2028' || r == '\u2029')
			}); i >= 0 {
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
