package segment

import (
	"math"

	"captally.example/captally/segment/announce"
	"captally.example/captally/segment/caption"
)

// A gap lies between two sets: the words [first, last), from the end of one set (or the end of the warm-up) to the first word of the next
// set itself, or to the cool-down.
type gap struct {
	first, last int
	start, end  float64 // seconds
	set         int     // the set that follows; -1 before the cool-down
	afterSet    bool    // a set comes before it, so people may rest
	dose        announce.Dose
}

// An account is what happened in a gap: rest in the words [first, rest), talk in [rest, lead), and the announcement of the set in [lead, last).
type account struct {
	rest, lead int
	sure       float64 // probability that there was a rest
	restSD     float64 // seconds that the end of the rest is doubtful by
}

// What speaks for the accounts of a gap, in nats.
const (
	shareGapEdge  = 0.18 // of what the words where something begins speak for by the table of edges
	gainOwed      = 6.0  // a rest whose length was announced for certain
	gainRestSaid  = 3.0  // a phrase of weight 1 that sends people to rest
	lossRest      = 2.0  // of any rest
	lossTalkAfter = 0.66 // of talk after a rest
	gainSilent    = 0.3  // a second of silence in a rest; speaks against talk
	mostSilent    = 8.8  // seconds of silence that count
	gainPause     = 0.13 // a second of the pause before which talk after a rest, or a set's announcement, begins
	mostPause     = 9.0  // seconds of it that count
	costGapFlow   = 1.2  // something begins where no pause shows it
	leadUsual     = 3.6  // seconds of a set's announcement; of the labelled sessions, as the following
	leadSpread    = 1.05 // natural logarithm
	leadShortest  = 0.65
	talkUsual     = 13.5 // seconds of talk between sets
	talkSpread    = 0.6
	talkLong      = 0.8  // the same of longer talk, where the file shows its silences
	restUsual     = 33.0 // seconds of a rest whose length nobody said
	restSpread    = 0.52
	restKept      = 0.7   // of announced rests that last as announced, or
	restKeptLate  = 0.035 // by that share longer
	restKeptSD    = 0.027 // give or take
	restLoose     = 0.35  // natural logarithm: how far the others stray
)

// gaps lists the gaps of the main part.
func (p *planner) gaps() []gap {
	var out []gap
	n := len(p.session.Sets)
	first, start, after := p.cuts[main], p.timeAt(p.cuts[main]), false
	for i := range n {
		set, s := &p.session.Sets[i], &p.placed[i]
		if set.Kind == WarmUp || set.Kind == CoolDown {
			continue
		}
		if s.first >= first {
			out = append(out, gap{first: first, last: s.first, start: start, end: p.setStart(i), set: i, afterSet: after})
		}
		first, start, after = max(first, s.last), p.restStart(i), true
	}
	if end := p.cuts[main+1]; after && end > first && p.cuts[cooling] < p.cuts[closing] {
		out = append(out, gap{first: first, last: end, start: start, end: p.timeAt(end), set: -1, afterSet: true})
	}
	return out
}

// setStart returns when the words of a set's own begin, in seconds.
func (p *planner) setStart(i int) float64 {
	s := &p.placed[i]
	if s.run != nil && s.run.silentFrom == 0 {
		return p.timeAt(s.first)
	}
	return s.start
}

// A weighing holds what the accounts of one gap share. Its slices are used again for the next gap.
type weighing struct {
	*planner
	*gap
	starts []bool    // by word: a phrase that introduces an exercise begins there
	at     []place   // where something may begin, the last being the gap's end
	rests  []float64 // what a rest up to each of them weighs
	ways   []restEnd // the accounts with a rest
	said   float64   // how surely a phrase sends people to rest
}

// A place is a word at which something may begin.
type place struct {
	word   int
	time   float64        // when it begins
	flow   float64        // what it costs that something begins there
	silent float64        // seconds of silence before it
	pause  float64        // seconds of silence just before it, as far as it counts
	edge   [edges]float64 // what the words say for something beginning there
}

// A restEnd is when the rest of one account ends, and what that account weighs.
type restEnd struct{ score, end float64 }

// explain finds the likeliest account of a gap.
func (w *weighing) explain(g *gap) account {
	w.weigh(g)
	best := account{rest: g.first, lead: g.last}
	top := math.Inf(-1)
	w.ways = w.ways[:0]
	talk := math.Inf(-1)
	for l := range w.at {
		if g.set < 0 && w.at[l].word != g.last {
			continue
		}
		lead := w.lead(l)
		for e := 0; e <= l; e++ {
			s := lead + w.rests[e] + w.talk(e, l)
			if s > top {
				top, best.rest, best.lead = s, w.at[e].word, w.at[l].word
			}
			if e > 0 {
				w.ways = append(w.ways, restEnd{s, w.at[e].time})
			} else {
				talk = logSum(talk, s)
			}
		}
	}
	mass, m1, m2 := 0.0, 0.0, 0.0
	for _, c := range w.ways {
		q := math.Exp(c.score - top)
		mass += q
		m1 += float64(q * c.end)
		m2 += float64(q * c.end * c.end)
	}
	best.sure = mass / (mass + math.Exp(talk-top))
	if mass > 0 {
		best.restSD = math.Sqrt(math.Max(0, m2/mass-float64((m1/mass)*(m1/mass))))
	}
	return best
}

