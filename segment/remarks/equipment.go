package remarks

import (
	"bufio"
	"bytes"
	"fmt"
	"slices"
	"strings"
	"sync"

	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/phrases"
)

// A part is a set of parts that a word may play in a list of things.
type part uint16

const (
	thing part = 1 << iota
	article
	joint  // an article after it begins no new thing
	breaks // ends an item
	tie    // begins a part that belongs to the item before
	begin  // begins an utterance
	number
	clause  // begins another part of a sentence, and ends an item, too
	generic // names any session
)

var sections = map[string]part{
	"thing": thing, "article": article, "joint": joint, "break": breaks, "part": tie, "begin": begin, "number": number,
	"clause": clause | breaks, "generic": generic,
}

// A vocab is the words of lists. It does not change after it was read.
type vocab map[string]part

func (v vocab) is(word string, p part) bool {
	if v[word]&p != 0 || p == number && strings.Trim(word, "0123456789") == "" {
		return true
	}
	return p == thing && strings.HasSuffix(word, "s") && v[word[:len(word)-1]]&p != 0
}

var vocabulary = sync.OnceValue(func() vocab {
	b, err := files.ReadFile("words.txt")
	if err != nil {
		panic(err) // built in
	}
	v, err := readVocab(b, "words.txt")
	if err != nil {
		panic(err) // the file is part of the program; a test reads it
	}
	return v
})

func readVocab(b []byte, name string) (vocab, error) {
	v := vocab{}
	var p part
	sc := bufio.NewScanner(bytes.NewReader(b))
	for n := 1; sc.Scan(); n++ {
		line, _, _ := strings.Cut(sc.Text(), "#")
		line = strings.TrimSpace(line)
		switch {
		case line == "":
		case strings.HasPrefix(line, "["):
			if p = sections[strings.Trim(line, "[]")]; p == 0 {
				return nil, fmt.Errorf("%s:%d: want one of the known sections, found %s", name, n, line)
			}
		case p == 0:
			return nil, fmt.Errorf("%s:%d: words before any [section]", name, n)
		default:
			for _, w := range strings.Fields(line) {
				v[w] |= p
			}
		}
	}
	return v, sc.Err()
}

// Limits of a list.
const (
	thingWithin = 6    // words from the start of an item to its thing
	bareWithin  = 4    // the same where no phrase announces the list
	bareItem    = 8    // longest item of such a list
	asides      = 1    // utterances within a list that may name no thing: "twelve kilos"
	longestItem = 12   // words
	unknownItem = 3    // words of an item whose thing is not in the vocabulary
	listWords   = 60   // words from the phrase to the end of the list
	sureKit     = 0.95 // weight of a phrase after which an unknown thing is believed
)

// equipment returns the things that the introduction asks for, one a remark, each thing once.
func (f *finder) equipment() []Remark {
	var out []Remark
	done := 0 // words before this one were read
	for i, u := range f.utterances {
		if u[0] >= f.intro {
			break
		}
		if f.has("anecdote", u) || f.written && f.has("caution", u) {
			continue
		}
		for _, m := range f.marksIn(max(u[0], done), u[1]) {
			if !f.announcesKit(m) || m.First < done || f.isLonger(m) {
				continue
			}
			items := f.items(m.Last, min(u[1], m.Last+listWords), m.Weight >= sureKit)
			if len(items) > 0 || m.Last == u[1] {
				items = append(items, f.following(i+1)...)
			}
			out = append(out, items...)
			if n := len(items); n > 0 {
				done = items[n-1].Last
			}
		}
		if items := f.bareList(i); u[0] >= done && len(items) > 0 {
			out = append(out, items...)
			done = items[len(items)-1].Last
		}
	}
	out = slices.DeleteFunc(out, func(r Remark) bool { return f.word(r.First) == "with" }) // "we don't twist with weight"
	return f.once(out)
}

// once drops the things all of whose words stand in another.
func (f *finder) once(things []Remark) []Remark {
	return slices.DeleteFunc(slices.Clone(things), func(r Remark) bool {
		return slices.ContainsFunc(things, func(o Remark) bool {
			longer := o.Last-o.First > r.Last-r.First || o.Last-o.First == r.Last-r.First && o.First < r.First
			return longer && f.within(r, o)
		})
	})
}

func (f *finder) within(r, o Remark) bool {
	for i := r.First; i < r.Last; i++ {
		if !slices.ContainsFunc(f.track.Words[o.First:o.Last], func(w caption.Word) bool { return w.Fold == f.word(i) }) {
			return false
		}
	}
	return true
}

