package author

import (
	"bufio"
	"fmt"
	"io"
	"strconv"
	"strings"
)

// A Script is a session as written: who it is for, and its parts in order.
type Script struct {
	ID, Title, Level, Equipment string

	Seed     uint64
	Rate     float64 // words a second in running speech, before pauses
	Numerals float64 // share of numbers in talk that captions write as digits, in [0,1]
	Faults   float64 // how often the captioner errs on numbers; 1 is usual

	Parts []Part
}

// A Part is one stretch of a session: talk, a rest, a set.
type Part struct {
	Line int    // of the script
	Kind string // talk, warm-up, cool-down, rest, set, timed

	Exercise, Side string
	In             string  // the phase of a set
	Dose           int     // repetitions, seconds, or the rest announced; 0 when nothing was said
	Lasts          float64 // s; 0 when as long as the words
	Pace           float64 // s a repetition
	Step           int
	Drift          float64 // per cent
	Leads          bool

	Lines []string  // spoken
	Reps  []Rep     // of a counted set
	Cues  []TimeCue // of a timed set
}

// A TimeCue is something said during a timed set, At seconds after "go".
type TimeCue struct {
	Line int
	At   float64
	Text string
}

// A SyntaxError is a fault in a script.
type SyntaxError struct {
	Name string
	Line int
	Msg  string
}

func (e *SyntaxError) Error() string { return fmt.Sprintf("%s:%d: %s", e.Name, e.Line, e.Msg) }

// Parse reads a script. The name is used in messages and, up to its first dot,
// as the session's id. The first fault stops it, as a *SyntaxError.
func Parse(name string, r io.Reader) (*Script, error) {
	s := &Script{Rate: 2.7, Numerals: 0.08, Faults: 1}
	s.ID, _, _ = strings.Cut(name[strings.LastIndexByte(name, '/')+1:], ".")
	in := bufio.NewScanner(r)
	for n := 1; in.Scan(); n++ {
		if err := s.line(n, strings.TrimSpace(in.Text())); err != nil {
			return nil, &SyntaxError{name, n, err.Error()}
		}
	}
	if err := in.Err(); err != nil {
		return nil, fmt.Errorf("reading %s: %w", name, err)
	}
	for _, p := range s.Parts {
		if err := p.check(); err != nil {
			return nil, &SyntaxError{name, p.Line, err.Error()}
		}
	}
	return s, nil
}

func (s *Script) line(n int, text string) error {
	switch {
	case text == "" || text[0] == '#':
		return nil
	case text[0] == '@':
		return s.part(n, text[1:])
	case len(s.Parts) == 0:
		return s.header(text)
	}
	p := &s.Parts[len(s.Parts)-1]
	switch text[0] {
	case ':':
		if p.Kind != "set" {
			return fmt.Errorf("repetitions outside a @set")
		}
		reps, err := parseReps(text[1:], p.Reps)
		p.Reps = reps
		return err
	case '>':
		return p.timeCue(n, strings.TrimSpace(text[1:]))
	}
	if len(p.Reps) > 0 || len(p.Cues) > 0 {
		return fmt.Errorf("words after the end of a set: start a @talk or @rest")
	}
	p.Lines = append(p.Lines, text)
	return nil
}

func (s *Script) header(text string) error {
	key, val, ok := strings.Cut(text, ":")
	if !ok {
		return fmt.Errorf("expected a \"key: value\" line before the first part")
	}
	val = strings.TrimSpace(val)
	var err error
	switch key {
	case "title":
		s.Title = val
	case "level":
		s.Level = val
	case "equipment":
		s.Equipment = val
	case "seed":
		s.Seed, err = strconv.ParseUint(val, 10, 64)
	case "rate":
		s.Rate, err = strconv.ParseFloat(val, 64)
	case "numerals":
		s.Numerals, err = strconv.ParseFloat(val, 64)
	case "faults":
		s.Faults, err = strconv.ParseFloat(val, 64)
	default:
		err = fmt.Errorf("unknown key %q", key)
	}
	return err
}

func (s *Script) part(n int, text string) error {
	fields := strings.Split(text, "|")
	kind, rest, _ := strings.Cut(strings.TrimSpace(fields[0]), " ")
	p := Part{Line: n, Kind: kind, Side: "both", In: "work"}
	rest = strings.TrimSpace(rest)
	switch kind {
	case "talk", "warm-up", "cool-down":
		p.In = kind
	case "rest":
		p.In = kind
		if rest != "unstated" {
			d, err := strconv.Atoi(rest)
			if err != nil {
				return fmt.Errorf("expected seconds or \"unstated\" after @rest, found %q", rest)
			}
			p.Dose = d
		}
	case "set", "timed":
		p.Exercise = rest
	default:
		return fmt.Errorf("unknown part @%s", kind)
	}
	for _, f := range fields[1:] {
		if err := p.option(strings.TrimSpace(f)); err != nil {
			return err
		}
	}
	s.Parts = append(s.Parts, p)
	return nil
}

func (p *Part) option(text string) error {
	key, val, _ := strings.Cut(text, " ")
	val = strings.TrimSpace(val)
	var err error
	switch key {
	case "side":
		p.Side = val
	case "in":
		p.In = val
	case "dose":
		if val != "none" {
			p.Dose, err = strconv.Atoi(val)
		}
	case "lasts":
		p.Lasts, err = strconv.ParseFloat(val, 64)
	case "pace":
		p.Pace, err = strconv.ParseFloat(val, 64)
	case "step":
		p.Step, err = strconv.Atoi(val)
	case "drift":
		p.Drift, err = strconv.ParseFloat(val, 64)
	case "leads":
		p.Leads = true
	default:
		err = fmt.Errorf("unknown option %q", key)
	}
	return err
}

func (p *Part) timeCue(n int, text string) error {
	if p.Kind != "timed" {
		return fmt.Errorf("a time cue outside a @timed set")
	}
	at, words, _ := strings.Cut(text, " ")
	t, err := strconv.ParseFloat(at, 64)
	if err != nil {
		return fmt.Errorf("expected seconds after \">\", found %q", at)
	}
	p.Cues = append(p.Cues, TimeCue{n, t, words})
	return nil
}

// check tells what a part lacks.
func (p *Part) check() error {
	switch {
	case p.Kind == "set" && (p.Pace <= 0 || len(p.Reps) == 0 || p.Exercise == ""):
		return fmt.Errorf("a @set needs a name, a pace and repetitions")
	case p.Kind == "timed" && (p.Lasts <= 0 || p.Exercise == ""):
		return fmt.Errorf("a @timed set needs a name and how long it lasts")
	case (p.Kind == "set" || p.Kind == "timed") && len(p.Lines) == 0:
		return fmt.Errorf("nobody announces this set")
	case p.Kind == "rest" && p.Lasts <= 0:
		return fmt.Errorf("a @rest needs how long it lasts")
	}
	switch p.Side {
	case "left", "right", "both", "alternate":
	default:
		return fmt.Errorf("unknown side %q", p.Side)
	}
	switch p.In {
	case "work", "balance", "warm-up", "cool-down", "talk", "rest":
	default:
		return fmt.Errorf("unknown phase %q", p.In)
	}
	return nil
}
