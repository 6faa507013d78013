package diagnose_test

import (
	"strings"
	"testing"

	"cutgate/internal/diagnose"
	"cutgate/internal/form"
	"cutgate/internal/goods"
	"cutgate/internal/load"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

// porch is an order whose stated values agree.
const porch = `order: T
units: in
cloths:
  sail: {width: 54, selvedge: 1/2, weight: 8 oz/yd2, sold_by: 1/4 yd, ordered: 5 1/2 yd}
items:
  - item: shower curtain
    cloth: sail
    finished: {width: 90, length: 76}
    hems: {top: {turn: 2, allowance: 4}, bottom: {turn: 3, allowance: 6}, sides: {turn: 1/2, allowance: 1}}
    join: {layout: center and sides, seam: plain, allowance: 5/8}
    cuts:
      - {piece: center, width: 54, length: 86, count: 1}
      - {piece: side, width: 20 1/4, length: 86, count: 2}
    holes: {make: grommet, count: 15, spacing: 6, from_side: 3}
`

func worked(t testing.TB, text string) *worksheet.Sheet {
	t.Helper()
	loader, err := load.New()
	if err != nil {
		t.Fatal(err)
	}
	tables, err := form.Tables()
	if err != nil {
		t.Fatal(err)
	}
	o := loader.Orders(&source.File{Name: "t.yaml", Text: text}, load.YAML, load.Options{})[0]
	return worksheet.Work(o, tables, goods.All())
}

// said is what the diagnosis comes to: what it would write, and how sure it is.
func said(s *worksheet.Sheet) (list []string) {
	for i := range s.Wrong {
		w := &s.Wrong[i]
		sure := "certain"
		if w.Likely {
			sure = "likely"
		}
		list = append(list, sure+" "+string(w.Quantity.Name)+" "+w.Quantity.Value.Format(s.Unit, w.Quantity.Round))
	}
	for i := range s.Misread {
		list = append(list, "likely "+s.Misread[i].Name+" "+s.Misread[i].Corrected)
	}
	for _, d := range s.Disagreements {
		var readings []string
		for _, r := range d.Readings {
			readings = append(readings, r.Writes[0].Name+" "+r.Writes[0].Text)
		}
		list = append(list, "either "+strings.Join(readings, " or "))
	}
	return list
}

func TestOrder(t *testing.T) {
	for _, c := range []struct{ name, old, now, want string }{
		{"nothing is wrong", "", "", ""},
		{"an outcome, its slip known and all else against it", "width: 20 1/4", "width: 19 5/8", "certain cut width 20 1/4 in"},
		{"a size that three outcomes contradict", "width: 90,", "width: 96,", "likely finished width 90"},
		{"the units", "units: in", "units: cm", "likely units in"},
		{"two sizes swapped", "width: 90, length: 76", "width: 76, length: 90", "likely finished width 90; likely finished length 76"},
		{"one equation, two unknowns", "count: 15, spacing: 6,", "count: 15, spacing: 5 5/8,", "either"},
		{"a hem that its own allowance and the cut speak for", "bottom: {turn: 3,", "bottom: {turn: 30,", "likely bottom hem's turn 3"},
		{"what can't be read accuses nothing", "turn: 3,", "turn: 3//,", ""},
		{"two mistakes far apart", "width: 20 1/4, length: 86", "width: 2 1/4, length: 68", "certain"},
	} {
		t.Run(c.name, func(t *testing.T) {
			s := worked(t, strings.Replace(porch, c.old, c.now, 1))
			diagnose.Order(s)
			got := strings.Join(said(s), "; ")
			if got != c.want && (c.want != "either" && c.want != "certain" || !strings.HasPrefix(got, c.want)) {
				t.Errorf("said: %s\nwant: %s", got, c.want)
			}
		})
	}
}

// TestOrderTwo makes two mistakes that bear on the same outcome.
func TestOrderTwo(t *testing.T) {
	for _, c := range []struct {
		edits []string
		want  string
	}{
		{[]string{"width: 90,", "width: 9,", "sides: {turn: 1/2, allowance: 1}", "sides: {turn: 1 1/4}"}, "likely finished width 90; likely side hems' turn 1/2"},
		{[]string{"width: 90,", "width: 60,", "spacing: 6,", "spacing: 5,"}, "likely hole spacing 6 in; likely finished width 90"},
	} {
		s := worked(t, strings.NewReplacer(c.edits...).Replace(porch))
		diagnose.Order(s)
		if got := strings.Join(said(s), "; "); got != c.want {
			t.Errorf("%q: said: %s\nwant: %s", c.edits, got, c.want)
		}
	}
}

// TestOrderBelief holds that a choice is asked about though a change of it that is too
// small would have an outcome believed to be the maker's own.
func TestOrderBelief(t *testing.T) {
	s := worked(t, `order: T
units: cm
cloths:
  fern: {width: 155.5, selvedge: 1.1}
  kelp: {width: 121, selvedge: 1.2, washed: true}
items:
  - item: valance
    cloth: fern
    board: {width: 172.5, return: 9.5}
    mount: rod
    rod: {diameter: 3.1}
    heading: {style: rod pocket, header: 4.2, fullness: 2, pocket: 5.5}
    finished: {width: 191.5, length: 33.3}
    hems: {bottom: {turn: 3.6, folds: 2}, sides: {turn: 2.8, folds: 2}}
    join: {seam: plain, allowance: 1.7, finish: overlocked}
    lining: {cloth: kelp, hem: {turn: 2.5, folds: 2}}
    cuts:
      - {piece: width, width: 155.5, length: 52.4, count: 3}
      - {piece: lining, width: 121, length: 48, count: 4, cloth: kelp}
`)
	diagnose.Order(s)
	if got, want := strings.Join(said(s), "; "), "either cut length 51.4 or bottom hem's turn 4.1"; got != want {
		t.Errorf("said: %s\nwant: %s", got, want)
	}
}

// TestOrderIron holds that the care label may be what is misread, and only where the
// fiber stands more than it says.
func TestOrderIron(t *testing.T) {
	for fiber, want := range map[string]string{
		"cotton":    "either iron setting for the sail 1 dot or iron on the care label 3 dots",
		"polyester": "likely press setting 1 dot", // polyester stands two dots at the most
	} {
		text := strings.Replace(porch, "weight: 8 oz/yd2,", "weight: 8 oz/yd2, fiber: {"+fiber+": 100}, care: {iron: 1 dot},", 1)
		s := worked(t, text+"    press: {setting: 3 dots}\n")
		diagnose.Order(s)
		if got := strings.Join(said(s), "; "); got != want {
			t.Errorf("%s: said: %s\nwant: %s", fiber, got, want)
		}
	}
}

// TestOrderAlike holds that another value of a choice is shown that does about as well:
// a cut of four repeats says little about the hem.
func TestOrderAlike(t *testing.T) {
	text := strings.Replace(porch, "ordered: 5 1/2 yd}", "repeat: {length: 21 1/2}}", 1)
	s := worked(t, strings.Replace(text, "bottom: {turn: 3, allowance: 6}", "bottom: {turn: 13}", 1))
	diagnose.Order(s)
	if len(s.Disagreements) != 1 {
		t.Fatalf("said: %v", said(s))
	}
	w := s.Disagreements[0].Readings[0].Writes[0]
	if w.Name != "bottom hem's turn" || len(w.Or) == 0 || w.Or[0].Text == w.Text {
		t.Errorf("said: %s %s, or %v", w.Name, w.Text, w.Or)
	}
}

// TestOrderInSteps holds that a choice is found which only a mass speaks for, and only by how
// many widths there are: none is lighter than what is stated, as it was rounded down.
func TestOrderInSteps(t *testing.T) {
	s := worked(t, `order: T
units: mm
cloths:
  linen: {width: 1500, selvedge: 10, weight: 290 g/m2}
items:
  - item: curtain
    panels: 1
    cloth: linen
    track: {kind: track, width: 2500, above_floor: 2320}
    hang: {to: floor, clearance: 12}
    heading: {style: pencil pleat, fullness: 2.25, allowance: 100, hook_drop: 40}
    hems: {bottom: {turn: 100, folds: 2}, sides: {turn: 380, folds: 2}}
    join: {seam: plain, allowance: 16}
    hanging_mass: 4.6 kg
`)
	diagnose.Order(s)
	if got, want := strings.Join(said(s), "; "), "likely side hems' turn 38"; got != want {
		t.Errorf("said: %s\nwant: %s", got, want)
	}
}

// TestOrderSenseless holds that a length beyond all sense is asked about though nothing
// contradicts it.
func TestOrderSenseless(t *testing.T) {
	bare := strings.Replace(porch, ", ordered: 5 1/2 yd", "", 1)
	from, to := strings.Index(bare, "    cuts:"), strings.Index(bare, "    holes:")
	bare = bare[:from] + "    cuts: [{piece: side, count: 2}]\n" + bare[to:]
	for allowance, want := range map[string]string{"5/8": "", "1": "", "55/8": "either seam allowance 5/8"} {
		s := worked(t, strings.Replace(bare, "seam: plain, allowance: 5/8", "seam: plain, allowance: "+allowance, 1))
		diagnose.Order(s)
		if got := strings.Join(said(s), "; "); got != want {
			t.Errorf("%s: said: %s\nwant: %s", allowance, got, want)
		}
	}
}

// BenchmarkOrder is a diagnosis of one mistake, and of two.
func BenchmarkOrder(b *testing.B) {
	for name, edit := range map[string][2]string{
		"clean":   {"", ""},
		"outcome": {"width: 20 1/4", "width: 19 5/8"},
		"choice":  {"bottom: {turn: 3,", "bottom: {turn: 30,"},
		"two":     {"width: 20 1/4, length: 86", "width: 2 1/4, length: 68"},
	} {
		b.Run(name, func(b *testing.B) {
			text := strings.Replace(porch, edit[0], edit[1], 1)
			for b.Loop() {
				b.StopTimer()
				s := worked(b, text)
				b.StartTimer()
				diagnose.Order(s)
			}
		})
	}
}
