package main

import (
	"bufio"
	"encoding/json"
	"fmt"
	"os"
	"path/filepath"
	"regexp"
	"strconv"
	"strings"

	"cutgate/internal/finding"
	"cutgate/internal/lint"
	"cutgate/internal/load"
	"cutgate/internal/order"
	"cutgate/internal/rule"
	"cutgate/internal/source"
	"cutgate/rules"

	"golang.org/x/tools/txtar"
)

type rep struct {
	File     string
	Findings []struct {
		Rule string
		At   struct{ Path string }
	}
}

var step = regexp.MustCompile(`[^.\[\]]+|\[\d+\]`)

func at(n *order.Node, path string) *order.Node {
	for _, s := range step.FindAllString(path, -1) {
		if n == nil {
			return nil
		}
		if s[0] == '[' {
			i, _ := strconv.Atoi(s[1 : len(s)-1])
			if i >= len(n.Kids) {
				return nil
			}
			n = &n.Kids[i]
		} else {
			n = n.Kid(s)
		}
	}
	return n
}

func main() {
	base := map[string][]string{}
	f, _ := os.Open("/tmp/base/out/fx.jsonl")
	sc := bufio.NewScanner(f)
	sc.Buffer(nil, 1<<24)
	for sc.Scan() {
		var r rep
		json.Unmarshal(sc.Bytes(), &r)
		for _, x := range r.Findings {
			if strings.Contains(r.File, "/"+strings.Replace(x.Rule, "/", "/", 1)+"/") {
				base[r.File] = append(base[r.File], x.At.Path)
			}
		}
	}
	c, err := lint.New(rules.All())
	if err != nil {
		panic(err)
	}
	check := func(text string) lint.Result {
		return c.CheckFile(&source.File{Name: "order.yaml", Text: text}, load.YAML)[0]
	}
	names, _ := filepath.Glob("rules/*/testdata/*.txtar")
	done, bad := 0, 0
	for _, name := range names {
		ar, _ := txtar.ParseFile(name)
		parts := strings.Split(name, "/")
		id := parts[1] + "/" + strings.TrimSuffix(parts[3], ".txtar")
		changed := false
		lefts := map[string]left{}
		for i := range ar.Files {
			file := &ar.Files[i]
			if !strings.HasPrefix(file.Name, "wrong") || !strings.HasSuffix(file.Name, "/order.yaml") || strings.Contains(file.Name, "fixed") {
				continue
			}
			paths := base["fx/"+id+"/"+file.Name]
			if len(paths) == 0 {
				continue
			}
			has := func(res lint.Result) bool {
				n := 0
				for _, x := range res.Findings {
					if x.Rule == id && (x.Path == paths[0]) {
						n++
					}
				}
				return n > 0
			}
			if has(check(string(file.Data))) {
				continue
			}
			ok := false
			for try := 0; try < 3 && !ok; try++ {
				text, good := enrich(c, check, string(file.Data), paths, try)
				if good && has(check(text)) {
					file.Data = []byte(text)
					changed, ok = true, true
				}
			}
			if ok {
				done++
			} else {
				bad++
				lefts[strings.Split(file.Name, "/")[0]] = left{string(file.Data), paths}
				fmt.Println("left", id, file.Name, paths)
				for _, x := range check(string(file.Data)).Findings {
					fmt.Println("     ", x.Rule, x.Path, x.Message)
				}
			}
		}
		// What can be read in two ways is on the edge.
		for folder := range lefts {
			if !strings.HasPrefix(folder, "wrong-") || parts[1] == "waiver" || parts[1] == "form" {
				continue
			}
			to := "borderline-two-readings" + strings.TrimPrefix(folder, "wrong")
			if strings.Contains(folder, "without-a-count") {
				to = "borderline-by-hand" + strings.TrimPrefix(folder, "wrong")
			}
			for i := range ar.Files {
				if rest, ok := strings.CutPrefix(ar.Files[i].Name, folder+"/"); ok {
					ar.Files[i].Name = to + "/" + rest
					changed = true
				}
			}
		}
		wrongs := false
		for i := range ar.Files {
			wrongs = wrongs || strings.HasPrefix(ar.Files[i].Name, "wrong")
		}
		if !wrongs && len(lefts) > 0 {
			for _, l := range lefts {
				done := false
				for k, alter := range []func(string) string{ten, swap, tenth, cm} {
					name := []string{"wrong-decimal-place", "wrong-digits-swapped", "wrong-decimal-place", "wrong-inches-for-centimetres"}[k]
					for try := 0; try < 3 && !done; try++ {
						text, right, good := enrichWith(c, check, l.text, l.paths[:1], try, alter)
						if !good || right == "" {
							continue
						}
						res := check(text)
						for _, x := range res.Findings {
							if x.Rule == id && x.Path == l.paths[0] {
								done = true
							}
						}
						if done {
							ar.Files = append([]txtar.File{{Name: name + "/order.yaml", Data: []byte(text)}, {Name: name + "/want"}}, ar.Files...)
							changed = true
						}
					}
				}
				if done {
					break
				}
			}
			has := false
			for i := range ar.Files {
				has = has || strings.HasPrefix(ar.Files[i].Name, "wrong")
			}
			if !has {
				fmt.Println("NO WRONG CASE", id)
			}
		}
		if changed {
			os.WriteFile(name, txtar.Format(ar), 0o644)
		}
	}
	fmt.Println(done, "enriched", bad, "left")
}

