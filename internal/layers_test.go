// Package internal has no code: its test holds the table of who may import whom.
package internal

import (
	"go/ast"
	"go/build"
	"go/parser"
	"go/token"
	"io/fs"
	"os"
	"path"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"testing"
)

// module is the import path of the module.
const module = "cutgate"

// A layer is a package, the packages of ours that it may import, and why no
// others.
type layer struct {
	name string // its folder; a * stands for one name
	may  []string
	why  string
}

// layers are the packages, lowest first.
var layers = []layer{
	{"schema", nil, "it holds definitions as bytes and interprets none"},
	{"internal/source", nil, "a place in a text is the same for every format and every front end"},
	{"internal/slab", nil, "memory is handed out whatever lies in it"},
	{"internal/length", nil, "arithmetic is tested without an order"},
	{"internal/mass", list("internal/length"), "arithmetic is tested without an order"},

	{"internal/finding", list("internal/source"), "a finding is plain data that knows neither rules nor formats"},
	{"internal/trade", list("internal/length", "internal/mass"), "the tables work nothing out"},
	{"internal/order", list("internal/finding", "internal/source", "internal/length", "internal/mass", "internal/slab"), "an order is what was written, whatever it was read from"},
	{"internal/cells", list("internal/source"), "a table is cells, whatever is written in them"},
	{"internal/form", list("schema", "internal/order", "internal/trade", "internal/source", "internal/length", "internal/mass"),
		"what may stand on the form is the same for every syntax"},
	{"internal/syntax", syntaxMay, "what syntaxes share is neither one of them nor the form"},
	{"internal/syntax/table", slices.Concat(list("internal/syntax", "internal/form", "internal/cells", "internal/length"), syntaxMay), "a heading is a way through the form; what is read under it is the loader's"},
	{"internal/syntax/*", slices.Concat(list("internal/syntax"), syntaxMay), "a syntax is read and written without a thought of another, or of what an order means"},
	{"internal/formula", list("internal/length"), "a line of a worksheet is read and worked out without an order"},
	{"internal/lay", list("internal/length"), "a lay plan is rectangles on a strip, and is tested as such"},

	{"internal/worksheet", list("internal/formula", "internal/order", "internal/trade", "internal/lay", "internal/length", "internal/mass", "internal/source", "internal/slab"),
		"quantities are worked out without a thought of how a difference is said"},
	{"internal/goods", list("internal/worksheet", "internal/order", "internal/length", "internal/mass"),
		"a kind of goods is declared, and the worksheet is handed it"},
	{"internal/diagnose", list("internal/worksheet", "internal/order", "internal/length", "internal/mass", "internal/slab"),
		"what is wrong is found by working out alone, whatever the goods"},
	{"internal/fill", list("internal/worksheet", "internal/order"), "which outcomes the form has is the kind's to say"},
	{"internal/load", list("internal/form", "internal/syntax", "internal/syntax/*", "internal/order", "internal/source", "internal/length", "internal/mass"),
		"reading an order is apart from what the trade makes of it"},
	{"internal/fix", list("internal/finding", "internal/source"), "fixes are applied the same way whatever rule made them"},
	{"internal/house", list("schema", "internal/form", "internal/syntax/cue", "internal/order", "internal/trade", "internal/goods", "internal/worksheet", "internal/finding", "internal/source", "internal/length", "internal/mass"),
		"a shop's own rules see an order as it was worked out, and nothing else"},

	{"internal/rule", ruleMay, "a rule's world is its pass"},
	{"rules/*", slices.Concat(list("internal/rule"), ruleMay), "a rule is a pure function of its pass, so that editor and command line agree; topics stand alone"},
	{"internal/lint", slices.Concat(list("internal/load", "internal/form", "internal/syntax", "internal/house", "internal/fix", "internal/fill", "internal/diagnose", "internal/rule", "internal/cells", "schema"), ruleMay),
		"the one pipeline is handed its rules and is tested with made-up ones"},
	{"internal/generate", list("internal/lint", "internal/load", "internal/finding", "internal/trade", "internal/worksheet", "internal/source", "internal/length", "internal/mass"),
		"orders are drawn for whoever measures, and know no mistakes"},
	{"internal/judge", list("internal/generate", "internal/lint", "internal/load", "internal/fix", "internal/rule", "internal/finding", "internal/order", "internal/source", "internal/length", "internal/mass"),
		"mistakes are made that know nothing of how the program looks for them"},
	{"internal/spread", list("internal/worksheet", "internal/lay", "internal/length"), "orders are laid together by what was worked out, whatever was found on them"},
	{"internal/draw", list("internal/spread", "internal/worksheet", "internal/lay", "internal/source", "internal/length"), "pictures show what was worked out and decide nothing"},

	{"rules", list("rules/*", "internal/rule"), "it only joins the topics' lists"},
	{"internal/ticket", list("internal/finding", "internal/worksheet", "internal/order", "internal/length"), "a document says what stands on a ticket, and nothing of how it is laid out"},
	{"internal/render", slices.Concat(list("internal/ticket", "internal/rule", "internal/draw", "internal/spread", "internal/lay", "internal/house"), ruleMay),
		"a renderer writes what it is handed, and is tested with made-up rules"},
	{"internal/browser", nil, "it measures any page, and knows none"},
	{"internal/ruletest", slices.Concat(list("internal/lint", "internal/load", "internal/fix", "internal/rule", "schema"), ruleMay),
		"the test kit is handed its rules"},
	{"internal/editor", list("internal/lint", "internal/render", "internal/rule", "internal/finding", "internal/source", "internal/worksheet", "internal/load", "internal/form", "internal/fill", "internal/order", "internal/house"),
		"a front end neither rebuilds the pipeline nor knows the other one; the editor asks the form what may stand in a field, and places what is wrong in a house"},
	{"cmd/*", list("*", "*/*", "*/*/*"), ""},
}

