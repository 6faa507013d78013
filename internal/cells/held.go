package cells

import (
	"archive/zip"
	"encoding/xml"
	"fmt"
	"io"

	"github.com/xuri/excelize/v2"
)

// maxHeld is how many rows, cells and texts the parts of a workbook may make the
// library hold: some 500 bytes each. It is more than the rows that a sheet can have.
const maxHeld = 1_500_000

// tooMuch reports a workbook that is small and yet would take more memory than
// there may be: of each row the library holds every cell up to the last that is
// there, even if that has nothing but a format.
func tooMuch(parts *zip.Reader) error {
	held := 0
	for _, p := range parts.File {
		if err := holds(p, &held); err != nil {
			return err
		}
	}
	return nil
}

// holds adds what a part makes the library hold. What can't be read here is an
// error of its own later on.
func holds(part *zip.File, held *int) error {
	r, err := part.Open()
	if err != nil {
		return nil
	}
	defer r.Close()
	d := xml.NewDecoder(io.LimitReader(r, maxUnpacked))
	// The names that count are ASCII, whatever the part says that it is in.
	d.CharsetReader = func(_ string, in io.Reader) (io.Reader, error) { return in, nil }
	last := 0 // the last column of the row so far
	for *held <= maxHeld {
		token, err := d.RawToken()
		if err != nil {
			return nil
		}
		start, ok := token.(xml.StartElement)
		if !ok {
			continue
		}
		switch start.Name.Local {
		case "row":
			last = 0
			*held++
		case "si":
			*held++
		case "c":
			column := max(last+1, columnOf(start.Attr))
			*held += column - last
			last = column
		}
	}
	return fmt.Errorf("it has more than %d rows, cells and texts, perhaps mostly empty formatted cells; put the orders in a workbook of their own", maxHeld)
}

// columnOf is the column of a cell by its attributes; 0 where it is not said.
func columnOf(attributes []xml.Attr) int {
	for _, a := range attributes {
		if a.Name.Local == "r" {
			column, _, _ := excelize.CellNameToCoordinates(a.Value)
			return max(0, column)
		}
	}
	return 0
}
