package lint_test

import (
	"errors"
	"fmt"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/lint"
	"cutgate/internal/load"
)

// listed says what the inputs are, a line each.
func listed(in *lint.Inputs, dir string) []string {
	var list []string
	for i, err := range in.All() {
		name := strings.TrimPrefix(i.File.Name, dir+string(filepath.Separator))
		switch {
		case err != nil:
			list = append(list, name+": "+strings.ReplaceAll(err.Error(), dir+string(filepath.Separator), ""))
		case i.House:
			list = append(list, name+": a house")
		case i.Unread:
			list = append(list, fmt.Sprintf("%s: %s to read", name, i.Format))
		default:
			list = append(list, fmt.Sprintf("%s: %s %q from line %d, byte %d", name, i.Format, strings.TrimSpace(i.File.Text), i.File.FirstLine, i.File.Base))
		}
	}
	return list
}

func TestInputsOfPaths(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{
		"b.yaml", "a.json", "z.CUE", "house.cue", "readme.txt", ".hidden.yaml", ".git/x.yaml", "empty/readme.txt",
		"sub/house.cue", "sub/c.yml", "order", "sheet.CSV", "sub/~$book.xlsx",
	} {
		path := filepath.Join(dir, name)
		if err := os.MkdirAll(filepath.Dir(path), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(path, nil, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	if err := os.WriteFile(filepath.Join(dir, "sub", "d.jsonl"), []byte("{}\n\n{\"order\": 2, \"units\": \"in\"}\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	if err := os.WriteFile(filepath.Join(dir, "sub", "e.jsonl"), []byte("{}\n{\"at\": 2}\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	const endings = ".yaml, .yml, .json, .jsonl, .ndjson, .cue, .csv, .tsv, .xlsx"
	yaml := load.YAML
	for _, c := range []struct {
		paths []string
		reads *load.Format
		want  []string
	}{
		{[]string{""}, nil, []string{
			"a.json: JSON to read", "b.yaml: YAML to read", "sheet.CSV: CSV to read", "sub/c.yml: YAML to read",
			`sub/d.jsonl: JSON Lines "{}" from line 1, byte 0`, `sub/d.jsonl: JSON Lines "{\"order\": 2, \"units\": \"in\"}" from line 3, byte 4`,
			"sub/e.jsonl: sub/e.jsonl holds no order and was skipped",
			"z.CUE: CUE to read",
		}},
		{[]string{"b.yaml", "gone.yaml", "a.json"}, nil, []string{
			"b.yaml: YAML to read", "gone.yaml: gone.yaml: no such file or directory", "a.json: JSON to read",
		}},
		{[]string{"readme.txt"}, nil, []string{"readme.txt: reading readme.txt: not an order file; order files end in " + endings}},
		{[]string{"order", "a.json"}, &yaml, []string{"order: YAML to read", "a.json: JSON to read"}},
		{[]string{"empty"}, nil, []string{"empty: no file in empty ends in " + endings}},
		{[]string{"house.cue", ".hidden.yaml"}, nil, []string{"house.cue: a house", ".hidden.yaml: YAML to read"}},
	} {
		in := &lint.Inputs{Reads: c.reads, Loader: machinery().loader}
		for _, p := range c.paths {
			in.Paths = append(in.Paths, filepath.Join(dir, p))
		}
		if d := cmp.Diff(c.want, listed(in, dir)); d != "" {
			t.Errorf("%q: (-want +got)\n%s", c.paths, d)
		}
	}
}

// TestInputsExcept passes over files of a folder, however they are named.
func TestInputsExcept(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	for _, name := range []string{"a.json", "b.json", "c.json"} {
		if err := os.WriteFile(name, nil, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	in := &lint.Inputs{Paths: []string{".", "a.json"}, Loader: machinery().loader, Except: []string{"a.json", filepath.Join(dir, "c.json"), ""}}
	if d := cmp.Diff([]string{"b.json: JSON to read", "a.json: JSON to read"}, listed(in, dir)); d != "" {
		t.Error(d)
	}
}

func TestWholeInputs(t *testing.T) {
	dir := t.TempDir()
	if err := os.WriteFile(filepath.Join(dir, "d.jsonl"), []byte("{}\n"), 0o666); err != nil {
		t.Fatal(err)
	}
	in := &lint.Inputs{Paths: []string{filepath.Join(dir, "d.jsonl"), lint.Stdin}, Stdin: strings.NewReader("{}\r\n\n{}"), Loader: machinery().loader, Whole: true}
	var got []string
	for i, err := range in.All() {
		got = append(got, fmt.Sprintf("%s %t %q %v", i.Format, i.Unread, i.File.Text, err))
	}
	want := []string{`JSON Lines true "" <nil>`, `JSON Lines false "{}\r\n\n{}" <nil>`}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

func TestInputsOfStandardInput(t *testing.T) {
	lines := load.JSONLines
	for _, c := range []struct {
		name  string
		in    io.Reader
		reads *load.Format
		want  []string
	}{
		{"YAML", strings.NewReader("order: 1\n"), nil, []string{`standard input: YAML "order: 1" from line 0, byte 0`}},
		{"JSON", strings.NewReader("{\n}\n"), nil, []string{`standard input: JSON "{\n}" from line 0, byte 0`}},
		{"lines", strings.NewReader("{}\n{}\n"), nil, []string{
			`standard input: JSON Lines "{}" from line 1, byte 0`, `standard input: JSON Lines "{}" from line 2, byte 3`,
		}},
		{"lines that come byte by byte", iotest.OneByteReader(strings.NewReader("\n{}\n{}")), nil, []string{
			`standard input: JSON Lines "{}" from line 2, byte 1`, `standard input: JSON Lines "{}" from line 3, byte 4`,
		}},
		{"lines that are said to be", strings.NewReader("oops\n"), &lines, []string{`standard input: JSON Lines "oops" from line 1, byte 0`}},
		{"nothing", strings.NewReader(""), nil, []string{`standard input: YAML "" from line 0, byte 0`}},
		{"a fault", iotest.ErrReader(errors.New("unplugged")), nil, []string{"standard input: reading standard input: unplugged"}},
	} {
		in := &lint.Inputs{Paths: []string{lint.Stdin}, Stdin: c.in, Reads: c.reads, Loader: machinery().loader}
		if d := cmp.Diff(c.want, listed(in, "")); d != "" {
			t.Errorf("%s: (-want +got)\n%s", c.name, d)
		}
	}
}

func TestRunReadsFiles(t *testing.T) {
	dir := t.TempDir()
	path := filepath.Join(dir, "a.json")
	if err := os.WriteFile(path, []byte(docket("A1", "Hall")), 0o666); err != nil {
		t.Fatal(err)
	}
	in := &lint.Inputs{Paths: []string{path, filepath.Join(dir, "none.yaml")}, Loader: machinery().loader}
	var got []string
	err := checker(client).Run(t.Context(), in.All(), func(results []lint.Result) error {
		got = append(got, said(results...)...)
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	want := []string{"A1 error client The client is Hall.", "A1 hold", "error: " + filepath.Join(dir, "none.yaml") + ": no such file or directory"}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}

// TestForeignFiles holds that of a large file in a folder, or in a list, that begins as
// no order does only the beginning is read, and that others are refused by their size.
func TestForeignFiles(t *testing.T) {
	dir := t.TempDir()
	csv := "order,units,item,cloth,finished width\nTR-1,in,napkin,lawn,18\n"
	foreign := map[string]string{
		"measures.csv": "date,value\n" + strings.Repeat("2026-01-01,12\n", 300_000),
		"data.json":    "{\"data\": [\n" + strings.Repeat("{\"x\": 1},\n", 400_000) + "1]}\n",
		"log.yaml":     strings.Repeat("- {at: 12, says: \"started\"}\n", 150_000),
		"log.jsonl":    strings.Repeat("{\"at\": 12}\n", 400_000),
	}
	ours := map[string]string{
		"orders.csv":  csv + strings.Repeat(",,napkin,lawn,18\n", 250_000),
		"orders.yaml": "order: TR-1\nunits: in\nnotes: " + strings.Repeat("x", 4<<20) + "\n",
	}
	for _, files := range []map[string]string{foreign, ours} {
		for name, text := range files {
			if err := os.WriteFile(filepath.Join(dir, name), []byte(text), 0o666); err != nil {
				t.Fatal(err)
			}
		}
	}
	ch := checker(cuts)
	for i, in := range []*lint.Inputs{
		{Paths: []string{dir}},
		{List: lint.Stdin, Stdin: strings.NewReader(strings.Join([]string{"measures.csv", "data.json", "log.yaml", "log.jsonl", "orders.csv", "orders.yaml"}, "\n"))},
	} {
		t.Chdir(dir)
		in.Loader, in.Largest = ch.Loader, 2<<20
		var got, skipped []string
		err := ch.Run(t.Context(), in.All(), func(results []lint.Result) error {
			for _, res := range results {
				if s := (*lint.Skipped)(nil); errors.As(res.Err, &s) {
					skipped = append(skipped, filepath.Base(s.Name))
					continue
				}
				got = append(got, fmt.Sprintf("%s %v", filepath.Base(res.File.Name), res.Err != nil && strings.HasSuffix(res.Err.Error(), "it is larger than 2 MiB: use --largest to read a larger one")))
			}
			return nil
		})
		if d := cmp.Diff([]string{"orders.csv true", "orders.yaml true"}, got); err != nil || d != "" {
			t.Errorf("%v (-want +got)\n%s", err, d)
		}
		want := []string{"data.json", "log.jsonl", "log.yaml", "measures.csv"}
		if i > 0 {
			want = nil // a list may name any files
		}
		if d := cmp.Diff(want, skipped); d != "" {
			t.Errorf("skipped (-want +got)\n%s", d)
		}
	}
}

// TestLongFirstLine holds that standard input streams whose first line is an order of
// more than a mebibyte: what comes second is not waited for.
func TestLongFirstLine(t *testing.T) {
	r, w := io.Pipe()
	go fmt.Fprintf(w, "{\"order\": 1, \"notes\": \"%s\"}\n", strings.Repeat("x", 3<<20))
	in := &lint.Inputs{Paths: []string{lint.Stdin}, Stdin: r, Loader: machinery().loader}
	for got, err := range in.All() {
		if err != nil || got.Format != load.JSONLines || got.File.FirstLine != 1 {
			t.Errorf("line %d, %v", got.File.FirstLine, err)
		}
		break // the pipe is still open
	}
}
