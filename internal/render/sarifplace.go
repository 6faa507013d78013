package render

import (
	"net/url"
	"path/filepath"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/source"
)

// location writes a place: in the text, in the order's fields, and in the cells
// of a table. Where an id is given, so is a message.
func (j *jsonText) location(f *source.File, r source.Range, path string, id int, message string) {
	j.open('{')
	if id > 0 {
		j.number("id", id)
		j.message("message", message)
	}
	j.name("physicalLocation")
	j.open('{')
	j.artifact(f.Name)
	if !f.Drawn() {
		j.region("region", f, r)
	}
	j.close('}')
	var names []string
	if path != "" {
		names = append(names, path)
	}
	if cell, ok := f.Cell(r.Start); ok {
		names = append(names, cell.String())
	}
	if len(names) > 0 {
		j.name("logicalLocations")
		j.open('[')
		for _, name := range names {
			j.open('{')
			j.text("fullyQualifiedName", name)
			j.close('}')
		}
		j.close(']')
	}
	j.close('}')
}

// artifact writes which file is meant.
func (j *jsonText) artifact(name string) {
	j.name("artifactLocation")
	j.open('{')
	j.text("uri", uri(name))
	j.close('}')
}

// uri is a file's name as a reference: relative to the working folder as it is,
// an absolute one with its scheme.
func uri(name string) string {
	u := url.URL{Path: filepath.ToSlash(name)}
	if filepath.IsAbs(name) {
		u.Scheme = "file"
		if !strings.HasPrefix(u.Path, "/") { // a drive
			u.Path = "/" + u.Path
		}
	}
	return u.String()
}

// region writes a range of lines and columns, both from 1.
func (j *jsonText) region(name string, f *source.File, r source.Range) {
	startLine, startColumn := sarifPosition(f, r.Start)
	endLine, endColumn := sarifPosition(f, r.End)
	j.name(name)
	j.open('{')
	j.number("startLine", startLine)
	j.number("startColumn", startColumn)
	j.number("endLine", endLine)
	j.number("endColumn", endColumn)
	j.close('}')
}

// sarifPosition converts a byte offset to a line and a column of UTF-16 units,
// both from 1. A byte-order mark is no part of the text to those who show it.
func sarifPosition(f *source.File, offset int) (line, column int) {
	line, unit := f.UTF16(offset)
	if line == 0 && f.Base == 0 && unit > 0 && strings.HasPrefix(f.Text, "\ufeff") {
		unit--
	}
	return line + 1, unit + 1
}

// sarifFixes writes the fixes that can be made.
func (j *jsonText) sarifFixes(file *source.File, fixes []finding.Fix) {
	if file.Drawn() {
		return
	}
	begun := false
	for i := range fixes {
		f := &fixes[i]
		if f.Sureness == finding.Shown || len(f.Edits) == 0 {
			continue
		}
		if !begun {
			j.name("fixes")
			j.open('[')
			begun = true
		}
		j.open('{')
		j.message("description", f.Title)
		j.name("artifactChanges")
		j.open('[')
		j.open('{')
		j.artifact(file.Name)
		j.name("replacements")
		j.open('[')
		for _, e := range f.Edits {
			j.open('{')
			j.region("deletedRegion", file, e.Range)
			if e.Text != "" {
				j.content("insertedContent", e.Text)
			}
			j.close('}')
		}
		j.close(']')
		j.close('}')
		j.close(']')
		j.name("properties")
		j.open('{')
		j.text("sureness", f.Sureness.String())
		j.close('}')
		j.close('}')
	}
	if begun {
		j.close(']')
	}
}