func logSum(a, b float64) float64 {
	if a < b {
		a, b = b, a
	}
	if math.IsInf(b, -1) {
		return a
	}
	return a + math.Log1p(math.Exp(b-a))
}

// weigh finds where something may begin in a gap, and what a rest up to there weighs.
func (w *weighing) weigh(g *gap) {
	p := w.planner
	w.gap, w.at, w.said = g, w.at[:0], 0
	silent := 0.0
	for i := g.first; i <= g.last; i++ {
		t := g.end
		if i < g.last {
			t = math.Min(p.timeAt(i), g.end)
		}
		pause := 0.0
		if i > 0 && i <= len(p.w) {
			pause = math.Max(0, t-math.Max(p.w[i-1].end, g.start))
		}
		silent += math.Max(0, pause-1.2)
		begins := i == g.first || i == g.last || p.w[i-1].stop == sentence || pause > 0.3 || w.starts[i]
		if !begins {
			continue
		}
		flow := 0.0
		if i > g.first && i < g.last && p.w[i-1].stop != sentence {
			flow = costGapFlow * (1 - math.Min(1, pause/0.6))
		}
		if i == g.first {
			t = g.start
		}
		w.at = append(w.at, place{i, math.Max(t, g.start), flow, silent, math.Min(mostPause, pause), p.topics.edge(i)})
	}
	for _, m := range p.marks["rest"] {
		if m.First >= g.first-1 && m.First < g.last {
			w.said = math.Max(w.said, m.Weight)
		}
	}
	w.rests = w.rests[:0]
	for e := range w.at {
		w.rests = append(w.rests, w.rest(e))
	}
}

// introduces tells of each word, and the end, whether a phrase that introduces an exercise begins there.
func (x *text) introduces() []bool {
	out := make([]bool, len(x.w)+1)
	for _, kind := range [...]string{"next", "swap", "balance"} {
		for _, m := range x.marks[markKind(kind)] {
			out[m.First] = true
		}
	}
	return out
}

// lead weighs the set's announcement beginning at place l.
func (w *weighing) lead(l int) float64 {
	end := len(w.at) - 1
	if w.set < 0 {
		return 0
	}
	z := math.Log(math.Max(leadShortest, w.at[end].time-w.at[l].time)/leadUsual) / leadSpread
	s := float64(-0.5*z*z) - w.at[l].flow
	if l > 0 {
		s += float64(shareGapEdge*w.at[l].edge[leadEdge]) + float64(gainPause*w.at[l].pause)
	}
	return s
}

// rest weighs a rest from the beginning of the gap to place e; none where e is 0.
func (w *weighing) rest(e int) float64 {
	if e == 0 {
		return 0
	}
	if !w.afterSet {
		return -100
	}
	length := w.at[e].time - w.at[0].time
	s := float64(gainOwed*w.dose.Prob) + float64(gainRestSaid*w.said) - lossRest + float64(shareGapEdge*w.at[0].edge[restEdge])
	s += float64(gainSilent*math.Min(mostSilent, w.at[e].silent)) - w.at[e].flow
	return s + w.restLength(length)
}

// restLength weighs the length of a rest, against one of the likeliest length that nobody announced.
func (w *weighing) restLength(length float64) float64 {
	length = math.Max(length, 1)
	z := math.Log(length/restUsual) / restSpread
	free := math.Exp(-0.5 * z * z)
	if w.dose.Value <= 0 {
		return math.Log(free + 1e-4)
	}
	d := w.dose.Value
	sd := math.Hypot(math.Max(1.5, restKeptSD*d), 1.4*w.clockSD())
	z = (length - float64(d*(1+restKeptLate)) - 0.5) / sd
	kept := float64(restKept * math.Exp(-0.5*z*z) * math.Min(3, 5/sd))
	z = math.Log(length/d) / restLoose
	loose := float64((1 - restKept) * math.Exp(-0.5*z*z))
	return math.Log(float64(w.dose.Prob*(kept+loose)) + float64((1-w.dose.Prob)*free) + 1e-4)
}

// talk weighs talk between the places e and l.
func (w *weighing) talk(e, l int) float64 {
	if e == l {
		return 0
	}
	length := math.Max(1, w.at[l].time-w.at[e].time)
	spread := talkSpread
	if w.timing != caption.TimingBlock && length > talkUsual {
		spread = talkLong
	}
	z := math.Log(length/talkUsual) / spread
	s := float64(-0.5*z*z) - float64(gainSilent*math.Min(mostSilent, w.at[l].silent-w.at[e].silent))
	s += float64(shareGapEdge * w.at[e].edge[talkEdge])
	if e > 0 {
		s += float64(gainPause*w.at[e].pause) - lossTalkAfter
	}
	return s
}
