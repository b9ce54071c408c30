package notes

import "strings"

// Markdown writes the description in CommonMark (spec.commonmark.org, version 0.31.2; from memory): a heading a part, lists,
// and every mark that the language would read in the text escaped.
func Markdown(n *Notes) string {
	var b strings.Builder
	for i, l := range n.Lines {
		if i > 0 && (l.Form != n.Lines[i-1].Form || l.Form == Plain || l.Part != n.Lines[i-1].Part) && l.Form != Detail && !(l.Form == Item && n.Lines[i-1].Form == Detail) {
			b.WriteByte('\n')
		}
		mark := ""
		switch {
		case l.Part == partTitle:
			mark = "# "
		case l.Form == Heading:
			mark = "## "
		case l.Form == Item || l.Form == Timed:
			mark = "- "
		case l.Form == Detail:
			mark = "  - "
		}
		b.WriteString(mark + escapeMarkdown(l.Text) + "\n")
	}
	return b.String()
}

// escapeMarkdown puts a backslash before every character that could begin a mark. CommonMark lets it stand before any ASCII
// punctuation.
func escapeMarkdown(text string) string {
	var b strings.Builder
	for i, c := range text {
		if strings.ContainsRune("\\`*_[]<>#|~&", c) || i == 0 && strings.ContainsRune("+-=", c) {
			b.WriteByte('\\')
		}
		b.WriteRune(c)
	}
	return b.String()
}
