package caption

import "strings"

// A tagKind says what a tag in a cue is for.
type tagKind uint8

const (
	tagOther tagKind = iota // font, colour, class: no meaning for words
	tagTime                 // <00:00:01.019>
	tagVoice                // <v Name>
	tagBreak                // <br>, which begins a new line
)

const asciiLetters = "abcdefghijklmnopqrstuvwxyzABCDEFGHIJKLMNOPQRSTUVWXYZ"

// markUp cuts the lines of the cues into pieces at their tags.
func markUp(r *reading) {
	r.pieces = make([]piece, 0, len(r.rows)+len(r.src)/40)
	if strings.Contains(r.src, "<u>") && isUnderlined(r) {
		markUnderlined(r)
		return
	}
	roll := isRollUp(r)
	grow := !roll && isGrowing(r)
	var shown []row
	cues := r.cues[:0]
	for i := range r.cues {
		c := r.cues[i]
		rows := r.lines(i)
		if roll {
			all := rows
			rows = r.newLines(i, shown)
			if len(all) > 0 {
				shown = all
				if len(rows) == 0 {
					continue
				}
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
		i := strings.IndexAny(r.src[pos:w.to], "<{")
		if i < 0 {
			break
		}
		pos += i
		n, kind := readTag(r.src[pos:w.to])
		if n == 0 {
			pos++
			continue
		}
		if pos > p.pos || p.newline {
			put(pos)
		}
		switch kind {
		case tagTime:
			p.at, _, _ = readClock(r.src[pos+1 : pos+n])
			p.timed, r.tagged, r.lone = true, true, true
		case tagVoice:
			p.speaker = voiceName(r.src[pos : pos+n])
		case tagBreak:
			p.newline = true
		}
		pos += n
		p.pos = pos
	}
	if w.to > p.pos || p.newline {
		put(w.to)
	}
	return p.speaker
}

// readTag returns the length of the tag at the start of s, 0 where "<" is only a sign among the words.
func readTag(s string) (int, tagKind) {
	if s[0] == '{' {
		return braceTag(s), tagOther
	}
	end := strings.IndexByte(s[:min(len(s), 512)], '>')
	if end < 2 {
		return 0, 0
	}
	in := s[1:end]
	if in[0] >= '0' && in[0] <= '9' {
		if _, n, _ := readClock(in); n > 0 && n == len(in) {
			return end + 1, tagTime
		}
		return 0, 0
	}
	in = strings.TrimPrefix(in, "/")
	name := 0
	for name < len(in) && in[name] != '.' && in[name] != ' ' && in[name] != '\t' && in[name] != '/' {
		name++
	}
	switch strings.ToLower(in[:name]) {
	case "v":
		return end + 1, tagVoice
	case "br", "p", "div":
		return end + 1, tagBreak
	case "b", "i", "u", "c", "s", "ruby", "rt", "lang", "font", "span", "em", "strong", "big", "small", "sub", "sup", "a", "box":
		return end + 1, tagOther
	}
	if name == len(in) && name > 0 && name <= 12 && strings.Trim(in, asciiLetters) == "" {
		return end + 1, tagOther // an unknown tag is still a tag (WebVTT 6.4)
	}
	return 0, 0
}

// braceTag returns the length of "{\an8}" or "{y:i}", which SubRip took over from other formats, 0 for none.
func braceTag(s string) int {
	end := strings.IndexByte(s[:min(len(s), 64)], '}')
	if end < 3 || s[1] != '\\' && (s[2] != ':' || strings.IndexByte("yYfFsScCpP", s[1]) < 0) {
		return 0
	}
	return end + 1
}

// voiceName returns the name in a tag such as <v.loud Fred>, "" for </v> (WebVTT 4.2.2).
func voiceName(tag string) string {
	tag = strings.Trim(tag, "<>")
	i := strings.IndexAny(tag, " \t")
	if i < 0 {
		return ""
	}
	return strings.TrimSpace(tag[i:])
}
