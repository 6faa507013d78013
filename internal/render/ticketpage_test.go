package render_test

import (
	"bytes"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strings"
	"testing"

	"github.com/google/go-cmp/cmp"

	"cutgate/internal/browser"
	"cutgate/internal/finding"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/render"
	"cutgate/internal/source"
	"cutgate/internal/spread"
	"cutgate/internal/worksheet"
)

// crowded has the longest names, the most pieces and the most marks, and texts that a page
// must not take for its own.
const crowded = `order: PB-61 <script>alert("one")</script> & more of a number than anybody would ever write on a docket
client: "Pebble House </h1><img src=x onerror=alert(2)> of the Trustees of the Late Somebody and Somebody Else"
due: 2027-02-01
units: in
notes: "{{.}} 'single' \"double\" </style> Anunbrokenwordthatgoesonandonandonandonandonandonandonandonandonandonandonandonandonandonandonandonandon"
cloths:
  thistle: {name: "thistle print of a name that goes on, and on, beyond what any merchant has ever called a cloth <b>", fiber: {cotton: 100}, width: 54, selvedge: 1/2, repeat: {length: 25, width: 27, match: half drop}, nap: one way, bolts: [{lot: "K12 <i>", length: 30 yd}, {lot: K14, length: 30 yd}]}
  lining: {fiber: {cotton: 100}, width: 54, selvedge: 1/2}
  canvas: {fiber: {polyester: 100}, width: 60, selvedge: 1/2}
  linen: {fiber: {linen: 100}, width: 57, selvedge: 1/2, shrinks: {length: 4%, width: 2%}}
items:
  - item: curtain
    id: "a curtain with quite a long name for the landing upstairs, beside the window <u>that</u> looks to the north"
    room: the long gallery
    cloth: thistle
    lining: {cloth: lining}
    track: {width: 240, above_floor: 100, return: 3 1/2, overlap: 4}
    hang: {to: floor, clearance: 1/2}
    heading: {style: pinch pleat, fullness: 2.5}
    hems: {bottom: {turn: 4}, sides: {turn: 1 1/2}}
    weights: {kind: single}
  - {item: shower curtain, id: wide, cloth: linen, finished: {width: 400, length: 78}, hems: {top: {turn: 1 1/2}, bottom: {turn: 3}, sides: {turn: 1/2}}, holes: {make: grommet, count: 60, from_side: 3, from_top: 1}}
  - {item: Roman shade, id: shade, cloth: canvas, lining: {cloth: lining}, finished: {width: 100, length: 100}, mount: outside}
  - {item: bed skirt, id: skirt, cloth: canvas, bed: {width: 60, length: 80, height: 16}}
  - {item: duvet cover, id: duvet, cloth: linen, duvet: {width: 90, length: 90}, piping: {cloth: canvas, cord: 1/8}}
  - {item: cushion cover, id: seat, quantity: 6, cloth: linen, style: boxed, pad: {width: 20, length: 22, depth: 3}, zip: {length: 28, round_corner: 4}}
  - {item: napkin, id: one, quantity: 4, cloth: linen, finished: {width: 20, length: 20}}
  - {item: napkin, id: two, quantity: 4, cloth: linen, finished: {width: 20, length: 20}}
  - {item: napkin, id: three, room: hall, quantity: 4, cloth: linen, finished: {width: 20, length: 20}}
`

