package author

import (
	"math"
	"math/rand/v2"
	"strconv"
	"strings"
)

// A Word is one word as really said.
type Word struct {
	At, Dur float64 // s
	Text    string  // as a careful captioner writes it, punctuation and all
	Number  int     // of a count or of seconds counted aloud; else 0
	Set     int     // which set's count it belongs to, from 1; 0 for talk
}

// End is when the word ends, in seconds.
func (w Word) End() float64 { return w.At + w.Dur }

// A voice says words one after the other: it knows the time.
type voice struct {
	rng   *rand.Rand
	rate  float64
	now   float64 // where the next word may start
	words []Word
}

// chance is a stream of random numbers of its own for each purpose, so that a
// change in one file does not change the others.
func chance(seed uint64, purpose string) *rand.Rand {
	h := uint64(14695981039346656037) // FNV-1a
	for i := range len(purpose) {
		h = (h ^ uint64(purpose[i])) * 1099511628211
	}
	return rand.New(rand.NewPCG(seed, h))
}

// length is how long a word takes to say, in seconds: a fixed part and one for each letter.
func (v *voice) length(text string) float64 {
	d := (0.14 + float64(0.048*float64(len(plain(text))))) * 2.85 / v.rate
	return d * (1 + float64(0.12*clamp(v.rng.NormFloat64(), 2)))
}

// say speaks a line from where the voice is, with its pauses, and returns when
// the first word started. stretch is the length of each [..].
func (v *voice) say(line string, set int, stretch float64) float64 {
	start := -1.0
	tick := -1.0
	for _, tok := range strings.Fields(line) {
		if p, ok := pauseOf(tok); ok {
			if p < 0 {
				p = stretch
			}
			v.now += p
			continue
		}
		word, ticks := strings.CutPrefix(tok, "/")
		if ticks && tick >= 0 {
			v.now = math.Max(v.now, tick+float64(1.0*(1+float64(0.03*v.rng.NormFloat64()))))
		}
		if ticks {
			tick = v.now
		}
		at := v.now
		v.word(word, set, ticks)
		if start < 0 {
			start = at
		}
	}
	return start
}

// word speaks one word now and waits as its punctuation asks.
func (v *voice) word(text string, set int, ticks bool) {
	n := 0
	if ticks {
		n, _ = strconv.Atoi(strings.Trim(text, ".,"))
	}
	if n > 0 {
		v.number(n, set)
	} else {
		v.words = append(v.words, Word{At: v.now, Dur: v.length(text), Text: text, Set: set})
		v.now += v.words[len(v.words)-1].Dur
	}
	switch {
	case ticks:
	case strings.HasSuffix(text, ","):
		v.now += 0.12 + float64(0.2*v.rng.Float64())
	case strings.ContainsAny(text[len(text)-1:], ".?!"):
		v.now += 0.3 + float64(0.45*v.rng.Float64())
	}
}

// number speaks a number of a count now.
func (v *voice) number(n, set int) {
	v.words = append(v.words, Word{At: v.now, Dur: numberLength(n), Text: spell(n), Number: n, Set: set})
	v.now += numberLength(n)
}

func numberLength(n int) float64 {
	if n > 10 {
		return 0.35
	}
	return 0.3
}

// pauseOf reads [2.5] and [..]; the latter is -1.
func pauseOf(tok string) (float64, bool) {
	in, ok := strings.CutPrefix(tok, "[")
	if !ok {
		return 0, false
	}
	in = strings.TrimSuffix(in, "]")
	if in == ".." {
		return -1, true
	}
	p, err := strconv.ParseFloat(in, 64)
	return p, err == nil
}

// correction reads =8, the count put right.
func correction(text string) (rest string, to int) {
	var keep []string
	for _, tok := range strings.Fields(text) {
		if n, ok := strings.CutPrefix(tok, "="); ok {
			to, _ = strconv.Atoi(n)
			continue
		}
		keep = append(keep, tok)
	}
	return strings.Join(keep, " "), to
}

// plain is a word as heard: lower case, no punctuation around it.
func plain(text string) string {
	return strings.Trim(strings.ToLower(text), ".,?!:;\"()")
}

func clamp(x, most float64) float64 { return math.Max(-most, math.Min(most, x)) }

func cents(x float64) Seconds { return Seconds(math.Round(x*100) / 100) }
