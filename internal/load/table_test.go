package load

import (
	"encoding/binary"
	"strings"
	"testing"
	"unicode/utf16"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/order"
	"cutgate/internal/source"
)

// TestTableOrders groups the rows of tables into orders, and gives each its cloths.
func TestTableOrders(t *testing.T) {
	for _, c := range []struct {
		name, text string
		want       []string
	}{
		{"rows of one order", "order,units,item,cloth\nA,in,curtain,x\n,,napkin,x\nA,in,runner,y\nB,cm,napkin,x\nA,,tie-back,x\n", []string{
			"A in: curtain, napkin, runner, tie-back;", "B cm: napkin;",
		}},
		{"no number", "item,cloth,units\ncurtain,x,in\n", []string{" in: curtain;"}},
		{"cloths by use and by order", "order,item,cloth,lining cloth\nA,curtain,x,y\nB,curtain,x,\nC,curtain,z,\n\ncloth,order,width\nx,,1\nx,B,2\ny,,3\nw,,4\nz,C,5\n", []string{
			"A : curtain; x 1, y 3", "B : curtain; x 2", "C : curtain; z 5",
		}},
		{"all cloths where one is wanting", "order,item,cloth\nA,curtain,x\nB,curtain,q\n\ncloth,width\nx,1\ny,2\n", []string{"A : curtain; x 1", "B : curtain; x 1, y 2"}},
		{"a press cloth is no cloth of the order", "order,item,cloth,press cloth\nA,curtain,x,true\nB,curtain,y,\n\ncloth,width\nx,1\ny,2\n", []string{"A : curtain; x 1", "B : curtain; y 2"}},
		{"cloths first, with titles", "Cloths\ncloth,width\nx,1\n\nOrders\nitem,cloth\ncurtain,x\n", []string{" : curtain; x 1"}},
		{"a cloth that another order names wrongly", "order,item,cloth\nA,curtain,x\nB,curtain,q\n\ncloth,width,ordered\nx,1,2\ny,2,3\n", []string{"A : curtain; x 1, 2 ordered", "B : curtain; x 1, y 2, 3 ordered"}},
		{"a misspelt heading", "odrer,item,cltoh,id,room\nA,curtain,x,,\nB,runner,x,,\n\ncltoh,width,selvedge,repeat length,weight\nx,1,,,\n", []string{" : curtain; x 1", " : runner; x 1"}},
		{"in semicolons", "item;cloth;notes\ncurtain;x;a, b\n\ncloth;width\nx;1,5 m\n", []string{" : curtain; x 1,5 m"}},
		{"headings in two rows", "order,units,item,cloth,finished,,notes\n,,,,width,length,\nA,in,curtain,x,40,70,\n\ncloth,repeat,,width\n,length,width,\nx,1,2,3\n", []string{"A in: curtain; x 3"}},
		{"headings in two rows, the lower with most of them", ",,,,finished,,\norder,units,item,cloth,width,length,notes\nA,in,curtain,x,40,70,\n", []string{"A in: curtain;"}},
		{"sums, and rows of the shop's own", "order,item,cloth,finished width,#price\nA,curtain,x,1,2\n,,,,3\nTotal:,,,1,5\n\ncloth,width\nx,1\nSum,1\n", []string{"A : curtain; x 1"}},
		{"a row that is no item", "order,item,cloth\nA,,\n,curtain,x\n\n# mine\n", []string{"A : curtain;"}},
	} {
		var got []string
		for _, o := range loaderFor(t).Orders(&source.File{Text: c.text}, CSV, Options{}) {
			got = append(got, summary(o))
		}
		if d := cmp.Diff(c.want, got); d != "" {
			t.Errorf("%s: (-want +got)\n%s", c.name, d)
		}
	}
}

// summary is an order's number and units, the kinds of its items, and its cloths
// with their widths, and how much is ordered, as written.
func summary(o *order.Order) string {
	var items, cloths []string
	for i := range o.Items {
		items = append(items, o.Items[i].Kind.Value)
	}
	for i := range o.Cloths {
		cloths = append(cloths, o.Cloths[i].Name+" "+o.Cloths[i].Of.Width.Node.Text)
		if n := o.Cloths[i].Of.Ordered.Node; n != nil {
			cloths = append(cloths, n.Text+" ordered")
		}
	}
	return strings.TrimRight(o.Number.Value+" "+o.Units.Value+": "+strings.Join(items, ", ")+"; "+strings.Join(cloths, ", "), " ")
}

// TestTableEmptyCells holds that an empty cell is in the tree of an item where its kind has
// the field, so that it can be filled in, and else is not.
func TestTableEmptyCells(t *testing.T) {
	const text = "order,item,cloth,finished width,board width,hem turn,hems sides turn,cut 1 piece,cut 1 width,cut 2 width\n" +
		"A,napkin,x,,,,,piece,,\n" +
		"B,cornice,x,20,,,1,,,\n" +
		"C,nakpin,x,,,,,,,\n"
	var got []string
	for _, o := range loaderFor(t).Orders(&source.File{Text: text}, CSV, Options{}) {
		var leaves []string
		var walk func(n *order.Node, path string)
		walk = func(n *order.Node, path string) {
			for i := range n.Kids {
				walk(&n.Kids[i], strings.TrimSpace(path+" "+n.Kids[i].Name))
			}
			if n.Kids == nil {
				leaves = append(leaves, path)
			}
		}
		walk(&o.Root.Kid("items").Kids[0], "")
		got = append(got, strings.Join(leaves, ", "))
	}
	want := []string{
		"item, cloth, finished width, hem turn, cuts piece, cuts width",
		"item, cloth, finished width, board width, hems sides turn",
		"item, cloth, finished width, board width, hem turn, hems sides turn",
	}
	if d := cmp.Diff(want, got); d != "" {
		t.Errorf("(-want +got)\n%s", d)
	}
}

// TestTableHasOrders tells tables of orders from others, however they are written. The
// bytes of UTF-16 are made by the standard library, as RFC 2781 has them.
func TestTableHasOrders(t *testing.T) {
	const text = "\ufeffitem\tcloth\tunits\r\ncurtain\tx\tin\r\n"
	var little, big []byte
	for _, u := range utf16.Encode([]rune(text)) {
		little, big = binary.LittleEndian.AppendUint16(little, u), binary.BigEndian.AppendUint16(big, u)
	}
	var wide []byte
	for _, r := range text {
		wide = binary.LittleEndian.AppendUint32(wide, uint32(r))
	}
	for name, c := range map[string]struct {
		text string
		want bool
	}{
		"UTF-8":                    {text, true},
		"UTF-16, low byte first":   {string(little), true},
		"UTF-16, high byte first":  {string(big), true},
		"UTF-16, cut short":        {string(little[:len(little)-1]), true},
		"lines that end with CR":   {"item;cloth\rcurtain;x\r", true},
		"a table of other things":  {"code,price\n60,4.50\n", false},
		"UTF-32, low byte first":   {string(wide), true},
		"other things, in UTF-16":  {"\xff\xfec\x00,\x00p\x00", false},
		"nothing but half a mark":  {"\xff", false},
		"nothing but a whole mark": {"\xff\xfe", false},
	} {
		if got := loaderFor(t).HasOrders(&source.File{Text: c.text}, CSV, Options{}); got != c.want {
			t.Errorf("%s: %v", name, got)
		}
	}
}
