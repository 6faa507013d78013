// Package draw makes pictures of what was worked out, as SVG.
//
// # Law
//
// A lay is drawn to scale; a piece keeps its shape, but its edges are drawn wider than they
// are. A picture is the same to the byte on every machine: places are whole hundredths of
// a unit of it. Lines are told apart by their dash and their weight,
// areas by their hatching, so that a print in black and white says as much. No text lies
// on another.
//
// It decides nothing: what lies where comes from the layers below.
package draw

import (
	"fmt"
	"strings"

	"cutgate/internal/length"
	"cutgate/internal/source"
)

// A px is a hundredth of a unit of a picture.
type px int64

func (p px) String() string {
	sign := ""
	if p < 0 {
		sign, p = "-", -p
	}
	if p%100 == 0 {
		return fmt.Sprintf("%s%d", sign, p/100)
	}
	return fmt.Sprintf("%s%d.%02d", sign, p/100, p%100)
}

// scaled is a length in the picture, where so much of it is drawn as room.
func scaled(l, of length.Length, room px) px {
	n, _ := length.MulDiv(int64(room), int64(l), max(1, int64(of)), length.Nearest)
	return px(n)
}

// A box is a rectangle of a picture.
type box struct{ x, y, w, h px }

// inside is the box that lies so far inside it all round.
func (b box) inside(d px) box { return box{b.x + d, b.y + d, b.w - 2*d, b.h - 2*d} }

// An svg is a picture that is being made.
type svg struct {
	strings.Builder
	words         strings.Builder // texts lie over everything, so that no line runs through one
	right, bottom px              // how far it goes
}

// reach makes the picture as large as it takes.
func (s *svg) reach(x, y px) {
	s.right, s.bottom = max(s.right, x), max(s.bottom, y)
}

func (s *svg) rect(class string, b box) {
	fmt.Fprintf(s, "<rect class=%q x=\"%s\" y=\"%s\" width=\"%s\" height=\"%s\"/>\n", class, b.x, b.y, b.w, b.h)
	s.reach(b.x+b.w, b.y+b.h)
}

func (s *svg) line(class string, x1, y1, x2, y2 px) {
	fmt.Fprintf(s, "<path class=%q d=\"M%s %sL%s %s\"/>\n", class, x1, y1, x2, y2)
	s.reach(max(x1, x2), max(y1, y2))
}

// The sizes of text: of a heading, of what is read at arm's length, and the least.
const (
	headSize  px = 2200
	textSize  px = 1600
	smallSize px = 1200
)

// wide is no less than what a text is wide in the plain faces that screens and printers
// have, the widest of which is DejaVu Sans.
func wide(text string, size px) (sum px) {
	for _, r := range text {
		switch {
		case strings.ContainsRune(" ijlftrIJ.,:;'|!()[]/-\"", r):
			sum += 46
		case 'a' <= r && r <= 'z' && r != 'm' && r != 'w', '0' <= r && r <= '9':
			sum += 64
		case 'A' <= r && r <= 'Z' && r != 'M' && r != 'W':
			sum += 79
		default:
			sum += 100
		}
	}
	return sum * size / 100
}

// sink is how far below the middle of a line its letters stand.
func sink(size px) px { return size * 35 / 100 }

// text writes a line whose letters stand on y. Anchor is start, middle or end. Turned text
// runs upwards.
func (s *svg) text(x, y, size px, anchor, text string, turned bool) {
	turn := ""
	if turned {
		turn = fmt.Sprintf(" transform=\"rotate(-90 %s %s)\"", x, y)
	}
	fmt.Fprintf(&s.words, "<text x=\"%s\" y=\"%s\" font-size=\"%s\" text-anchor=%q%s>%s</text>\n", x, y, size, anchor, turn, escape(text))
	if anchor == "start" && !turned {
		s.reach(x+wide(text, size), y+size/3)
	}
}

