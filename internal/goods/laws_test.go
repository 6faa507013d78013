package goods_test

import (
	"cmp"
	"os"
	"path/filepath"
	"regexp"
	"slices"
	"strings"
	"testing"

	"cutgate/internal/diagnose"
	"cutgate/internal/goods"
	"cutgate/internal/length"
	"cutgate/internal/load"
	"cutgate/internal/order"
	"cutgate/internal/source"
	"cutgate/internal/worksheet"
)

// cleanOrders are the orders in YAML that are clear to cut.
func cleanOrders(t *testing.T) map[string]string {
	t.Helper()
	list, err := filepath.Glob("../../testdata/orders/clean/*.yaml")
	if err != nil || len(list) == 0 {
		t.Fatal("there are no clean orders: ", err)
	}
	texts := map[string]string{}
	for _, name := range list {
		data, err := os.ReadFile(name)
		if err != nil {
			t.Fatal(err)
		}
		texts[filepath.Base(name)] = string(data)
	}
	return texts
}

// scalars calls do with everything that an order says.
func scalars(n *order.Node, do func(*order.Node)) {
	if n.Form == order.Scalar || n.Form == order.Number || n.Form == order.Truth {
		do(n)
	}
	for i := range n.Kids {
		scalars(&n.Kids[i], do)
	}
}

// What can't be read accuses nothing: one value of a clean order after the other is
// spoilt, under the names that the order gives its cloths and under such as have a
// word of the trade within them.
func TestUnreadableNeverAccuses(t *testing.T) {
	loader, tables := tools(t)
	names := []string{"", "corduroy", "cutsail", "presscloth", "rodeo", "tubing"}
	for file, text := range cleanOrders(t) {
		for i, name := range names {
			renamed := text
			if name != "" {
				o := loader.Orders(&source.File{Name: file, Text: text}, load.YAML, load.Options{})[0]
				cloth := o.Cloths[i%len(o.Cloths)].Name
				renamed = regexp.MustCompile(`\b`+regexp.QuoteMeta(cloth)+`\b`).ReplaceAllString(text, name)
			}
			o := loader.Orders(&source.File{Name: file, Text: renamed}, load.YAML, load.Options{})[0]
			scalars(o.Root, func(n *order.Node) {
				spoilt := renamed[:n.At.Start] + "4o//" + renamed[n.At.End:]
				for _, o := range loader.Orders(&source.File{Name: file, Text: spoilt}, load.YAML, load.Options{}) {
					s := worksheet.Work(o, tables, goods.All())
					diagnose.Order(s)
					for _, w := range s.Wrong {
						t.Errorf("%s: with %q (%s) spoilt, %s is called wrong", file, n.Text, n.Name, w.Quantity.Name)
					}
					for range s.Disagreements {
						t.Errorf("%s: with %q (%s) spoilt, values are said to disagree", file, n.Text, n.Name)
					}
				}
			})
		}
	}
}

// A changed choice moves no stated outcome but those that are said to rest on it, and
// each that is said to rest on something is moved by some change of some choice, but
// for counts: what is rounded up to a whole hides small changes.
func TestUsesAreTrue(t *testing.T) {
	loader, tables := tools(t)
	for file, text := range cleanOrders(t) {
		o := loader.Orders(&source.File{Name: file, Text: text}, load.YAML, load.Options{})[0]
		s := worksheet.Work(o, tables, goods.All())
		choices := s.Choices()
		moved := make([]bool, len(s.Stated))
		rests := make([]bool, len(s.Stated))
		for i := range choices {
			c := &choices[i]
			was := c.Value
			for _, times := range []length.Ratio{length.NewRatio(11, 10), length.NewRatio(9, 10), length.NewRatio(2, 1), length.NewRatio(1, 2)} {
				to := was
				if was.Sort == worksheet.Ratio || was.Sort == worksheet.Percent {
					to.R = was.R.Mul(times)
				} else {
					to.N = length.NewRatio(was.N, 1).Mul(times).Int(length.Nearest)
				}
				c.Take(to)
				after := worksheet.Work(o, tables, goods.All())
				for j := range s.Stated {
					of := &s.Stated[j]
					k := slices.IndexFunc(after.Stated, func(x worksheet.Stated) bool { return x.Node == of.Node })
					if k < 0 || of.Quantity == nil || after.Stated[k].Quantity == nil {
						continue
					}
					rests[j] = rests[j] || s.Moves(c, of)
					if after.Stated[k].Quantity.Value == of.Quantity.Value {
						continue
					}
					moved[j] = true
					if !s.Moves(c, of) {
						t.Errorf("%s: %s moves %s %s, and is not said to", file, c.Name, of.Quantity.Of, of.Quantity.Name)
					}
				}
			}
			c.Take(was)
		}
		for j := range s.Stated {
			if q := s.Stated[j].Quantity; q != nil && q.Value.Sort != worksheet.Count && rests[j] && !moved[j] {
				t.Errorf("%s: nothing moves %s %s", file, q.Of, q.Name)
			}
		}
	}
}

