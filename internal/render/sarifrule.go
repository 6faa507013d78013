package render

import (
	"strings"

	"cutgate/internal/rule"
)

// sarifRule writes a rule and all that it says of itself.
func (j *jsonText) sarifRule(r *rule.Rule) {
	j.text("id", r.ID)
	j.text("name", pascal(r.ID))
	j.message("shortDescription", r.Title)
	var text, markdown strings.Builder
	for i, s := range r.Sections() {
		if i == 0 {
			j.message("fullDescription", s.Text)
		} else {
			text.WriteString("\n\n")
			markdown.WriteString("\n\n")
		}
		text.WriteString(strings.TrimPrefix(s.Heading+"\n"+s.Text, "\n"))
		if s.Heading != "" {
			markdown.WriteString("**" + s.Heading + "**\n\n")
		}
		markdown.WriteString(plainMarkdown.Replace(s.Text))
	}
	if text.Len() > 0 {
		j.object("help", func() {
			j.text("text", sarifText(text.String()))
			j.text("markdown", sarifText(markdown.String()))
		})
	}
	j.object("defaultConfiguration", func() { j.text("level", r.Level.String()) })
}

// pascal is a rule's name as one word: WidthPanelsOff.
func pascal(id string) string {
	var b strings.Builder
	for word := range strings.FieldsFuncSeq(id, func(r rune) bool { return r == '/' || r == '-' }) {
		b.WriteString(strings.ToUpper(word[:1]) + word[1:])
	}
	return b.String()
}

// plainMarkdown keeps what means something in Markdown from meaning it.
var plainMarkdown = strings.NewReplacer(`\`, `\\`, "`", "\\`", "*", `\*`, "_", `\_`, "<", `\<`, "[", `\[`, "#", `\#`)
