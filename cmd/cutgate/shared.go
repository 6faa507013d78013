package main

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	"math"
	"os"
	"path/filepath"
	"slices"
	"strconv"
	"strings"
	"time"

	"github.com/mattn/go-isatty"
	"github.com/spf13/cobra"

	"cutgate/internal/finding"
	"cutgate/internal/house"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/order"
	"cutgate/internal/render"
	"cutgate/internal/rule"
	"cutgate/rules"
)

// The words of --color.
var colorWords = []string{"auto", "always", "never"}

// readFlags are the flags of all commands that read orders.
type readFlags struct {
	reads    string
	trustCUE bool
	house    string
	noHouse  bool
	paths    string
	largest  string
}

// add adds the flags, and says what the arguments of such a command are.
func (f *readFlags) add(c *cobra.Command) {
	c.Flags().StringVar(&f.reads, "reads", "", "read standard input, and files with other extensions, as "+oneOf(formatWords()))
	c.Flags().StringVar(&f.largest, "largest", "64MiB", "read files up to this size, such as 200MB or 1GiB; JSON Lines may be any size")
	f.addRules(c)
}

// addRules adds those that say how an order is taken, wherever it comes from.
func (f *readFlags) addRules(c *cobra.Command) {
	c.Flags().BoolVar(&f.trustCUE, "trust-cue", false, "let orders in CUE compute and import, which can take any amount of time and memory")
	c.Flags().StringVar(&f.house, "house", "", "take the house rules from this file, not from beside the orders")
	c.Flags().BoolVar(&f.noHouse, "no-house", false, "ignore house rules; use the built-in tables")
	completes(c, "reads", formatWords()...)
	_ = c.MarkFlagFilename("house", strings.TrimPrefix(filepath.Ext(house.FileName), "."))
	c.ValidArgsFunction = completeOrders
}

// addPaths adds the flag of the commands that read many orders.
func (f *readFlags) addPaths(c *cobra.Command) {
	c.Flags().StringVar(&f.paths, "paths", "", "read more paths from this file, one a line or each ended by a NUL; "+lint.Stdin+" for standard input")
}

// checker returns a checker with the given rules, and with the house rules that
// the flags ask for.
func (f *readFlags) checker(rules []*rule.Rule) (*lint.Checker, error) {
	if f.house != "" && f.noHouse {
		return nil, errors.New("--house and --no-house can't both be given")
	}
	c, err := lint.New(rules)
	if err != nil {
		return nil, err
	}
	c.TrustCUE, c.Today = f.trustCUE, time.Now().Format(time.DateOnly)
	if !f.noHouse {
		c.Houses = &house.Finder{File: f.house, Tables: c.Tables, Known: lint.Settable(rules), Apart: apart}
	}
	return c, nil
}

// inputs returns where orders come from.
func (f *readFlags) inputs(paths []string, l *load.Loader, std streams) (*lint.Inputs, error) {
	largest, err := parseSize(f.largest)
	if err != nil {
		return nil, err
	}
	in := &lint.Inputs{Paths: paths, List: f.paths, Stdin: std.in, Loader: l, Largest: largest}
	if f.paths == lint.Stdin && slices.Contains(paths, lint.Stdin) {
		return nil, errors.New("standard input can't be both an order and the list of paths")
	}
	if f.reads == "" {
		return in, nil
	}
	i := slices.Index(formatWords(), f.reads)
	if i < 0 {
		return nil, fmt.Errorf("unknown format %q to read: one of %s", f.reads, oneOf(formatWords()))
	}
	in.Reads = &load.Formats()[i].Format
	return in, nil
}

// parseSize reads a number of bytes with its unit.
func parseSize(said string) (int64, error) {
	number := strings.TrimRight(said, "BKMGibkmg ")
	unit, ok := map[string]int64{
		"": 1, "b": 1, "kb": 1e3, "mb": 1e6, "gb": 1e9, "k": 1 << 10, "m": 1 << 20, "g": 1 << 30, "kib": 1 << 10, "mib": 1 << 20, "gib": 1 << 30,
	}[strings.ToLower(strings.TrimSpace(said[len(number):]))]
	n, err := strconv.ParseInt(number, 10, 64)
	if !ok || err != nil || n < 1 || n > math.MaxInt64/2/unit {
		return 0, fmt.Errorf("unknown size %q: write it as 64MiB, 200MB or 1GiB", said)
	}
	return n * unit, nil
}

