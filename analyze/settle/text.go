package settle

import (
	"slices"
	"strings"
)

// A Clash is a place where an edit by hand and a change of the draft do not go together.
type Clash struct {
	Edited string // as edited by hand, from the older draft
	Draft  string // the draft as it is now
}

// EditedText returns the text of a form of the notes, such as "text", as edited by hand. draft is the form as it is drafted now.
// Where the draft has changed since the edit, both changes are taken over line by line; where they change the same lines, or
// lines that touch, the edited text is returned with a clash. Where the form was not edited, it is the draft.
func (d *Decisions) EditedText(form, draft string) (string, *Clash) {
	if d == nil {
		return draft, nil
	}
	var edit *Decision
	for i := range d.Made {
		if x := &d.Made[i]; x.Kind == NoteText && x.Form == form {
			edit = x
		}
	}
	switch {
	case edit == nil, edit.Text == "", edit.Text == edit.Base, edit.Text == draft:
		return draft, nil
	case edit.Base == draft:
		return edit.Text, nil
	}
	if text, ok := merged(lines(edit.Base), lines(edit.Text), lines(draft)); ok {
		return text, nil
	}
	return edit.Text, &Clash{Edited: edit.Text, Draft: draft}
}

// lines cuts a text behind its line ends.
func lines(s string) []string { return slices.Collect(strings.Lines(s)) }

// A hunk is a change of base lines [first,last) to other lines.
type hunk struct {
	first, last int
	to          []string
}

// merged makes the changes from base to a and from base to b in one text; ok is false where they touch each other and differ.
func merged(base, a, b []string) (text string, ok bool) {
	ours, theirs := changes(base, a), changes(base, b)
	var out strings.Builder
	at := 0
	for len(ours)+len(theirs) > 0 {
		var h hunk
		switch {
		case len(ours) > 0 && len(theirs) > 0 && ours[0].same(theirs[0]):
			h, ours, theirs = ours[0], ours[1:], theirs[1:]
		case len(ours) > 0 && len(theirs) > 0 && ours[0].touches(theirs[0]):
			return "", false
		case len(theirs) == 0 || len(ours) > 0 && ours[0].first < theirs[0].first:
			h, ours = ours[0], ours[1:]
		default:
			h, theirs = theirs[0], theirs[1:]
		}
		for _, l := range base[at:h.first] {
			out.WriteString(l)
		}
		for _, l := range h.to {
			out.WriteString(l)
		}
		at = h.last
	}
	for _, l := range base[at:] {
		out.WriteString(l)
	}
	return out.String(), true
}

func (h hunk) same(o hunk) bool {
	return h.first == o.first && h.last == o.last && slices.Equal(h.to, o.to)
}
func (h hunk) touches(o hunk) bool { return h.first <= o.last && o.first <= h.last }

// changes returns how one text becomes another, by their longest common subsequence of lines (any textbook on algorithms has it).
// The notes have some hundred lines, so the table stays small; where it would not, the whole is one change.
func changes(from, to []string) []hunk {
	const most = 4 << 20
	n, m := len(from), len(to)
	if n*m > most {
		return []hunk{{0, n, to}}
	}
	common := make([][]int, n+1) // of from[i:] and to[j:]
	for i := range common {
		common[i] = make([]int, m+1)
	}
	for i := n - 1; i >= 0; i-- {
		for j := m - 1; j >= 0; j-- {
			if from[i] == to[j] {
				common[i][j] = common[i+1][j+1] + 1
			} else {
				common[i][j] = max(common[i+1][j], common[i][j+1])
			}
		}
	}
	var out []hunk
	for i, j := 0, 0; i < n || j < m; {
		if i < n && j < m && from[i] == to[j] {
			i, j = i+1, j+1
			continue
		}
		h, k := hunk{first: i}, j
		for i < n && j < m && from[i] != to[j] || (i < n) != (j < m) {
			if j == m || i < n && common[i+1][j] >= common[i][j+1] {
				i++
			} else {
				j++
			}
		}
		h.last, h.to = i, to[k:j]
		out = append(out, h)
	}
	return out
}
