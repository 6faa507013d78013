package render_test

import (
	"encoding/json"
	"errors"
	"net/url"
	"slices"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/google/go-cmp/cmp"
	"github.com/santhosh-tekuri/jsonschema/v6"

	"cutgate/internal/finding"
	"cutgate/internal/lint"
	"cutgate/internal/render"
	"cutgate/internal/rule"
	"cutgate/internal/source"
)

// A sarifLog is as much of a SARIF log as the tests look at.
type sarifLog struct {
	Runs []struct {
		Tool struct {
			Driver struct {
				Version string
				Rules   []struct {
					ID   string
					Help struct{ Text, Markdown string }
				}
			}
		}
		Results     []sarifResult
		Invocations []struct {
			ExecutionSuccessful        bool
			ToolExecutionNotifications []struct{ Message struct{ Text string } }
		}
	}
}

type sarifResult struct {
	RuleID              string
	RuleIndex           *int
	Level               string
	Message             struct{ Text string }
	Locations           []sarifLocation
	RelatedLocations    []sarifLocation
	PartialFingerprints map[string]string
	Suppressions        []struct{ Kind, Justification string }
	Fixes               []struct {
		Description     struct{ Text string }
		ArtifactChanges []struct {
			Replacements []sarifReplacement
		}
	}
}

type sarifLocation struct {
	PhysicalLocation struct {
		ArtifactLocation struct{ URI string }
		Region           *sarifRegion
	}
	LogicalLocations []struct{ FullyQualifiedName string }
}

type sarifRegion struct{ StartLine, StartColumn, EndLine, EndColumn int }

// sarifOf is the SARIF log of results, read back.
func sarifOf(t *testing.T, o render.Options, results []lint.Result) (log sarifLog) {
	t.Helper()
	if err := json.Unmarshal([]byte(reportOf(t, "sarif", o, results)), &log); err != nil {
		t.Fatal(err)
	}
	return log
}

// A sarifReplacement is one edit of a fix.
type sarifReplacement struct {
	DeletedRegion   sarifRegion
	InsertedContent struct{ Text string }
}

// resultsOf are the results of all orders in a text.
func resultsOf(t *testing.T, name, text string) []sarifResult {
	t.Helper()
	return sarifOf(t, render.Options{}, checkedText(t, name, text)).Runs[0].Results
}

// TestSARIFSchema holds logs to the schema of OASIS for SARIF 2.1.0.
func TestSARIFSchema(t *testing.T) {
	name := schemaFile(t, "sarif-schema-2.1.0.json")
	compiler := jsonschema.NewCompiler()
	compiler.AssertFormat()
	schema, err := compiler.Compile(name)
	if err != nil {
		t.Fatal(err)
	}
	fits := func(text string) error {
		v, err := jsonschema.UnmarshalJSON(strings.NewReader(text))
		if err != nil {
			t.Fatal(err)
		}
		return schema.Validate(v)
	}
	waived := checkedText(t, "den.yaml", waivedText)
	logs := map[string]string{
		"made up":  report(t, "sarif", render.Options{Rules: rules(), Version: "v1.2.3", Home: "https://workroom.example/cutgate"}),
		"orders":   reportOf(t, "sarif", realOptions(), realOrders(t)),
		"fixtures": reportOf(t, "sarif", realOptions(), fixtureOrders(t)),
		"waived":   reportOf(t, "sarif", realOptions(), waived),
		"failed":   reportOf(t, "sarif", realOptions(), slices.Concat(failures(), waived)),
		"empty":    reportOf(t, "sarif", realOptions(), nil),
		"tables":   tableReport(t, "sarif"),
	}
	for what, text := range logs {
		if err := fits(text); err != nil {
			t.Errorf("%s: %v", what, err)
		}
	}
	if !strings.Contains(logs["made up"], `"informationUri":"https://workroom.example/cutgate"`) {
		t.Error("a log does not give the address of information")
	}
	for _, change := range [][2]string{
		{`"level":"error","message"`, `"level":"grave","message"`},
		{`"startLine":`, `"line":`},
		{`"kind":"inSource"`, `"kind":"in the order"`},
		{`"uri":"den.yaml"`, `"uri":"den%"`},
	} {
		if !strings.Contains(logs["waived"], change[0]) {
			t.Errorf("there is no %s in a log", change[0])
		}
		if fits(strings.ReplaceAll(logs["waived"], change[0], change[1])) == nil {
			t.Errorf("the schema takes %s", change[1])
		}
	}
}