// formatWords are the words of --reads, in the order of load.Formats: the
// formats' first file name endings.
func formatWords() (words []string) {
	for _, f := range load.Formats() {
		words = append(words, formatWord(f))
	}
	return words
}

// textWords are the words of the formats that an editor shows as they are.
func textWords() (words []string) {
	for _, f := range load.Formats() {
		if f.Format != load.Workbook {
			words = append(words, formatWord(f))
		}
	}
	return words
}

func formatWord(f load.FormatName) string { return strings.TrimPrefix(f.Extensions[0], ".") }

// open returns the checker with all rules and the orders that arguments name.
// What says what is wanted of them, where there are none.
func (f *readFlags) open(args []string, std streams, what string) (*lint.Checker, *lint.Inputs, error) {
	paths := args
	if f.paths == "" {
		var err error
		if paths, err = pathsOr(args, std, what); err != nil {
			return nil, nil, err
		}
	}
	if f.house != "" && !f.noHouse {
		if _, err := os.Stat(f.house); err != nil { // else it would be said for every order
			return nil, nil, fmt.Errorf("reading house rules: %w", withoutCall(err))
		}
	}
	checker, err := f.checker(rules.All())
	if err != nil {
		return nil, nil, err
	}
	inputs, err := f.inputs(paths, checker.Loader, std)
	return checker, inputs, err
}

// withoutCall is an error of a file without the system's call: the file, and why.
func withoutCall(err error) error {
	if of := (*fs.PathError)(nil); errors.As(err, &of) {
		return fmt.Errorf("%s: %w", of.Path, of.Err)
	}
	return err
}

// lookFlags are the flags of all commands that write for people.
type lookFlags struct{ color string }

func (f *lookFlags) add(c *cobra.Command) {
	c.Flags().StringVar(&f.color, "color", colorWords[0], "use color: "+oneOf(colorWords)+"; auto follows the terminal and NO_COLOR")
	completes(c, "color", colorWords...)
}

func (f *lookFlags) options(std streams) (render.Options, error) {
	o := render.Options{Width: widthOf(std.out)}
	switch f.color {
	case "auto":
		o.Color = os.Getenv("NO_COLOR") == "" && os.Getenv("TERM") != "dumb" && isTerminal(std.out)
	case "always":
		o.Color = true
	case "never":
	default:
		return o, fmt.Errorf("unknown use of color %q: one of %s", f.color, oneOf(colorWords))
	}
	return o, nil
}

// Text for people is as wide as the terminal, within bounds; elsewhere it is 80 wide.
const (
	usualWidth = 80
	leastWidth = 40
	mostWidth  = 120
)

// widthOf is how wide text for people is on a file.
func widthOf(f *os.File) int {
	if !isTerminal(f) {
		return usualWidth
	}
	n := columns(f)
	if n <= 0 {
		return usualWidth
	}
	return min(max(n, leastWidth), mostWidth)
}

func isTerminal(f *os.File) bool {
	return isatty.IsTerminal(f.Fd()) || isatty.IsCygwinTerminal(f.Fd())
}

// pathsOr returns the paths that were named, or standard input where something
// other than a person is there to give it.
func pathsOr(paths []string, std streams, what string) ([]string, error) {
	if len(paths) > 0 {
		return paths, nil
	}
	if isTerminal(std.in) {
		return nil, fmt.Errorf("%s: name files or folders, or %s for standard input", what, lint.Stdin)
	}
	return []string{lint.Stdin}, nil
}

// parseHoldAt reads the level of --hold-at.
func parseHoldAt(word string) (finding.Level, error) {
	level, err := finding.ParseLevel(word)
	if err != nil || level == finding.Off {
		return level, fmt.Errorf("unknown level %q: one of %s", word, oneOf(levelWords()))
	}
	return level, nil
}

