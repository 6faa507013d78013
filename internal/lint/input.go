package lint

import (
	"bufio"
	"bytes"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"iter"
	"os"
	"path/filepath"
	"strconv"
	"strings"

	"cutgate/internal/cells"
	"cutgate/internal/house"
	"cutgate/internal/load"
	"cutgate/internal/source"
	"cutgate/internal/syntax"
)

// Stdin is the path that stands for standard input.
const Stdin = "-"

// longestLook is how much of standard input is looked at to guess its format, and of a
// file that nobody named by itself to see whether it holds orders.
const longestLook = 1 << 20

// UsualLargest is how many bytes of a file are read, unless somebody says otherwise.
const UsualLargest = 64 << 20

// An Input is one thing to check: a file that is to be read, or a text that was
// read already.
type Input struct {
	File   *source.File // its Text is read from the file of its Name where Unread is set
	Format load.Format
	Unread bool
	Found  bool   // only if it holds orders, or can't tell, and it is said if it doesn't: it was found in a folder
	Listed bool   // only if it holds orders: it was found in a list
	House  bool   // a shop's own rules, of which only mistakes are reported; there is no text
	Packed string // the workbook that Text was drawn from, of one that was read

	largest int64 // of Inputs
}

// Inputs says where orders come from.
type Inputs struct {
	Paths  []string     // files, folders, and Stdin
	List   string       // a file of more paths, a line or a NUL each, or Stdin; "" for none
	Stdin  io.Reader    // where Stdin is among the paths, or is the list
	Reads  *load.Format // of standard input and of files of an unknown ending; nil to look
	Loader *load.Loader
	Whole  bool     // JSON Lines come as whole texts, not line by line
	Except []string // files that are no orders, which are passed over in a folder or in the list
	// Largest is how many bytes of a file are read at most, but for JSON Lines, which are
	// read line by line; 0 for UsualLargest.
	Largest int64
}

// All gives the inputs in the order of the paths, then of the list, those of a
// folder by their names. Hidden files and files of an unknown ending are passed
// over in a folder and in the list, and house rules in a folder, where they come
// with the orders; a named file of an unknown ending is an error.
func (s *Inputs) All() iter.Seq2[Input, error] {
	return func(yield func(Input, error) bool) {
		for _, path := range s.Paths {
			if !s.path(path, yield) {
				return
			}
		}
		if s.List != "" {
			s.list(yield)
		}
	}
}

// path gives the inputs of one path. It and what it calls report whether to go
// on.
func (s *Inputs) path(path string, yield func(Input, error) bool) bool {
	if path == Stdin {
		return s.stdin(yield)
	}
	info, err := os.Stat(path)
	if err != nil {
		return fail(yield, path, looking(err))
	}
	if info.IsDir() {
		return s.folder(path, yield)
	}
	if filepath.Base(path) == house.FileName { // named by a shell's pattern, maybe
		return yield(houseInput(path), nil)
	}
	format, ok := load.FormatOf(path)
	if !ok && s.Reads == nil {
		return fail(yield, path, fmt.Errorf("reading %s: not an order file; order files end in %s", path, strings.Join(endings(), ", ")))
	}
	if !ok {
		format = *s.Reads
	}
	return s.file(path, Input{Format: format}, yield)
}

// houseInput is a file of house rules, by its name alone.
func houseInput(path string) Input { return Input{File: &source.File{Name: path}, House: true} }

// A Remark is something to say of a path that is no error: it was passed over.
type Remark struct{ text string }

func (r *Remark) Error() string { return r.text }

// A Skipped says that a file in a folder was passed over, as it holds no order. It is no
// error: a folder may hold other files.
type Skipped struct{ Name string }

func (s *Skipped) Error() string { return s.Name + " holds no order and was skipped" }

func fail(yield func(Input, error) bool, name string, err error) bool {
	return yield(Input{File: &source.File{Name: name}}, err)
}

// folder gives the orders below a folder.
func (s *Inputs) folder(root string, yield func(Input, error) bool) bool {
	more, none := true, true
	err := filepath.WalkDir(inside(root), func(path string, d fs.DirEntry, err error) error {
		if err != nil {
			none = false
			if more = fail(yield, path, looking(err)); !more {
				return fs.SkipAll
			}
			return nil
		}
		if d.IsDir() {
			if strings.HasPrefix(d.Name(), ".") && filepath.Clean(path) != filepath.Clean(root) {
				return fs.SkipDir
			}
			return nil
		}
		format, ok := s.orders(path)
		if d.Type()&fs.ModeSymlink != 0 && !strings.HasPrefix(d.Name(), ".") {
			if err := led(root, path, ok); err != nil {
				if more = fail(yield, path, err); !more {
					return fs.SkipAll
				}
				return nil
			}
		}
		if !ok || !regular(path, d) {
			return nil
		}
		none = false
		if more = s.file(path, Input{Format: format, Found: true}, yield); !more {
			return fs.SkipAll
		}
		return nil
	})
	if err != nil && more {
		return fail(yield, root, looking(err))
	}
	if none && more {
		return fail(yield, root, fmt.Errorf("no file in %s ends in %s", root, strings.Join(endings(), ", ")))
	}
	return more
}

