package notes

import (
	"bytes"
	_ "embed"
	"fmt"
	"html/template"
	"strings"
)

//go:embed handout.html
var handoutPage string

// A section is one part of the hand-out, as the page's template wants it.
type section struct {
	Part    string
	Heading string
	Items   []item
	Plain   []entry
}

type item struct {
	entry
	Details []entry
}

type entry struct {
	Text  string
	Blank bool
}

// Handout writes the description as one HTML page to print: large type, no colour needed, headings and lists that a screen
// reader can walk, nothing loaded from elsewhere. The layout follows the Clear Print advice of UKAAF G003 (2019): 14 point, even spacing,
// ranged left, no italics or capitals in running text.
func Handout(n *Notes) ([]byte, error) {
	t, err := template.New("handout").Parse(handoutPage)
	if err != nil {
		return nil, fmt.Errorf("the hand-out's page: %w", err)
	}
	page := struct {
		Title    entry
		Sections []section
	}{Sections: sections(n)}
	for _, l := range n.Lines {
		if l.Part == partTitle {
			page.Title = entry{Text: strings.Trim(l.Text, "[]"), Blank: l.Source == Blank}
		}
	}
	var b bytes.Buffer
	if err := t.Execute(&b, page); err != nil {
		return nil, fmt.Errorf("the hand-out: %w", err)
	}
	return b.Bytes(), nil
}

// sections gathers the lines of each part but the title.
func sections(n *Notes) []section {
	var out []section
	for _, l := range n.Lines {
		if l.Part == partTitle {
			continue
		}
		if len(out) == 0 || out[len(out)-1].Part != l.Part {
			out = append(out, section{Part: l.Part})
		}
		s := &out[len(out)-1]
		e := entry{Text: l.Text, Blank: l.Source == Blank}
		switch {
		case l.Form == Heading:
			s.Heading = l.Text
		case l.Form == Item || l.Form == Timed:
			s.Items = append(s.Items, item{entry: e})
		case l.Form == Detail && len(s.Items) > 0:
			last := &s.Items[len(s.Items)-1]
			last.Details = append(last.Details, e)
		default:
			s.Plain = append(s.Plain, e)
		}
	}
	return out
}
