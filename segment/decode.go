package segment

import (
	"slices"
	"sort"

	"captally.example/captally/segment/announce"
	"captally.example/captally/segment/caption"
	"captally.example/captally/segment/naming"
	"captally.example/captally/segment/remarks"
	"captally.example/captally/segment/topic"
)

// Decode finds what was done in the session that the track holds. It never fails: a track without counts or cue phrases
// gives a session without sets and a warning that says so.
//
// It works in five steps:
//  1. the words are prepared: numbers, cue phrases, announcements (newText);
//  2. candidates: counts (counts, holdRuns, holdsDown, silentCounts) and timed stretches (timed), of which those that together speak
//     best are chosen (pick);
//  3. the session is divided into its sections (divide);
//  4. each chosen candidate becomes a set: the beat says how many repetitions were done (counted), the announcements give
//     its dose, side and name;
//  5. what lies between the sets becomes rests and talk, and everything together the phases.
func Decode(tr *caption.Track) *Session { return DecodeWith(tr, topic.Fitted()) }

// DecodeWith is [Decode] with other weights of words than the built-in ones: for the sections of a session, and for what begins
// between two words. Their classes are those of the built-in tables.
func DecodeWith(tr *caption.Track, tables topic.Tables) *Session {
	x := newText(tr)
	x.topics = x.newTopics(tables)
	s := &Session{Track: tr}
	if len(x.w) == 0 {
		s.Warnings = append(s.Warnings, "no words, so nothing could be found")
		return s
	}
	chosen := x.chosen()
	cuts := x.divide(chosen)
	p := &planner{text: x, session: s, cuts: cuts}
	for i := range chosen {
		p.place(&chosen[i])
	}
	p.name()
	p.secondsCounted()
	p.announce()
	p.uncounted()
	p.tails()
	p.rests()
	p.phases()
	p.remarks()
	return s
}

// chosen returns the candidate sets that together speak best, in order of time.
func (x *text) chosen() []stretch {
	runs := x.counts(x.numbers)
	runs = append(runs, x.cutShort(runs)...)
	runs = append(runs, x.silentCounts(x.numbers, runs)...)
	all := make([]stretch, 0, 64+len(runs)/2)
	var faint []stretch
	for i := range runs {
		switch s := x.asStretch(&runs[i]); {
		case s.score > 0:
			all = append(all, s)
		case s.score > leastFaint && s.run.silentFrom > 0:
			faint = append(faint, s)
		}
	}
	plain := make([]run, 0, len(all))
	for i := range all {
		if all[i].score > 3 {
			plain = append(plain, *all[i].run)
		}
	}
	turned, timed := x.turned(all), x.timed(plain)
	all = slices.Grow(all, len(turned)+len(faint)+len(timed))
	all = append(append(all, turned...), faint...)
	backed(all, timed)
	all = append(all, timed...)
	return x.merge(pick(all))
}

const (
	leastFaint = -2.5 // nats of a set in silence that the model of timed sets may yet speak for
	gainNumber = 0.5  // more for such a set than for the same without its number
)

// backed gives sets in silence, of which the number is said at the end, what speaks for a timed set over the same time: that there is a set.
func backed(all, timed []stretch) {
	for i := range all {
		s := &all[i]
		if s.run == nil || s.run.silentFrom == 0 {
			continue
		}
		from := sort.Search(len(timed), func(k int) bool { return timed[k].start > 2*s.start-s.end })
		for k := from; k < len(timed) && timed[k].start < s.end; k++ {
			t := &timed[k]
			if a, b := (way{start: s.start, end: s.end}), (way{start: t.start, end: t.end}); a.like(&b) && len(t.said) == 0 {
				s.score = max(s.score, t.score+gainNumber)
			}
		}
	}
}

