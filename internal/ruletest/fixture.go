package ruletest

import (
	"fmt"
	"io/fs"
	"os"
	"path"
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
	return parse(file, a)
}

func parse(file string, a *txtar.Archive) (*fixture, error) {
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

// Fixtures returns every order of the fixtures in a folder and below. Their names
// are those of the fixtures, and go on with case/order.format.
func Fixtures(in fs.FS) (list []*source.File, err error) {
	err = fs.WalkDir(in, ".", func(name string, d fs.DirEntry, err error) error {
		if err != nil || d.IsDir() || path.Ext(name) != ".txtar" {
			return err
		}
		text, err := fs.ReadFile(in, name)
		if err != nil {
			return err
		}
		fx, err := parse(name, txtar.Parse(text))
		if err != nil {
			return err
		}
		for _, c := range fx.cases {
			for _, o := range c.orders {
				list = append(list, &source.File{Name: path.Join(name, c.name, o.Name), Text: string(o.Data)})
			}
		}
		return nil
	})
	return list, err
}
