package main

import (
	"bufio"
	"fmt"
	"io"
	"os"
	"path/filepath"

	"cutgate/internal/cells"
	"cutgate/internal/load"
	"cutgate/internal/source"
	"cutgate/internal/syntax/table"
)

// folderHolds is how many files of orders are put in one folder.
const folderHolds = 100

// folder writes YAML orders below dir, a hundred files to a folder, and the
// first so many of them as documents of one more file.
func (g *maker) folder(dir string, first, count, sample int, sampleFile string) (*tally, error) {
	if err := os.RemoveAll(dir); err != nil {
		return nil, fmt.Errorf("clearing away earlier orders: %w", err)
	}
	t := newTally()
	var documents []byte
	for m, err := range g.all(first, count, load.YAML) {
		if err != nil {
			return nil, err
		}
		text := m.text
		n := t.wrote(m)
		if n < sample {
			documents = append(append(documents, "---\n"...), text...)
		}
		sub := filepath.Join(dir, fmt.Sprintf("%03d", n/folderHolds))
		if err := os.MkdirAll(sub, 0o755); err != nil {
			return nil, fmt.Errorf("writing orders: %w", err)
		}
		if err := os.WriteFile(filepath.Join(sub, fmt.Sprintf("%05d.yaml", n)), []byte(text), 0o644); err != nil {
			return nil, fmt.Errorf("writing orders: %w", err)
		}
	}
	if err := os.WriteFile(sampleFile, documents, 0o644); err != nil {
		return nil, fmt.Errorf("writing orders: %w", err)
	}
	return t, g.verify(dir, t)
}

// lines writes a file of JSON Lines orders.
func (g *maker) lines(path string, first, count int) (*tally, error) {
	t := newTally()
	err := writeFile(path, func(out *bufio.Writer) error {
		for m, err := range g.all(first, count, load.JSONLines) {
			if err != nil {
				return err
			}
			t.wrote(m)
			if _, err := out.WriteString(m.text); err != nil {
				return err
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	return t, g.verify(path, t)
}

// tables writes orders as the rows of a CSV table and of a workbook, from a file of JSON
// Lines orders.
func (g *maker) tables(lines, csv, workbook string) error {
	text, err := os.ReadFile(lines)
	if err != nil {
		return fmt.Errorf("reading orders: %w", err)
	}
	var sheets []table.Sheets
	for _, o := range g.Checker.Loader.Orders(&source.File{Name: lines, Text: string(text)}, load.JSONLines, load.Options{}) {
		sheets = append(sheets, table.Flatten(g.Checker.Loader.Form, o))
	}
	pages := table.Pages("# Orders", "# Cloths", sheets...)
	err = writeFile(csv, func(out *bufio.Writer) error { return cells.WriteCSV(out, pages) })
	if err != nil {
		return err
	}
	return writeFile(workbook, func(out *bufio.Writer) error { return cells.WriteWorkbook(out, pages) })
}

// head copies the first lines of a file to another.
func head(from, to string, lines int) error {
	in, err := os.Open(from)
	if err != nil {
		return fmt.Errorf("copying orders: %w", err)
	}
	defer in.Close()
	r := bufio.NewReaderSize(in, 1<<20)
	return writeFile(to, func(out *bufio.Writer) error {
		for range lines {
			line, err := r.ReadBytes('\n')
			if err == io.EOF {
				break
			}
			if err != nil {
				return err
			}
			if _, err := out.Write(line); err != nil {
				return err
			}
		}
		return nil
	})
}

// writeFile writes a file through a buffer.
func writeFile(path string, write func(*bufio.Writer) error) error {
	f, err := os.Create(path)
	if err != nil {
		return fmt.Errorf("writing orders: %w", err)
	}
	out := bufio.NewWriterSize(f, 1<<20)
	err = write(out)
	if err == nil {
		err = out.Flush()
	}
	if e := f.Close(); err == nil {
		err = e
	}
	if err != nil {
		return fmt.Errorf("writing %s: %w", path, err)
	}
	return nil
}
