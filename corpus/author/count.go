package author

import (
	"fmt"
	"strconv"
	"strings"
)

// A Rep is one repetition of a counted set.
type Rep struct {
	Number int    // said on it; 0 when done in silence
	Anew   bool   // the number starts the count anew on purpose
	Before string // words that end on it
	After  string // words that follow it
	Wait   float64
}

// parseReps adds the repetitions of one count line to those before.
func parseReps(text string, reps []Rep) ([]Rep, error) {
	var before string
	var wait float64
	for text = strings.TrimSpace(text); text != ""; text = strings.TrimSpace(text) {
		var tok string
		var err error
		if tok, text, err = cutToken(text); err != nil {
			return reps, err
		}
		inner := strings.Trim(tok, "(){}[]")
		switch tok[0] {
		case '(':
			before = inner
		case '{':
			if len(reps) == 0 {
				return reps, fmt.Errorf("{%s} has no repetition before it", inner)
			}
			last := &reps[len(reps)-1]
			last.After = strings.TrimSpace(last.After + " " + inner)
		case '[':
			if wait, err = strconv.ParseFloat(inner, 64); err != nil {
				return reps, fmt.Errorf("expected seconds, found [%s]", inner)
			}
		default:
			more, err := expand(tok)
			if err != nil {
				return reps, err
			}
			more[0].Before, more[0].Wait = before, wait
			before, wait = "", 0
			reps = append(reps, more...)
		}
	}
	if before != "" || wait != 0 {
		return reps, fmt.Errorf("a count line ends without the repetition it leads to")
	}
	return reps, nil
}

// cutToken splits off the first token: up to the closing bracket, or a word.
func cutToken(s string) (tok, rest string, err error) {
	if i := strings.IndexByte("({[", s[0]); i >= 0 {
		end := strings.IndexByte(s, ")}]"[i])
		if end < 0 {
			return "", "", fmt.Errorf("%q has no closing bracket", s)
		}
		return s[:end+1], s[end+1:], nil
	}
	if i := strings.IndexAny(s, " ({["); i > 0 {
		return s[:i], s[i:], nil
	}
	return s, "", nil
}

// expand turns 7, !1, _, _*4, 1..10, 10..1 and 5..20/5 into repetitions.
func expand(tok string) ([]Rep, error) {
	if n, ok := strings.CutPrefix(tok, "_"); ok {
		k := 1
		if n != "" {
			var err error
			if k, err = strconv.Atoi(strings.TrimPrefix(n, "*")); err != nil || k < 1 {
				return nil, fmt.Errorf("expected _ or _*N, found %q", tok)
			}
		}
		return make([]Rep, k), nil
	}
	num, anew := strings.CutPrefix(tok, "!")
	from, to, isRange := strings.Cut(num, "..")
	to, by, _ := strings.Cut(to, "/")
	a, err := strconv.Atoi(from)
	if err != nil || a < 1 {
		return nil, fmt.Errorf("expected a repetition, found %q", tok)
	}
	if !isRange {
		return []Rep{{Number: a, Anew: anew}}, nil
	}
	b, err := strconv.Atoi(to)
	if err != nil || b < 1 {
		return nil, fmt.Errorf("expected a range, found %q", tok)
	}
	k := 1
	if by != "" {
		if k, err = strconv.Atoi(by); err != nil || k < 1 {
			return nil, fmt.Errorf("expected a range, found %q", tok)
		}
	}
	return countFrom(a, b, k, anew), nil
}

// countFrom says every k-th number from a to b, the ones between in silence.
func countFrom(a, b, k int, anew bool) []Rep {
	dir := 1
	if b < a {
		dir = -1
	}
	var reps []Rep
	for n := a; (b-n)*dir >= 0; n += dir * k {
		for range k - 1 {
			reps = append(reps, Rep{})
		}
		reps = append(reps, Rep{Number: n, Anew: anew && n == a})
	}
	return reps
}

// stepOf is how the count of a set goes: 1, -1, 2, 5. When the script does not
// say, the first two numbers said tell it, if they agree with the repetitions
// between them; else it goes up or down by one.
func (p *Part) stepOf() int {
	if p.Step != 0 {
		return p.Step
	}
	first := -1
	for i, r := range p.Reps {
		switch {
		case r.Number == 0:
		case first < 0:
			first = i
		default:
			d := r.Number - p.Reps[first].Number
			if d == i-first || d == first-i {
				return d
			}
			return sign(d)
		}
	}
	return 1
}

// turn is the way the count goes from repetition i on: 1, -1, or 0 if no
// number follows.
func (p *Part) turn(i int) int {
	for _, r := range p.Reps[i+1:] {
		if r.Number != 0 {
			return sign(r.Number - p.Reps[i].Number)
		}
	}
	return 0
}