// TestSARIFResults holds what is in a log to what was found.
func TestSARIFResults(t *testing.T) {
	results := slices.Concat(realOrders(t), fixtureOrders(t), checkedText(t, "den.yaml", waivedText))
	run := sarifOf(t, realOptions(), results).Runs[0]
	got := map[string]int{}
	suppressed, ours := 0, 0
	for _, res := range run.Results {
		switch n := len(res.Suppressions); {
		case res.Suppressions == nil:
			t.Errorf("%s does not say whether it is suppressed", res.Message.Text)
		case n > 0:
			suppressed++
		default:
			got[res.Level]++
		}
		switch {
		case res.RuleIndex != nil && run.Tool.Driver.Rules[*res.RuleIndex].ID != res.RuleID:
			t.Errorf("%s has the index of %s", res.RuleID, run.Tool.Driver.Rules[*res.RuleIndex].ID)
		case res.RuleIndex == nil && !strings.HasPrefix(res.RuleID, "house/"):
			t.Errorf("%s has no index", res.RuleID)
		case res.RuleIndex == nil:
			ours++
		}
	}
	levels, waived := countLevels(results)
	if d := cmp.Diff(levels, got); d != "" {
		t.Errorf("levels: (-found +reported)\n%s", d)
	}
	if suppressed != waived || waived == 0 {
		t.Errorf("%d suppressed, %d waived", suppressed, waived)
	}
	if ours == 0 {
		t.Error("no rule of a shop's own found anything")
	}
	for _, r := range run.Tool.Driver.Rules {
		if r.Help.Text == "" || r.Help.Markdown == "" {
			t.Errorf("%s is not explained", r.ID)
		}
	}
}

func TestSARIFFailures(t *testing.T) {
	house := failures()[0] // the same for each order of a house
	run := sarifOf(t, render.Options{}, slices.Concat(failures(), []lint.Result{house, house})).Runs[0]
	var said []string
	for _, n := range run.Invocations[0].ToolExecutionNotifications {
		said = append(said, n.Message.Text)
	}
	if run.Invocations[0].ExecutionSuccessful || len(said) != 101 || said[0] != "there is no file 0\nand no other" || said[100] != "20 more could not be checked" {
		t.Errorf("a run that failed says %q", said)
	}
	if run := sarifOf(t, render.Options{}, nil).Runs[0]; !run.Invocations[0].ExecutionSuccessful {
		t.Error("a run without orders failed")
	}
}

// fingerprints are the fingerprints of results in their order.
func fingerprints(t *testing.T, results []sarifResult) (list []string) {
	t.Helper()
	for _, res := range results {
		print := res.PartialFingerprints["cutgate/1"]
		if len(print) != 32 {
			t.Fatalf("%q is no fingerprint", print)
		}
		list = append(list, print)
	}
	return list
}

func TestFingerprintsLast(t *testing.T) {
	was := resultsOf(t, "den.yaml", waivedText)
	moved := resultsOf(t, "den.yaml", strings.ReplaceAll("# kept\n\n"+waivedText, "items:\n", "# the den\nitems:\n"))
	if was[0].Locations[0].PhysicalLocation.Region.StartLine == moved[0].Locations[0].PhysicalLocation.Region.StartLine {
		t.Fatal("nothing moved")
	}
	if d := cmp.Diff(fingerprints(t, was), fingerprints(t, moved)); d != "" {
		t.Errorf("findings that moved have other fingerprints: %s", d)
	}
	other := resultsOf(t, "den.yaml", strings.Replace(waivedText, "order: QL-7", "order: QL-8", 1))
	for i, print := range fingerprints(t, other) {
		if print == fingerprints(t, was)[i] {
			t.Errorf("%s: another order's finding has the same fingerprint", other[i].Message.Text)
		}
	}
}

