package load

import (
	"math"
	"slices"
	"strings"

	"cutgate/internal/form"
)

// mostPlaces is how many places a message names.
const mostPlaces = 8

// A place is a field of the form that a name may mean: its path, and what it is called with
// the blocks that it lies in.
type place struct {
	path, name string
	words      []string
	in         *form.Group
	listed     bool // it is in an entry of a list, of which there may be many
}

// elsewhere are the paths of the fields that a name means which the item, a cloth or the head of
// the order has in another place: those of that very name; or else the one whose words it has,
// with the names of its blocks, as "top hem" has; or else those that other workrooms call so. Nil
// if there are none, or too many.
func (r *reading) elsewhere(name string) (paths []string) {
	if len(r.path) == 0 {
		return nil
	}
	places := r.places()
	has := func(is func(*place) bool) (list []place) {
		for i := range places {
			if is(&places[i]) {
				list = append(list, places[i])
			}
		}
		return list
	}
	words := form.Spoken(name)
	list := has(func(p *place) bool { return p.name == name && !p.listed })
	if len(list) == 0 && len(words) > 1 {
		list = has(func(p *place) bool { return r.said(words, p.words) })
	}
	if meant := r.l.Words.Fields[form.Fold(name)]; len(list) == 0 && len(meant) > 0 {
		list = has(func(p *place) bool { return slices.Contains(meant, p.name) && !p.listed })
		if in := slices.DeleteFunc(slices.Clone(list), func(p place) bool { // where another word of it belongs too
			return !slices.ContainsFunc(p.in.Names, func(n string) bool { return n != p.name && slices.Contains(words, n) })
		}); len(in) > 0 {
			list = in
		}
		if size := slices.DeleteFunc(slices.Clone(list), func(p place) bool { return p.words[0] != "finished" }); len(size) > 0 { // a size is of the goods before it is of a part
			list = size
		}
	}
	least := math.MaxInt // as likely as not, it is of the item rather than of a part of a part
	for _, p := range list {
		least = min(least, strings.Count(p.path, "."))
	}
	for _, p := range list {
		if strings.Count(p.path, ".") == least {
			paths = append(paths, p.path)
		}
	}
	if len(paths) > mostPlaces {
		return nil
	}
	return paths
}

// besides is the field of a group that a name is, with what the group is called: the width of a
// cloth that is written as its "cloth width"; "" for none.
func (r *reading) besides(name string, g *form.Group) string {
	subject := ""
	for _, step := range r.path {
		if step.Name != "" {
			subject = step.Name
		}
	}
	if r.item == nil && len(r.path) == 2 { // a cloth goes by its own name
		subject = r.path[0].Name
	}
	words := form.Spoken(name)
	if len(words) < 2 || subject == "" {
		return ""
	}
	for _, field := range g.Names {
		if r.said(words, append(form.Spoken(subject), form.Spoken(field)...)) {
			return field
		}
	}
	return ""
}

// said reports whether words are all of those that a place is called, in any order and in the
// words of any workroom.
func (r *reading) said(words, called []string) bool {
	means := func(word, own string) bool {
		return word == own || slices.ContainsFunc(r.l.Words.Fields[word], func(w string) bool { return slices.Equal(form.Spoken(w), []string{own}) })
	}
	if len(words) != len(called) {
		return false
	}
	for _, w := range words {
		if !slices.ContainsFunc(called, func(own string) bool { return means(w, own) }) {
			return false
		}
	}
	return true
}

// places are the fields, and the blocks of fields, that the item, its cloth and the head of the
// order have.
func (r *reading) places() (list []place) {
	var look func(in string, words []string, g *form.Group, listed bool)
	look = func(in string, words []string, g *form.Group, listed bool) {
		for i := range g.Fields {
			f := &g.Fields[i]
			p := place{path: in + f.Name, name: f.Name, words: append(slices.Clip(words), form.Spoken(f.Name)...), in: g, listed: listed}
			list = append(list, p)
			if f.Is.Of != nil {
				look(p.path+".", p.words, f.Is.Of, listed)
			} else if in != "" && f.Is.List != nil && f.Is.List.Of != nil {
				look(p.path+".", p.words, f.Is.List.Of, true)
			}
		}
	}
	top := r.l.Order.Of
	if r.item != nil {
		look(r.path[:2].String()+".", nil, r.item, false)
		if r.cloth != nil {
			look("cloths."+r.cloth.Text+".", []string{"cloth"}, top.Fields[top.Index["cloths"]].Is.Named.Of, false)
		}
	}
	look("", nil, top, false)
	return list
}
