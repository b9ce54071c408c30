package segment

import (
	"math"

	"captally.example/captally/segment/phrases"
)

// The sections of a session, in the order in which they come. Any but the main one may be missing.
type section uint8

const (
	opening section = iota // welcome, who it is for, what is needed
	warming                // warm-up
	main                   // sets and rests, and the talk between them
	cooling                // cool-down
	closing                // what to do until next time, goodbye
	sections
)

// What speaks for each section, in nats for a phrase of weight 1 (or a count, or a silence): the columns are opening,
// warming, main, cooling, closing. Fitted roughly by hand on the labelled sessions.
var sectionWeight = map[phrases.Kind][sections]float64{
	"welcome":   {1.5, -0.5, -0.3, -0.5, -0.3},
	"warm-up":   {-0.3, 1.5, -0.8, -0.3, -1},
	"warmed":    {-1, 2.5, -0.5, -1, -1},
	"strength":  {0, 0.2, 0.6, -0.6, 0},
	"next":      {-0.5, 0.3, 0.8, 0.1, -0.8},
	"again":     {-0.5, -0.3, 0.6, -0.5, -0.8},
	"rest":      {-0.6, -0.5, 0.7, -0.3, -0.4},
	"swap":      {-0.5, 0.1, 0.5, 0.2, -0.6},
	"go":        {-0.3, 0.1, 0.4, 0, -0.4},
	"balance":   {-0.2, -0.3, 0.8, -0.5, -0.3},
	"cool-down": {-0.5, -0.3, -0.4, 1.6, -0.5},
	"goodbye":   {-0.3, -0.6, -0.8, -0.3, 1.5},
	"breath":    {0, 0.1, 0, 0.4, 0},
}

var (
	sectionCount = [sections]float64{-6, -1.5, 1.5, -4, -8}           // a count of ten, less for a shorter one
	sectionTalk  = [sections]float64{0.10, -0.08, -0.01, -0.08, 0.10} // a second of fluent talk
)

const (
	costSectionTurn = 2.0 // a section turns within an utterance's flow
	costMidFlow     = 1.0 // and more where no pause shows it
	costSkipSection = 1.5 // no warm-up, or no cool-down
	leastSection    = 25.0
)

// turns returns the words at which a section may begin: those that begin an utterance, follow a pause, or begin a cue phrase.
func (x *text) turns() []int {
	at := make([]bool, len(x.w))
	for kind := range sectionWeight {
		for _, m := range x.marks[kind] {
			at[m.First] = true
			if m.Last < len(x.w) {
				at[m.Last] = kind == "warmed"
			}
		}
	}
	var out []int
	for i := range x.w {
		if i == 0 || at[i] || x.w[i-1].stop == sentence || x.silence(i) > 0.3 {
			out = append(out, i)
		}
	}
	return out
}

// divide finds where each section begins: word indices, rising; a missing section is empty.
func (x *text) divide(counted []stretch) [sections + 1]int {
	starts := x.turns()
	n := len(starts)
	if n == 0 {
		return [sections + 1]int{}
	}
	weight := x.sectionEvidence(counted)
	sum := make([][sections]float64, len(x.w)+1)
	for i := range weight {
		for s := range sections {
			sum[i+1][s] = sum[i][s] + weight[i][s]
		}
	}
	at := func(u int) int {
		if u >= n {
			return len(x.w)
		}
		return starts[u]
	}
	// best[s][u]: sections up to s cover the utterances before u
	var best [sections][]float64
	var from [sections][]int
	for s := range sections {
		best[s] = make([]float64, n+1)
		from[s] = make([]int, n+1)
		for u := 0; u <= n; u++ {
			best[s][u], from[s][u] = math.Inf(-1), -1
			for v := 0; v <= u; v++ {
				before := 0.0
				if s > 0 {
					before = best[s-1][v]
				} else if v > 0 {
					break
				}
				a, b := at(v), at(u)
				sc := before + sum[b][s] - sum[a][s] + x.turn(s, a, b)
				if sc > best[s][u] {
					best[s][u], from[s][u] = sc, v
				}
			}
		}
	}
	var out [sections + 1]int
	u := n
	for s := int(sections) - 1; s >= 0; s-- {
		out[s+1] = at(u)
		u = from[s][u]
	}
	return out
}

// turn weighs section s over the words [a, b).
func (x *text) turn(s section, a, b int) float64 {
	if a == b {
		if s == warming || s == cooling {
			return -costSkipSection
		}
		if s == main {
			return -3
		}
		return 0
	}
	length := x.timeAt(b) - x.timeAt(a)
	sc := 0.0
	if a > 0 && x.w[a-1].stop != sentence {
		sc -= costMidFlow * (1 - math.Min(1, x.silence(a)/0.6))
	}
	switch s {
	case warming, cooling:
		z := math.Log(length/130) / 0.6 // a warm-up of five minutes, a cool-down of two are usual; common practice, no source
		sc -= 0.5*z*z + costSectionTurn
		if length < leastSection {
			sc -= 3
		}
	case main:
		sc -= 0
	}
	return sc
}

// timeAt returns when word i begins; the end of the recording after the last.
func (x *text) timeAt(i int) float64 {
	if i >= len(x.w) {
		return x.end
	}
	return x.w[i].t
}

func (x *text) sectionEvidence(counted []stretch) [][sections]float64 {
	out := make([][sections]float64, len(x.w))
	for kind, w := range sectionWeight {
		for _, m := range x.marks[kind] {
			for s := range sections {
				out[m.First][s] += w[s] * m.Weight
			}
		}
	}
	for _, r := range counted {
		share := math.Min(1, r.score/15)
		at := r.first
		for s := range sections {
			out[at][s] += sectionCount[s] * share
		}
	}
	density := x.density()
	within := make([]bool, len(x.w)) // a set explains why little is said
	for _, r := range counted {
		for i := max(r.first-1, 0); i < r.last; i++ {
			within[i] = true
		}
	}
	for i := range x.w {
		length := math.Min(x.timeAt(i+1)-x.w[i].t, 12)
		talk := math.Max(-1, math.Min(1, (density[i]-1.5)/0.5)) // 1 in fluent talk, -1 where people move
		for s := range sections {
			if within[i] && sectionTalk[s] < 0 {
				continue
			}
			out[i][s] += float64(sectionTalk[s]*talk) * length
		}
	}
	return out
}

// density returns, for each word, how many words a second are said around it.
func (x *text) density() []float64 {
	const half = 9.0
	out := make([]float64, len(x.w))
	a, b := 0, 0
	for i := range x.w {
		t := x.w[i].t
		for x.w[a].t < t-half {
			a++
		}
		for b < len(x.w) && x.w[b].t < t+half {
			b++
		}
		out[i] = float64(b-a) / math.Max(2, math.Min(t+half, x.end)-math.Max(t-half, 0))
	}
	return out
}