// announcesKit says whether a match is a phrase before a list; "you want to sit" is none.
func (f *finder) announcesKit(m phrases.Match) bool {
	if m.First > 0 {
		switch f.word(m.First - 1) {
		case "don't", "not", "won't", "never", "needn't":
			return false
		}
	}
	return m.Kind == "kit" && (m.Last == len(f.track.Words) || f.word(m.Last) != "to" && f.word(m.Last) != "you")
}

// bareList returns the things of a list that begins with utterance i and that no phrase announces: "A firm chair, no wheels. A towel."
// One thing alone is no list.
func (f *finder) bareList(i int) []Remark {
	u := f.utterances[i]
	items := f.items(u[0], u[1], false)
	if !f.isBare(items, u) {
		return nil
	}
	items = append(items, f.following(i+1)...)
	if len(items) < 2 {
		return nil
	}
	return items
}

// isBare says whether an utterance begins with the name of a thing and goes on with no sentence.
func (f *finder) isBare(items []Remark, u [2]int) bool {
	if len(items) == 0 || items[0].First > u[0]+1 || items[0].Last-items[0].First > bareItem {
		return false
	}
	if last := items[0].Last; last < u[1] && f.track.Words[last-1].After == "" && f.word(last) != "and" {
		return false
	}
	for i := items[0].First; i < min(items[0].Last, items[0].First+bareWithin); i++ {
		if f.words.is(f.word(i), thing) {
			return true
		}
	}
	return false
}

// isLonger says whether a longer kit phrase begins at the same word.
func (f *finder) isLonger(m phrases.Match) bool {
	for _, o := range f.marksIn(m.First, m.First+1) {
		if o.Kind == "kit" && o.Last > m.Last {
			return true
		}
	}
	return false
}

// following reads on in the utterances after a list, as long as they go on with things.
func (f *finder) following(i int) []Remark {
	var out []Remark
	skipped := 0
	for ; i < len(f.utterances) && f.utterances[i][0] < f.intro; i++ {
		u := f.utterances[i]
		if slices.ContainsFunc(f.marksIn(u[0], u[1]), f.announcesKit) || f.has("level", u) || f.has("whom", u) || f.written && f.has("caution", u) {
			break
		}
		if f.startsWith("unless", u) {
			if f.namesThing(u) {
				out = append(out, f.remark(u[0], min(u[1], u[0]+longest)))
			}
			continue
		}
		items := f.items(u[0], u[1], false)
		if len(items) == 0 || items[0].First > u[0]+2 {
			if skipped++; skipped > asides {
				break
			}
			continue
		}
		skipped = 0
		out = append(out, items...)
	}
	return out
}

func (f *finder) startsWith(kind phrases.Kind, u [2]int) bool {
	for _, m := range f.marksIn(u[0], u[0]+1) {
		if m.Kind == kind {
			return true
		}
	}
	return false
}

// namesThing says whether an utterance names a thing after its first comma or phrase, as "if you've no weights, two tins of soup".
func (f *finder) namesThing(u [2]int) bool {
	things := 0
	for i := u[0]; i < u[1]; i++ {
		if f.words.is(f.track.Words[i].Fold, thing) {
			things++
		}
	}
	return things >= 2
}

// items returns the things listed in words [first, last).
func (f *finder) items(first, last int, sure bool) []Remark {
	var out []Remark
	for i := first; i < last; {
		end := f.itemEnd(i, last)
		from, to := f.trim(i, end)
		switch {
		case from >= to:
		case f.words.is(f.word(from), tie) && f.word(i) != "and" && len(out) > 0 && out[len(out)-1].Last == i && to-from <= longestItem:
			out[len(out)-1] = f.remark(out[len(out)-1].First, to)
		case f.isOnLast(from, to):
			if n := len(out); n > 0 && from-out[n-1].Last < unknownItem && from+3-out[n-1].First <= longestItem {
				out[n-1] = f.remark(out[n-1].First, from+3)
			}
		case f.isThing(from, to, sure):
			out = append(out, f.remark(from, to))
		}
		i = max(end, i+1)
	}
	return out
}

// isOnLast says whether words [first, last) name a thing on or in the one before: "a card, write a letter on it".
func (f *finder) isOnLast(first, last int) bool {
	return last-first > 2 && last-first <= unknownItem+1 && f.words.is(f.word(first), thing) && f.words.is(f.word(first+1), joint) && f.word(first+2) == "it"
}

