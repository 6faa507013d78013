package syntax

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"
	"unicode/utf8"

	"cutgate/internal/source"
)

// The longest line of JSON Lines that is read, how much is kept of a longer one, to
// show it, and how long a line may be to be passed by.
const (
	maxLine = 16 << 20
	kept    = 80
	endless = 4 << 30
)

// TooLong says why nothing was read of a line that is cut.
const TooLong = "this line is longer than 16 MiB, so nothing of it was read"

// Stream cuts JSON Lines into files of one line each, so that a stream of any
// length is read in constant memory. Each File knows its line and its place in
// the whole. Blank lines are skipped, and a line longer than 16 MiB is Cut. It stops
// early if emit returns false, and returns an error if r fails, or if a line is longer
// than 4 GiB.
func Stream(r io.Reader, name string, emit func(*source.File) bool) error {
	in := bufio.NewReaderSize(r, 64<<10)
	var long []byte // the start of a line that the reader's buffer cannot hold
	line, base, start, cut := 1, int64(0), int64(0), false
	for {
		part, err := in.ReadSlice('\n')
		base += int64(len(part))
		full := errors.Is(err, bufio.ErrBufferFull)
		if err != nil && err != io.EOF && !full {
			return fmt.Errorf("read %s: line %d: %w", name, line, err)
		}
		if !cut && len(long)+len(part) > maxLine {
			cut, long = true, append([]byte(nil), long[:min(kept, len(long))]...)
		}
		if base-start > endless {
			return fmt.Errorf("read %s: line %d does not end", name, line)
		}
		if full {
			if !cut {
				long = append(long, part...)
			}
			continue
		}
		text := string(part)
		switch {
		case cut:
			text = whole(string(long))
		case long != nil:
			text = string(append(long, part...))
		}
		text = strings.TrimRight(text, "\r\n")
		blank := strings.TrimLeft(text, " \t\r") == "" || line == 1 && text == ByteOrderMark
		if (cut || !blank) && !emit(&source.File{Name: name, Text: text, FirstLine: line, Base: int(start), Cut: cut}) {
			return nil
		}
		if err == io.EOF {
			return nil
		}
		line++
		start, long, cut = base, nil, false
	}
}

// whole is the start of a text without a character that was cut in two.
func whole(text string) string {
	for n := len(text); n > 0 && n > len(text)-utf8.UTFMax; n-- {
		if utf8.RuneStart(text[n-1]) {
			if !utf8.FullRuneInString(text[n-1:]) {
				return text[:n-1]
			}
			break
		}
	}
	return text
}