// TestFingerprintsDiffer requires of each order that no two of its findings have
// the same fingerprint, and so of orders without a number in one file.
func TestFingerprintsDiffer(t *testing.T) {
	equal := `{"units":"in","cloths":{"lawn":{"width":60,"width":61}},"items":[{"item":"napkin","cloth":"lawn","colour":"red"}]}` + "\n"
	results := [][]lint.Result{checkedText(t, "equal.jsonl", strings.Repeat(equal, 3))}
	for _, res := range fixtureOrders(t) {
		results = append(results, []lint.Result{res})
	}
	for _, list := range results {
		seen := map[string]string{}
		found := sarifOf(t, render.Options{}, list).Runs[0].Results
		for i, print := range fingerprints(t, found) {
			if was, ok := seen[print]; ok {
				t.Errorf("%s: %q and %q have the same fingerprint", list[0].File.Name, was, found[i].Message.Text)
			}
			seen[print] = found[i].Message.Text
		}
	}
	if n := len(sarifOf(t, render.Options{}, results[0]).Runs[0].Results); n < 6 {
		t.Errorf("only %d findings in three equal orders", n)
	}
}

// unitsBetween is the text of a region, cut out in units of UTF-16 line by line,
// as a viewer does it that knows nothing of this program.
func unitsBetween(lines [][]uint16, r sarifRegion) string {
	var b strings.Builder
	for n := r.StartLine; n <= r.EndLine; n++ {
		line := lines[n-1]
		start, end := 0, len(line)
		if n == r.StartLine {
			start = r.StartColumn - 1
		}
		if n == r.EndLine {
			end = r.EndColumn - 1
		}
		b.WriteString(string(utf16.Decode(line[start:end])))
	}
	return b.String()
}

// unitLines are the lines of a text with their ends, in units of UTF-16.
func unitLines(text string) (lines [][]uint16) {
	for line := range strings.SplitAfterSeq(text, "\n") {
		lines = append(lines, utf16.Encode([]rune(line)))
	}
	return lines
}

// TestSARIFColumns reads stated texts back at the places that the log gives.
func TestSARIFColumns(t *testing.T) {
	const mark = "\ufeff"
	for _, start := range []string{"", mark} {
		text := start + `{"order":"QL-9","client":"𝟙𝟙 幅 Lane","units":"inches!","cloths":{"𝟙":{"width":"six"}},"items":[]}` + "\n"
		lines := unitLines(strings.TrimPrefix(text, mark))
		read := 0
		for _, res := range resultsOf(t, "astral.json", text) {
			for _, stated := range []string{"inches!", "six"} {
				if strings.Contains(res.Message.Text, "“"+stated+"”") {
					read++
					if got := unitsBetween(lines, *res.Locations[0].PhysicalLocation.Region); got != stated {
						t.Errorf("%q stands at the place of %q", got, stated)
					}
				}
			}
		}
		if read != 2 {
			t.Errorf("%d of 2 findings read back", read)
		}
	}
}