var (
	syntaxMay = list("internal/finding", "internal/order", "internal/source", "internal/slab")

	ruleMay = list("internal/goods", "internal/finding", "internal/order", "internal/trade", "internal/worksheet", "internal/source", "internal/length", "internal/mass")
)

// A ban keeps something of others' out of all packages but some.
type ban struct {
	what   []string // import paths, with * for one element and ... for any more
	except []string // packages that may
	only   []string // packages that it is about; all, where there are none
	why    string
}

var bans = []ban{
	{what: list("cuelang.org/go/..."), except: list("internal/syntax/cue", "internal/form", "internal/house"),
		why: "everything above load sees a typed order and is tested without an evaluator"},
	{what: list("github.com/spf13/cobra/...", "github.com/spf13/pflag", "flag"), except: list("cmd/*"),
		why: "libraries have no command line"},
	{what: list("github.com/xuri/excelize/..."), except: list("cmd/speed"),
		why: "our workbooks are held against it; in the program it would slow every start"},
	{what: list("archive/zip"), except: list("internal/cells", "cmd/*"),
		why: "what is a workbook is known in one place"},
	{what: list("net/http"),
		why: "nothing serves, and nothing calls out"},
	{what: list("log", "log/..."), except: list("cmd/*"),
		why: "libraries do not log: findings go to the caller, errors to the command"},
	{what: list("os", "os/...", "io/fs", "net", "net/...", "time", "math/rand", "math/rand/...", "encoding", "encoding/..."), only: list("rules", "rules/*"),
		why: "a rule is a pure function of its pass: no files, no net, no clock, no chance, no formats"},
}

// A use is a name of a package that only some may use.
type use struct {
	pkg    string
	names  []string
	except []string
	why    string
}

var uses = []use{
	{"os", list("Exit", "Stdin", "Stdout", "Stderr", "Args"), list("cmd/*"), "only a command ends the program, reads its arguments or touches the standard streams"},
	{"fmt", list("Print", "Printf", "Println", "Scan", "Scanf", "Scanln"), list("cmd/*"), "only a command touches the standard streams"},
}

// exact are the packages without floating point.
var exact = list("internal/length", "internal/mass", "internal/order", "internal/trade", "internal/lay", "internal/worksheet", "internal/spread", "internal/draw", "internal/rule", "rules", "rules/*")

const whyExact = "values are exact: whole nanometres, whole micrograms, ratios"

func list(names ...string) []string { return names }