// doubt says of house rules that were read why they may not be the shop's own words.
func doubt(w io.Writer, c *lint.Checker) {
	if c.Houses == nil {
		return
	}
	for _, d := range c.Houses.Doubts() {
		complain(w, errors.New(d))
	}
}

// complaints are the errors of inputs, said on standard error. What is wrong in
// house rules is said once, and not for every order under them.
type complaints struct {
	w     io.Writer
	any   bool
	about map[error]bool // faults of house rules that were said

	orders  bool     // some were checked
	skipped []string // files in folders that hold none
}

// manySkipped is how many files that were skipped are named.
const manySkipped = 20

// end says at the end which files in folders were skipped. Where they are all that there
// was, nothing was checked, and that is an error: the folder may be the wrong one. House rules
// that may not be the shop's own are named last.
func (c *complaints) end(checker *lint.Checker) {
	defer doubt(c.w, checker)
	if len(c.skipped) == 0 {
		return
	}
	names := strings.Join(c.skipped[:min(len(c.skipped), manySkipped)], ", ")
	if more := len(c.skipped) - manySkipped; more > 0 {
		names += " and " + strconv.Itoa(more) + " more"
	}
	said := "skipped, as no order is in it: "
	if len(c.skipped) > 1 {
		said = "skipped, as no order is in them: "
	}
	if !c.orders && !c.any {
		said = "no order was found in the folder; " + said
		c.any = true
	}
	complain(c.w, errors.New(said+names))
}

// checked reports whether an order could be checked, and says why not where it could not.
func (c *complaints) checked(res *lint.Result) bool {
	if res.Err != nil {
		c.add(res.Err)
		return false
	}
	c.orders = true
	return true
}

func (c *complaints) add(err error) {
	if s := (*lint.Skipped)(nil); errors.As(err, &s) {
		c.skipped = append(c.skipped, s.Name)
		return
	}
	if remark(err) {
		complain(c.w, err)
		return
	}
	c.any = true
	var wrong *house.Error
	if !errors.As(err, &wrong) {
		complain(c.w, err)
		return
	}
	if c.about[wrong] {
		return
	}
	if c.about == nil {
		c.about = map[error]bool{}
	}
	c.about[wrong] = true
	complain(c.w, err)
	complain(c.w, fmt.Errorf("the orders under %s are not checked until it is fixed", wrong.File))
}

// remark reports whether an error of an input is only a remark on it.
func remark(err error) bool {
	var r *lint.Remark
	var s *lint.Skipped
	return errors.As(err, &r) || errors.As(err, &s)
}

// addFormats adds the flag for the format that a command writes in. Between stands
// between the formats, in the flag's words.
func addFormats[F any](c *cobra.Command, as *string, formats []render.Format[F], says, between string) {
	var words, described []string
	for _, f := range formats {
		words = append(words, f.Name+" ("+f.Says+")")
		described = append(described, cobra.CompletionWithDesc(f.Name, f.Says))
	}
	c.Flags().StringVar(as, "as", formats[0].Name, says+strings.Join(words, between))
	completes(c, "as", described...)
}

// levelWords are the levels, gravest first.
func levelWords() (words []string) {
	for _, l := range slices.Backward(finding.Levels()) {
		words = append(words, l.String())
	}
	return words
}

// oneOf joins the words of a flag.
func oneOf(words []string) string { return strings.Join(words, ", ") }

// hint says which of the words a person may have meant, or else all of them.
func hint(word string, words []string) string { return hintOr(word, words, "one of "+oneOf(words)) }

// hintOr says which of the words a person may have meant, or else something
// else. A slip is a third of the letters at most, or two that changed places.
func hintOr(word string, words []string, otherwise string) string {
	below := len(word)/3 + 1
	if len(word) > 3 {
		below = max(below, 3)
	}
	best := order.Closest(strings.ToLower(word), words, below, strings.ToLower)
	if best == "" {
		return ": " + otherwise
	}
	return ": did you mean " + best + "?"
}