// escape makes a text from an order harmless.
func escape(text string) string {
	return strings.NewReplacer("&", "&amp;", "<", "&lt;", ">", "&gt;").Replace(source.Show(text))
}

// style are the lines and areas of all pictures.
const style = `<style>
text{font-family:sans-serif;fill:#000;paint-order:stroke;stroke:#fff;stroke-width:4px;stroke-linejoin:round;font-variant-numeric:tabular-nums}
rect,path,ellipse{fill:none;stroke:#000}
.cloth{fill:url(#waste);stroke:none}
.edge{stroke-width:3}
.open{stroke-width:1.5;stroke-dasharray:14 5}
.piece{fill:#fff;stroke-width:1.75}
.repeat{stroke-width:1;stroke-dasharray:1.5 5}
.drop{stroke-width:1;stroke-dasharray:9 4 1.5 4}
.flaw{fill:url(#flaw);stroke-width:2.25;stroke-dasharray:7 3}
.lead{fill:#fff;stroke-width:1;stroke-dasharray:3 3}
.mark{stroke-width:1}
.leader{stroke-width:.6}
.cut{stroke-width:2.5}
.fold{stroke-width:1.25;stroke-dasharray:12 5}
.finished{stroke-width:2;stroke-dasharray:16 5}
.sewn{stroke-width:1.25;stroke-dasharray:3 3}
.through{stroke-width:1.5;stroke-dasharray:14 4 2 4 2 4}
.hole{fill:#fff;stroke-width:1.75}
.nick{stroke-width:2.25}
.measure{stroke-width:.8;marker-start:url(#head);marker-end:url(#head)}
.grain{stroke-width:1.25;marker-end:url(#head)}
.both{marker-start:url(#head)}
</style>
<defs>
<pattern id="waste" width="9" height="9" patternUnits="userSpaceOnUse" patternTransform="rotate(45)"><path d="M0 0V9" stroke-width=".7"/></pattern>
<pattern id="flaw" width="7" height="7" patternUnits="userSpaceOnUse"><rect width="7" height="7" fill="#fff" stroke="none"/><path d="M0 0L7 7M7 0L0 7" stroke-width="1.2"/></pattern>
<marker id="head" viewBox="0 0 10 10" refX="9" refY="5" markerWidth="9" markerHeight="9" markerUnits="userSpaceOnUse" orient="auto-start-reverse"><path d="M0 0L10 5L0 10Z" fill="#000" stroke="none"/></marker>
</defs>
`

// Shared is what the pictures of a page have in common: it stands in it once, before
// them.
func Shared() string {
	return "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"0\" height=\"0\" style=\"position:absolute\" aria-hidden=\"true\">\n" + style + "</svg>\n"
}

// inline is the picture as a part of a page, or at a place of a picture.
func (s *svg) inline(title string, x, y px) string {
	at := ""
	if x != 0 || y != 0 {
		at = fmt.Sprintf(" x=\"%s\" y=\"%s\"", x, y)
	}
	return fmt.Sprintf("<svg xmlns=\"http://www.w3.org/2000/svg\" role=\"img\"%s width=\"%s\" height=\"%s\" viewBox=\"0 0 %s %s\">\n<title>%s</title>\n", at, s.right, s.bottom, s.right, s.bottom, escape(title)) +
		s.String() + s.words.String() + "</svg>\n"
}

// whole is the picture as a document.
func (s *svg) whole(title string) string {
	const margin px = 2000
	w, h := s.right+margin, s.bottom+margin
	return fmt.Sprintf("<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"%s\" height=\"%s\" viewBox=\"0 0 %s %s\">\n<title>%s</title>\n", w, h, w, h, escape(title)) +
		style + fmt.Sprintf("<rect width=\"%s\" height=\"%s\" style=\"fill:#fff;stroke:none\"/>\n", w, h) + s.String() + s.words.String() + "</svg>\n"
}
