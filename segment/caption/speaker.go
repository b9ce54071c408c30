package caption

import (
	"bytes"
	"strings"
	"unicode"
)

// labelMost is the longest name of a speaker before a colon, in bytes; labelLines is how many lines make a label of what is
// written like any word.
const (
	labelMost  = 30
	labelLines = 3
)

// countLabels counts the lines that begin with the same words before a colon.
func countLabels(r *reading) map[string]int {
	var labels map[string]int
	for i := range r.pieces {
		p := &r.pieces[i]
		if !p.newline {
			continue
		}
		n := strings.IndexByte(p.text[:min(len(p.text), labelMost+8)], ':')
		if n <= 0 {
			continue
		}
		s := strings.TrimLeft(p.text[:n], " \t-–>*")
		if !unicode.IsUpper(firstRune(s)) {
			continue
		}
		if labels == nil {
			labels = map[string]int{}
		}
		labels[s]++
	}
	return labels
}

// speakerMark reads a mark of who speaks: ">>", a dash at the start of a line, "NAME:". It returns its length, 0 for none, and
// keeps the name.
func (lx *lexer) speakerMark(b []byte, lineStart bool) int {
	switch {
	case len(b) > 1 && b[0] == '>' && b[1] == '>':
		n := len(b) - len(bytes.TrimLeft(b, "> "))
		lx.speaker, lx.changed = "", true
		return n + lx.label(b[n:], true)
	case !lineStart:
		return 0
	case len(b) > 1 && b[0] == '-' && (b[1] == ' ' || b[1] >= 'A'):
		lx.speaker = "" // a dash alone does not say who
		n := len(b) - len(bytes.TrimLeft(b, "- "))
		return n + lx.label(b[n:], false)
	}
	if b[0] == '[' || b[0] == '(' {
		return lx.bracketLabel(b)
	}
	return lx.label(b, false)
}

// bracketLabel reads "[Name]:", or "(Helper)" for what somebody is, and returns its length, 0 for none.
func (lx *lexer) bracketLabel(b []byte) int {
	n := bytes.IndexAny(b[:min(len(b), labelMost+2)], "])")
	if n < 2 || b[n] == ')' != (b[0] == '(') {
		return 0
	}
	name := b[1:n]
	colon := n+1 < len(b) && b[n+1] == ':'
	if !isRole(name) && !(colon && isLabelText(name) && !isHeading(name)) || len(bytes.Fields(name)) > 4 {
		return 0
	}
	lx.speaker, lx.changed = string(name), true
	if colon {
		n++
	}
	return n + 1
}

// label reads "NAME:" and returns its length, 0 where the text before the colon is none; sure says that a name is expected.
func (lx *lexer) label(b []byte, sure bool) int {
	n := bytes.IndexByte(b[:min(len(b), labelMost+1)], ':')
	if n <= 0 || n+1 < len(b) && b[n+1] != ' ' && b[n+1] != '\n' {
		return 0
	}
	name := b[:n]
	if bytes.IndexByte(name, '\n') >= 0 || len(bytes.Fields(name)) > 4 {
		return 0
	}
	if !isRole(name) && !(isLabelText(name) && (sure || lx.isLabel(name))) {
		return 0
	}
	lx.speaker, lx.changed = string(name), true
	return n + 1
}

// isLabel reports whether a name before a colon is taken for a speaker's where nothing else says so: in capitals among small letters,
// or on many lines.
func (lx *lexer) isLabel(name []byte) bool {
	lines := lx.labels[string(name)]
	if isHeading(name) {
		return false
	}
	return lines >= labelLines || isCapitals(name) && (lines >= 2 || !lx.shouting)
}

// isShouting reports whether a text has no small letters at all.
func isShouting(r *reading) bool {
	for i := range r.pieces {
		for _, c := range r.pieces[i].text {
			if unicode.IsLower(c) {
				return false
			}
		}
	}
	return true
}

// isRole reports whether the first word of a label says what somebody is: such a label may be numbered.
func isRole(name []byte) bool {
	first, _, _ := bytes.Cut(name, []byte(" "))
	switch string(bytes.ToLower(first)) {
	case "speaker", "therapist", "physio", "physiotherapist", "helper", "coach", "trainer", "instructor", "teacher", "host",
		"presenter", "narrator", "patient", "client", "participant", "assistant", "interviewer", "everyone", "group", "class", "all":
		return unicode.IsUpper(rune(name[0]))
	}
	return false
}

// isLabelText: letters, with no number in it: "Set 2:" and "TWO:" are words.
func isLabelText(name []byte) bool {
	if !unicode.IsUpper([]rune(string(name[:min(len(name), 4)]))[0]) {
		return false
	}
	for _, w := range bytes.Fields(name) {
		if numberWord(bytes.Trim(w, ".")) >= 0 || bytes.ContainsAny(w, "0123456789,;!?") {
			return false
		}
	}
	return true
}

func isCapitals(name []byte) bool {
	letters := 0
	for _, r := range string(name) {
		if unicode.IsLower(r) {
			return false
		}
		if unicode.IsUpper(r) {
			letters++
		}
	}
	return letters >= 2
}

// isHeading reports whether a label begins with a word that heads a part of a session instead of naming a person.
func isHeading(name []byte) bool {
	first, _, _ := bytes.Cut(name, []byte(" "))
	switch string(bytes.ToLower(first)) {
	case "set", "sets", "rest", "left", "right", "round", "step", "note", "exercise", "warm-up", "warmup", "cool-down", "cooldown",
		"reps", "next", "hold", "option", "easier", "harder", "tip", "remember", "now", "and", "go", "position", "start", "level", "equipment":
		return true
	}
	return false
}
