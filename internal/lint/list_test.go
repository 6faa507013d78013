package lint_test

import (
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"testing"
	"testing/iotest"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/lint"
)

func TestInputsOfList(t *testing.T) {
	dir := t.TempDir()
	t.Chdir(dir)
	for _, name := range []string{
		"b.yaml", "a b.json", "two\nlines.yaml", "é.yaml", "house.cue", "readme.txt", "Makefile", ".hidden.yaml", ".ci/x.yaml", "sub/.d/y.yaml", "sub/c.yml", "known.json", "-",
	} {
		if err := os.MkdirAll(filepath.Dir(name), 0o777); err != nil {
			t.Fatal(err)
		}
		if err := os.WriteFile(name, nil, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	all := []string{"b.yaml", "house.cue", "readme.txt", "a b.json", "Makefile", ".hidden.yaml", ".ci/x.yaml", "./sub/.d/y.yaml", "known.json", "-", "é.yaml", "sub", "gone.yaml", filepath.Join(dir, "sub/.d/y.yaml")}
	want := []string{
		"first.yaml: first.yaml: no such file or directory",
		"b.yaml: YAML to read", "house.cue: a house", "a b.json: JSON to read", "é.yaml: YAML to read", "sub/c.yml: YAML to read",
		"gone.yaml: gone.yaml: no such file or directory", "sub/.d/y.yaml: YAML to read",
	}
	for _, c := range []struct {
		name, text string
		want       []string
	}{
		{"lines", strings.Join(all, "\n") + "\n", want},
		{"no last line end", strings.Join(all, "\n"), want},
		{"CR LF", strings.Join(all, "\r\n\r\n"), want},
		{"NUL", strings.Join(all, "\x00") + "\x00", want},
		{"no last NUL", strings.Join(all, "\x00"), want},
		{"a line end in a name", "b.yaml\x00two\nlines.yaml\x00", append(want[:1:1], "b.yaml: YAML to read", "two\nlines.yaml: YAML to read")},
		{"empty", "", want[:1]},
		{"only line ends", "\n\n", want[:1]},
	} {
		in := &lint.Inputs{Paths: []string{"first.yaml"}, List: lint.Stdin, Stdin: strings.NewReader(c.text), Loader: machinery().loader, Except: []string{"known.json"}}
		if d := cmp.Diff(c.want, listed(in, dir)); d != "" {
			t.Errorf("%s: (-want +got)\n%s", c.name, d)
		}
		if err := os.WriteFile("list.txt", []byte(c.text), 0o666); err != nil {
			t.Fatal(err)
		}
		in.List, in.Stdin = "list.txt", iotest.ErrReader(errors.New("standard input was read"))
		if d := cmp.Diff(c.want, listed(in, dir)); d != "" {
			t.Errorf("%s, from a file: (-want +got)\n%s", c.name, d)
		}
	}
}

func TestInputsOfBadList(t *testing.T) {
	for _, c := range []struct {
		list string
		text io.Reader
		want string
	}{
		{"none.txt", nil, "none.txt: reading a list of paths: open none.txt: no such file or directory"},
		{lint.Stdin, iotest.ErrReader(errors.New("it broke")), "-: reading a list of paths: it broke"},
		{lint.Stdin, strings.NewReader(strings.Repeat("x", 1<<20)), "-: reading a list of paths: bufio.Scanner: token too long"},
	} {
		in := &lint.Inputs{List: c.list, Stdin: c.text, Loader: machinery().loader}
		if d := cmp.Diff([]string{c.want}, listed(in, "")); d != "" {
			t.Error(d)
		}
	}
}

// TestListStreams requires an order as soon as its path has come.
func TestListStreams(t *testing.T) {
	dir := t.TempDir()
	for _, name := range []string{"1.yaml", "2.yaml", "3.yaml"} {
		if err := os.WriteFile(filepath.Join(dir, name), nil, 0o666); err != nil {
			t.Fatal(err)
		}
	}
	r, w := io.Pipe()
	in := &lint.Inputs{List: lint.Stdin, Stdin: r, Loader: machinery().loader}
	next := make(chan string)
	go func() {
		defer w.Close()
		for name := range next {
			_, _ = io.WriteString(w, filepath.Join(dir, name)+"\n")
		}
	}()
	next <- "1.yaml"
	var got []string
	for i, err := range in.All() {
		if err != nil {
			t.Fatal(err)
		}
		got = append(got, filepath.Base(i.File.Name))
		switch len(got) {
		case 1:
			next <- "2.yaml"
		case 2:
			next <- "3.yaml"
			close(next)
		}
	}
	if d := cmp.Diff([]string{"1.yaml", "2.yaml", "3.yaml"}, got); d != "" {
		t.Error(d)
	}
}
