package editor

import (
	"strings"

	"go.lsp.dev/protocol"

	"cutgate/internal/render"
	"cutgate/internal/source"
)

// A page is text for a person, in Markdown where the editor shows that.
type page struct {
	strings.Builder
	markdown bool
}

// head begins a part: a word or two that stand out, and a sentence.
func (p *page) head(stamp, text string) {
	if p.Len() > 0 {
		p.WriteString("\n")
		if p.markdown {
			p.WriteString("---\n\n")
		}
	}
	if stamp != "" {
		stamp = p.plain(stamp)
		if p.markdown {
			stamp = "**" + stamp + "**"
		}
		text = strings.TrimSpace(stamp + "  " + p.plain(text))
	} else {
		text = p.plain(text)
	}
	p.WriteString(text + "\n")
	if p.markdown {
		p.WriteString("\n")
	}
}

// rows writes rows, the lines of a working together and as they are.
func (p *page) rows(rows []render.Row) {
	for i := 0; i < len(rows); i++ {
		if rows[i].Label != render.LabelWorking {
			p.row(rows[i].Label, rows[i].Text)
			continue
		}
		first := i
		for i+1 < len(rows) && rows[i+1].Label == render.LabelWorking {
			i++
		}
		p.working(rows[first : i+1])
	}
}

// row writes a label and what it stands before.
func (p *page) row(label, text string) {
	label, text = p.plain(label), p.plain(oneLine(text))
	if p.markdown {
		p.WriteString("- *" + label + "*: " + text + "\n")
		return
	}
	p.WriteString(label + ": " + text + "\n")
}

// working writes the lines of a working.
func (p *page) working(rows []render.Row) {
	fence, indent := "", "  "
	if p.markdown {
		p.WriteString("- *" + render.LabelWorking + "*:\n\n")
		fence, indent = "```\n", ""
	} else {
		p.WriteString(render.LabelWorking + ":\n")
	}
	p.WriteString(fence)
	for _, r := range rows {
		p.WriteString(indent + strings.ReplaceAll(source.Show(r.Text), "`", "'") + "\n")
	}
	if p.WriteString(fence); p.markdown {
		p.WriteString("\n")
	}
}

// plain is text that means nothing in Markdown, and that can't disturb the screen.
func (p *page) plain(text string) string {
	text = source.Show(text)
	if !p.markdown {
		return text
	}
	var b strings.Builder
	for i, r := range text {
		// Within a word a _ means nothing, and an editor may show the stroke before it.
		if strings.ContainsRune("\\`*<[~&", r) || r == '_' && !between(text, i) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}

// between reports whether a letter or a digit of ASCII stands on either side of
// the byte at i.
func between(text string, i int) bool {
	return i > 0 && i+1 < len(text) && alphanumeric(text[i-1]) && alphanumeric(text[i+1])
}

func alphanumeric(c byte) bool {
	return 'a' <= c && c <= 'z' || 'A' <= c && c <= 'Z' || '0' <= c && c <= '9'
}

func (p *page) content() *protocol.MarkupContent {
	kind := protocol.MarkupKindPlainText
	if p.markdown {
		kind = protocol.MarkupKindMarkdown
	}
	return &protocol.MarkupContent{Kind: kind, Value: strings.TrimRight(p.String(), "\n")}
}
