package main

import (
	"bufio"
	"bytes"
	"encoding/csv"
	"encoding/json"
	"errors"
	"fmt"
	"io"
	"io/fs"
	"os"
	"path/filepath"

	"github.com/xuri/excelize/v2"
	"go.yaml.in/yaml/v3"
)

// decode does nothing but decode the orders of a file or a folder: what a check
// cannot do without, as a measure for all the rest.
func decode(path string) error {
	err := filepath.WalkDir(path, func(path string, d fs.DirEntry, err error) error {
		switch {
		case err != nil || d.IsDir():
			return err
		}
		switch filepath.Ext(path) {
		case ".jsonl":
			return decodeLines(path)
		case ".csv":
			return decodeCSV(path)
		case ".xlsx":
			return decodeWorkbook(path)
		}
		return decodeYAML(path)
	})
	if err != nil {
		return fmt.Errorf("decoding %s: %w", path, err)
	}
	return nil
}

func decodeYAML(path string) error {
	text, err := os.ReadFile(path)
	if err != nil {
		return err
	}
	documents := yaml.NewDecoder(bytes.NewReader(text))
	for {
		var v any
		err := documents.Decode(&v)
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
	}
}

func decodeLines(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	r := bufio.NewReaderSize(f, 1<<20)
	for {
		line, err := r.ReadSlice('\n')
		if errors.Is(err, io.EOF) && len(line) == 0 {
			return nil
		}
		if err != nil {
			return err
		}
		var v any
		if err := json.Unmarshal(line, &v); err != nil {
			return err
		}
	}
}

func decodeCSV(path string) error {
	f, err := os.Open(path)
	if err != nil {
		return err
	}
	defer f.Close()
	r := csv.NewReader(f)
	r.FieldsPerRecord = -1
	for {
		_, err := r.Read()
		if errors.Is(err, io.EOF) {
			return nil
		}
		if err != nil {
			return err
		}
	}
}

func decodeWorkbook(path string) error {
	f, err := excelize.OpenFile(path)
	if err != nil {
		return err
	}
	defer f.Close()
	for _, name := range f.GetSheetList() {
		if _, err := f.GetRows(name); err != nil {
			return err
		}
	}
	return nil
}
