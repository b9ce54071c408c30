package caption

import (
	"bytes"
	"strings"
	"unicode/utf8"
)

// An aside is a stretch of a cue's text that is no spoken word: a sound in brackets, a song.
type aside struct {
	from, to int
	censored bool // it stands for a word that is not told
}

// asideMost is the longest text in brackets that is looked at, in bytes.
const asideMost = 200

func isNote(r rune) bool {
	return r == '♪' || r == '♫' || r == '♬' || r == '♩' || r == '🎵' || r == '🎶'
}

// asides finds what is no spoken word in the clean text [from,to) of the cue, and makes events of it.
func (lx *lexer) asides(from, to int) {
	i := from
	if lx.song {
		i = lx.songEnd(from, to)
		lx.event(from, i)
	}
	for i < to {
		r, n := decode1(lx.text[i:to])
		end := 0
		switch {
		case shutOf(r) != "":
			end = lx.bracket(i, to, n, shutOf(r))
		case r == '*':
			end = lx.starred(i, to)
		case r == '#':
			end = lx.hashed(i, from, to)
		case isNote(r):
			end = lx.songEnd(i+n, to)
			lx.event(i, end)
		}
		if end > 0 {
			i = end
		} else {
			i += n
		}
	}
}

// event takes text[from:to] as an event.
func (lx *lexer) event(from, to int) {
	s := strings.TrimSpace(strings.ReplaceAll(string(lx.text[from:to]), "\n", " "))
	if s == "" {
		return
	}
	c := lx.r.cues[lx.cueIndex]
	e := Event{Text: s, At: c.start, Line: c.line}
	for _, m := range lx.marks {
		if m.at > from {
			break
		}
		p := &lx.r.pieces[m.piece]
		e.Line = p.line
		if p.timed {
			e.At = clampTime(p.at, c.start, c.end)
		}
	}
	lx.track.Events = append(lx.track.Events, e)
	lx.aside = append(lx.aside, aside{from: from, to: to})
}

// shutOf returns the bracket that shuts what r opens, also those of the scripts of East Asia; "" where r opens none.
func shutOf(r rune) string {
	switch r {
	case '[':
		return "]"
	case '(':
		return ")"
	case '［':
		return "］"
	case '（':
		return "）"
	case '【':
		return "】"
	}
	return ""
}

// bracket reads "[Music]" or "(laughs)": an event where it names a sound, or where nothing else stands on the line (for round
// brackets: in the cue); otherwise its words are spoken. It returns where the event ends, 0 for none.
func (lx *lexer) bracket(from, to, open int, shut string) int {
	n := bytes.Index(lx.text[from:min(to, from+asideMost)], []byte(shut))
	if n < 0 {
		if lx.cueIndex == len(lx.r.cues)-1 && shut == "]" && to-from < asideMost { // the file may be cut off here
			lx.event(from, to)
			return to
		}
		return 0
	}
	end := from + n + len(shut)
	in := bytes.TrimSpace(lx.text[from+open : from+n])
	if len(bytes.Trim(in, "_* -")) == 0 && len(in) > 1 {
		lx.aside = append(lx.aside, aside{from: from, to: end, censored: true})
		return end
	}
	if len(bytes.Trim(in, "0123456789")) == 0 {
		return 0
	}
	if shut == "]" && bytes.EqualFold(in, []byte("br")) { // a line break, as SubViewer writes it
		lx.aside = append(lx.aside, aside{from: from, to: end})
		return end
	}
	if !namesSound(in) && !lx.standsAlone(from, end, to, shut != ")" && shut != "）") {
		return 0
	}
	lx.event(from, end)
	return end
}

// starred reads "*laughs*".
func (lx *lexer) starred(from, to int) int {
	rest := lx.text[from+1 : min(to, from+asideMost)]
	n := bytes.IndexAny(rest, "*\n")
	if n <= 0 || rest[n] != '*' || rest[0] == ' ' {
		return 0
	}
	end := from + 1 + n + 1
	if !namesSound(rest[:n]) && !lx.standsAlone(from, end, to, true) {
		return 0
	}
	lx.event(from, end)
	return end
}

