package editor

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"go.lsp.dev/protocol"

	"cutgate/internal/form"
	"cutgate/internal/lint"
	"cutgate/internal/load"
)

// completionTriggers are what makes an editor ask without being told to.
var completionTriggers = []string{":", " ", "{", ",", "\""}

// Completion offers the fields that may be written in a place and are not there
// yet, or the words that may stand in a field.
func (s *Server) Completion(ctx context.Context, params *protocol.CompletionParams) (protocol.CompletionResult, error) {
	p := s.snapshot(params.TextDocument.URI)
	letGo(ctx)
	if p == nil {
		return nil, nil
	}
	at := offsetOf(p.places, params.Position)
	if load.IsTable(p.format) {
		if list := s.headings(p, at); list != nil {
			return list, ctx.Err()
		}
	}
	checker := p.checker.For(p.file)
	c := cursorAt(checker, p.format, p.file.Text, at)
	if c == nil || checker.Loader.IsForeign(c.order.Root, mark) {
		return nil, ctx.Err()
	}
	var list protocol.CompletionItemSlice
	offer := func(item protocol.CompletionItem, text string) {
		item.TextEdit = &protocol.TextEdit{Range: rangeOf(p.places, c.word), NewText: text}
		item.FilterText = protocol.NewOptional(text)
		item.SortText = protocol.NewOptional(fmt.Sprintf("%03d", len(list)))
		list = append(list, item)
	}
	if c.onName {
		for _, f := range c.fields(checker.Loader) {
			offer(s.fieldItem(&f), c.nameText(p.format, &f))
		}
		return list, ctx.Err()
	}
	for _, w := range c.words(checker) {
		offer(protocol.CompletionItem{Label: w, Kind: protocol.CompletionItemKindValue}, c.valueText(p.format, w))
	}
	return list, ctx.Err()
}

// headings are the headings that a row of them may have and does not have yet; nil
// where no row of headings is. The first row of a table is one in the making.
func (s *Server) headings(p *snapshot, offset int) (list protocol.CompletionItemSlice) {
	text := p.file.Text
	var word cursor
	word.takeCell(text, offset)
	line := strings.LastIndexByte(text[:offset], '\n') + 1
	end := lineEnd(text, offset)
	for _, h := range p.checker.For(p.file).Loader.Headings(text[line:word.word.Start]+text[word.word.End:end], strings.TrimSpace(text[:line]) == "") {
		list = append(list, protocol.CompletionItem{
			Label: h, Kind: protocol.CompletionItemKindField, FilterText: protocol.NewOptional(h),
			SortText: protocol.NewOptional(fmt.Sprintf("%03d", len(list))),
			TextEdit: &protocol.TextEdit{Range: rangeOf(p.places, word.word), NewText: h},
		})
	}
	return list
}

// fieldItem is a field as it is offered.
func (s *Server) fieldItem(f *form.Question) protocol.CompletionItem {
	item := protocol.CompletionItem{Label: f.Name, Kind: protocol.CompletionItemKindField}
	if f.Wanted != "" {
		item.Detail = protocol.NewOptional(allowed(f))
	}
	if f.Says != "" {
		item.Documentation = protocol.String(f.Says)
	}
	return item
}

// fields are the fields that may be written at the cursor and are not there yet,
// those that must be first.
func (c *cursor) fields(l *load.Loader) (list []form.Question) {
	group := c.chain[len(c.chain)-2]
	names := c.names()
	names = names[:len(names)-1]
	_, kind := c.item()
	list = l.Fields(names, kind)
	if len(names) == 3 && names[0] == "cloths" && names[2] == "fiber" {
		for _, name := range c.fibers {
			list = append(list, form.Question{Name: name, Wanted: form.Percent.Wanted()})
		}
	}
	if slices.Equal(names, []string{"measured"}) {
		for i := range c.order.Cloths {
			list = append(list, form.Question{Name: c.order.Cloths[i].Name, Holds: form.Fields})
		}
	}
	list = slices.DeleteFunc(list, func(f form.Question) bool { return group.Kid(f.Name) != nil })
	slices.SortStableFunc(list, func(a, b form.Question) int {
		switch {
		case a.Need == b.Need:
			return 0
		case a.Need:
			return -1
		}
		return 1
	})
	return list
}

// words are the words that may stand at the cursor.
func (c *cursor) words(checker *lint.Checker) []string {
	f := c.field(checker.Loader)
	names := c.names()
	switch {
	case f == nil:
		return nil
	case f.Words != nil:
		return f.Words
	case f.Wanted == form.Setting.Wanted():
		return []string{"1 dot", "2 dots", "3 dots", "none"}
	case f.Name == "cloth":
		var list []string
		for i := range c.order.Cloths {
			list = append(list, c.order.Cloths[i].Name)
		}
		return list
	case len(names) > 1 && names[len(names)-2] == "waive" && f.Name == "rule":
		var list []string
		for _, r := range checker.Rules {
			if t := r.Topic(); !slices.Contains(list, t) {
				list = append(list, t)
			}
			list = append(list, r.ID)
		}
		return list
	}
	return nil
}

// nameText is the name of a field as it is written at the cursor.
func (c *cursor) nameText(format load.Format, f *form.Question) string {
	text := f.Name
	if format == load.JSON || format == load.JSONLines {
		text = `"` + text + `"`
	} else if c.quote != "" {
		text = c.quote + text + c.quote
	}
	switch {
	case c.colon:
		return text
	case f.Holds == form.Value || format != load.YAML:
		return text + ": "
	}
	return text + ":"
}

// valueText is a word as it is written at the cursor.
func (c *cursor) valueText(format load.Format, word string) string {
	truth := word == "true" || word == "false"
	switch {
	case truth, load.IsTable(format):
		return c.gap + word
	case format != load.YAML:
		return c.gap + `"` + word + `"`
	case c.quote != "":
		return c.quote + word + c.quote
	}
	return c.gap + word
}