// tickets writes the tickets of the orders of a text, and their lays if asked.
func tickets(t *testing.T, text, as string, o render.Options, lays ...bool) string {
	t.Helper()
	checker, err := lint.New(nil)
	if err != nil {
		t.Fatal(err)
	}
	format, err := render.Named(render.TicketFormats(), as)
	if err != nil {
		t.Fatal(err)
	}
	var out bytes.Buffer
	list := format.Writer(&out, o)
	var sheets []*worksheet.Sheet
	for _, r := range checker.CheckFile(&source.File{Name: "order.yaml", Text: text}, load.YAML) {
		if r.Err != nil {
			t.Fatal(r.Err)
		}
		if err := list.Order(r.Sheet, r.Findings, r.Aside); err != nil {
			t.Fatal(err)
		}
		sheets = append(sheets, r.Sheet)
	}
	if len(lays) > 0 {
		spreads, left, err := spread.Of(t.Context(), sheets, spread.Options{})
		if err != nil {
			t.Fatal(err)
		}
		if err := list.Lays(&render.Laid{Spreads: spreads, Left: left, Verdicts: map[*worksheet.Sheet]finding.Verdict{}}); err != nil {
			t.Fatal(err)
		}
	}
	if err := list.Close(); err != nil {
		t.Fatal(err)
	}
	return out.String()
}

