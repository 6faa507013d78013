package syntax

import (
	"bufio"
	"errors"
	"fmt"
	"io"
	"strings"

	"cutgate/internal/source"
)

// maxLine is the longest line of JSON Lines that is read.
const maxLine = 16 << 20

// Stream cuts JSON Lines into files of one line each, so that a stream of any
// length is read in constant memory. Each File knows its line and its place in
// the whole. Blank lines are skipped. It stops early if emit returns false.
//
// It returns an error if r fails, or if a line is longer than 16 MiB.
func Stream(r io.Reader, name string, emit func(*source.File) bool) error {
	in := bufio.NewReaderSize(r, 64<<10)
	var long []byte // the start of a line that the reader's buffer cannot hold
	line, base, start := 1, 0, 0
	for {
		part, err := in.ReadSlice('\n')
		base += len(part)
		switch {
		case errors.Is(err, bufio.ErrBufferFull):
			if len(long)+len(part) > maxLine {
				return fmt.Errorf("read %s: line %d is longer than 16 MiB", name, line)
			}
			long = append(long, part...)
			continue
		case err != nil && err != io.EOF:
			return fmt.Errorf("read %s: line %d: %w", name, line, err)
		}
		if len(long)+len(part) > maxLine {
			return fmt.Errorf("read %s: line %d is longer than 16 MiB", name, line)
		}
		var text string
		if long != nil {
			text = string(append(long, part...))
			long = nil
		} else {
			text = string(part)
		}
		text = strings.TrimRight(text, "\r\n")
		blank := strings.TrimLeft(text, " \t\r") == "" || line == 1 && text == ByteOrderMark
		if !blank && !emit(&source.File{Name: name, Text: text, FirstLine: line, Base: start}) {
			return nil
		}
		if err == io.EOF {
			return nil
		}
		line++
		start = base
	}
}