// matches reports whether name is one of the patterns.
func matches(name string, patterns []string) bool {
	return slices.ContainsFunc(patterns, func(p string) bool {
		if head, ok := strings.CutSuffix(p, "/..."); ok && (name == head || strings.HasPrefix(name, head+"/")) {
			return true
		}
		ok, _ := path.Match(p, name)
		return ok
	})
}

func TestLayers(t *testing.T) {
	all := packages(t)
	for _, l := range layers {
		there := false
		for pkg := range all {
			there = there || matches(pkg, list(l.name))
		}
		if !there {
			t.Errorf("%s is in the table and is no package", l.name)
		}
	}
	for pkg, files := range all {
		i := slices.IndexFunc(layers, func(l layer) bool { return matches(pkg, list(l.name)) })
		if i < 0 {
			t.Errorf("%s is in no layer: add it to the table", pkg)
			continue
		}
		for _, f := range files {
			testImports(t, pkg, &layers[i], f)
			testUses(t, pkg, f)
			if matches(pkg, exact) {
				testExact(t, f)
			}
		}
	}
}

// A file is a source file that is no test.
type file struct {
	name string
	set  *token.FileSet
	tree *ast.File
}

func (f *file) at(n ast.Node) token.Position { return f.set.Position(n.Pos()) }

func testImports(t *testing.T, pkg string, l *layer, f *file) {
	t.Helper()
	for _, spec := range f.tree.Imports {
		name, err := strconv.Unquote(spec.Path.Value)
		if err != nil {
			t.Fatal(err)
		}
		if ours, ok := strings.CutPrefix(name, module+"/"); ok {
			if !matches(ours, l.may) {
				t.Errorf("%s: %s may not import %s: %s", f.at(spec), pkg, ours, l.why)
			}
			continue
		}
		for _, b := range bans {
			if matches(name, b.what) && !matches(pkg, b.except) && (len(b.only) == 0 || matches(pkg, b.only)) {
				t.Errorf("%s: %s may not import %s: %s", f.at(spec), pkg, name, b.why)
			}
		}
	}
}

func testUses(t *testing.T, pkg string, f *file) {
	t.Helper()
	ast.Inspect(f.tree, func(n ast.Node) bool {
		sel, ok := n.(*ast.SelectorExpr)
		if !ok {
			return true
		}
		for _, u := range uses {
			if x, ok := sel.X.(*ast.Ident); ok && x.Name == u.pkg && slices.Contains(u.names, sel.Sel.Name) && !matches(pkg, u.except) {
				t.Errorf("%s: %s may not use %s.%s: %s", f.at(n), pkg, u.pkg, sel.Sel.Name, u.why)
			}
		}
		return true
	})
}

func testExact(t *testing.T, f *file) {
	t.Helper()
	ast.Inspect(f.tree, func(n ast.Node) bool {
		if x, ok := n.(*ast.Ident); ok && matches(x.Name, list("float32", "float64", "complex64", "complex128")) {
			t.Errorf("%s: %s: %s", f.at(n), x.Name, whyExact)
		}
		return true
	})
}

// packages parses the module's files, tests and files that are not built left
// out, by package.
func packages(t *testing.T) map[string][]*file {
	t.Helper()
	root := ".."
	found := make(map[string][]*file)
	err := filepath.WalkDir(root, func(name string, d fs.DirEntry, err error) error {
		if err != nil {
			return err
		}
		if d.IsDir() {
			if name != root && (strings.HasPrefix(d.Name(), ".") || d.Name() == "testdata") {
				return fs.SkipDir
			}
			return nil
		}
		if !strings.HasSuffix(name, ".go") || strings.HasSuffix(name, "_test.go") {
			return nil
		}
		if built, err := build.Default.MatchFile(filepath.Dir(name), d.Name()); err != nil || !built {
			return err
		}
		text, err := os.ReadFile(name)
		if err != nil {
			return err
		}
		set := token.NewFileSet()
		tree, err := parser.ParseFile(set, name, text, parser.SkipObjectResolution)
		if err != nil {
			return err
		}
		rel, err := filepath.Rel(root, filepath.Dir(name))
		if err != nil {
			return err
		}
		pkg := filepath.ToSlash(rel)
		found[pkg] = append(found[pkg], &file{name, set, tree})
		return nil
	})
	if err != nil {
		t.Fatal(err)
	}
	return found
}
