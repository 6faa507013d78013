package load

import (
	"path/filepath"
	"strings"

	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/syntax"
	"cutgate/internal/syntax/cue"
	"cutgate/internal/syntax/json"
	"cutgate/internal/syntax/table"
	"cutgate/internal/syntax/yaml"
)

// Format is a way of writing orders down.
type Format uint8

// The formats.
const (
	YAML Format = iota
	JSON
	JSONLines
	CUE
	CSV
	Workbook // Office Open XML; its text is what sheet.Draw makes of it
)

// A FormatName is what a format is called and the file extensions it goes by.
type FormatName struct {
	Format     Format
	Name       string
	Extensions []string

	writer order.Writer
	read   func(*Loader, *source.File, Options) []syntax.Root
}

var formats = [...]FormatName{
	{YAML, "YAML", []string{".yaml", ".yml"}, yaml.Writer{}, plainly(yaml.Read)},
	{JSON, "JSON", []string{".json"}, json.Writer{}, plainly(json.Read)},
	{JSONLines, "JSON Lines", []string{".jsonl", ".ndjson"}, json.Writer{}, plainly(json.ReadLines)},
	{CUE, "CUE", []string{".cue"}, cue.Writer{}, func(_ *Loader, f *source.File, o Options) []syntax.Root { return cue.Read(f, o.Memory, o.TrustCUE) }},
	{CSV, "CSV", []string{".csv", ".tsv"}, table.Writer{}, func(l *Loader, f *source.File, _ Options) []syntax.Root { return l.tables.Read(f, false) }},
	{Workbook, "XLSX", []string{".xlsx"}, table.Writer{}, func(l *Loader, f *source.File, _ Options) []syntax.Root { return l.tables.Read(f, true) }},
}

// plainly reads a format that needs its text alone.
func plainly(read func(*source.File, *order.Memory) []syntax.Root) func(*Loader, *source.File, Options) []syntax.Root {
	return func(_ *Loader, f *source.File, o Options) []syntax.Root { return read(f, o.Memory) }
}

// Formats lists the formats that can be read.
func Formats() []FormatName { return formats[:] }

func (f Format) String() string { return formats[f].Name }

// FormatOf returns the format that a file's extension stands for, in either
// case, and reports whether it stands for one.
func FormatOf(name string) (Format, bool) {
	ext := strings.ToLower(filepath.Ext(name))
	for _, f := range formats {
		for _, e := range f.Extensions {
			if e == ext {
				return f.Format, true
			}
		}
	}
	return YAML, false
}

// IsTable reports whether a format is one of tables, which hold many other things
// than orders.
func IsTable(format Format) bool { return format == CSV || format == Workbook }

// Sniff guesses the format of a text without a name from how it begins; YAML
// unless something speaks for another.
func Sniff(text string) Format {
	rest := strings.TrimLeft(strings.TrimPrefix(text, syntax.ByteOrderMark), " \t\r\n")
	switch {
	case rest == "":
		return YAML
	case strings.HasPrefix(rest, "PK\x03\x04"):
		return Workbook
	case rest[0] == '{' || rest[0] == '[':
		line, after, more := strings.Cut(rest, "\n")
		line = strings.TrimRight(line, " \t\r")
		inner := strings.TrimLeft(rest[1:], " \t\r\n")
		if inner != "" && !strings.ContainsRune(`"{[]}`, rune(inner[0])) {
			return YAML // a flow collection with plain names
		}
		if more && line[len(line)-1] == '}' && strings.HasPrefix(strings.TrimLeft(after, " \t\r\n"), "{") {
			return JSONLines
		}
		return JSON
	case strings.HasPrefix(rest, "//"), strings.HasPrefix(rest, "package "), strings.HasPrefix(rest, "import "),
		strings.HasPrefix(rest, "let "), strings.HasPrefix(rest, "#") && definition(rest):
		return CUE
	case table.Heads(rest):
		return CSV
	}
	return YAML
}

// definition reports whether rest begins with a CUE definition, where YAML
// would have a comment.
func definition(rest string) bool {
	line, _, _ := strings.Cut(rest, "\n")
	name, value, ok := strings.Cut(line, ":")
	return ok && !strings.ContainsAny(name, " \t") && strings.Contains(value, "{")
}
