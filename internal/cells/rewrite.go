package cells

import (
	"errors"
	"fmt"
	"slices"

	"github.com/xuri/excelize/v2"

	"cutgate/internal/source"
)

// Rewrite writes into a workbook what differs between the text that was drawn
// from it and another. Styles, widths, other cells and other sheets stay. A cell
// that held a number still does where its new text is one. Formulas are worked
// out anew when the workbook is next opened, as they may use what was written.
func Rewrite(workbook []byte, was, now string) (out []byte, err error) {
	defer func() {
		if v := recover(); v != nil {
			err = fmt.Errorf("%v", v)
		}
		if err != nil {
			out, err = nil, fmt.Errorf("writing the workbook: %w", err)
		}
	}()
	before, fault := Drawn(was)
	if fault != nil {
		return nil, fault
	}
	after, fault := Drawn(now)
	if fault != nil {
		return nil, fault
	}
	f, err := open(workbook)
	if err != nil {
		return nil, err
	}
	defer func() { err = errors.Join(err, f.Close()) }()
	shown := styles{file: f}
	for i := range before {
		if err := rewriteSheet(&shown, &before[i], &after[i]); err != nil {
			return nil, err
		}
	}
	if err := calculateAnew(f); err != nil {
		return nil, err
	}
	b, err := f.WriteToBuffer()
	if err != nil {
		return nil, err
	}
	if written, fault := Drawn(Draw(b.Bytes())); fault != nil || !sameTexts(written, after) {
		return nil, errors.New("it does not say what it should afterwards")
	}
	return b.Bytes(), nil
}

// calculateAnew has the formulas worked out when the workbook is next opened. What
// is not given to the library anew it forgets.
func calculateAnew(f *excelize.File) error {
	props, err := f.GetCalcProps()
	if err != nil {
		return err
	}
	anew := true
	props.FullCalcOnLoad = &anew
	return f.SetCalcProps(&props)
}

// rewriteSheet writes what differs between two drawings of a sheet, which have
// the same cells.
func rewriteSheet(shown *styles, before, after *Sheet) error {
	for i := range before.Rows {
		for k := range before.Rows[i].Cells {
			was, now := &before.Rows[i].Cells[k], &after.Rows[i].Cells[k]
			if was.Text == now.Text {
				continue
			}
			name := source.Cell{Column: now.Column, Row: before.Rows[i].Number}.String()
			if err := rewriteCell(shown, before.Name, name, now.Text); err != nil {
				return err
			}
		}
	}
	return nil
}

// rewriteCell writes a text into a cell: as a number where the cell shows numbers
// and would show this one so.
func rewriteCell(shown *styles, sheet, name, text string) error {
	kind, err := shown.file.GetCellType(sheet, name)
	if err != nil {
		return err
	}
	how, err := shown.of(sheet, name)
	if err != nil {
		return err
	}
	if kind == excelize.CellTypeBool && (text == "true" || text == "false") {
		return shown.file.SetCellBool(sheet, name, text == "true")
	}
	number, ok := unshown(text, how)
	if !ok || kind != excelize.CellTypeNumber && kind != excelize.CellTypeUnset {
		return shown.file.SetCellStr(sheet, name, text)
	}
	return shown.file.SetCellFloat(sheet, name, number, -1, 64)
}

// sameTexts reports whether two drawings have the same texts in the same cells.
func sameTexts(a, b []Sheet) bool {
	return slices.EqualFunc(a, b, func(a, b Sheet) bool {
		return a.Name == b.Name && slices.EqualFunc(a.Rows, b.Rows, func(a, b Row) bool {
			return a.Number == b.Number && slices.EqualFunc(a.Cells, b.Cells, func(a, b Cell) bool {
				return a.Column == b.Column && a.Text == b.Text
			})
		})
	})
}