// TestSARIFFixes applies every fix of a log by its lines and columns, and requires
// what applying it by bytes makes.
func TestSARIFFixes(t *testing.T) {
	crlf := checkedText(t, "den.yaml", strings.ReplaceAll(strings.Replace(waivedText, "Quince", "𝟙", 1), "\n", "\r\n"))
	applied := 0
	for _, res := range slices.Concat(realOrders(t), fixtureOrders(t), crlf) {
		var all []finding.Finding
		all = append(all, res.Findings...)
		for _, w := range res.Aside.Waived {
			all = append(all, w.Finding)
		}
		slices.SortStableFunc(all, finding.Compare)
		results := sarifOf(t, render.Options{}, []lint.Result{res}).Runs[0].Results
		if len(results) != len(all) {
			t.Fatalf("%s: %d results of %d findings", res.File.Name, len(results), len(all))
		}
		for i, f := range all {
			want := slices.DeleteFunc(slices.Clone(f.Fixes), func(f finding.Fix) bool {
				return f.Sureness == finding.Shown || len(f.Edits) == 0 ||
					res.File.Table != nil && res.File.Table.Workbook // which has no lines
			})
			if len(want) != len(results[i].Fixes) {
				t.Errorf("%s: %s: %d fixes of %d", res.File.Name, f.Message, len(results[i].Fixes), len(want))
				continue
			}
			for k, fix := range results[i].Fixes {
				above := strings.Repeat("\n", max(0, res.File.FirstLine-1))
				lines := unitLines(above + res.File.Text)
				// From the last to the first, so that the places of the others stay.
				list := fix.ArtifactChanges[0].Replacements
				slices.SortFunc(list, func(a, b sarifReplacement) int {
					from, to := a.DeletedRegion, b.DeletedRegion
					return slices.Compare([]int{to.StartLine, to.StartColumn}, []int{from.StartLine, from.StartColumn})
				})
				for _, r := range list {
					lines = replaceUnits(lines, r.DeletedRegion, r.InsertedContent.Text)
				}
				var got strings.Builder
				for _, line := range lines {
					got.WriteString(string(utf16.Decode(line)))
				}
				if d := cmp.Diff(finding.Apply(res.File.Text, want[k].Edits), strings.TrimPrefix(got.String(), above)); d != "" {
					t.Errorf("%s: %s: (-by bytes +by columns)\n%s", res.File.Name, want[k].Title, d)
				}
				applied++
			}
		}
	}
	if applied < 100 {
		t.Errorf("only %d fixes", applied)
	}
}

// replaceUnits puts a text in place of a region.
func replaceUnits(lines [][]uint16, r sarifRegion, text string) [][]uint16 {
	whole := slices.Concat(lines[r.StartLine-1][:r.StartColumn-1], utf16.Encode([]rune(text)), lines[r.EndLine-1][r.EndColumn-1:])
	return slices.Replace(lines, r.StartLine-1, r.EndLine, whole)
}

// shown is a message as section 3.11.5 of SARIF 2.1.0 has it shown: two braces
// are one, and what stands between single ones is the place of an argument, of
// which these messages have none.
func shown(t *testing.T, text string) string {
	t.Helper()
	if rest := strings.NewReplacer("{{", "", "}}", "").Replace(text); strings.ContainsAny(rest, "{}") {
		t.Errorf("%q wants an argument", text)
	}
	return strings.NewReplacer("{{", "{", "}}", "}").Replace(text)
}

func TestSARIFBraces(t *testing.T) {
	results := checkedText(t, "den.yaml", strings.Replace(waivedText, "order:", "'cl{0}ient': {a: 1}\norder:", 1))
	i := slices.IndexFunc(results[0].Findings, func(f finding.Finding) bool { return strings.Contains(f.Message, "`cl{0}ient`") })
	if i < 0 {
		t.Fatal("no message has braces")
	}
	var got []string
	for _, res := range sarifOf(t, render.Options{}, results).Runs[0].Results {
		got = append(got, shown(t, res.Message.Text))
	}
	if want := results[0].Findings[i].Message; !slices.ContainsFunc(got, func(text string) bool { return strings.HasPrefix(text, want) }) {
		t.Errorf("none of %q is %q", got, want)
	}
	broken := []lint.Result{{File: &source.File{Name: "a.yaml"}, Err: errors.New("no {0}")}}
	if got := sarifOf(t, render.Options{}, broken).Runs[0].Invocations[0].ToolExecutionNotifications[0].Message.Text; shown(t, got) != "no {0}" {
		t.Errorf("a notification says %q", got)
	}
	for _, r := range sarifOf(t, realOptions(), nil).Runs[0].Tool.Driver.Rules {
		shown(t, r.Help.Text)
		shown(t, r.Help.Markdown)
	}
}

