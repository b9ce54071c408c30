package naming

import (
	"fmt"
	"slices"
	"strings"
)

// A described movement is known by what is told of it where its name is not said: "heels up and down" is a heel raise.

const (
	gapWords        = 4   // words that ".." may stand for
	describedWeight = 2.8 // what a description scores before its place is looked at; less than a name that is said plainly
)

// A pattern is one way to describe a movement.
type pattern struct {
	parts []part
	name  *catalogued
}

// A part is one word of a pattern: any of its stems; gap says that other words may stand before it.
type part struct {
	stems []string
	gap   bool
}

// readDescribed reads the descriptions, by the stems with which they may begin.
func (lex *lexicon) readDescribed() error {
	lex.described = map[string][]*pattern{}
	names := map[string]*catalogued{}
	return eachLine("data/described.txt", func(section, line string) error {
		if section == "" {
			return fmt.Errorf("want the name of a movement in brackets first, found %q", line)
		}
		name := names[section]
		if name == nil {
			words := strings.Fields(section)
			var ids []string
			for _, w := range words {
				if s := stem(w); lex.class(w, s)&(inner|common) == 0 || lex.class(w, s)&content != 0 {
					ids = append(ids, s)
				}
			}
			c := newCatalogued(words, ids)
			name = &c
			names[section] = name
		}
		p := &pattern{name: name}
		gap := false
		for _, w := range strings.Fields(line) {
			if w == ".." {
				gap = true
				continue
			}
			var stems []string
			for _, v := range strings.Split(w, "|") {
				stems = append(stems, stem(v))
			}
			p.parts = append(p.parts, part{stems, gap})
			gap = false
		}
		if len(p.parts) < 2 {
			return fmt.Errorf("want two words or more, found %q", line)
		}
		for _, s := range p.parts[0].stems {
			lex.described[s] = append(lex.described[s], p)
		}
		return nil
	})
}

// descriptions appends the movements that are described in words [lo, hi), each at its last place.
func (t *talk) descriptions(out []mention, lo, hi int) []mention {
	from := len(out)
	for i := lo; i < hi; i++ {
		for _, p := range t.lex.described[t.toks[i].stem] {
			end := t.matches(p, i, hi)
			if end < 0 {
				continue
			}
			m := mention{first: i, last: end, score: describedWeight, ids: t.idsOf(p.name.ids), name: p.name}
			if k := slices.IndexFunc(out[from:], func(o mention) bool { return o.name == p.name }); k >= 0 {
				out[from+k] = m
			} else {
				out = append(out, m)
			}
		}
	}
	return out
}

// matches returns the word after the stretch from word i on that a pattern fits, within one utterance and before word hi; -1 for none.
func (t *talk) matches(p *pattern, i, hi int) int {
	end := i + 1
	for _, part := range p.parts[1:] {
		far := end
		if part.gap {
			far += gapWords
		}
		at := -1
		for k := end; k <= far && k < hi && t.toks[k-1].cut < full; k++ {
			if slices.Contains(part.stems, t.toks[k].stem) {
				at = k
				break
			}
		}
		if at < 0 {
			return -1
		}
		end = at + 1
	}
	return end
}
