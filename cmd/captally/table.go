package main

import (
	"fmt"
	"io"
	"strings"
	"unicode/utf8"
)

// tableWidth is the width that tables and texts keep to, in characters: it fits a narrow window and a printed page.
const tableWidth = 100

// A column of a table. At most one may shrink.
type column struct {
	title  string
	right  bool // numbers stand at the right
	shrink bool // cut off with "…" where the table would be too wide
	ending bool // what is cut off is the beginning: the end of a path tells more
}

// A table is a list of rows with a title over each column.
type table struct {
	columns []column
	rows    [][]string
}

func (t *table) add(cells ...string) { t.rows = append(t.rows, cells) }

// print writes the table, each line indented by two spaces. Columns without any content are left out.
func (t *table) print(w io.Writer) {
	widths := t.widths()
	titles := make([]string, len(t.columns))
	for i, c := range t.columns {
		titles[i] = c.title
	}
	for _, row := range append([][]string{titles}, t.rows...) {
		var line strings.Builder
		for i, cell := range row {
			if widths[i] == 0 {
				continue
			}
			cell = cut(plain(cell), widths[i], t.columns[i].ending)
			pad := strings.Repeat(" ", widths[i]-utf8.RuneCountInString(cell))
			if t.columns[i].right {
				cell, pad = pad+cell, ""
			}
			line.WriteString("  " + cell + pad)
		}
		fmt.Fprintln(w, strings.TrimRight(line.String(), " "))
	}
}

// widths returns the width of each column, 0 for one that has nothing in it.
func (t *table) widths() []int {
	widths := make([]int, len(t.columns))
	for _, row := range t.rows {
		for i, cell := range row {
			widths[i] = max(widths[i], utf8.RuneCountInString(cell))
		}
	}
	total := 0
	for i, c := range t.columns {
		if widths[i] > 0 {
			widths[i] = max(widths[i], utf8.RuneCountInString(c.title))
			total += 2 + widths[i]
		}
	}
	for i, c := range t.columns {
		if c.shrink && total > tableWidth {
			widths[i] = max(12, widths[i]-(total-tableWidth))
		}
	}
	return widths
}

// cut shortens s to at most width characters, at its end or, to keep the ending, at its beginning.
func cut(s string, width int, ending bool) string {
	r := []rune(s)
	switch {
	case len(r) <= width:
		return s
	case ending:
		return "…" + string(r[len(r)-width+1:])
	}
	return strings.TrimRight(string(r[:width-1]), " ") + "…"
}

// wrap breaks s into lines of at most tableWidth characters, the first behind head, the others indented as far.
func wrap(head, s string) string {
	indent := utf8.RuneCountInString(head)
	var b strings.Builder
	b.WriteString(head)
	at := indent
	for i, word := range strings.Fields(plain(s)) {
		n := utf8.RuneCountInString(word)
		switch {
		case i == 0:
		case at+1+n > tableWidth:
			b.WriteString("\n" + strings.Repeat(" ", indent))
			at = indent
		default:
			b.WriteByte(' ')
			at++
		}
		b.WriteString(word)
		at += n
	}
	return b.String()
}
