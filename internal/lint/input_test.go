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
	if err := os.WriteFile(filepath.Join(dir, "sub", "d.jsonl"), []byte("{}\n\n{\"order\": 2}\n"), 0o666); err != nil {
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
			`sub/d.jsonl: JSON Lines "{}" from line 1, byte 0`, `sub/d.jsonl: JSON Lines "{\"order\": 2}" from line 3, byte 4`,
			"z.CUE: CUE to read",
		}},
		{[]string{"b.yaml", "gone.yaml", "a.json"}, nil, []string{
			"b.yaml: YAML to read", "gone.yaml: looking for orders: stat gone.yaml: no such file or directory", "a.json: JSON to read",
		}},
		{[]string{"readme.txt"}, nil, []string{"readme.txt: reading readme.txt: not a kind of file that holds orders; those end in " + endings}},
		{[]string{"order", "a.json"}, &yaml, []string{"order: YAML to read", "a.json: JSON to read"}},
		{[]string{"empty"}, nil, []string{"empty: looking for orders: no file in empty ends in " + endings}},
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
	want := []string{"A1 error client The client is Hall.", "A1 hold", "error: looking for orders: stat " + filepath.Join(dir, "none.yaml") + ": no such file or directory"}
	if d := cmp.Diff(want, got); d != "" {
		t.Error(d)
	}
}