type left struct {
	text  string
	paths []string
}

func ten(s string) string {
	if strings.ContainsAny(s, "/ ") {
		return ""
	}
	if strings.Contains(s, ".") {
		i := strings.Index(s, ".")
		if i+1 >= len(s) {
			return ""
		}
		return s[:i] + s[i+1:i+2] + "." + s[i+2:] + "0"
	}
	return s + "0"
}

func tenth(s string) string {
	if len(s) < 2 || strings.ContainsAny(s, "/ .") {
		return ""
	}
	return s[:len(s)-1] + "." + s[len(s)-1:]
}

func swap(s string) string {
	for i := 0; i+1 < len(s); i++ {
		if s[i] >= '0' && s[i] <= '9' && s[i+1] >= '0' && s[i+1] <= '9' && s[i] != s[i+1] {
			return s[:i] + s[i+1:i+2] + s[i:i+1] + s[i+2:]
		}
	}
	return ""
}

func cm(s string) string {
	f, err := strconv.ParseFloat(s, 64)
	if err != nil {
		return ""
	}
	return strconv.FormatFloat(f*2.54, 'f', 1, 64)
}

func enrichWith(c *lint.Checker, check func(string) lint.Result, text string, paths []string, try int, alter func(string) string) (string, string, bool) {
	probe, ok := enrich(c, check, text, paths, try)
	if !ok {
		return "", "", false
	}
	res := check(probe)
	n := at(res.Order.Root, paths[0])
	// what stands there is wrong: find the right one by blanking it again
	blank := finding.Apply(probe, []finding.Edit{{Range: n.At, Text: "null"}})
	out, err := c.Correct(&source.File{Name: "order.yaml", Text: blank}, load.YAML, lint.Correcting{Fill: true})
	if err != nil {
		return "", "", false
	}
	res = check(out.File.Text)
	n = at(res.Order.Root, paths[0])
	right := n.Text
	wrong := alter(right)
	if wrong == "" || wrong == right {
		return "", "", false
	}
	return finding.Apply(out.File.Text, []finding.Edit{{Range: n.At, Text: wrong}}), right, true
}

// enrich states more outcomes on an order.
func enrich(c *lint.Checker, check func(string) lint.Result, text string, paths []string, try int) (string, bool) {
	res := check(text)
	if res.Order == nil || res.Order.Root == nil {
		return "", false
	}
	var wrong []string
	var edits []finding.Edit
	pass := rule.NewPass(res.Sheet)
	for _, p := range paths {
		n := at(res.Order.Root, p)
		if n == nil || n.Form == order.Map || n.Form == order.List {
			return "", false
		}
		wrong = append(wrong, n.Text)
		edits = append(edits, finding.Edit{Range: n.At, Text: "null"})
		_ = pass
	}
	blank := finding.Apply(text, edits)
	if try > 0 {
		for i := range res.Order.Items {
			it := &res.Order.Items[i]
			if len(it.Cuts) > 0 {
				continue
			}
			var pieces []string
			for _, p := range res.Sheet.Items[i].Pieces {
				pieces = append(pieces, "{piece: "+p.Name+"}")
			}
			at := strings.LastIndex(blank, "    hems:")
			if at < 0 || len(pieces) == 0 || len(res.Order.Items) > 1 {
				continue
			}
			blank = blank[:at] + "    cuts: [" + strings.Join(pieces, ", ") + "]\n" + blank[at:]
		}
	}
	if try > 1 && !strings.Contains(blank, "weight:") {
		blank = strings.Replace(blank, "{width:", "{weight: 7 oz/yd2, width:", 1)
	}
	out, err := c.Correct(&source.File{Name: "order.yaml", Text: blank}, load.YAML, lint.Correcting{Fill: true})
	if err != nil {
		return "", false
	}
	filled := check(out.File.Text)
	for _, x := range filled.Findings {
		if x.Level >= finding.Warning {
			return "", false
		}
	}
	edits = nil
	for i, p := range paths {
		n := at(filled.Order.Root, p)
		if n == nil {
			return "", false
		}
		r := n.At
		edits = append(edits, finding.Edit{Range: r, Text: wrong[i]})
	}
	return finding.Apply(out.File.Text, edits), true
}