// inside is the path of a folder for one who goes into it, even where it is a link.
func inside(folder string) string {
	if info, err := os.Lstat(folder); err == nil && info.Mode()&fs.ModeSymlink != 0 {
		return folder + string(filepath.Separator)
	}
	return folder
}

// led says why a link in a folder is not followed; it is nil for one that is, and for
// one that nobody would take for an order.
func led(root, path string, order bool) error {
	info, err := os.Stat(path)
	switch {
	case err == nil && info.IsDir():
		return &Remark{path + " is a link to a folder and was not followed: name the folder to have its orders read"}
	case !order:
		return nil
	case err != nil:
		return fmt.Errorf("%s is a broken link", path)
	}
	to, err1 := filepath.EvalSymlinks(path)
	in, err2 := filepath.EvalSymlinks(root)
	if err1 != nil || err2 != nil {
		return fmt.Errorf("looking for orders: %w", errors.Join(err1, err2))
	}
	to, err1 = filepath.Abs(to)
	in, err2 = filepath.Abs(in)
	if err1 != nil || err2 != nil {
		return fmt.Errorf("looking for orders: %w", errors.Join(err1, err2))
	}
	if rel, err := filepath.Rel(in, to); err != nil || !filepath.IsLocal(rel) {
		return fmt.Errorf("%s is a link out of %s and was not followed: name the file to have it read", path, root)
	}
	return nil
}

// excepted reports whether a path is one of the files that are no orders.
func (s *Inputs) excepted(path string) bool {
	for _, name := range s.Except {
		if filepath.Base(path) != filepath.Base(name) {
			continue
		}
		a, err1 := filepath.Abs(path)
		b, err2 := filepath.Abs(name)
		if err1 == nil && err2 == nil && a == b {
			return true
		}
	}
	return false
}

// regular reports whether an entry of a folder is a file or a link to one, and
// no pipe or device, which might never end.
func regular(path string, d fs.DirEntry) bool {
	if d.Type()&fs.ModeSymlink == 0 {
		return d.Type().IsRegular()
	}
	info, err := os.Stat(path)
	return err == nil && info.Mode().IsRegular()
}

// file gives a file, as in says how it was found: whole, or line by line where
// each line is an order.
func (s *Inputs) file(path string, in Input, yield func(Input, error) bool) bool {
	in.File, in.Unread, in.largest = &source.File{Name: path}, true, s.largest()
	if in.Format != load.JSONLines || s.Whole {
		return yield(in, nil)
	}
	foreign, err := in.foreign(s.Loader)
	if err == nil && in.Found && !foreign {
		foreign, err = s.noneIn(path)
	}
	switch {
	case err != nil:
		return fail(yield, path, err)
	case foreign && in.Found:
		return fail(yield, path, &Skipped{path})
	case foreign:
		return true
	}
	f, err := os.Open(path)
	if err != nil {
		return fail(yield, path, fmt.Errorf("reading an order: %w", err))
	}
	defer f.Close()
	return s.lines(f, path, in.Listed, yield)
}

// noneIn reports whether there are lines in a file, and none of them is an order.
func (s *Inputs) noneIn(path string) (none bool, err error) {
	f, err := os.Open(path)
	if err != nil {
		return false, fmt.Errorf("reading an order: %w", err)
	}
	defer f.Close()
	err = syntax.Stream(f, path, func(line *source.File) bool {
		none = !s.Loader.ShowsOrders(line, load.JSONLines, load.Options{})
		return none
	})
	return none, err
}

func (s *Inputs) largest() int64 {
	if s.Largest > 0 {
		return s.Largest
	}
	return UsualLargest
}

// lines gives a text of which each line is an order; of one in a list, those from
// the first that is one.
func (s *Inputs) lines(r io.Reader, name string, listed bool, yield func(Input, error) bool) bool {
	more, some, ours := true, false, !listed
	err := syntax.Stream(r, name, func(f *source.File) bool {
		some = true
		if ours = ours || s.Loader.HasOrders(f, load.JSONLines, load.Options{}); ours {
			more = yield(Input{File: f, Format: load.JSONLines}, nil)
		}
		return more
	})
	if err != nil && more {
		return fail(yield, name, err)
	}
	if err == nil && !some && !listed { // a finding, as for any other text without an order
		return yield(Input{File: &source.File{Name: name}, Format: load.JSONLines}, nil)
	}
	return more
}

// stdin gives what comes on standard input, line by line as it comes where its
// first line is a whole order.
func (s *Inputs) stdin(yield func(Input, error) bool) bool {
	const name = "standard input"
	r := bufio.NewReaderSize(s.Stdin, longestLook)
	format, err := load.JSONLines, error(nil)
	if s.Reads != nil {
		format = *s.Reads
	} else {
		format, err = sniff(r)
	}
	if err == nil && format == load.JSONLines && !s.Whole {
		return s.lines(r, name, false, yield)
	}
	var text string
	if err == nil {
		text, err = ReadAll(r, s.largest())
	}
	if err != nil {
		return fail(yield, name, fmt.Errorf("reading standard input: %w", err))
	}
	in := Input{File: &source.File{Name: name}, Format: format}
	in.fill(text)
	return yield(in, nil)
}

