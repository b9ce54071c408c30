package naming

import (
	"bufio"
	"embed"
	"fmt"
	"io"
	"math"
	"strings"
	"sync"

	"captally.example/captally/segment/phrases"
)

//go:embed data/*.txt
var files embed.FS

// A class is a set of parts that a word may play in a name.
type class uint16

const (
	head   class = 1 << iota // ends names and is hardly said otherwise
	weak                     // ends names, but is an everyday word too
	body                     // a part of the body
	kit                      // a thing that a name may mention
	manner                   // how, which way, in what position
	inner                    // may stand within a name, at neither end
	common                   // an everyday word that belongs in no name
	number
	side    // left, right
	resting // what people do in a rest
	tail    // a word after which a noun was a verb
)

var sections = map[string]class{
	"head": head, "weak": weak, "body": body, "kit": kit, "manner": manner, "inner": inner, "common": common, "number": number, "side": side, "resting": resting, "tail": tail,
}

// A lexicon is the vocabulary of names. It does not change after it was read.
type lexicon struct {
	words map[string]class      // by stem, and as written
	names map[string][][]string // whole names of several words as stems, by their last stem
	book  *phrases.Book
	heard []catalogued           // the whole names that are long enough to be known by their sound
	packs []pack                 // the same, to be searched for
	sound map[string]*catalogued // the same by their sounds, singular and plural
	costs *costs
	about map[string][]about // by stem, the explanations that have the word
	talks int                // the number of explanations

	described map[string][]*pattern // by the stems with which they may begin
}

// An about is an explanation of one or more names, and how much a word says for it, in (0, 1].
type about struct {
	talk   int
	weight float64
}

var english = sync.OnceValue(func() *lexicon {
	lex, err := loadLexicon()
	if err != nil {
		panic(err) // the files are part of the program; a test reads them
	}
	return lex
})

func loadLexicon() (*lexicon, error) {
	lex := &lexicon{words: map[string]class{}, names: map[string][][]string{}, costs: newCosts()}
	err := eachLine("data/words.txt", func(section, line string) error {
		c, ok := sections[section]
		if !ok {
			return fmt.Errorf("want one of the known sections, found %q", section)
		}
		for _, w := range strings.Fields(line) {
			lex.words[w] |= c
			if s := stem(w); s != w && c&(common|number|tail) == 0 {
				lex.words[s] |= c
			}
		}
		return nil
	})
	if err != nil {
		return nil, err
	}
	err = eachLine("data/names.txt", func(_, line string) error {
		written := strings.Fields(line)
		words := make([]string, len(written))
		var ids []string
		for i, w := range written {
			words[i] = stem(w)
			if c := lex.class(w, words[i]); c&content != 0 || c&(inner|common) == 0 {
				ids = append(ids, words[i])
			}
		}
		if name := newCatalogued(written, ids); len(name.sounds[0]) >= leastSounds {
			lex.heard = append(lex.heard, name)
		}
		last := words[len(words)-1]
		lex.names[last] = append(lex.names[last], words)
		return nil
	})
	if err != nil {
		return nil, err
	}
	lex.sound = make(map[string]*catalogued, 2*len(lex.heard))
	for i := range lex.heard {
		for _, sounds := range lex.heard[i].sounds {
			lex.sound[string(sounds)] = &lex.heard[i]
		}
	}
	if err := lex.readTalk(); err != nil {
		return nil, err
	}
	if err := lex.readDescribed(); err != nil {
		return nil, err
	}
	lex.packs = newPacks(lex.heard)
	f, err := files.Open("data/phrases.txt")
	if err != nil {
		return nil, err
	}
	defer f.Close()
	lex.book, err = phrases.Read(f, "data/phrases.txt")
	return lex, err
}

