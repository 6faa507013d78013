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
	if id > 0 {
		j.number("id", id)
		j.message("message", message)
	}
	j.object("physicalLocation", func() {
		j.artifact(f.Name)
		if !f.Drawn() {
			j.region("region", f, r)
		}
	})
	var names []string
	if path != "" {
		names = append(names, path)
	}
	if cell, ok := f.Cell(r.Start); ok {
		names = append(names, cell.String())
	}
	j.optionalObjects("logicalLocations", len(names), func(i int) { j.text("fullyQualifiedName", names[i]) })
}

// artifact writes which file is meant.
func (j *jsonText) artifact(name string) {
	j.object("artifactLocation", func() { j.text("uri", uri(name)) })
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
	j.object(name, func() {
		j.number("startLine", startLine)
		j.number("startColumn", startColumn)
		j.number("endLine", endLine)
		j.number("endColumn", endColumn)
	})
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
	var made []*finding.Fix
	for i := range fixes {
		if f := &fixes[i]; f.Sureness != finding.Shown && len(f.Edits) > 0 {
			made = append(made, f)
		}
	}
	j.optionalObjects("fixes", len(made), func(i int) {
		j.message("description", made[i].Title)
		j.objects("artifactChanges", 1, func(int) {
			j.artifact(file.Name)
			j.objects("replacements", len(made[i].Edits), func(k int) {
				e := &made[i].Edits[k]
				j.region("deletedRegion", file, e.Range)
				if e.Text != "" {
					j.content("insertedContent", e.Text)
				}
			})
		})
		j.object("properties", func() { j.text("sureness", made[i].Sureness.String()) })
	})
}