// A trial that takes from its base what nothing was changed of comes to the same as the
// order worked out anew, also in memory that trials before it were worked out in.
func TestTrialsAreTrue(t *testing.T) {
	loader, tables := tools(t)
	for file, text := range cleanOrders(t) {
		o := loader.Orders(&source.File{Name: file, Text: text}, load.YAML, load.Options{})[0]
		base := worksheet.Work(o, tables, goods.All())
		choices, scratch := base.Choices(), new(worksheet.Scratch)
		for i := range choices {
			c := &choices[i]
			for _, times := range []length.Ratio{length.NewRatio(11, 10), length.NewRatio(9, 10), length.NewRatio(2, 1), length.NewRatio(1, 10)} {
				to := c.Value
				if to.R = to.R.Mul(times); to.Sort != worksheet.Ratio && to.Sort != worksheet.Percent {
					to.R, to.N = c.Value.R, length.NewRatio(to.N, 1).Mul(times).Int(length.Nearest)
				}
				c.Take(to)
				trial := base.Try(o, &worksheet.Trial{Base: base, Changed: []*worksheet.Choice{c}, Scratch: scratch})
				anew := worksheet.Work(o, tables, goods.All())
				c.Take(c.Value)
				same := slices.EqualFunc(trial.Stated, anew.Stated, func(a, b worksheet.Stated) bool {
					return a.Slot == b.Slot && a.Value == b.Value && a.Agrees == b.Agrees && (a.Quantity == nil) == (b.Quantity == nil) &&
						(a.Quantity == nil || a.Quantity.Value == b.Quantity.Value)
				})
				if !same || !slices.Equal(trial.Beliefs(), anew.Beliefs()) {
					t.Errorf("%s: with %s times %s a trial comes to something else than the order worked out anew", file, c.Name, times.Format(2))
				}
				scratch.Release(trial)
			}
		}
	}
}

// Every outcome that the form has, and every size of a piece, has a slip, or is named
// here as one of which no slip is known.
func TestOutcomesHaveSlips(t *testing.T) {
	unknown := []string{"press setting", "first hole from the side"}
	for _, k := range goods.All().All() {
		var terms []string
		for i := range k.Outcomes {
			terms = append(terms, k.Outcomes[i].Term)
		}
		for i := range k.Pieces {
			terms = append(terms, k.Pieces[i].Width, k.Pieces[i].Length)
		}
		for _, term := range terms {
			known := slices.ContainsFunc(k.Slips, func(s worksheet.Slipping) bool { return s.Of == term })
			if known == slices.Contains(unknown, term) {
				t.Errorf("%s: the slips of %s: known %t, listed as unknown %t", strings.ToLower(k.Name), term, known, !known)
			}
		}
	}
}

// What a choice is where an order is silent can be told of every kind without an order.
func TestSilence(t *testing.T) {
	for _, k := range goods.All().All() {
		for i := range k.Given {
			if g := &k.Given[i]; g.Term == "back turn" && (g.Silence(length.In) != "1 in" || g.Silence(length.CM) != "2.5 cm") {
				t.Errorf("%s: a back's hem is turned %s, %s", k.Name, g.Silence(length.In), g.Silence(length.CM))
			} else {
				g.Silence(length.In)
			}
		}
	}
}

// Messages put an article before the name of a choice, and "should be" after it.
func TestChoicesAreNamed(t *testing.T) {
	unnamed := regexp.MustCompile(`^(the|below|on|each|own) |,| (less|more|shorter|narrower|under|stated)$|^\w+ (takes|shows)$`)
	for _, k := range goods.All().All() {
		for i := range k.Given {
			g := &k.Given[i]
			if name := cmp.Or(g.Name, g.Term); g.Choice != nil && unnamed.MatchString(name) {
				t.Errorf("%s: the %s should be something", k.Name, name)
			}
		}
	}
}
