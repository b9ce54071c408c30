// Package remarks finds what the talk says about the session as a whole: its title, whom it is for, what is needed,
// the cautions, how hard it should be, easier and harder ways, and the advice for the time after.
//
// A remark consists of words of the captions, in their order; nothing is added to them but capital letters.
// What is told of somebody ("I had a gentleman ...") is no remark. Cue phrases and the words of lists are data files.
package remarks

import (
	"bytes"
	"embed"
	"slices"
	"strings"
	"sync"
	"unicode"
	"unicode/utf8"

	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/phrases"
)

//go:embed *.txt
var files embed.FS

// A Remark is something that was said, in the captions' own words.
type Remark struct {
	Text        string
	At          caption.Time // when its first word was said
	First, Last int          // Track.Words[First:Last]
}

// Found is what was found. Title and Level are nil where nothing was said.
type Found struct {
	Title      *Remark
	Level      *Remark  // whom the session is for
	Equipment  []Remark // a thing each
	Cautions   []Remark
	Effort     []Remark // how hard it should be, in words or on a scale
	Options    []Remark // easier and harder ways
	Afterwards []Remark // how often, and what to do the next day
}

// Shares and limits of where things are said.
const (
	introShare    = 0.25 // of the track, that is searched where the end of the introduction is not known
	closeShare    = 0.85 // of the track, from which advice for the time after is looked for
	levelWords    = 70   // longest remark on whom the session is for
	cautionWords  = 90   // longest caution of a file with stops: what to do stands at its end
	longest       = 45   // words of other remarks
	leastOption   = 3    // words of an easier or harder way
	openers       = 3    // words before a phrase that belong to its sentence: "this is only for you if"
	longCondition = 7    // words of an "if" that may stand alone
	leastWeight   = 0.55 // of a phrase that marks an utterance
)

// Find returns the remarks of a track. introEnd is when the introduction ends, 0 where it is not known.
func Find(track *caption.Track, introEnd caption.Time) Found {
	f := &finder{track: track, book: english(), words: vocabulary()}
	n := len(track.Words)
	if n == 0 {
		return Found{}
	}
	f.mark()
	f.cut()
	f.intro = int(introShare * float64(n))
	if introEnd > 0 {
		f.intro, _ = slices.BinarySearchFunc(track.Words, introEnd, func(w caption.Word, t caption.Time) int { return int(w.Time.At - t) })
	}
	level, effort := f.level(), f.utterancesOf("effort", 0, f.intro)
	if level != nil { // what says whom the session is for says nothing new of the effort
		effort = slices.DeleteFunc(effort, func(r Remark) bool { return r.First >= level.First && r.Last <= level.Last })
	}
	return Found{
		Title:      f.title(),
		Level:      level,
		Equipment:  f.equipment(),
		Cautions:   f.utterancesOf("caution", 0, f.intro),
		Effort:     effort,
		Options:    f.options(),
		Afterwards: f.utterancesOf("afterwards", int(closeShare*float64(n)), n),
	}
}

// A finder is one search.
type finder struct {
	track      *caption.Track
	book       *phrases.Book
	words      vocab
	written    bool            // the file has punctuation
	marks      []phrases.Match // the strongest phrases, in order of their first words
	utterances [][2]int        // [first, last) words of each
	intro      int             // first word after the introduction
}

func (f *finder) mark() {
	fold := func(i int) string { return f.track.Words[i].Fold }
	isNumber := func(i int) bool { return f.words.is(fold(i), number) }
	for i := range f.track.Words {
		at := len(f.marks)
		f.marks = f.book.Find(f.marks, i, len(f.track.Words), fold, isNumber)
		kept := f.marks[:at]
		for _, m := range f.marks[at:] {
			if m.Weight >= leastWeight {
				kept = append(kept, m)
			}
		}
		f.marks = kept
	}
}

// marksIn returns the marks that begin in words [first, last).
func (f *finder) marksIn(first, last int) []phrases.Match {
	lo, _ := slices.BinarySearchFunc(f.marks, first, func(m phrases.Match, i int) int { return m.First - i })
	hi := lo
	for hi < len(f.marks) && f.marks[hi].First < last {
		hi++
	}
	return f.marks[lo:hi]
}

func (f *finder) has(kind phrases.Kind, u [2]int) bool {
	return slices.ContainsFunc(f.marksIn(u[0], u[1]), func(m phrases.Match) bool { return m.Kind == kind && m.Last <= u[1] })
}

// remark returns the words [first, last) as a remark.
func (f *finder) remark(first, last int) Remark {
	return Remark{Text: f.text(first, last), At: f.track.Words[first].Time.At, First: first, Last: last}
}

// text joins words with their punctuation and begins with a capital.
func (f *finder) text(first, last int) string {
	var b strings.Builder
	for i := first; i < last; i++ {
		w := &f.track.Words[i]
		if i > first {
			b.WriteByte(' ')
		}
		b.WriteString(w.Text)
		if i+1 < last {
			b.WriteString(w.After)
		}
	}
	s := b.String()
	r, n := utf8.DecodeRuneInString(s)
	return string(unicode.ToUpper(r)) + s[n:]
}

