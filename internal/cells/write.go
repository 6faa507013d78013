package cells

import (
	"archive/zip"
	"encoding/csv"
	"fmt"
	"io"
	"strings"
	"unicode/utf16"
	"unicode/utf8"

	"cutgate/internal/source"
)

// A Page is a sheet to be filled in.
type Page struct {
	Name     string
	Title    string // a row above the headings
	Headings []Heading
	Rows     [][]string
}

// A Heading is the head of a column.
type Heading struct {
	Text  string
	Note  string   // what to write under it; "" for none
	Words []string // the words that may stand under it; nil for any text
}

// WriteCSV writes the pages below each other, with an empty row between. CSV has
// no notes.
func WriteCSV(w io.Writer, pages []Page) error {
	var rows [][]string
	for i, p := range pages {
		if i > 0 {
			rows = append(rows, nil)
		}
		if p.Title != "" {
			rows = append(rows, []string{p.Title})
		}
		var heads []string
		for _, h := range p.Headings {
			heads = append(heads, h.Text)
		}
		rows = append(append(rows, heads), p.Rows...)
	}
	if err := csv.NewWriter(w).WriteAll(rows); err != nil {
		return fmt.Errorf("writing a table: %w", err)
	}
	return nil
}

// toFill is how many rows of a page are made ready to be filled in.
const toFill = 200

// The widths of a column, in characters.
const (
	narrowest = 9
	widest    = 24
)

// longestChoice is how many characters, as UTF-16 counts them, the words may have
// together that a workbook offers for choice.
const longestChoice = 255

// The styles of cells, by their places in the part of styles.
const (
	textStyle = 1
	headStyle = 2
)

const styleSheet = xmlHead + `<styleSheet xmlns="` + mainSpace + `"><fonts count="2">` +
	`<font><sz val="11"/><name val="Calibri"/><family val="2"/></font><font><b/><sz val="11"/><name val="Calibri"/><family val="2"/></font></fonts>` +
	`<fills count="2"><fill><patternFill patternType="none"/></fill><fill><patternFill patternType="gray125"/></fill></fills>` +
	`<borders count="2"><border><left/><right/><top/><bottom/><diagonal/></border>` +
	`<border><left/><right/><top/><bottom style="medium"><color rgb="FF444444"/></bottom><diagonal/></border></borders>` +
	`<cellStyleXfs count="1"><xf numFmtId="0" fontId="0" fillId="0" borderId="0"/></cellStyleXfs>` +
	`<cellXfs count="3"><xf numFmtId="0" fontId="0" fillId="0" borderId="0" xfId="0"/>` +
	`<xf numFmtId="49" fontId="0" fillId="0" borderId="0" xfId="0" applyNumberFormat="1"/>` +
	`<xf numFmtId="49" fontId="1" fillId="0" borderId="1" xfId="0" applyNumberFormat="1" applyFont="1" applyBorder="1" applyAlignment="1">` +
	`<alignment vertical="bottom" wrapText="1"/></xf></cellXfs>` +
	`<cellStyles count="1"><cellStyle name="Normal" xfId="0" builtinId="0"/></cellStyles></styleSheet>`

const (
	xmlHead     = `<?xml version="1.0" encoding="UTF-8" standalone="yes"?>` + "\n"
	mainSpace   = "http://schemas.openxmlformats.org/spreadsheetml/2006/main"
	linkSpace   = "http://schemas.openxmlformats.org/officeDocument/2006/relationships"
	typesSpace  = "http://schemas.openxmlformats.org/package/2006/content-types"
	linksSpace  = "http://schemas.openxmlformats.org/package/2006/relationships"
	packageType = "application/vnd.openxmlformats-package."
	sheetType   = "application/vnd.openxmlformats-officedocument.spreadsheetml."
	officeType  = "application/vnd.openxmlformats-officedocument."
)

// A packer writes the parts of a workbook.
type packer struct {
	zip   *zip.Writer
	types strings.Builder // what each part is
	err   error
}

// part writes a part. Kind is its content type, "" where its extension has one.
func (p *packer) part(name, kind, text string) {
	if kind != "" {
		fmt.Fprintf(&p.types, `<Override PartName="/%s" ContentType="%s"/>`, name, sheetType+kind+"+xml")
	}
	if w, err := p.zip.Create(name); p.err == nil {
		if p.err = err; err == nil {
			_, p.err = io.WriteString(w, text)
		}
	}
}

