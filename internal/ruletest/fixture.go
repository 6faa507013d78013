package ruletest

import (
	"fmt"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strings"

	"github.com/rogpeppe/go-internal/txtar"

	"cutgate/internal/source"
)

// A fixture is a rule's txtar: prose, and a folder for each case.
type fixture struct {
	prose string
	cases []*kase
}

// A kase is one case: an order in one or more formats, what is wanted of each,
// and what the certain fixes make of it.
type kase struct {
	name   string
	orders []txtar.File
	want   string
	fixed  []txtar.File
}

const (
	wantFile    = "want"
	fixedFolder = "fixed"
)

// The kinds of case that every rule needs one of, as its names begin.
var kinds = []string{"wrong", "right", "borderline"}

func read(file string) (*fixture, error) {
	a, err := txtar.ParseFile(file)
	if err != nil {
		return nil, fmt.Errorf("reading a fixture: %w", err)
	}
	fx := &fixture{prose: string(a.Comment)}
	for _, f := range a.Files {
		parts := strings.Split(f.Name, "/")
		if len(parts) < 2 || len(parts) > 3 || (len(parts) == 3 && parts[1] != fixedFolder) {
			return nil, fmt.Errorf("%s: %s is not case/order.format, case/want or case/fixed/order.format", file, f.Name)
		}
		c := fx.find(parts[0])
		switch {
		case len(parts) == 3:
			c.fixed = append(c.fixed, txtar.File{Name: parts[2], Data: f.Data})
		case parts[1] == wantFile:
			c.want = string(f.Data)
		default:
			c.orders = append(c.orders, txtar.File{Name: parts[1], Data: f.Data})
		}
	}
	return fx, nil
}

// find returns the case of that name, which it adds if there is none.
func (fx *fixture) find(name string) *kase {
	for _, c := range fx.cases {
		if c.name == name {
			return c
		}
	}
	c := &kase{name: name}
	fx.cases = append(fx.cases, c)
	return c
}

// write writes the fixture to its file: the cases in their order, each with its
// orders, what is wanted, and the fixed orders.
func (fx *fixture) write(file string) error {
	a := &txtar.Archive{Comment: []byte(fx.prose)}
	for _, c := range fx.cases {
		for _, o := range c.orders {
			a.Files = append(a.Files, txtar.File{Name: path.Join(c.name, o.Name), Data: o.Data})
		}
		a.Files = append(a.Files, txtar.File{Name: path.Join(c.name, wantFile), Data: []byte(c.want)})
		for _, o := range c.fixed {
			a.Files = append(a.Files, txtar.File{Name: path.Join(c.name, fixedFolder, o.Name), Data: o.Data})
		}
	}
	return os.WriteFile(file, txtar.Format(a), 0o666)
}

// Fixtures returns every order of the fixtures in a topic's folder, as seeds for
// fuzzing. Their names are fixture/case/order.format.
func Fixtures(dir string) ([]*source.File, error) {
	names, err := filepath.Glob(filepath.Join(dir, "testdata", "*.txtar"))
	if err != nil {
		return nil, err
	}
	slices.Sort(names)
	var list []*source.File
	for _, name := range names {
		fx, err := read(name)
		if err != nil {
			return nil, err
		}
		slug := strings.TrimSuffix(filepath.Base(name), ".txtar")
		for _, c := range fx.cases {
			for _, o := range c.orders {
				list = append(list, &source.File{Name: path.Join(slug, c.name, o.Name), Text: string(o.Data)})
			}
		}
	}
	return list, nil
}