// utterancesOf returns the utterances within words [lo, hi) that have a phrase of a kind.
func (f *finder) utterancesOf(kind phrases.Kind, lo, hi int) []Remark {
	var out []Remark
	for _, u := range f.utterances {
		u[1] = f.beforeGoodbye(u[0], u[1])
		if u[0] < lo || u[0] >= hi || !f.has(kind, u) || f.has("anecdote", u) {
			continue
		}
		most := longest
		if kind == "caution" && f.written {
			most = cautionWords
		}
		out = append(out, f.remark(u[0], min(u[1], u[0]+most)))
	}
	return out
}

// beforeGoodbye returns where, within words [first, last), somebody begins to say goodbye.
func (f *finder) beforeGoodbye(first, last int) int {
	for _, m := range f.marksIn(first, last) {
		if m.Kind != "goodbye" {
			continue
		}
		last = m.First
		for last > first && leadsOn[f.word(last-1)] {
			last--
		}
		break
	}
	return last
}

// leadsOn are the words that join a goodbye to what was said before it: "three times a week, and we'll see you".
var leadsOn = map[string]bool{"and": true, "so": true, "then": true, "i'll": true, "we'll": true, "i": true, "we": true, "will": true, "now": true}

// options returns the utterances on easier and harder ways, over the whole track.
func (f *finder) options() []Remark {
	var out []Remark
	for _, u := range f.utterances {
		if !f.has("easier", u) && !f.has("harder", u) || f.has("anecdote", u) || f.has("goodbye", u) || f.has("caution", u) {
			continue
		}
		if last := f.beforeCount(u[0], min(u[1], u[0]+longest)); last-u[0] >= leastOption && !f.isCondition(u[0], last) {
			out = append(out, f.remark(u[0], last))
		}
	}
	return out
}

// beforeCount returns where, within words [first, last), somebody begins to count: three numbers in a row.
func (f *finder) beforeCount(first, last int) int {
	row := 0
	for i := first; i < last; i++ {
		if row++; !f.words.is(f.word(i), number) {
			row = 0
		}
		if row == 3 {
			return i - 2
		}
	}
	return last
}

// isCondition says whether words are an "if" whose other half is missing: "If you can't face getting up again".
func (f *finder) isCondition(first, last int) bool {
	if f.word(first) != "if" || last-first > longCondition {
		return false
	}
	for i := first; i < last-1; i++ {
		if f.track.Words[i].After != "" {
			return false
		}
	}
	return true
}

// level returns the first run of utterances that say whom the session is for.
func (f *finder) level() *Remark {
	first, last := -1, -1
	skipped := 0
	for i, u := range f.utterances {
		if u[0] >= f.intro {
			break
		}
		start := -1
		for _, m := range f.marksIn(u[0], u[1]) {
			if m.Kind == "level" || m.Kind == "whom" {
				start = f.levelFrom(m, i)
				if (m.Kind == "level" || !f.written) && m.Last == u[1] && i+1 < len(f.utterances) { // "Who's it for?": the next one answers
					if next := f.utterances[i+1]; m.First == u[0] && next[0] == u[1] {
						start = next[0]
					}
					u[1] = f.utterances[i+1][1]
				}
				break
			}
		}
		switch {
		case start >= 0 && first < 0:
			first, last, skipped = start, u[1], 0
		case start >= 0 && skipped <= 1, first >= 0 && skipped == 0 && f.startsWith("goes-on", u) && !f.has("caution", u):
			last, skipped = u[1], 0
		case first >= 0:
			skipped++
		}
		if first >= 0 && skipped > 1 {
			break
		}
	}
	if first < 0 {
		return nil
	}
	if !f.written {
		last = f.beforeOther(first, last)
	}
	r := f.remark(first, min(last, first+levelWords))
	return &r
}

// levelFrom returns the word from which a phrase of utterance i says whom the session is for. One that ends the utterance has it said
// before: "If your wrist was broken, this is for you."
func (f *finder) levelFrom(m phrases.Match, i int) int {
	u := f.utterances[i]
	ends := u[1]-m.Last <= 1 && f.word(u[1]-1) == "you"
	switch {
	case ends && m.First == u[0] && i > 0:
		return f.utterances[i-1][0]
	case ends, m.Kind == "whom", f.written && m.First-u[0] <= openers:
		return f.afterGreeting(u, m.First)
	}
	return m.First
}

// afterGreeting returns the word of an utterance, before the word most, from which it no longer greets nor says who speaks: "Welcome to the
// circuit, I'm your nurse, and this is phase three ..." begins with "this".
func (f *finder) afterGreeting(u [2]int, most int) int {
	from := u[0]
	for from < most {
		if w := f.word(from); w == "and" && from > u[0] {
			from++
			continue
		} else if w != "welcome" && w != "i'm" && w != "hello" && w != "hi" {
			break
		}
		next := from
		for next < most && f.track.Words[next].After == "" {
			next++
		}
		if next >= most {
			break
		}
		from = next + 1
	}
	return from
}

// beforeOther returns where, within words [first, last), the talk turns from whom the session is for to something else.
func (f *finder) beforeOther(first, last int) int {
	for _, m := range f.marksIn(first+1, last) {
		if m.Kind == "unless" || m.Kind == "caution" || f.announcesKit(m) {
			return m.First
		}
	}
	return last
}

var english = sync.OnceValue(func() *phrases.Book {
	b, err := files.ReadFile("phrases.txt")
	if err != nil {
		panic(err) // built in
	}
	book, err := phrases.Read(bytes.NewReader(b), "phrases.txt")
	if err != nil {
		panic(err) // the file is part of the program; a test reads it
	}
	return book
})
