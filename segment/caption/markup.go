package caption

import "strings"

// A tagKind says what a tag in a cue is for.
type tagKind uint8

const (
	tagOther tagKind = iota // font, colour, class: no meaning for words
	tagTime                 // <00:00:01.019>
	tagVoice                // <v Name>
	tagBreak                // <br>, which begins a new line
	tagRuby                 // <rt>, before what stands above the words
)

const asciiLetters = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"

// markUp cuts the lines of the cues into pieces at their tags.
func markUp(r *reading) {
	r.pieces = make([]piece, 0, len(r.rows)+strings.Count(r.src, ">")/3)
	roll := isRollUp(r)
	underlined := !roll && strings.Contains(r.src, "<u>") && isUnderlined(r)
	if r.copies {
		r.keepShows(roll, underlined)
	}
	if underlined {
		markUnderlined(r)
		return
	}
	grow := !roll && isGrowing(r)
	r.grown = grow
	cues := r.cues[:0]
	if grow { // the cues before are looked at again
		cues = nil
	}
	for i := range r.cues {
		c := r.cues[i]
		rows := r.lines(i)
		if roll {
			rows = rows[c.carried:]
			if c.carried > 0 && len(rows) == 0 {
				if i == len(r.cues)-1 && !r.isFiller(i) {
					r.warn.add(c.line, cutFile)
				}
				continue
			}
		}
		if grow && i > 0 {
			if more, ok := r.growth(i); ok {
				rows = more
				if len(rows) == 0 {
					continue
				}
			}
		}
		c.first = len(r.pieces)
		voice := ""
		for _, w := range rows {
			voice = r.markLine(w, voice)
		}
		c.last = len(r.pieces)
		cues = append(cues, c)
	}
	r.cues = cues
}

// keepShows notes for each line of the cues which line it shows again: in captions that roll up, one of the cue before.
func (r *reading) keepShows(roll, underlined bool) {
	r.shows = make([]int, len(r.rows))
	for i := range r.shows {
		r.shows[i] = i
	}
	var before [2]int
	for i, c := range r.cues {
		if c.rows[0] == c.rows[1] {
			continue
		}
		again := 0
		switch {
		case roll:
			again = c.carried
		case underlined && i > 0 && r.sameCue(i):
			again = c.rows[1] - c.rows[0]
		}
		for k := range again {
			r.shows[c.rows[0]+k] = r.shows[before[1]-again+k]
		}
		before = c.rows
	}
}

// markLine cuts one line into pieces and returns the voice that goes on after it.
func (r *reading) markLine(w row, voice string) string {
	pos := w.from
	p := piece{pos: pos, line: w.line, newline: true, speaker: voice}
	put := func(to int) {
		p.text = r.src[p.pos:to]
		r.pieces = append(r.pieces, p)
		p.timed, p.newline, p.at = false, false, 0
	}
	for pos < w.to {
		if b := r.src[pos]; b != '<' && b != '{' && b != '&' {
			pos++
			continue
		}
		n, kind, at := readTag(r.src[pos:w.to])
		if n == 0 && w.to == len(r.src) && isCutTag(r.src[pos:]) {
			n = w.to - pos
		}
		if n == 0 {
			pos++
			continue
		}
		if pos > p.pos || p.newline {
			put(pos)
		}
		switch kind {
		case tagTime:
			p.at, p.timed, r.tagged, r.lone = at, true, true, true
		case tagVoice:
			p.speaker = voiceName(r.src[pos : pos+n])
		case tagBreak:
			p.newline = true
		case tagRuby:
			n += rubyText(r.src[pos+n : w.to])
			r.warn.add(w.line, "text above the words that says how they are read (ruby); left out")
		}
		pos += n
		p.pos = pos
	}
	if w.to == len(r.src) {
		w.to -= cutReference(r.src[p.pos:w.to])
	}
	if w.to > p.pos || p.newline {
		put(w.to)
	}
	return p.speaker
}

// readTag returns the length of the tag at the start of s, 0 where "<" is only a sign among the words, and the time that it holds.
func readTag(s string) (n int, kind tagKind, at Time) {
	switch { // the usual ones first
	case s[0] == '{':
		return braceTag(s), tagOther, 0
	case s[0] == '&':
		return escapedTag(s)
	case strings.HasPrefix(s, "<c>"):
		return len("<c>"), tagOther, 0
	case strings.HasPrefix(s, "</c>"):
		return len("</c>"), tagOther, 0
	case len(s) >= len("<00:00:00.000>") && s[13] == '>':
		if at, ok := plainClock(s[1:]); ok {
			return len("<00:00:00.000>"), tagTime, at
		}
	}
	end := strings.IndexByte(s[:min(len(s), 512)], '>')
	if end < 2 {
		return 0, tagOther, 0
	}
	in := s[1:end]
	if in[0] >= '0' && in[0] <= '9' {
		if at, n, _ := readClock(in); n == len(in) {
			return end + 1, tagTime, at
		}
		return 0, tagOther, 0
	}
	kind, ok := tagName(strings.TrimPrefix(in, "/"))
	if kind == tagRuby && in[0] == '/' {
		kind = tagOther
	}
	if !ok && !isUnknownTag(in, s[end:]) {
		return 0, tagOther, 0
	}
	return end + 1, kind, 0
}