func (f *finder) word(i int) string { return f.track.Words[i].Fold }

// itemEnd returns the end of the item that begins at word i.
func (f *finder) itemEnd(i, last int) int {
	for j := i; j < last; j++ {
		if j > i && (f.beginsItem(j) || f.asksAgain(j, last)) {
			return j
		}
		if f.track.Words[j].After != "" {
			return j + 1
		}
	}
	return last
}

// asksAgain says whether word j begins another "you need" within words up to last.
func (f *finder) asksAgain(j, last int) bool {
	return f.word(j) == "you" && j+1 < last && (f.word(j+1) == "need" || f.word(j+1) == "want")
}

// beginsItem says whether a new item begins at word j, which is not the first.
func (f *finder) beginsItem(j int) bool {
	w, before := f.word(j), f.word(j-1)
	if w == "and" {
		return true
	}
	if before == "and" || !f.words.is(w, article) || w == "the" {
		return false
	}
	if w == "your" && j > 2 && f.word(j-2) == "to" { // "a table to rest your arm on"
		return false
	}
	return !f.words.is(before, joint) && !f.words.is(before, article)
}

// trim drops what is no part of the thing from both ends of an item.
func (f *finder) trim(first, last int) (int, int) {
	if f.asksAgain(first, last) {
		first += 2
	}
	if first > 0 && first+1 < last && f.word(first) == "and" && f.word(first+1) == "for" { // "and for the end a chair"
		for j := first + 2; j < min(last, first+6); j++ {
			if j > first+2 && f.words.is(f.word(j), article) {
				first = j
				break
			}
		}
	}
	for first < last {
		w := f.word(first)
		if !isFiller(w) && !(f.words.is(w, article) && !f.words.is(w, number) && !isCount(w)) {
			break
		}
		first++
	}
	for j := first; j < last; j++ {
		if f.isBreak(j, first) || f.word(j) == "in" && j+1 < last && f.word(j+1) == "case" {
			last = j
			break
		}
	}
	if last-first > 1 && isCount(f.word(first)) && f.words.is(f.word(first+1), article) { // "you need one, a light band"
		first += 2
	}
	if n := last - first; n > 2 && f.word(last-1) == "you" && f.word(last-2) == "on" { // "flat shoes on you"
		last -= 2
	} else if n > 1 && (f.word(last-1) == "me" || f.word(last-1) == "on" && n <= unknownItem) { // "get running shoes on"
		last--
	}
	for last > first && (f.words.is(f.word(last-1), joint) && f.word(last-1) != "on" && f.word(last-1) != "in" || f.words.is(f.word(last-1), article)) {
		last--
	}
	return first, min(last, first+longestItem)
}

// isBreak says whether the thing that begins at word first has ended before word j; "with books in it" goes on, and so does "in front of you", but
// not "a clock you can see".
func (f *finder) isBreak(j, first int) bool {
	if f.word(j) == "you" {
		return j > first && !f.words.is(f.word(j-1), joint)
	}
	return f.words.is(f.word(j), breaks) && !(f.word(j) == "it" && j > first && f.words.is(f.word(j-1), joint))
}

// isFiller says whether a word before a thing is none of its name.
func isFiller(w string) bool {
	switch w {
	case "and", "also", "just", "then", "is", "or", "later", "on", "maybe", "perhaps", "only", "yourself", "yourselves", "ready", "them":
		return true
	}
	return false
}

func isCount(w string) bool {
	switch w {
	case "one", "two", "three", "four", "couple", "pair":
		return true
	}
	return false
}

// isThing says whether words [first, last) name a thing.
func (f *finder) isThing(first, last int, sure bool) bool {
	switch f.word(first) {
	case "no", "not", "any", "you", "of":
		return false
	}
	if f.words.is(f.word(first), thing) && first+1 < last {
		if next := f.word(first + 1); f.words.is(next, article) || next == "us" || next == "me" { // "phone the unit"
			return false
		}
	}
	if w := f.word(first); w == "video" || w == "session" || w == "class" {
		return false // "this isn't your video yet"
	}
	if last-first == 1 && last < len(f.track.Words) && f.track.Words[first].After == "" && (f.word(last) == "it" || f.word(last) == "them") {
		return false // "stick it on the wall"
	}
	for i := first; i < min(last, first+thingWithin); i++ {
		if f.words.is(f.word(i), thing) {
			return true
		}
	}
	return sure && first > 0 && f.words.is(f.word(first-1), article) && last-first <= unknownItem && last-first > 1
}