// A planner puts the session together.
type planner struct {
	*text
	session *Session
	cuts    [sections + 1]int
	placed  []stretch // one for each set of the session
	spans   []announce.SetSpan
	doses   []announce.Dose // of each set, as announced
	leads   []int           // the word at which the announcement of each set begins
	// probabilities: of each rest, and of the talk before each set
	restSure, talkSure []float64
}

func (p *planner) sectionOf(i int) section {
	for s := opening; s < sections; s++ {
		if i < p.cuts[s+1] {
			return s
		}
	}
	return closing
}

// place makes a set of a candidate, unless its section has none.
func (p *planner) place(s *stretch) {
	sec := p.sectionOf(s.first)
	if sec == opening || sec == closing {
		return
	}
	var set Set
	if s.run != nil {
		set = p.counted(s)
		for _, r := range s.more {
			p.goOn(&set, r)
		}
	} else {
		if sec != main {
			return
		}
		set = p.timedSet(s)
	}
	switch sec {
	case warming:
		set.Kind = WarmUp
	case cooling:
		set.Kind = CoolDown
	default:
		set.Kind = Work
	}
	p.session.Sets = append(p.session.Sets, set)
	p.placed = append(p.placed, *s)
}

// nameBefore is how many words before the main part its first exercise may be named.
const nameBefore = 25

// name gives the sets their names and tells balance from work.
func (p *planner) name() {
	spans := make([]naming.SetSpan, len(p.placed))
	after := 0
	for i, s := range p.placed {
		if p.sectionOf(s.first) == main {
			after = max(after, p.cuts[main]-nameBefore) // what the warm-up's moves are called is no name of an exercise
		}
		spans[i] = naming.SetSpan{First: s.first, Last: s.last, After: after, Counted: s.run != nil, Start: caption.At(s.start)}
		after = s.last
	}
	for i, n := range naming.Names(p.track, spans) {
		set := &p.session.Sets[i]
		set.Exercise = Remark{Text: n.Text, First: n.First, Last: n.Last}
		if n.First < len(p.w) && n.Last > n.First {
			set.Exercise.At = caption.At(p.w[n.First].t)
		}
	}
	p.balance()
}

// announce gives the sets their sides and doses.
func (p *planner) announce() {
	p.spans = make([]announce.SetSpan, len(p.placed))
	for i, s := range p.placed {
		set := &p.session.Sets[i]
		p.spans[i] = announce.SetSpan{First: s.first, Last: s.last, Timed: !set.Counted, Balance: set.Kind == Balance, Exercise: set.Exercise.Text,
			Count: set.Reps, Seconds: set.Performed.Value}
	}
	for i, g := range announce.Sides(p.track, p.spans, p.said) {
		p.session.Sets[i].Side = Side(g.Side)
		p.spans[i].Side = g.Side
	}
	p.doses = announce.Doses(p.track, p.spans, p.said)
	for i, d := range p.doses {
		set := &p.session.Sets[i]
		if d.Value <= 0 || d.Timed == set.Counted {
			continue
		}
		set.Announced = Dose{At: d.At, First: d.First, Last: d.Last}
		if set.Counted {
			set.Announced.Reps = int(d.Value)
		} else {
			set.Announced.Seconds = d.Value
		}
		p.askMore(set)
	}
}

// remarks adds what the talk says of the session as a whole.
func (p *planner) remarks() {
	found := remarks.Find(p.track, caption.At(p.timeAt(p.cuts[1])))
	s := p.session
	s.Title, s.Level = remark(found.Title), remark(found.Level)
	s.Equipment, s.Cautions, s.Effort = remarkList(found.Equipment), remarkList(found.Cautions), remarkList(found.Effort)
	s.Options, s.Afterwards = remarkList(found.Options), remarkList(found.Afterwards)
}

func remark(r *remarks.Remark) *Remark {
	if r == nil {
		return nil
	}
	return &Remark{r.Text, r.At, r.First, r.Last}
}

func remarkList(list []remarks.Remark) []Remark {
	var out []Remark
	for i := range list {
		out = append(out, *remark(&list[i]))
	}
	return out
}