// escapedTag reads a tag whose angles are written as references, as where a text with tags was taken for plain text.
func escapedTag(s string) (n int, kind tagKind, at Time) {
	rest, ok := strings.CutPrefix(s, "&lt;")
	end := strings.Index(rest[:min(len(rest), 100)], "&gt;")
	if !ok || end <= 0 {
		return 0, tagOther, 0
	}
	tag := "<" + rest[:end] + ">"
	if n, kind, at = readTag(tag); n < len(tag) {
		return 0, tagOther, 0
	}
	return len("&lt;") + end + len("&gt;"), kind, at
}

// isUnknownTag reports whether what stands between angles is a tag although its name is none of those known (WebVTT 6.4): it ends one, or
// rest, what follows it on the line, holds its end. Otherwise it is a word between angles.
func isUnknownTag(in, rest string) bool {
	if name, ok := strings.CutPrefix(in, "/"); ok {
		return name != "" && len(name) <= 20 && strings.Trim(name, asciiLetters) == ""
	}
	name := strings.TrimLeft(in, asciiLetters)
	name = in[:len(in)-len(name)]
	return name != "" && strings.Contains(rest[:min(len(rest), 512)], "</"+name+">")
}

// isCutTag reports whether s, the end of the file, could be the beginning of a tag that was cut off.
func isCutTag(s string) bool {
	if strings.HasPrefix(s, `{\`) {
		return len(s) < 64 && strings.IndexByte(s, '}') < 0
	}
	if s == "" || s[0] != '<' || len(s) > 100 || strings.IndexByte(s, '>') >= 0 {
		return false
	}
	in := strings.TrimPrefix(s[1:], "/")
	if strings.Trim(in, "0123456789:.") == "" {
		return true
	}
	name, _, attributes := strings.Cut(in, " ")
	name, _, _ = strings.Cut(name, ".")
	if attributes {
		return name == "v" || name == "font" || name == "lang"
	}
	switch strings.ToLower(name) {
	case "v", "c", "b", "i", "u", "f", "fo", "fon", "font", "l", "la", "lan", "lang", "r", "ru", "rub", "ruby", "rt":
		return true
	}
	return false
}

// cutReference returns the length of the beginning of a character reference at the end of s, which ends with the file.
func cutReference(s string) int {
	i := strings.LastIndexByte(s, '&')
	if i < 0 {
		return 0
	}
	ref := s[i+1:]
	if strings.HasPrefix(ref, "#") && strings.Trim(ref[1:], "xX0123456789abcdefABCDEF") == "" {
		return len(s) - i
	}
	for _, name := range [...]string{"amp", "lt", "gt", "nbsp", "quot", "apos", "lrm", "rlm"} {
		if strings.HasPrefix(name, ref) {
			return len(s) - i
		}
	}
	return 0
}

// rubyText returns the length of what stands between <rt> and </rt>, or the end of <ruby>: it says again how the base is read.
func rubyText(s string) int {
	for n := range s {
		if s[n] == '<' && (strings.HasPrefix(s[n:], "</rt>") || strings.HasPrefix(s[n:], "</ruby>")) {
			return n
		}
	}
	return len(s)
}

// tagName tells a tag by its name, which ends at a class, a blank or a slash.
func tagName(in string) (tagKind, bool) {
	n := 0
	for n < len(in) && in[n] != '.' && in[n] != ' ' && in[n] != '\t' && in[n] != '/' {
		n++
	}
	kind, ok := tagOther, true
	switch strings.ToLower(in[:n]) {
	case "v":
		return tagVoice, true
	case "lang", "font", "span", "a":
		return tagOther, true
	case "br", "p", "div":
		kind = tagBreak
	case "rt":
		kind = tagRuby
	case "b", "i", "u", "c", "s", "ruby", "em", "strong", "big", "small", "sub", "sup", "box":
	default:
		ok = false
	}
	// In such a tag no words stand: "a<b and b>a" holds none.
	after := strings.Trim(in[n:], "/ \t")
	return kind, ok && (after == "" || after[0] == '.' || strings.Contains(after, "="))
}

// braceTag returns the length of "{\an8}", "{y:i}" or "{/b}", which SubRip took over from other formats, 0 for none.
func braceTag(s string) int {
	end := strings.IndexByte(s[:min(len(s), 64)], '}')
	if end > 1 {
		switch strings.ToLower(strings.TrimPrefix(s[1:end], "/")) {
		case "b", "i", "u", "s":
			return end + 1
		}
	}
	if end < 3 || s[1] != '\\' && (s[2] != ':' || strings.IndexByte("yYfFsScCpP", s[1]) < 0) {
		return 0
	}
	return end + 1
}

// voiceName returns the name in a tag such as <v.loud Fred>, "" for </v> (WebVTT 4.2.2).
func voiceName(tag string) string {
	if strings.IndexByte(tag, '&') >= 0 {
		tag = unescape(tag)
	}
	tag = strings.Trim(tag, "<>")
	i := strings.IndexAny(tag, " \t")
	if i < 0 {
		return ""
	}
	return strings.Join(strings.Fields(tag[i:]), " ")
}
