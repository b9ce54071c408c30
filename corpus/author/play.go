package author

import (
	"fmt"
	"math"
	"strings"
)

// A Session is a script played: every word on its exact time, and the truth.
type Session struct {
	Truth Truth
	Words []Word

	script *Script
}

// A player walks through the parts of a script.
type player struct {
	voice
	name string
	s    *Script
	t    *Truth
}

// Seconds: when a session's first word is said, and how far words may run over
// the end of a part and of a timed set.
const (
	firstWord = 0.6
	overPart  = 0.5
	overSet   = 0.4
)

// Play puts a script on its timeline. The name is used in messages. Parts that
// cannot be played as written (a rest shorter than its words, a form cue that
// pushes the next number off its beat) are a *SyntaxError.
func Play(name string, s *Script) (*Session, error) {
	t := Truth{ID: s.ID, Title: s.Title, Level: s.Level, Equipment: s.Equipment,
		Sets: []Set{}, Rests: []Rest{}, Miscounts: []Miscount{}}
	p := &player{voice{rng: chance(s.Seed, "voice"), rate: s.Rate, now: firstWord}, name, s, &t}
	for i := range s.Parts {
		if err := p.part(&s.Parts[i]); err != nil {
			return nil, err
		}
	}
	if len(t.Phases) == 0 {
		return nil, &SyntaxError{name, 1, "the script has no parts"}
	}
	last := &t.Phases[len(t.Phases)-1]
	last.End = cents(p.words[len(p.words)-1].End())
	t.Duration = last.End
	return &Session{t, p.words, s}, nil
}

func (p *player) part(x *Part) error {
	start := p.now
	var err error
	switch x.Kind {
	case "set":
		start, err = p.counted(x)
	case "timed":
		start, err = p.timed(x)
	default:
		err = p.talk(x)
	}
	if err != nil {
		return err
	}
	if x.Kind == "rest" {
		r := Rest{Start: cents(start), End: cents(p.now), Actual: tenths(p.now - start)}
		if x.Dose > 0 {
			r.Prescribed = &x.Dose
		}
		p.t.Rests = append(p.t.Rests, r)
	}
	p.phase(x.In, start)
	return nil
}

// phase ends the phase before and starts one of a kind, or goes on with it.
func (p *player) phase(kind string, start float64) {
	ph := p.t.Phases
	if n := len(ph); n > 0 {
		if ph[n-1].Kind == kind && kind != "work" && kind != "balance" {
			ph[n-1].End = cents(p.now)
			return
		}
		ph[n-1].End = cents(start)
	}
	p.t.Phases = append(ph, Phase{kind, cents(start), cents(p.now)})
}

func tenths(x float64) Seconds { return Seconds(math.Round(x*10) / 10) }

// talk speaks the lines of a part and waits until it has lasted long enough. A
// part that must last is spoken twice, first to see how long its pauses stretch.
func (p *player) talk(x *Part) error {
	start, first := p.now, len(p.words)
	keep, own := p.rng, fmt.Sprint("part", x.Line)
	p.rng = chance(p.s.Seed, own)
	stretch, gaps := 0.0, strings.Count(strings.Join(x.Lines, " "), "[..]")
	if x.Lasts > 0 {
		p.lines(x, 0)
		spare := x.Lasts - (p.now - start)
		if spare < -overPart {
			return &SyntaxError{p.name, x.Line, fmt.Sprintf("the words of this part take %.1f s, %.1f s more than it lasts", x.Lasts-spare, -spare)}
		}
		if gaps > 0 {
			stretch = math.Max(0, spare/float64(gaps))
		}
		p.now, p.words = start, p.words[:first]
		p.rng = chance(p.s.Seed, own)
	}
	p.lines(x, stretch)
	p.now = math.Max(p.now, start+x.Lasts)
	p.rng = keep
	return nil
}

func (p *player) lines(x *Part, stretch float64) {
	for _, l := range x.Lines {
		p.say(l, 0, stretch)
	}
}

// announce speaks the first lines of a set, and returns when they started and
// when the last word ended.
func (p *player) announce(x *Part) (start, end float64) {
	start = p.now
	p.lines(x, 0)
	return start, p.words[len(p.words)-1].End()
}

// timed plays a timed set: announcement, time cues, stop.
func (p *player) timed(x *Part) (float64, error) {
	start, goAt := p.announce(x)
	set := len(p.t.Sets) + 1
	p.now = goAt
	for _, c := range x.Cues {
		if goAt+c.At < p.now {
			return 0, &SyntaxError{p.name, c.Line, fmt.Sprintf("the words before this cue last until %.1f s", p.now-goAt)}
		}
		p.now = goAt + c.At
		p.say(c.Text, set, 0)
		if end := p.words[len(p.words)-1].End(); end > goAt+x.Lasts+overSet {
			return 0, &SyntaxError{p.name, c.Line, fmt.Sprintf("these words end at %.1f s, after the stop", end-goAt)}
		}
	}
	p.now = math.Max(goAt+x.Lasts, p.words[len(p.words)-1].End())
	at := cents(goAt)
	s := Set{Phase: x.In, Exercise: x.Exercise, Side: x.Side, Start: cents(start), Go: &at, End: cents(p.now),
		Performed: Dose{Seconds: tenths(p.now - start)}, ID: fmt.Sprint("s", set)}
	if x.Dose > 0 {
		s.Prescribed = &Dose{Seconds: Whole(x.Dose)}
	}
	p.t.Sets = append(p.t.Sets, s)
	return start, nil
}