// links writes the relationships of a part: their types and targets, the first as rId1.
func (p *packer) links(name string, others ...[2]string) {
	var b strings.Builder
	b.WriteString(xmlHead + `<Relationships xmlns="` + linksSpace + `">`)
	for i, o := range others {
		fmt.Fprintf(&b, `<Relationship Id="rId%d" Type="%s/%s" Target="%s"/>`, i+1, linkSpace, o[0], o[1])
	}
	p.part(relationsOf(name), "", b.String()+"</Relationships>")
}

// WriteWorkbook writes the pages as the sheets of a workbook. All its cells are
// text, so that no spreadsheet makes a date of 3/8; notes are comments on the
// headings, and words are offered for choice.
func WriteWorkbook(w io.Writer, pages []Page) error {
	p := packer{zip: zip.NewWriter(w)}
	p.links("", [2]string{"officeDocument", "xl/workbook.xml"})
	var sheets strings.Builder
	var links [][2]string
	for i, page := range pages {
		fmt.Fprintf(&sheets, `<sheet name="%s" sheetId="%d" r:id="rId%[2]d"/>`, escape(page.Name), i+1)
		links = append(links, [2]string{"worksheet", fmt.Sprintf("worksheets/sheet%d.xml", i+1)})
		p.page(&page, i+1)
	}
	p.links("xl/workbook.xml", append(links, [2]string{"styles", "styles.xml"})...)
	p.part("xl/workbook.xml", "sheet.main",
		xmlHead+`<workbook xmlns="`+mainSpace+`" xmlns:r="`+linkSpace+`"><bookViews><workbookView/></bookViews><sheets>`+sheets.String()+`</sheets></workbook>`)
	p.part("xl/styles.xml", "styles", styleSheet)
	p.part("[Content_Types].xml", "", xmlHead+`<Types xmlns="`+typesSpace+`">`+
		`<Default Extension="rels" ContentType="`+packageType+`relationships+xml"/><Default Extension="xml" ContentType="application/xml"/>`+
		`<Default Extension="vml" ContentType="`+officeType+`vmlDrawing"/>`+p.types.String()+`</Types>`)
	if err := p.zip.Close(); p.err == nil {
		p.err = err
	}
	if p.err != nil {
		return fmt.Errorf("writing a workbook: %w", p.err)
	}
	return nil
}

// page writes the n-th page.
func (p *packer) page(page *Page, n int) {
	var widths, rows, choices, notes, shapes strings.Builder
	cell := func(column, row, style int, text string) {
		if text != "" {
			fmt.Fprintf(&rows, `<c r="%s" s="%d" t="inlineStr"><is><t xml:space="preserve">%s</t></is></c>`,
				source.Cell{Column: column, Row: row}, style, escape(text))
		}
	}
	rows.WriteString(`<row r="1">`)
	cell(1, 1, textStyle, page.Title)
	rows.WriteString(`</row><row r="2">`)
	choosing := 0
	for i, h := range page.Headings {
		cell(i+1, 2, headStyle, h.Text)
		width := 0
		for _, row := range page.Rows {
			width = max(width, utf8.RuneCountInString(row[i])+2)
		}
		fmt.Fprintf(&widths, `<col min="%d" max="%[1]d" width="%d" style="%d" customWidth="1"/>`, i+1, min(max(width, narrowest), widest), textStyle)
		if h.Note != "" {
			fmt.Fprintf(&notes, noteText, source.Cell{Column: i + 1, Row: 2}, escape(h.Note))
			fmt.Fprintf(&shapes, noteShape, 1024*n+i+1, i, i+1, i+3)
		}
		// Where there are more words than a workbook has room for they can still be typed.
		if words := strings.Join(h.Words, ","); words != "" && len(utf16.Encode([]rune(words))) <= longestChoice {
			choosing++
			fmt.Fprintf(&choices, `<dataValidation type="list" allowBlank="1" sqref="%s3:%[1]s%d"><formula1>"%s"</formula1></dataValidation>`,
				source.ColumnName(i+1), toFill, escape(strings.ReplaceAll(words, `"`, `""`)))
		}
	}
	rows.WriteString(`</row>`)
	for r, row := range page.Rows {
		fmt.Fprintf(&rows, `<row r="%d">`, r+3)
		for i, text := range row {
			cell(i+1, r+3, textStyle, text)
		}
		rows.WriteString(`</row>`)
	}
	selected := ""
	if n == 1 {
		selected = ` tabSelected="1"`
	}
	var b strings.Builder
	b.WriteString(xmlHead + `<worksheet xmlns="` + mainSpace + `" xmlns:r="` + linkSpace + `"><sheetViews><sheetView workbookViewId="0"` + selected + `>` +
		`<pane ySplit="2" topLeftCell="A3" activePane="bottomLeft" state="frozen"/></sheetView></sheetViews>`)
	if widths.Len() > 0 {
		b.WriteString(`<cols>` + widths.String() + `</cols>`)
	}
	b.WriteString(`<sheetData>` + rows.String() + `</sheetData>`)
	if choosing > 0 {
		fmt.Fprintf(&b, `<dataValidations count="%d">%s</dataValidations>`, choosing, choices.String())
	}
	if notes.Len() > 0 {
		b.WriteString(`<legacyDrawing r:id="rId1"/>`)
		p.links(fmt.Sprintf("xl/worksheets/sheet%d.xml", n), [2]string{"vmlDrawing", fmt.Sprintf("../drawings/vmlDrawing%d.vml", n)},
			[2]string{"comments", fmt.Sprintf("../comments%d.xml", n)})
		p.part(fmt.Sprintf("xl/comments%d.xml", n), "comments", xmlHead+`<comments xmlns="`+mainSpace+`"><authors><author>cutgate</author></authors>`+
			`<commentList>`+notes.String()+`</commentList></comments>`)
		p.part(fmt.Sprintf("xl/drawings/vmlDrawing%d.vml", n), "", fmt.Sprintf(drawingHead, n)+shapes.String()+`</xml>`)
	}
	p.part(fmt.Sprintf("xl/worksheets/sheet%d.xml", n), "worksheet", b.String()+`</worksheet>`)
}