// readTalk reads the explanations and ties them to the names that are known by their sound.
func (lex *lexicon) readTalk() error {
	lex.about = map[string][]about{}
	byName := map[string]*catalogued{}
	for i := range lex.heard {
		byName[strings.Join(lex.heard[i].words, " ")] = &lex.heard[i]
	}
	err := eachLine("data/talk.txt", func(_, line string) error {
		names, words, ok := strings.Cut(line, ":")
		if !ok {
			return fmt.Errorf("want names, a colon and words, found %q", line)
		}
		lex.talks++
		for name := range strings.SplitSeq(names, ",") {
			if c := byName[strings.TrimSpace(name)]; c != nil { // a short one is not known by its sound
				c.talk = lex.talks
			}
		}
		for w := range strings.FieldsSeq(words) {
			s := stem(w)
			if n := len(lex.about[s]); n == 0 || lex.about[s][n-1].talk != lex.talks {
				lex.about[s] = append(lex.about[s], about{talk: lex.talks})
			}
		}
		return nil
	})
	for _, list := range lex.about {
		for i := range list {
			list[i].weight = 1 - math.Log(float64(len(list)))/math.Log(float64(lex.talks))
		}
	}
	return err
}

// eachLine hands every line of a data file that is neither blank nor a comment to use, with the section it stands in.
func eachLine(name string, use func(section, line string) error) error {
	f, err := files.Open(name)
	if err != nil {
		return err
	}
	defer f.Close()
	return readLines(f, name, use)
}

func readLines(r io.Reader, name string, use func(section, line string) error) error {
	sc := bufio.NewScanner(r)
	section := ""
	for n := 1; sc.Scan(); n++ {
		line, _, _ := strings.Cut(sc.Text(), "#")
		line = strings.TrimSpace(line)
		if line == "" {
			continue
		}
		if strings.HasPrefix(line, "[") && strings.HasSuffix(line, "]") {
			section = line[1 : len(line)-1]
			continue
		}
		if err := use(section, line); err != nil {
			return fmt.Errorf("%s:%d: %w", name, n, err)
		}
	}
	return sc.Err()
}

// class returns the parts that a word may play, 0 for a word that the lexicon does not know.
func (lex *lexicon) class(fold, stem string) class {
	c := lex.words[fold]
	if c&(common|number|inner|tail) == 0 && stem != fold {
		c |= lex.words[stem]
	}
	if c == 0 {
		if i := strings.LastIndexByte(fold, '-'); i >= 0 { // "sit-to-stand" ends like "stand"
			c = lex.words[stem[min(i+1, len(stem)):]]
			c &= head | weak | body | kit | manner
		}
	}
	if fold != "" && fold[0] >= '0' && fold[0] <= '9' {
		c |= number
	}
	if c&head != 0 && c&common != 0 {
		c = c&^head | weak
	}
	if c&(head|weak|body|kit|manner) != 0 {
		c &^= common
	}
	return c
}

// nameEnding returns how many of the stems before end make up the longest known name that ends there, 0 for none.
func (lex *lexicon) nameEnding(toks []token, end int) int {
	best := 0
	for _, name := range lex.names[toks[end-1].stem] {
		n := len(name)
		if n <= best || n > end {
			continue
		}
		same := true
		for i, s := range name {
			if toks[end-n+i].stem != s || i > 0 && toks[end-n+i-1].cut == full {
				same = false
				break
			}
		}
		if same {
			best = n
		}
	}
	return best
}

// stem cuts the endings that change when a name is said again: "raises" and "raise", "marching" and "march".
func stem(w string) string {
	w = strings.TrimSuffix(w, "'s")
	switch {
	case len(w) > 4 && strings.HasSuffix(w, "ies"):
		return w[:len(w)-3] + "y"
	case len(w) > 4 && (strings.HasSuffix(w, "sses") || strings.HasSuffix(w, "ches") || strings.HasSuffix(w, "shes") || strings.HasSuffix(w, "xes")):
		return w[:len(w)-2]
	case len(w) > 2 && w[len(w)-1] == 's' && strings.IndexByte("suia", w[len(w)-2]) < 0 && w != "yes":
		return w[:len(w)-1]
	case len(w) > 5 && strings.HasSuffix(w, "ing"):
		s := w[:len(w)-3]
		if n := len(s); n > 3 && s[n-1] == s[n-2] && s[n-1] != 's' && s[n-1] != 'l' {
			s = s[:n-1]
		}
		return s
	}
	return w
}
