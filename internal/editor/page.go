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

// rows writes what a label stands before. The lines of a working stand together,
// as they are.
func (p *page) rows(rows []render.Row) {
	last := ""
	for _, r := range rows {
		if r.Label != render.LabelWorking {
			p.row(r.Label, r.Text)
		} else {
			p.line(r.Label, r.Text, last == r.Label)
		}
		last = r.Label
	}
}

// row writes a label and what it stands before.
func (p *page) row(label, text string) {
	text = p.plain(oneLine(text))
	if p.markdown {
		p.WriteString("- *" + label + "*: " + text + "\n")
		return
	}
	p.WriteString(label + ": " + text + "\n")
}

// line writes a line of a working; a further one goes under those before it.
func (p *page) line(label, text string, further bool) {
	text = p.plain(text)
	switch {
	case further && p.markdown:
		p.WriteString("  \\\n  " + text + "\n")
	case further:
		p.WriteString(strings.Repeat(" ", len(label)+2) + text + "\n")
	default:
		p.row(label, text)
	}
}

// plain is text that means nothing in Markdown, and that can't disturb the screen.
func (p *page) plain(text string) string {
	text = source.Show(text)
	if !p.markdown {
		return text
	}
	var b strings.Builder
	for _, r := range text {
		if strings.ContainsRune("\\`*_{}[]<>()#+!|~&", r) {
			b.WriteByte('\\')
		}
		b.WriteRune(r)
	}
	return b.String()
}

func (p *page) content() *protocol.MarkupContent {
	kind := protocol.MarkupKindPlainText
	if p.markdown {
		kind = protocol.MarkupKindMarkdown
	}
	return &protocol.MarkupContent{Kind: kind, Value: strings.TrimRight(p.String(), "\n")}
}