// tables are an order of a workbook, and the same of a CSV file.
func tables() []lint.Result {
	var list []lint.Result
	for _, workbook := range []bool{true, false} {
		s := sheet("a book")
		table := &source.Table{Workbook: workbook, End: func(begin int) int { return begin }}
		table.Add(source.Cell{Column: 1, Row: 1}, 0)
		for i, f := range findings()[1:3] {
			c := source.Cell{Column: 6, Row: 12 + i}
			if workbook {
				c.Sheet = "Bed rooms"
			}
			table.Add(c, f.At.Start)
		}
		s.Order.File.Table = table
		list = append(list, lint.Result{File: s.Order.File, Order: s.Order, Sheet: s, Findings: findings()[1:3]})
	}
	return list
}

func tableReport(t *testing.T, format string) string {
	t.Helper()
	return reportOf(t, format, render.Options{Rules: rules()}, tables())
}

func TestSARIFTables(t *testing.T) {
	log := sarifOf(t, render.Options{}, tables())
	results := log.Runs[0].Results
	if len(results) != 4 {
		t.Fatalf("%d results", len(results))
	}
	for i, want := range [][]string{
		{"items[0].cuts[1].width", "'Bed rooms'!F12"}, {"items[0].hems.bottom.turn", "'Bed rooms'!F13"},
		{"items[0].cuts[1].width", "F12"}, {"items[0].hems.bottom.turn", "F13"},
	} {
		res, workbook := &results[i], i < 2
		var got []string
		for _, l := range res.Locations[0].LogicalLocations {
			got = append(got, l.FullyQualifiedName)
		}
		if d := cmp.Diff(want, got); d != "" {
			t.Errorf("%s is elsewhere: %s", res.RuleID, d)
		}
		for _, l := range append(res.Locations, res.RelatedLocations...) {
			if (l.PhysicalLocation.Region == nil) != workbook {
				t.Errorf("%s: workbook %t, region %v", res.RuleID, workbook, l.PhysicalLocation.Region)
			}
		}
		if (len(res.Fixes) == 0) != workbook {
			t.Errorf("%s: workbook %t, %d fixes", res.RuleID, workbook, len(res.Fixes))
		}
	}
}

// TestSARIFNames requires a reference to a file to lead back to the file's name.
func TestSARIFNames(t *testing.T) {
	for name, want := range map[string]string{
		"orders/den.yaml":    "orders/den.yaml",
		"../a b/50% #1?.cue": "../a%20b/50%25%20%231%3F.cue",
		"c:den.yaml":         "./c:den.yaml",
		"/tmp/ä.json":        "file:///tmp/%C3%A4.json",
		"standard input":     "standard%20input",
		"[x].yaml":           "%5Bx%5D.yaml",
	} {
		s := sheet(name)
		got := sarifOf(t, render.Options{}, []lint.Result{{File: s.Order.File, Sheet: s, Findings: findings()[:1]}}).Runs[0].Results[0].Locations[0].PhysicalLocation.ArtifactLocation.URI
		if got != want {
			t.Errorf("%s is %s, want %s", name, got, want)
		}
		u, err := url.Parse(got)
		if err != nil {
			t.Fatal(err)
		}
		if strings.TrimPrefix(u.Path, "./") != name {
			t.Errorf("%s leads to %s", got, u.Path)
		}
	}
}

// TestSARIFRulesFirst requires the rules to be those that were handed over.
func TestSARIFRulesFirst(t *testing.T) {
	text := reportOf(t, "sarif", render.Options{Rules: []*rule.Rule{rules()[2]}}, nil)
	if !strings.Contains(text, `"id":"hole/odd-count","name":"HoleOddCount"`) || strings.Contains(text, "hem/") {
		t.Errorf("other rules: %s", text)
	}
}