// sniff guesses the format of what comes, from its first line where that may be a
// whole order: the next may be long in coming.
func sniff(r *bufio.Reader) (load.Format, error) {
	for n := 1; ; n = r.Buffered() + 1 {
		_, err := r.Peek(n)
		start, _ := r.Peek(r.Buffered())
		line, _, whole := bytes.Cut(bytes.TrimLeft(start, " \t\r\n"), []byte("\n"))
		switch {
		case whole && line[0] == '{' && json.Valid(line):
			return load.JSONLines, nil
		case errors.Is(err, bufio.ErrBufferFull) && !whole && line[0] == '{' && load.Sniff(string(start)) == load.JSON:
			return load.JSONLines, nil // a first line that is longer than anybody would write by hand
		case whole && (line[0] == '{' || line[0] == '['), errors.Is(err, io.EOF), errors.Is(err, bufio.ErrBufferFull):
			return load.Sniff(string(start)), nil
		case err != nil:
			return 0, err
		}
	}
}

// Read fills the text of an unread input from the file of its name.
func (in *Input) Read() error {
	if !in.Unread {
		return nil
	}
	f, err := os.Open(in.File.Name)
	if err != nil {
		return fmt.Errorf("reading an order: %w", err)
	}
	defer f.Close()
	text, err := ReadAll(f, in.largest)
	if err != nil {
		return fmt.Errorf("reading %s: %w", in.File.Name, err)
	}
	in.fill(text)
	in.Unread = false
	return nil
}

// ReadAll reads all that there is; an error where that is more than so many bytes.
func ReadAll(r io.Reader, largest int64) (string, error) {
	var text strings.Builder
	part := int64(32 << 10)
	if f, ok := r.(*os.File); ok {
		if info, err := f.Stat(); err == nil && info.Mode().IsRegular() {
			size := min(info.Size(), largest) + 1
			text.Grow(int(size))
			part = min(part, size)
		}
	}
	n, err := io.CopyBuffer(&text, io.LimitReader(r, largest+1), make([]byte, part))
	if err != nil {
		return "", err
	}
	if n > largest {
		return "", fmt.Errorf("it is larger than %s: use --largest to read a larger one", bytesSaid(largest))
	}
	return text.String(), nil
}

// bytesSaid is a number of bytes in the largest unit that it is whole in.
func bytesSaid(n int64) string {
	units := []string{"bytes", "KiB", "MiB", "GiB"}
	i := 0
	for ; n >= 1<<10 && n%(1<<10) == 0 && i+1 < len(units); i++ {
		n >>= 10
	}
	return strconv.FormatInt(n, 10) + " " + units[i]
}

// foreign reports whether a large file that nobody named by itself is seen from its
// beginning to hold no orders, so that it need not be read.
func (in *Input) foreign(l *load.Loader) (bool, error) {
	if !in.Unread || !in.Found && !in.Listed {
		return false, nil
	}
	info, err := os.Stat(in.File.Name)
	if err != nil || info.Size() <= longestLook {
		return false, nil // it is read, which says what is amiss
	}
	f, err := os.Open(in.File.Name)
	if err != nil {
		return false, fmt.Errorf("reading an order: %w", err)
	}
	defer f.Close()
	var start strings.Builder
	if _, err := io.CopyN(&start, f, longestLook); err != nil {
		return false, fmt.Errorf("reading an order: %w", err)
	}
	text := start.String()
	if i := strings.LastIndexByte(text, '\n'); i >= 0 {
		text = text[:i+1]
	}
	return !l.MayHaveOrders(&source.File{Name: in.File.Name, Text: text}, in.Format, info.Size() > in.largest), nil
}

// fill fills the text from what a file holds.
func (in *Input) fill(text string) {
	if in.Format == load.Workbook {
		in.Packed, text = text, cells.Draw([]byte(text))
	}
	in.File.Text = text
}

// Pack returns what the input's file holds where its text is the given one: of a
// workbook, the workbook with what differs written into it.
func (in *Input) Pack(text string) (string, error) {
	switch {
	case in.Format != load.Workbook:
		return text, nil
	case text == in.File.Text:
		return in.Packed, nil
	}
	workbook, err := cells.Rewrite([]byte(in.Packed), in.File.Text, text)
	return string(workbook), err
}

// endings lists the file name endings that orders have.
func endings() []string {
	var list []string
	for _, f := range load.Formats() {
		list = append(list, f.Extensions...)
	}
	return list
}

// looking says why a path could not be looked at, in terms of the path.
func looking(err error) error {
	if p := (*fs.PathError)(nil); errors.As(err, &p) {
		return fmt.Errorf("%s: %w", p.Path, p.Err)
	}
	return fmt.Errorf("looking for orders: %w", err)
}