// hashed reads a line "# la la la #".
func (lx *lexer) hashed(from, start, to int) int {
	if from > start && lx.text[from-1] != '\n' || from+1 >= to || lx.text[from+1] != ' ' {
		return 0
	}
	n := bytes.IndexByte(lx.text[from:to], '\n')
	if n < 0 {
		n = to - from
	}
	line := bytes.TrimRight(lx.text[from:from+n], " ")
	if len(line) < 4 || line[len(line)-1] != '#' {
		return 0
	}
	lx.event(from, from+n)
	return from + n
}

// standsAlone reports whether nothing but marks stands beside text[from:end] on its line, or else in its cue, which ends at to.
func (lx *lexer) standsAlone(from, end, to int, line bool) bool {
	start := lx.marks[0].at
	for i := from - 1; i >= start; i-- {
		c := lx.text[i]
		if line && c == '\n' {
			break
		}
		if strings.IndexByte(" \n->", c) < 0 {
			return false
		}
	}
	for i := end; i < to; i++ {
		c := lx.text[i]
		if line && c == '\n' {
			break
		}
		if strings.IndexByte(" \n.,", c) < 0 {
			return false
		}
	}
	return true
}

// songEnd returns where the song ends that goes on at from: behind the next note, or with the cue; then lx.song says whether it
// goes on in the next one.
func (lx *lexer) songEnd(from, to int) int {
	lx.song = false
	i := from
	for i < to { // a run of notes opens a song together
		r, n := utf8.DecodeRune(lx.text[i:to])
		if !isNote(r) && r != ' ' {
			break
		}
		i += n
	}
	for i < to {
		r, n := decode1(lx.text[i:to])
		i += n
		if isNote(r) {
			return i
		}
	}
	lx.song = lx.songGoesOn()
	return to
}

// songGoesOn looks for the note that ends an open song in the next three cues; one that begins a cue opens a new song.
func (lx *lexer) songGoesOn() bool {
	for i := lx.cueIndex + 1; i < len(lx.r.cues) && i <= lx.cueIndex+3; i++ {
		c := lx.r.cues[i]
		for p := c.first; p < c.last; p++ {
			for k, r := range lx.r.pieces[p].text {
				if isNote(r) {
					return p > c.first || strings.TrimSpace(lx.r.pieces[p].text[:k]) != ""
				}
			}
		}
	}
	return false
}

// namesSound reports whether a text in brackets names a sound, or says that words are missing.
func namesSound(in []byte) bool {
	for _, word := range bytes.FieldsFunc(in, func(r rune) bool { return r == ' ' || r == '\n' || r == ',' || r == '_' || r == '-' }) {
		switch string(bytes.ToLower(word)) {
		case "music", "musical", "song", "singing", "sings", "humming", "hums", "whistle", "whistles", "whistling",
			"applause", "applauds", "clapping", "claps", "cheering", "cheers",
			"laughs", "laugh", "laughing", "laughter", "chuckle", "chuckles", "chuckling", "giggles", "giggling",
			"coughs", "cough", "coughing", "sneezes", "sniffs", "sighs", "sigh", "sighing", "gasps", "groans", "grunts", "yawns",
			"exhales", "inhales", "exhaling", "inhaling", "panting", "breathing", "breathes", "throat",
			"noise", "noises", "static", "beep", "beeps", "beeping", "bell", "bells", "buzzer", "buzzing", "ding", "chime", "chimes",
			"ringing", "rings", "alarm", "click", "clicks", "clicking", "thud", "footsteps", "background",
			"silence", "silent", "pause", "inaudible", "unintelligible", "indistinct", "crosstalk", "chatter", "audio", "sound", "sounds",
			"counting", "continues", "foreign":
			return true
		}
	}
	return false
}