func TestTicketPage(t *testing.T) {
	for name, text := range map[string]string{"crowded": crowded, "seat": madeUp(t, "clean/saxby-window-seat.yaml")} {
		for _, as := range []string{"html", "text"} {
			got := tickets(t, text, as, render.Options{Brief: as == "html"})
			golden := filepath.Join("testdata", "tickets-"+name+"."+as)
			if os.Getenv("UPDATE") != "" {
				if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(golden)
			if err != nil {
				t.Fatal(err)
			}
			if diff := cmp.Diff(string(want), got); diff != "" {
				t.Errorf("%s is not what is written: %s", golden, diff)
			}
		}
	}
}

func madeUp(t *testing.T, name string) string {
	t.Helper()
	text, err := os.ReadFile("../../testdata/orders/" + name)
	if err != nil {
		t.Fatal(err)
	}
	return string(text)
}

// A page takes nothing of an order for its own words, runs nothing and fetches nothing.
func TestTicketPageHarmless(t *testing.T) {
	page := tickets(t, crowded, "html", render.Options{})
	for _, bad := range []string{"<script", "<img", "<b>\"", "<u>", "<i>", "</h1><img", "</style> A", "src=x onerror=alert(2)>", "@import", "url(http"} {
		if strings.Contains(page, bad) {
			t.Errorf("the page has %q in it", bad)
		}
	}
	for _, link := range regexp.MustCompile(`(?i)(https?:)?//[^"' <)]+`).FindAllString(page, -1) {
		if link != "http://www.w3.org/2000/svg" {
			t.Errorf("the page names %s", link)
		}
	}
	if !strings.Contains(page, "&lt;script&gt;alert(") {
		t.Error("the order's number does not stand on the page as it is written")
	}
}

// What a page says a text says too: every line of one is on the other.
func TestTicketPageSaysAsText(t *testing.T) {
	plain := func(s string) string {
		s = regexp.MustCompile(`(?s)<svg.*?</svg>|<style.*?</style>|<[^>]*>`).ReplaceAllString(s, " ")
		s = strings.NewReplacer("&lt;", "<", "&gt;", ">", "&#34;", `"`, "&#39;", "'", "&#43;", "+", "&amp;", "&", "\u00a0", " ").Replace(s)
		return strings.Join(strings.Fields(s), " ")
	}
	page := plain(tickets(t, crowded, "html", render.Options{}))
	for _, l := range strings.Split(tickets(t, crowded, "text", render.Options{Width: 100000}), "\n") {
		words := strings.Fields(l)
		if len(words) < 4 || strings.Contains(l, "______") || strings.HasPrefix(l, "CUT") {
			continue
		}
		if text := strings.Join(words[len(words)-3:], " "); !strings.Contains(page, text) && !strings.Contains(l, "make ") {
			t.Errorf("the page lacks the end of %q", l)
		}
	}
}

// Items that are made in the same way stand on a ticket once, and nothing of them is lost.
func TestAlike(t *testing.T) {
	text := tickets(t, crowded, "text", render.Options{Brief: true})
	for _, want := range []string{"also two · three, hall; 12 in all", "12 pieces (1 each)"} {
		if !strings.Contains(text, want) {
			t.Errorf("the ticket does not say %q", want)
		}
	}
	if strings.Contains(text, "WORKINGS") {
		t.Error("a ticket without workings has them")
	}
	// Ten alike curtains take hardly more lines than one.
	one := "order: A\nunits: in\ncloths: {c: {fiber: {cotton: 100}, width: 54}}\nitems:\n"
	curtain := "  - {item: curtain, id: c%d, cloth: c, track: {width: 60, above_floor: 90}, hang: {to: floor}, heading: {style: pinch pleat}, hems: {bottom: {turn: 4}, sides: {turn: 1 1/2}}}\n"
	ten := one
	for i := range 10 {
		ten += fmt.Sprintf(curtain, i)
	}
	lines := func(text string) int { return strings.Count(tickets(t, text, "text", render.Options{}), "\n") }
	if a, b := lines(one+fmt.Sprintf(curtain, 0)), lines(ten); b > a+5 {
		t.Errorf("one curtain has %d lines, ten alike have %d", a, b)
	}
}

// onPaper is a script that flows the tickets of a page into columns as large as a sheet of
// paper, which break as pages do, and writes what is cut, lies on something else, or runs
// out; on a screen of a phone's width it looks for what runs out at the side.
const onPaper = `<script>
const wide = %d, high = %d, found = [];
let pictures = 0, texts = 0;
const say = (what, text) => found.push(what + ": " + text.slice(0, 180));
for (const a of document.querySelectorAll(".ticket")) {
  if (high) a.style.cssText = "width:" + wide + "px;height:" + high + "px;column-width:" + wide + "px;column-gap:40px;column-fill:auto;margin:0";
  for (const f of a.querySelectorAll("figure, .step > div > h3, .checks, .stop > strong")) {
    if (f.matches("figure")) pictures++;
    if (f.getClientRects().length > 1) say("cut by a page's end", f.textContent.trim());
    const r = f.getBoundingClientRect();
    if (high && r.height > high + 1) say("higher than a page", f.textContent.trim());
  }
  const boxes = [], home = a.getBoundingClientRect();
  const sheet = e => Math.floor((e.getBoundingClientRect().left - home.left + 1) / (wide + 40));
  if (high) for (const h of a.querySelectorAll(".part > h2, .item > .head, .item > p, h3, h4, .ticket > .head")) {
    const next = h.nextElementSibling;
    if (next && sheet(h) != sheet(next.querySelector("dd, p, figure, .box") || next)) say("a heading at a page's foot", h.textContent.trim() + " of " + a.querySelector("h1").textContent + " on " + sheet(h) + " before " + sheet(next) + " " + next.className + " " + next.textContent);
  }
  const walk = document.createTreeWalker(a, NodeFilter.SHOW_TEXT);
  while (walk.nextNode()) {
    const n = walk.currentNode;
    if (!n.data.trim() || n.parentNode.closest("title")) continue;
    texts++;
    const range = document.createRange();
    range.selectNodeContents(n);
    for (const r of range.getClientRects()) {
      if (r.width < 1) continue;
      const svg = n.parentNode.closest("figure"), page = svg ? svg.getBoundingClientRect() : null;
      let left = home.left, right = home.right;
      if (high) { left = home.left + Math.floor((r.left - home.left + 1) / (wide + 40)) * (wide + 40); right = left + wide; }
      if (page) { right = Math.min(right, page.right); left = Math.max(left, page.left); }
      const scrolls = svg && !high; // a wide picture scrolls in its frame
      if (!scrolls && (r.left < left - 1 || r.right > right + 1)) say("runs out", n.data.trim());
      boxes.push([r, n.data.trim()]);
    }
  }
  boxes.sort((x, y) => x[0].left - y[0].left);
  boxes.forEach(([p, one], i) => {
    for (let j = i + 1; j < boxes.length && boxes[j][0].left < p.right; j++) {
      const [q, other] = boxes[j];
      const w = Math.min(p.right, q.right) - Math.max(p.left, q.left), h = Math.min(p.bottom, q.bottom) - Math.max(p.top, q.top);
      if (w > 1 && h > 1 && Math.min(w, h) > Math.min(p.width, p.height, q.width, q.height) / 5) say("overlap", one + " / " + other);
    }
  });
}
if (!high && document.documentElement.scrollWidth > innerWidth) say("wider than the screen", "" + document.documentElement.scrollWidth);
document.body.innerHTML = "<pre>measured " + (pictures > 0 && texts > 0) + "\n" + [...new Set(found)].map(f => f.replace(/[<&]/g, " ")).join("\n") + "</pre>";
</script>`

// someOrders are a quarter of the orders of the test data, of many kinds of goods, in inches
// and in metric: a browser takes its time.
func someOrders(t *testing.T) string {
	t.Helper()
	var all []string
	for _, folder := range []string{"demo", "clean"} {
		files, err := filepath.Glob("../../testdata/orders/" + folder + "/*.yaml")
		if err != nil || len(files) == 0 {
			t.Fatalf("no orders in %s: %v", folder, err)
		}
		for i, f := range files {
			if i%4 > 0 {
				continue
			}
			all = append(all, madeUp(t, folder+"/"+filepath.Base(f)))
		}
	}
	return strings.Join(all, "---\n")
}

// TestTicketOnPaper measures pages in a browser: on A4 and Letter less their margins, on a
// phone's screen and on a wide one. A page that is wrong is found to be, so that the
// measure is one.
func TestTicketOnPaper(t *testing.T) {
	page := tickets(t, crowded+"---\n"+someOrders(t), "html", render.Options{}, true)
	few := tickets(t, crowded, "html", render.Options{Brief: true})
	bad := strings.Replace(few, "</article>", `<div style="height:90%"></div><section class="part"><h3 style="break-after:column">alone</h3><p>text</p></section><div style="position:relative"><span style="position:absolute;left:0">one text</span><span style="position:absolute;left:3px">other text</span></div><p style="white-space:nowrap">`+strings.Repeat("far ", 200)+"</p></article>", 1)
	mm := func(l float64) int { return int(l * 96 / 25.4) }
	for _, c := range []struct {
		name       string
		wide, high int // of the paper less its margins; without a height, of a screen
		page       string
		want       []string
	}{
		{"A4", mm(210 - 20), mm(297 - 20), page, nil},
		{"Letter", mm(215.9 - 20), mm(279.4 - 20), page, nil},
		{"phone", 390, 0, page, nil},
		{"small phone", 360, 0, few, nil},
		{"screen", 1180, 0, few, nil},
		{"bad", mm(210 - 20), mm(297 - 20), bad, []string{"overlap: one text / other text", "runs out: far far", "a heading at a page's foot: alone"}},
	} {
		told := measured(t, c.page+fmt.Sprintf(onPaper, c.wide, c.high), c.wide)
		if c.want == nil && told != "true" {
			t.Errorf("%s: %s", c.name, told)
		}
		for _, want := range c.want {
			if !strings.Contains(told, want) {
				t.Errorf("%s: %q is not found: %s", c.name, want, told)
			}
		}
	}
}

// measured is what a page's script writes.
func measured(t *testing.T, page string, screen int) string {
	t.Helper()
	// A browser's window is never as narrow as a phone, but a frame in it may be.
	page = fmt.Sprintf(`<!doctype html><meta charset="utf-8"><body><iframe style="width:%dpx;height:1200px;border:0" srcdoc="%s"></iframe>
<script>document.querySelector("iframe").onload = e => document.body.innerHTML = e.target.contentDocument.body.innerHTML</script>`,
		screen, strings.NewReplacer("&", "&amp;", `"`, "&quot;").Replace(page))
	return strings.TrimSpace(browser.Measured(t, page, "1200,1300"))
}
