package author

import (
	"bytes"
	"cmp"
	"slices"
)

// A File is a rendered file.
type File struct {
	Name string
	Data []byte
}

// Render plays a script and writes it down: first by a good captioner, then by
// a poor recogniser. Both lists hold word, cue and block file and the truth, in
// that order; the recogniser's truth has no list of captioner's faults.
func Render(name string, script []byte) (captions, recognised []File, err error) {
	s, err := Parse(name, bytes.NewReader(script))
	if err != nil {
		return nil, nil, err
	}
	session, err := Play(name, s)
	if err != nil {
		return nil, nil, err
	}
	if captions, err = session.captions(); err != nil {
		return nil, nil, err
	}
	recognised, err = session.recognised()
	return captions, recognised, err
}

func (s *Session) captions() ([]File, error) {
	seed := s.script.Seed
	word, inWord := caption(s, "word")
	cue, inCue := caption(s, "cue")
	block, inBlock := caption(s, "block")
	t := s.Truth
	t.Faults = &FaultLists{inWord, inCue, inBlock}
	for _, l := range [][]Fault{inWord, inCue, inBlock} {
		slices.SortStableFunc(l, func(a, b Fault) int { return cmp.Compare(a.At, b.At) })
	}
	return s.files(&t, wordFile(seed, word), cueFile(seed, cue), blockFile(seed, block))
}

func (s *Session) recognised() ([]File, error) {
	seed := s.script.Seed
	ws := recognise(s)
	t := s.Truth
	return s.files(&t, phraseWordFile(seed, ws), phraseCueFile(seed, ws), blockFile(seed, ws))
}

func (s *Session) files(t *Truth, word, cue, block []byte) ([]File, error) {
	truth, err := t.JSON()
	id := s.Truth.ID
	return []File{{id + ".word.vtt", word}, {id + ".cue.srt", cue}, {id + ".block.txt", block}, {id + ".truth.json", truth}}, err
}