// A note is a text in one part, and a box to show it in, in a drawing of the older
// kind, without which spreadsheets do not show it: ECMA-376 part 4, 19.
const (
	noteText = `<comment ref="%s" authorId="0"><text><r><rPr><sz val="9"/><color indexed="81"/><rFont val="Calibri"/><family val="2"/></rPr>` +
		`<t xml:space="preserve">%s</t></r></text></comment>`

	drawingHead = `<xml xmlns:v="urn:schemas-microsoft-com:vml" xmlns:o="urn:schemas-microsoft-com:office:office" xmlns:x="urn:schemas-microsoft-com:office:excel">` +
		`<o:shapelayout v:ext="edit"><o:idmap v:ext="edit" data="%d"/></o:shapelayout>` +
		`<v:shapetype id="_x0000_t202" coordsize="21600,21600" o:spt="202" path="m,l,21600r21600,l21600,xe"><v:stroke joinstyle="miter"/>` +
		`<v:path gradientshapeok="t" o:connecttype="rect"/></v:shapetype>`

	// With its number, the column of its cell, and the columns between which it stands.
	noteShape = `<v:shape id="_x0000_s%d" type="#_x0000_t202" style="position:absolute;visibility:hidden" fillcolor="infoBackground [80]" o:insetmode="auto">` +
		`<v:fill color2="infoBackground [80]"/><v:shadow color="none [81]" obscured="t"/><v:path o:connecttype="none"/>` +
		`<v:textbox style="mso-direction-alt:auto"><div style="text-align:left"/></v:textbox>` +
		`<x:ClientData ObjectType="Note"><x:MoveWithCells/><x:SizeWithCells/><x:Anchor>%[3]d, 15, 1, 2, %[4]d, 31, 5, 4</x:Anchor>` +
		`<x:AutoFill>False</x:AutoFill><x:Row>1</x:Row><x:Column>%[2]d</x:Column></x:ClientData></v:shape>`
)

// escape writes a text as it stands in the XML of a part.
func escape(text string) string {
	var b strings.Builder
	for i, r := range text {
		_, read := escaped(text[i:]) // as another character
		switch {
		case r == '&':
			b.WriteString("&amp;")
		case r == '<':
			b.WriteString("&lt;")
		case r == '>':
			b.WriteString("&gt;")
		case r == '"':
			b.WriteString("&quot;")
		case unwritable(r) || r == '\r':
			fmt.Fprintf(&b, "_x%04X_", r)
		case read:
			b.WriteString("_x005F_")
		default:
			b.WriteRune(r)
		}
	}
	return b.String()
}
